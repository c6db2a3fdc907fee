"""The quiz page in a browser: by keyboard, by touch, offline, interrupted, twice, without storage, without scripts."""

import json
import re
from pathlib import Path
from typing import Final

import pytest
from playwright.sync_api import Browser, Page, expect

from courseware.content.words import catalogue, say
from courseware.grading.markers import MARKERS
from courseware.publish.answering import WAYS
from courseware.publish.assets import static_text
from courseware.publish.quiz_page import SPOKEN, quiz_page
from courseware.quiz.answer_code import make_answer_code, parse_answer_code
from courseware.quiz.fit import fit
from courseware.quiz.form import form_bytes, form_from_bytes, key_bytes
from courseware.quiz.response import Response, make_response, read_response
from tests.publish.sample_quiz import FORM, IMPRINT, KEY, RIGHT
from tests.web.browser import open_page
from tests.web.markup import check_markup
from tests.web.pages import check_pages

PHONE: Final = {"width": 360, "height": 740}
NO_STORAGE: Final = (
    "Object.defineProperty(window, 'localStorage', {get() { throw new DOMException('denied', 'SecurityError') }})"
)
FULL_STORAGE: Final = "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError') }"


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> str:
    path = tmp_path_factory.mktemp("quiz") / "quiz.html"
    path.write_text(quiz_page(FORM, IMPRINT), encoding="utf-8")
    return path.as_uri()


def focused(page: Page, selector: str) -> bool:
    return bool(page.evaluate("selector => document.activeElement.matches(selector)", selector))


def tab_to(page: Page, selector: str, key: str = "Tab") -> None:
    """Press Tab until the element has the focus, as a person without a mouse does."""
    for _ in range(80):
        if focused(page, selector):
            return
        page.keyboard.press(key)
    raise AssertionError(f"no way to {selector} by {key}")


def answer(page: Page) -> None:
    """Give the right answers by pointer."""
    page.get_by_label(FORM.items[0].options[0].text).check()
    page.get_by_label("Your answer in kV").fill("8")
    page.get_by_label(FORM.items[2].options[0].text).check()
    page.get_by_label(f"Move step {RIGHT['4'][1]} down").click()
    for tag in RIGHT["5"]:
        page.locator(f"#question-5 input[value='{tag}']").check()


def hand_in(page: Page) -> None:
    page.get_by_role("button", name="Hand in").click()


def saved(page: Page, folder: Path) -> Response:
    """Save the answer file as a trainee does, and read it as a trainer does."""
    with page.expect_download() as download:
        page.get_by_role("link", name=say("publish_pages.page-save")).click()
    assert download.value.suggested_filename == f"answers-{FORM.id}.json"
    path = folder / download.value.suggested_filename
    download.value.save_as(path)
    response = read_response(path.read_bytes())
    fit(FORM, response)
    return response


def receipt(page: Page) -> tuple[str, str]:
    return page.get_by_label("Text of the answer file").input_value(), page.get_by_label("Answer code").input_value()


def test_by_keyboard_alone(browser: Browser, address: str, tmp_path: Path) -> None:
    with open_page(browser, viewport=PHONE) as page:
        page.goto(address)
        tab_to(page, "#question-1 input")
        page.keyboard.press("ArrowDown")
        page.keyboard.press("ArrowUp")
        tab_to(page, "#question-2 input")
        page.keyboard.type("8.0 kV")
        tab_to(page, "#question-3 input")
        page.keyboard.press("Space")
        down = f"[aria-label='Move step {RIGHT['4'][1]} down']"
        tab_to(page, down)
        page.keyboard.press("Enter")
        assert focused(page, down), "the focus stays on the button of the step that moved"
        expect(page.locator("#said")).to_have_text(f"Step {RIGHT['4'][1]} is now number 2 of 4")
        second = FORM.items[4].options[1].tag
        for tag in (*RIGHT["5"], second, second):  # the second one is marked, and taken off again
            tab_to(page, f"#question-5 input[value='{tag}']", "Shift+Tab" if tag == second else "Tab")
            page.keyboard.press("Space")
        tab_to(page, "#hand-in-button")
        page.keyboard.press("Enter")
        assert focused(page, "#receipt-title")
        tab_to(page, "#save")
        with page.expect_download() as download:
            page.keyboard.press("Enter")
        download.value.save_as(tmp_path / "answers.json")
    response = read_response((tmp_path / "answers.json").read_bytes())
    assert response.answers == {**RIGHT, "2": ("8.0",)}


def test_by_keyboard_alone_a_place_is_chosen(browser: Browser, address: str) -> None:
    with open_page(browser) as page:
        page.goto(address)
        select = f"[aria-label='Place of step {RIGHT['4'][3]}']"
        tab_to(page, select)
        page.keyboard.press("1")
        assert focused(page, select)
        order = page.locator("#question-4 .step").evaluate_all("steps => steps.map(step => step.dataset.tag)")
        assert order == [RIGHT["4"][3], RIGHT["4"][1], RIGHT["4"][0], RIGHT["4"][2]]


def test_by_touch(browser: Browser, address: str, tmp_path: Path) -> None:
    with open_page(browser, viewport=PHONE, has_touch=True, is_mobile=True) as page:
        page.goto(address)
        page.get_by_text(FORM.items[0].options[0].text, exact=True).tap()
        page.get_by_label("Your answer in kV").tap()
        page.keyboard.type("8")
        page.get_by_text(FORM.items[2].options[0].text).tap()
        page.get_by_label(f"Move step {RIGHT['4'][1]} down").tap()
        for option in (FORM.items[4].options[4], FORM.items[4].options[0], FORM.items[4].options[2]):
            page.locator("#question-5").get_by_text(option.text, exact=True).tap()
        page.get_by_role("button", name="Hand in").tap()
        assert saved(page, tmp_path).answers == RIGHT


def sizes(page: Page) -> list[float]:
    """Return the lesser side [CSS px] of everything on the page that a finger may have to hit."""
    found: list[float] = page.evaluate(
        """() => [...document.querySelectorAll(
            "button, select, input:not([type=radio], [type=checkbox]), .option label, a.main")]
        .map(element => element.getBoundingClientRect()).filter(box => box.width)
        .map(box => Math.min(box.width, box.height))"""
    )
    return found


def test_what_a_finger_must_hit_is_large_enough(browser: Browser, address: str) -> None:
    """WCAG 2.2 success criterion 2.5.8: targets of at least 24 by 24 CSS pixels."""
    with open_page(browser, viewport=PHONE) as page:
        page.goto(address)
        answer(page)
        answering = sizes(page)
        hand_in(page)
        handed_in = sizes(page)
    assert (len(answering), len(handed_in)) == (34, 16)
    assert min(answering + handed_in) >= 24


def test_all_three_ways_lead_to_the_same_answers(browser: Browser, address: str, tmp_path: Path) -> None:
    with open_page(browser) as page:
        page.goto(address)
        answer(page)
        hand_in(page)
        from_file = saved(page, tmp_path)
        text, code = receipt(page)
    assert read_response(text.encode("utf-8")) == from_file
    assert code == make_answer_code(FORM, RIGHT)
    assert parse_answer_code(code, FORM).answers == from_file.answers == RIGHT
    assert from_file.check == make_response(FORM.id, RIGHT).check


def test_when_it_was_done_is_noted(browser: Browser, address: str, tmp_path: Path) -> None:
    with open_page(browser) as page:
        page.clock.set_fixed_time("2026-11-25T10:00:00Z")
        page.goto(address)
        answer(page)
        page.clock.set_fixed_time("2026-11-25T10:12:30Z")
        hand_in(page)
        response = saved(page, tmp_path)
    assert (response.started, response.finished) == ("2026-11-25T10:00:00Z", "2026-11-25T10:12:30Z")


def test_a_reload_in_the_middle_loses_nothing(browser: Browser, address: str, tmp_path: Path) -> None:
    with open_page(browser) as page:
        page.goto(address)
        answer(page)
        page.reload()
        expect(page.locator("#progress")).to_have_text("5 of 5 questions answered")
        expect(page.locator("#keeping")).to_have_text(say("publish_pages.spoken-kept"))
        hand_in(page)
        assert saved(page, tmp_path).answers == RIGHT


def test_a_number_that_is_being_typed_survives_a_reload(browser: Browser, address: str) -> None:
    with open_page(browser) as page:
        page.goto(address)
        page.get_by_label("Your answer in kV").press_sequentially("about 8")
        page.reload()
        expect(page.get_by_label("Your answer in kV")).to_have_value("about 8")
        expect(page.locator("#fault-2")).to_have_text(say("publish_pages.spoken-no-number"))


def test_handing_in_twice_gives_the_same_receipt(browser: Browser, address: str) -> None:
    with open_page(browser) as page:
        page.goto(address)
        answer(page)
        page.clock.set_fixed_time("2026-11-25T10:00:00Z")
        hand_in(page)
        first = receipt(page)
        page.clock.set_fixed_time("2026-11-25T10:05:00Z")
        page.evaluate("document.getElementById('hand-in-button').click()")  # a second tap that was on its way
        assert receipt(page) == first
        page.reload()
        assert receipt(page) == first
        expect(page.locator("#hand-in")).to_be_hidden()
        expect(page.locator("#question-1 input").first).to_be_disabled()
        expect(page.locator("#question-4 .moves").first).to_be_hidden()


def test_two_windows_hand_in_once(browser: Browser, address: str) -> None:
    with open_page(browser) as page:
        page.goto(address)
        other = page.context.new_page()
        other.goto(address)
        answer(page)
        other.bring_to_front()
        expect(other.locator("#progress")).to_have_text("5 of 5 questions answered")
        expect(other.locator("#said")).to_have_text(say("publish_pages.spoken-other-window"))
        hand_in(page)
        expect(other.locator("#receipt")).to_be_visible()
        assert receipt(other) == receipt(page)


def test_two_forms_on_one_device_stay_apart(browser: Browser, address: str, tmp_path: Path) -> None:
    text = quiz_page(FORM, IMPRINT).replace(FORM.id, "1111-1111")
    (tmp_path / "other.html").write_text(text, encoding="utf-8")
    with open_page(browser) as page:
        page.goto(address)
        answer(page)
        page.goto((tmp_path / "other.html").as_uri())
        expect(page.locator("#progress")).to_have_text("0 of 5 questions answered")


@pytest.mark.parametrize("trouble", [NO_STORAGE, FULL_STORAGE])
def test_where_storage_is_blocked_it_says_so_and_works(
    browser: Browser, address: str, tmp_path: Path, trouble: str
) -> None:
    with open_page(browser) as page:
        page.add_init_script(trouble)
        page.goto(address)
        expect(page.locator("#keeping")).to_have_text(say("publish_pages.spoken-not-kept"))
        answer(page)
        hand_in(page)
        expect(page.locator("#receipt-again")).to_have_text(say("publish_pages.spoken-again-not-kept"))
        assert saved(page, tmp_path).answers == RIGHT


@pytest.mark.parametrize("kept", ["{", '{"form": "another"}', "[]", "null", '{"form": "K52R-7HGM"}'])
def test_damaged_answers_are_said_and_dropped(browser: Browser, address: str, kept: str) -> None:
    with open_page(browser) as page:
        page.goto(address)
        page.evaluate("([name, text]) => localStorage.setItem(name, text)", [f"courseware/answers/{FORM.id}", kept])
        page.reload()
        expect(page.locator("#keeping")).to_contain_text(say("publish_pages.spoken-lost"))
        expect(page.locator("#progress")).to_have_text("0 of 5 questions answered")


def test_a_kept_answer_that_is_not_on_the_form_is_dropped(browser: Browser, address: str) -> None:
    kept = {"form": FORM.id, "started": "", "finished": "", "typed": {}, "given": {"1": ["ZZZ"], "3": list(RIGHT["3"])}}
    with open_page(browser) as page:
        page.goto(address)
        page.evaluate(
            "([name, text]) => localStorage.setItem(name, text)", [f"courseware/answers/{FORM.id}", json.dumps(kept)]
        )
        page.reload()
        expect(page.locator("#progress")).to_have_text("1 of 5 questions answered")


def test_blanks_are_named_before_they_are_handed_in(browser: Browser, address: str, tmp_path: Path) -> None:
    with open_page(browser) as page:
        page.goto(address)
        page.get_by_label(FORM.items[2].options[1].text).check()
        hand_in(page)
        expect(page.locator("#open-questions")).to_contain_text(say("publish_pages.spoken-still-open"))
        links = page.locator("#open-questions a")
        assert links.all_inner_texts() == ["Question 1", "Question 2", "Question 4", "Question 5"]
        assert focused(page, "#open-questions")
        links.first.click()
        page.get_by_role("button", name=say("publish_pages.spoken-hand-in-anyway")).click()
        assert saved(page, tmp_path).answers == {
            "1": (), "2": (), "3": (FORM.items[2].options[1].tag,), "4": (), "5": (),
        }  # fmt: skip
        assert parse_answer_code(receipt(page)[1], FORM).answers["1"] == ()


def test_a_new_answer_asks_about_the_blanks_anew(browser: Browser, address: str) -> None:
    with open_page(browser) as page:
        page.goto(address)
        hand_in(page)
        page.get_by_label(FORM.items[2].options[1].text).check()
        expect(page.locator("#open-questions")).to_be_empty()
        expect(page.locator("#hand-in-button")).to_have_text("Hand in")


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("8.5", "8.5"), (" 8,5 ", "8.5"), ("8.5 kV", "8.5"), ("8.5KV", "8.5"), (".5", "0.5"), ("8.", "8"), ("+8", "8"),
        ("\u22120.02", "-0.02"), ("1,234.5", "1234.5"), ("1,234,567", "1234567"), ("0,125", "0.125"),
    ],
)  # fmt: skip
def test_a_number_is_read_as_it_is_written(browser: Browser, address: str, typed: str, value: str) -> None:
    with open_page(browser) as page:
        page.goto(address)
        page.get_by_label("Your answer in kV").fill(typed)
        page.get_by_label("Your answer in kV").blur()
        expect(page.locator("#fault-2")).to_be_empty()
        hand_in(page)
        page.get_by_role("button", name=say("publish_pages.spoken-hand-in-anyway")).click()
        text, code = receipt(page)
    assert read_response(text.encode("utf-8")).answers["2"] == (value,)
    assert parse_answer_code(code, FORM).answers["2"] == (value,)


@pytest.mark.parametrize(
    ("typed", "fault"),
    [
        ("eight", "This is not a number. Write it with digits, such as 8.5."),
        ("8 5", "This is not a number. Write it with digits, such as 8.5."),
        ("1.2.3", "This is not a number. Write it with digits, such as 8.5."),
        ("1,600", "This can be read as 1600 or as 1.600. Write it without the comma."),
        ("8500 V", "Give the number in kV, without another unit."),
    ],
)
def test_a_number_that_cannot_be_read_stops_the_handing_in(
    browser: Browser, address: str, typed: str, fault: str
) -> None:
    with open_page(browser) as page:
        page.goto(address)
        field = page.get_by_label("Your answer in kV")
        field.fill(typed)
        field.blur()
        expect(page.locator("#fault-2")).to_have_text(fault)
        expect(field).to_have_attribute("aria-invalid", "true")
        hand_in(page)
        expect(page.locator("#open-questions")).to_contain_text(say("publish_pages.spoken-still-wrong"))
        expect(page.locator("#receipt")).to_be_hidden()
        field.fill("8")
        expect(page.locator("#fault-2")).to_be_empty()


def test_an_order_left_as_it_stands_is_no_answer_until_it_is_taken(browser: Browser, address: str) -> None:
    with open_page(browser) as page:
        page.goto(address)
        state = page.locator("#question-4 .state")
        expect(state).to_have_text("Not answered yet")
        page.get_by_role("button", name="This order is my answer").click()
        expect(state).to_have_text("Answered")
        page.locator("#question-4").get_by_role("button", name="Clear this answer").click()
        expect(state).to_have_text("Not answered yet")


def test_the_last_mark_taken_off_leaves_the_question_open(browser: Browser, address: str) -> None:
    with open_page(browser) as page:
        page.goto(address)
        state = page.locator("#question-5 .state")
        box = page.get_by_role("checkbox", name="Electrode gap")
        box.check()
        expect(state).to_have_text("Answered")
        page.reload()
        expect(box).to_be_checked()
        expect(page.get_by_label("Porcelain of the electrode")).not_to_be_checked()
        box.uncheck()
        expect(state).to_have_text("Not answered yet")
        expect(page.locator("#progress")).to_have_text("0 of 5 questions answered")


def test_several_marks_are_cleared_at_once(browser: Browser, address: str) -> None:
    with open_page(browser) as page:
        page.goto(address)
        answer(page)
        page.locator("#question-5").get_by_role("button", name="Clear this answer").click()
        assert page.locator("#question-5 input:checked").count() == 0
        assert focused(page, "#question-5 input")
        expect(page.locator("#progress")).to_have_text("4 of 5 questions answered")


def test_clearing_an_answer_leaves_it_blank(browser: Browser, address: str) -> None:
    with open_page(browser) as page:
        page.goto(address)
        answer(page)
        page.locator("#question-1").get_by_role("button", name="Clear this answer").click()
        expect(page.locator("#progress")).to_have_text("4 of 5 questions answered")
        assert focused(page, "#question-1 input")


def test_the_texts_can_be_copied(browser: Browser, address: str) -> None:
    with open_page(browser, permissions=["clipboard-read", "clipboard-write"]) as page:
        page.goto(address)
        answer(page)
        hand_in(page)
        page.get_by_role("button", name="Copy the code").click()
        expect(page.locator("#said")).to_have_text("Copied")
        assert page.evaluate("navigator.clipboard.readText()") == receipt(page)[1]


def test_where_nothing_can_be_copied_the_text_is_selected(browser: Browser, address: str) -> None:
    with open_page(browser) as page:
        page.add_init_script(
            "Object.defineProperty(navigator, 'clipboard', {value: undefined}); document.execCommand = () => false"
        )
        page.goto(address)
        answer(page)
        hand_in(page)
        page.get_by_role("button", name="Copy the code").click()
        expect(page.locator("#said")).to_have_text(say("publish_pages.spoken-not-copied"))
        assert page.evaluate("getSelection().toString()") == receipt(page)[1]


def test_without_scripts_every_tag_and_the_way_to_answer_are_there(browser: Browser, address: str) -> None:
    with open_page(browser, java_script_enabled=False) as page:
        page.goto(address)
        shown = page.locator("body").inner_text()
        assert all(option.tag in shown and option.text in shown for item in FORM.items for option in item.options)
        assert say("publish_pages.hand-choose") in shown
        assert say("publish_pages.hand-several") in shown
        assert say("publish_pages.hand-end-count") in shown
        assert say("publish_pages.hand-number", number=2) in shown
        assert page.locator("input:visible, button:visible, select:visible").count() == 0
        blank = page.locator("#by-hand .code").inner_text()
    assert parse_answer_code(blank, FORM).answers == dict.fromkeys("12345", ())


def test_the_code_explained_by_hand_is_the_code_that_is_read() -> None:
    """What the page tells people to write, written out by its own words, is what the trainer's side reads."""
    example = re.search(r"2=[0-9.]+/[0-9]+", say("publish_pages.hand-number", number=2))
    assert example is not None
    tags = [*RIGHT["1"], *RIGHT["3"], *RIGHT["4"], *RIGHT["5"][::-1]]
    text = f"{FORM.id} {' '.join(tags)} {example[0]} /{len(tags) + 1}"
    assert parse_answer_code(text, FORM).answers == {**RIGHT, "2": ("8.5",)}
    assert f"That is /{len(tags) + 1}".lower() in say("publish_pages.hand-end", fields=len(tags) + 1).lower()


def test_the_page_carries_the_form_and_nothing_of_the_key() -> None:
    text = quiz_page(FORM, IMPRINT)
    embedded = re.search(r'<script nonce="[^"]+" type="application/json" id="form">(.*?)</script>', text, re.DOTALL)
    assert embedded is not None
    assert form_from_bytes(json.dumps(json.loads(embedded[1]), sort_keys=True, ensure_ascii=False,
                                      separators=(",", ":")).encode()) == FORM  # fmt: skip
    secrets = [entry.because for entry in KEY.entries] + [line for e in KEY.entries for line in e.feedback.values()]
    secrets += [entry.template for entry in KEY.entries] + [gate.reason for e in KEY.entries for gate in e.gates]
    secrets += [belief.believes for entry in KEY.entries for belief in entry.misconceptions.values()]
    assert len(secrets) == 22
    assert not [line for line in secrets if line in text]
    assert key_bytes(KEY).decode() not in text


def test_text_that_looks_like_markup_stays_text(browser: Browser, address: str) -> None:
    with open_page(browser) as page:
        page.goto(address)
        assert page.locator("#question-3 .option-text").first.inner_text() == FORM.items[2].options[0].text


def test_the_same_form_gives_the_same_bytes() -> None:
    assert quiz_page(FORM, IMPRINT) == quiz_page(form_from_bytes(form_bytes(FORM)), IMPRINT)


def test_every_kind_of_question_that_can_be_marked_can_be_answered() -> None:
    assert set(WAYS) == set(MARKERS) == {item.kind for item in FORM.items}


def test_the_script_says_just_the_words_it_is_given() -> None:
    asked = re.findall(r'say\((?:[^")]*(?:\([^)]*\))? \? )?"([\w-]+)"(?: : "([\w-]+)")?', static_text("quiz.js"))
    assert {name for names in asked for name in names if name} == set(SPOKEN)


def test_every_message_of_the_script_has_its_fields_filled(browser: Browser, address: str) -> None:
    with open_page(browser) as page:
        page.goto(address)
        words = json.loads(page.locator("#words").inner_text())
    assert words == {name: catalogue("publish_pages")[f"spoken-{name}"] for name in SPOKEN}


def test_a_policy_in_the_page_itself_forbids_the_network_and_other_scripts(browser: Browser, address: str) -> None:
    context = browser.new_context(offline=True)
    page = context.new_page()
    refused: list[str] = []
    page.on("console", lambda message: refused.append(message.text))
    page.goto(address)
    assert page.evaluate("fetch('data:text/plain,x').then(() => 'sent', () => 'refused')") == "refused"
    page.evaluate("document.body.append(Object.assign(document.createElement('div'), {innerHTML: '<img src=x "
                  "onerror=\"document.title = 1\">'}))")  # fmt: skip
    page.wait_for_timeout(50)
    assert page.title().startswith(FORM.title)
    assert any("Content Security Policy" in line for line in refused)
    context.close()


def test_machine_rules_and_markup(browser: Browser, tmp_path: Path) -> None:
    (tmp_path / "quiz.html").write_text(quiz_page(FORM, IMPRINT), encoding="utf-8")
    check_markup(tmp_path).assert_clean(expected=1)
    check_pages(browser, tmp_path.glob("*.html")).assert_clean(expected=1)
