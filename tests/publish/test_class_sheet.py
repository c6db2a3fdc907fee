"""The class sheet tells what a class reached, what to teach again and look at, and how little a few answers say."""

import dataclasses
import io
import re
from collections.abc import Sequence
from pathlib import Path

import pypdf
import pytest
from playwright.sync_api import Browser

from courseware.content.words import say
from courseware.grading.class_results import Attempt, by_question
from courseware.publish.class_sheet import ClassSheet, class_sheet_page, class_sheet_paper
from courseware.publish.feedback import LessonPlace
from courseware.publish.output import write_page, write_style
from courseware.publish.pdf import html_to_pdf
from tests.grading.classroom import IDLE, at_random, attempt, changed, choice
from tests.publish.sample_quiz import IMPRINT
from tests.web.browser import open_page
from tests.web.markup import check_markup
from tests.web.pages import check_pages
from tests.web.papers import check_papers, check_prints

TITLES = {"o0": "Find the fault", "o1": "Read the checks", "o2": "Name the danger"}
CLASS = tuple(dataclasses.replace(one, person=f"Person {place:02}") for place, one in enumerate(at_random(30)))
REPEAT = dataclasses.replace(CLASS[3], number=2, form="P03-2")
TWO = (
    attempt("Ada", [choice(1, "a"), choice(2, "b")], {"1": ("1ZK",), "2": ("9G4",)}),
    attempt("Bo", [choice(1, "a"), choice(2, "b")], {"1": ("1ZK",), "2": ("B31",)}),
)


def sheet(attempts: Sequence[Attempt]) -> ClassSheet:
    place = LessonPlace("The ignition test: Isolate", "ignition-test.html#isolate")
    taught = dict.fromkeys(TITLES, "ignition-test#isolate")
    return ClassSheet(
        "Quiz: ignition test", "2026-11-25", "all", tuple(attempts), TITLES, taught, {"ignition-test#isolate": place}
    )


def shown(browser: Browser, attempts: Sequence[Attempt], folder: Path) -> str:
    """Return what a reader sees of the sheet."""
    write_page(folder / "class.html", class_sheet_page(sheet(attempts), IMPRINT))
    write_style(folder)
    with open_page(browser) as page:
        page.goto((folder / "class.html").as_uri())
        return " ".join(page.locator("main").inner_text().split())


@pytest.fixture(scope="module")
def thirty(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> str:
    return shown(browser, (*CLASS, REPEAT), tmp_path_factory.mktemp("thirty"))


def test_the_summary_counts_first_attempts_alone(thirty: str) -> None:
    passed = sum(one.standing.passed for one in CLASS)
    mean = sum(one.standing.score for one in CLASS) / 30
    assert (
        f"{passed} of 30 people passed at the first attempt. To pass takes 80 % and no safety rule broken. "
        f"The mean of the first attempts is {mean:.0f} %. {say('publish_class.one-repeat')}"
    ) in thirty


def test_a_short_quiz_is_said_to_be_inexact(thirty: str) -> None:
    """Lord's error at the cut: sqrt(0.8 x 0.2 / 5) of six questions is 18 percent."""
    assert "With 6 questions, another form could give the same person about 18 points more or less" in thirty


def test_everybody_stands_in_figure_and_tables_and_a_repeat_in_those_of_scores(thirty: str) -> None:
    for one in CLASS:
        # once in the figure, once in each table
        assert len(re.findall(rf"{one.person} [\d\u2013]", thirty)) == (5 if one is CLASS[3] else 3), one.person
    assert "Person 03 2 P03-2" in thirty


def test_what_to_teach_again_leads_to_the_lesson(thirty: str) -> None:
    mean = sum(one.standing.objectives["o2"] for one in CLASS) / 30
    under = sum(one.standing.objectives["o2"] < 80 for one in CLASS)
    line = f"Name the danger: mean {mean:.0f} %, {under} of 30 people under the cut. Read: The ignition test: Isolate"
    assert line in thirty
    assert f"{IDLE.believes} " in thirty


def test_a_broken_rule_is_told_with_its_signal_word_and_by_whom(thirty: str) -> None:
    by = [one.person for one in (*CLASS, REPEAT) if one.standing.gates]
    told = thirty[thirty.index("WARNING No spark while oil can flow. Oil lights all at once. By ") :]
    told = told[: told.index("Who reached what")]
    assert all(name in told for name in by)
    assert ("(2) Person 03" in told) == bool(REPEAT.standing.gates)


def test_each_question_is_told_with_its_interval_and_its_count(thirty: str) -> None:
    for place, one in enumerate(by_question(CLASS), start=1):
        found = one.discrimination
        assert found
        r, low, high = (f"{value:.2f}".replace("-", "−") for value in (found.r, found.low, found.high))
        row = f"{place} {one.template} {one.forms} {one.answers} {one.right} {one.blank} {100 * one.facility:.0f} %"
        assert f"{row} {r} (from {low} to {high}; {one.forms} forms)" in thirty


def test_two_people_are_too_few_to_tell(browser: Browser, tmp_path: Path) -> None:
    text = shown(browser, TWO, tmp_path)
    assert text.count("too few to tell (2 forms, needs 10)") == 2
    assert "alpha" not in text
    assert "Question 1, a: 2 of 2 answers were: a idle" in text
    assert say("publish_class.concerns-none") in text


def test_a_reason_to_look_at_a_question_is_a_hint_while_answers_are_few(browser: Browser, tmp_path: Path) -> None:
    third = attempt("Cy", [choice(1, "a"), choice(2, "b")], {"1": ("1ZK",), "2": ("9G4",)})
    text = shown(browser, (*TWO, third), tmp_path)
    assert f"Question 1, a: nobody had it right, of 3 answers. {say('publish_class.hint')}" in text
    assert say("publish_class.look") in text


def test_where_all_is_well_the_sheet_says_so(browser: Browser, tmp_path: Path) -> None:
    all_right = {"1": ("9G4",), "2": ("9G4",)}
    text = shown(browser, [attempt("Ada", [choice(1, "a"), choice(2, "b")], all_right)], tmp_path)
    for key in ("teach-none", "gates-none", "concerns-none", "wrong-none"):
        assert say(f"publish_class.{key}") in text, key
    assert "Questions that everybody had right: a, b." in text


def test_marks_changed_by_hand_and_answers_that_are_gone_are_told(browser: Browser, tmp_path: Path) -> None:
    gone = dataclasses.replace(changed(TWO[0]), answered=None)
    text = shown(browser, [gone], tmp_path)
    assert "Ada 1 Ada-1 50 % not passed Sal Signer 2026-11-25 yes" in text
    assert "Forms whose answers are not in the archive any more: 1." in text
    assert say("publish_class.questions-none") in text


def test_repeats_alone_make_a_sheet_too(browser: Browser, tmp_path: Path) -> None:
    """Who chooses the forms of a second sitting gets their scores, and no counts of firsts that are not there."""
    text = shown(browser, [REPEAT], tmp_path)
    assert "(2) Person 03" in text
    assert say("publish_class.questions-none") in text


def test_machine_rules_and_markup(browser: Browser, tmp_path: Path) -> None:
    for name, attempts in (("thirty", (*CLASS, REPEAT)), ("two", TWO)):
        write_page(tmp_path / f"{name}.html", class_sheet_page(sheet(attempts), IMPRINT))
    write_style(tmp_path)
    check_markup(tmp_path).assert_clean(expected=2)
    check_pages(browser, tmp_path.glob("*.html")).assert_clean(expected=2)


def test_the_paper_says_the_same_in_the_same_bytes(tmp_path: Path) -> None:
    twelve = sheet((*CLASS[:12], REPEAT))
    data = html_to_pdf(class_sheet_paper(twelve, IMPRINT))
    assert html_to_pdf(class_sheet_paper(twelve, IMPRINT)) == data
    text = " ".join(" ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(data)).pages)
    assert all(one.person in text for one in twelve.attempts)
    assert IDLE.believes in text
    (tmp_path / "class.pdf").write_bytes(data)
    check_papers(tmp_path.glob("*.pdf")).assert_clean(expected=1)
    check_prints(tmp_path.glob("*.pdf")).assert_clean(expected=1)
