"""The practice page in a browser: by keyboard, by touch, reloaded, without storage, without scripts."""

import json
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

import pytest
from playwright.sync_api import Browser, Page, expect

from courseware.content.documents import read_documents
from courseware.content.folders import shipped_course
from courseware.content.problems import Problems
from courseware.content.words import catalogue, say
from courseware.diagnosis.explain import against
from courseware.diagnosis.signatures import COMPLAINT
from courseware.heater.load import HEATER_KINDS, load_trade
from courseware.jobs.course import KINDS
from courseware.publish.assets import static_text
from courseware.publish.feedback import LessonPlace
from courseware.publish.index import trainee_page
from courseware.publish.practice_page import SPOKEN, practice_page
from courseware.quiz.kinds.base import Materials, materials
from courseware.quiz.practice import PracticeCall, practice_calls
from courseware.safework.model import SafeWork
from tests.publish.sample_quiz import IMPRINT
from tests.web.browser import open_page
from tests.web.markup import check_markup
from tests.web.pages import check_pages

pytestmark = pytest.mark.xdist_group("practice page")

PHONE: Final = {"width": 360, "height": 740}
COUNT: Final = 24
NO_STORAGE: Final = (
    "Object.defineProperty(window, 'localStorage', {get() { throw new DOMException('denied', 'SecurityError') }})"
)
FULL_STORAGE: Final = "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError') }"


@dataclass(frozen=True)
class Laid:
    """A practice page as it lies in its folder, and what it was made from."""

    calls: tuple[PracticeCall, ...]
    made_from: Materials
    html: str
    folder: Path

    @property
    def address(self) -> str:
        return (self.folder / "index.html").as_uri()

    @property
    def first(self) -> PracticeCall:
        """Return the first call to work: the one before it is shown worked."""
        return self.calls[1]

    def title(self, repair: str) -> str:
        return self.made_from.trade.repairs[repair].title

    def minutes(self, checks: tuple[str, ...]) -> str:
        return f"{sum(self.made_from.trade.checks[check].minutes for check in checks):g}"


@pytest.fixture(scope="module")
def laid(tmp_path_factory: pytest.TempPathFactory) -> Laid:
    problems = Problems()
    documents = read_documents(shipped_course(), KINDS, problems)
    trade = load_trade([one for one in documents if one.kind in HEATER_KINDS], problems)
    made_from = materials(trade, SafeWork({}, {}, {}))
    calls = practice_calls(made_from, COUNT)
    places = {repair.lesson: LessonPlace("Where it is taught", "#content") for repair in trade.repairs.values()}
    html = practice_page(calls, made_from, places, IMPRINT)
    folder = tmp_path_factory.mktemp("practice")
    (folder / "index.html").write_text(html, encoding="utf-8")
    return Laid(calls, made_from, html, folder)


def spoken(key: str, **values: object) -> str:
    return say(f"publish_practice.spoken-{key}", **values)


def tab_to(page: Page, selector: str) -> None:
    """Press Tab until the element has the focus, as a person without a mouse does."""
    for _ in range(120):
        if page.evaluate("selector => document.activeElement.matches(selector)", selector):
            return
        page.keyboard.press("Tab")
    raise AssertionError(f"no way to {selector} by Tab")


def make(page: Page, check: str) -> None:
    page.locator(f"[data-check={check}] .make").click()


def name(page: Page, repair: str) -> None:
    page.locator("#repair").select_option(value=repair)
    page.get_by_role("button", name=say("publish_practice.name")).click()


def lines(page: Page) -> list[str]:
    return page.locator("#feedback p, #feedback li").all_inner_texts()


def kept(page: Page) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(page.evaluate("localStorage.getItem('courseware/practice')"))
    return found


def test_by_keyboard_alone(browser: Browser, laid: Laid) -> None:
    with open_page(browser, viewport=PHONE) as page:
        page.goto(laid.address)
        for check in laid.first.path:
            page.locator("#order-title").focus()
            tab_to(page, f"[data-check={check}] .make")
            page.keyboard.press("Enter")
            assert page.evaluate("document.activeElement.matches('summary')"), "the focus stays at the check"
            expect(page.locator(f"[data-check={check}] .reading")).to_contain_text(laid.first.values[check])
        expect(page.locator("#made li")).to_have_count(len(laid.first.path))
        tab_to(page, "#repair")
        page.keyboard.type(laid.title(laid.first.key)[:30])
        tab_to(page, "#name")
        page.keyboard.press("Enter")
        assert page.evaluate("document.activeElement.id") == "feedback"
        expect(page.locator(".verdict")).to_have_text(spoken("right", repair=laid.title(laid.first.key)))
        tab_to(page, "#next")
        page.keyboard.press("Enter")
        assert page.evaluate("document.activeElement.id") == "order-title"
        expect(page.locator("#call")).to_have_text(spoken("call", call=2, all=COUNT - 1))


def test_the_right_repair_is_answered_with_the_evidence_the_time_and_the_lesson(browser: Browser, laid: Laid) -> None:
    call = laid.first
    checks = laid.made_from.trade.checks
    with open_page(browser) as page:
        page.goto(laid.address)
        for check in call.evidence:
            make(page, check)
        name(page, call.key)
        found = lines(page)
        link = page.locator("#feedback a").get_attribute("href")
        assert not page.locator("#name, .make").locator("visible=true").count(), "a closed call takes no more answers"
    path = spoken("path-joint").join(checks[check].title for check in call.path)
    assert found[0] == spoken("right", repair=laid.title(call.key))
    assert found[1] == spoken("settled")
    assert spoken("time", spent=laid.minutes(tuple(call.evidence)), good=laid.minutes(call.path), path=path) in found
    assert sum("Rules out" in line for line in found) == sum(bool(line.repairs) for line in call.settles) > 0
    assert found[-1] == spoken("lesson") + "Where it is taught"
    assert link == "#content"


def test_a_wrong_repair_is_answered_by_what_was_read_in_the_words_of_the_diagnosis(
    browser: Browser, laid: Laid
) -> None:
    call = laid.first
    signatures = laid.made_from.signatures(call.unit)
    with open_page(browser) as page:
        page.goto(laid.address)
        for check in call.evidence:
            make(page, check)
        for repair in call.against:
            name(page, repair)
            reasons = against(signatures, call.complaint, call.evidence, repair, call.values)
            shown = [one.sentence for one in reasons]
            assert lines(page) == [
                spoken("wrong", repair=laid.title(repair)), *([spoken("seen"), *shown] if shown else [spoken("weak")]),
                spoken("go-on"),
            ]  # fmt: skip


def test_before_a_reading_is_taken_a_wrong_repair_is_answered_by_the_check_to_make(
    browser: Browser, laid: Laid
) -> None:
    call = laid.first
    repair, reasons = next(
        (one, some) for one, some in call.against.items() if some and all(reason.check != COMPLAINT for reason in some)
    )
    with open_page(browser) as page:
        page.goto(laid.address)
        name(page, repair)
        told = laid.made_from.trade.checks[reasons[0].check].title
        assert lines(page) == [spoken("wrong", repair=laid.title(repair)), spoken("unseen"), told, spoken("go-on")]
        name(page, call.key)
        open_repairs = [
            laid.title(one)
            for one, some in call.against.items()
            if not any(reason.check == COMPLAINT for reason in some)
        ]
        assert lines(page)[1 : 2 + len(open_repairs)] == [spoken("open"), *open_repairs]
        expect(page.locator("#tally")).to_have_text(spoken("tally", closed=1, all=COUNT - 1, first=0))


def test_nothing_is_named_where_nothing_is_chosen(browser: Browser, laid: Laid) -> None:
    with open_page(browser) as page:
        page.goto(laid.address)
        page.locator("#name").click()
        expect(page.locator("#feedback")).to_have_text(spoken("choose-first"))
        assert page.evaluate("document.activeElement.id") == "repair"
        assert page.evaluate("localStorage.getItem('courseware/practice')") is None


def test_a_reload_keeps_the_call_and_starting_over_forgets_it(browser: Browser, laid: Laid) -> None:
    with open_page(browser, viewport=PHONE, has_touch=True, is_mobile=True) as page:
        page.goto(laid.address)
        page.locator(f"[data-check={laid.first.path[0]}] .make").tap()
        page.reload()
        expect(page.locator("#spent")).to_have_text(laid.minutes(laid.first.path[:1]))
        name(page, laid.first.key)
        page.reload()
        expect(page.locator(".verdict")).to_have_text(spoken("right", repair=laid.title(laid.first.key)))
        page.locator("#again").tap()
        expect(page.locator("#spent")).to_have_text("0")
        expect(page.locator("#feedback")).to_be_empty()


def test_calls_follow_each_other_and_closed_ones_are_passed_over(browser: Browser, laid: Laid) -> None:
    with open_page(browser) as page:
        page.goto(laid.address)
        for number, call in enumerate(laid.calls[1:], start=1):
            expect(page.locator("#call")).to_have_text(spoken("call", call=number, all=COUNT - 1))
            expect(page.locator("#unit")).to_have_text(laid.made_from.trade.units[call.unit].title)
            listed = page.locator(".check:visible").evaluate_all("rows => rows.map(row => row.dataset.check)")
            assert sorted(listed) == sorted(call.evidence)
            if number != 3:
                name(page, call.key)
            page.locator("#next").click()
        expect(page.locator("#call")).to_have_text(spoken("call", call=3, all=COUNT - 1))


@pytest.mark.parametrize(("script", "key"), [(NO_STORAGE, "not-kept"), (FULL_STORAGE, "not-kept"), ("", "kept")])
def test_a_device_that_keeps_nothing_is_told_of(browser: Browser, laid: Laid, script: str, key: str) -> None:
    with open_page(browser) as page:
        page.add_init_script(script)
        page.goto(laid.address)
        expect(page.locator("#keeping")).to_have_text(spoken(key))
        make(page, laid.first.path[0])
        name(page, laid.first.key)
        expect(page.locator(".verdict")).to_have_text(spoken("right", repair=laid.title(laid.first.key)))


@pytest.mark.parametrize("text", ["{", '{"print": "other"}'])
def test_what_cannot_be_used_starts_the_calls_afresh(browser: Browser, laid: Laid, text: str) -> None:
    with open_page(browser) as page:
        page.goto(laid.address)
        page.evaluate("text => localStorage.setItem('courseware/practice', text)", text)
        page.reload()
        expect(page.locator("#keeping")).to_have_text(
            f"{spoken('lost')} {spoken('kept')}" if text == "{" else spoken("kept")
        )
        make(page, laid.first.path[0])
        assert kept(page)["done"]["0"]["made"] == [laid.first.path[0]]


def test_without_scripts_it_says_what_it_needs_and_shows_one_call_in_full(browser: Browser, laid: Laid) -> None:
    worked = laid.calls[0]
    with open_page(browser, java_script_enabled=False) as page:
        page.goto(laid.address)
        expect(page.get_by_text(say("publish_practice.needs-script"))).to_be_visible()
        assert not page.locator("#work").is_visible()
        table = page.locator("table.facts tr").all_inner_texts()
        assert [row.split("\t")[1] for row in table] == list(worked.values.values())
        answer = page.get_by_text(say("publish_practice.worked-key", repair=laid.title(worked.key)))
        assert not answer.is_visible()
        page.get_by_text(say("publish_practice.worked-answer"), exact=True).click()
        expect(answer).to_be_visible()


def test_checks_that_need_the_fuel_made_safe_say_so(laid: Laid) -> None:
    cards = re.findall(r'<section class="bench card".*?</section>', laid.html, re.DOTALL)
    told = [card for card in cards if say("publish_practice.set-up-proved") in card]
    safe = {one.id for one in laid.made_from.trade.checks.values() if "oil-can-flow" in one.needs}
    assert {check for card in told for check in re.findall(r'data-check="([^"]+)"', card)} == safe != set()


def test_machine_rules_and_markup(browser: Browser, laid: Laid) -> None:
    check_markup(laid.folder).assert_clean(expected=1)
    check_pages(browser, [laid.folder / "index.html"]).assert_clean(expected=1)


def test_the_page_travels_light_and_alone(laid: Laid) -> None:
    assert len(laid.html.encode()) < 400_000
    assert not re.findall(r"(?:src|href)=[\"'](?!#)[^\"']+", laid.html)
    places = {
        repair.lesson: LessonPlace("Where it is taught", "#content") for repair in laid.made_from.trade.repairs.values()
    }
    assert practice_page(laid.calls, laid.made_from, places, IMPRINT) == laid.html


def test_every_message_of_the_script_is_in_the_catalogue_and_every_one_is_said() -> None:
    said = set(re.findall(r"\bsay\((?:keeps \? )?\"([a-z-]+)\"(?: : \"([a-z-]+)\")?", static_text("practice.js")))
    names = {name for pair in said for name in pair if name}
    assert (
        names
        == set(SPOKEN)
        == {key.removeprefix("spoken-") for key in catalogue("publish_practice") if key.startswith("spoken-")}
    )


@pytest.mark.parametrize("count", [0, 1])
def test_without_calls_the_page_says_so(laid: Laid, count: int) -> None:
    html = practice_page(laid.calls[:count], laid.made_from, {}, IMPRINT)
    assert say("publish_practice.no-calls") in html
    assert "<script" not in html


def test_the_trainees_page_leads_to_it() -> None:
    assert 'href="practice/index.html"' in trainee_page((), (), IMPRINT, "practice/index.html")
    assert say("publish_practice.link-say") not in trainee_page((), (), IMPRINT)
