"""The feedback sheet names the mark, the reading that rules the answer out, the broken gate and the lesson section."""

import io
from pathlib import Path

import pypdf
from playwright.sync_api import Browser

from courseware.content.words import say
from courseware.publish.feedback import feedback_page, feedback_paper
from courseware.publish.output import write_page, write_style
from courseware.publish.pdf import html_to_pdf
from tests.publish.sample_quiz import FORM, IMPRINT, KEY, MIXED_UP, RIGHT
from tests.publish.sample_records import OBJECTIVES, POOR, feedback_sheet
from tests.web.browser import open_page
from tests.web.markup import check_markup
from tests.web.pages import check_pages
from tests.web.papers import check_papers, check_prints


def shown(browser: Browser, text: str, folder: Path) -> str:
    """Return what a reader sees of a page."""
    write_page(folder / "feedback.html", text)
    write_style(folder)
    with open_page(browser) as page:
        page.goto((folder / "feedback.html").as_uri())
        return " ".join(page.locator("main").inner_text().split())


def test_a_failed_form_is_explained(browser: Browser, tmp_path: Path) -> None:
    text = shown(browser, feedback_page(feedback_sheet(POOR), IMPRINT), tmp_path)
    assert "Not passed" in text
    assert "2.33 of 12 points, 19.4 %. To pass takes 80 %." in text
    assert say("publish_pages.feedback-gate-failed") in text
    gate = KEY.entries[3].gates[0]
    assert f"DANGER {gate.rule} {gate.reason} Question 4" in text
    assert "Question 1: Wrong, 0 of 4" in text
    assert KEY.entries[0].feedback[POOR["1"][0]] in text, "the reading that rules the answer out"
    assert "Question 2: Left blank, 0 of 2" in text
    assert "Question 3: Right, 1 of 1" in text
    assert "Question 4: Partly right" in text
    assert "Question 5: Partly right, 0.33 of 2" in text
    assert f"Perhaps you thought {MIXED_UP.believes} But {MIXED_UP.instead}" in text
    assert OBJECTIVES["find-the-fault"] in text


def test_what_to_read_again_is_linked_once_and_only_for_wrong_answers(browser: Browser, tmp_path: Path) -> None:
    write_page(tmp_path / "feedback.html", feedback_page(feedback_sheet(POOR), IMPRINT))
    write_style(tmp_path)
    with open_page(browser) as page:
        page.goto((tmp_path / "feedback.html").as_uri())
        again = page.locator("h2:has-text('Read again') + ul > li").all_inner_texts()
        assert again == [
            "The ignition test: Isolate the fault",
            "ignition-test#numbers",
            "The ignition test: Procedure",
        ]
        assert page.get_by_role("link", name="The ignition test: Isolate the fault").first.get_attribute("href") == (
            "ignition-test.html#isolate"
        )


def test_a_passed_form_has_nothing_to_read_again(browser: Browser, tmp_path: Path) -> None:
    text = shown(browser, feedback_page(feedback_sheet(RIGHT), IMPRINT), tmp_path)
    assert "Passed" in text
    assert say("publish_pages.feedback-read-none") in text
    assert say("publish_pages.feedback-unwatched-say") not in text
    assert "Right answer" not in text


def test_an_unsupervised_form_is_told_so(browser: Browser, tmp_path: Path) -> None:
    text = shown(browser, feedback_page(feedback_sheet(RIGHT, supervised_by=""), IMPRINT), tmp_path)
    assert say("publish_pages.feedback-unwatched-say") in text


def test_machine_rules_and_markup(browser: Browser, tmp_path: Path) -> None:
    for name, answers in (("poor", POOR), ("right", RIGHT)):
        write_page(tmp_path / f"{name}.html", feedback_page(feedback_sheet(answers), IMPRINT))
    write_style(tmp_path)
    check_markup(tmp_path).assert_clean(expected=2)
    check_pages(browser, tmp_path.glob("*.html")).assert_clean(expected=2)


def test_the_paper_says_the_same_in_the_same_bytes(tmp_path: Path) -> None:
    sheet = feedback_sheet(POOR)
    data = html_to_pdf(feedback_paper(sheet, IMPRINT))
    assert html_to_pdf(feedback_paper(feedback_sheet(POOR), IMPRINT)) == data
    text = " ".join(" ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(data)).pages)
    for mark in sheet.result.marks:
        assert all(line in text for line in (*mark.chosen, *mark.right_answer, *mark.feedback)), mark.number
    assert FORM.id in text
    (tmp_path / "feedback.pdf").write_bytes(data)
    check_papers(tmp_path.glob("*.pdf")).assert_clean(expected=1)
    check_prints(tmp_path.glob("*.pdf")).assert_clean(expected=1)
