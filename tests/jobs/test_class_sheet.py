"""The class sheet: from records and archive, whatever has become of the course; over all forms, or those chosen."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from pathlib import Path
from typing import Final

import pytest

from courseware.content.refusal import Refusal
from courseware.grading.class_results import Attempt, by_question
from courseware.jobs.build import sound_course
from courseware.jobs.class_sheet import Choice, attempts_at, renew_class_sheets, write_class_sheet
from courseware.jobs.company import Places, archived_form, archived_key, open_company
from courseware.jobs.course import Course
from courseware.jobs.desk import Desk
from courseware.jobs.grade import Graded, Inbox, grade_inbox
from courseware.jobs.issue import issue_quiz
from courseware.quiz.answer_code import make_answer_code
from courseware.records.people import erase
from courseware.records.registers import forms_out, results_of
from courseware.records.results import Marks, record_result
from tests.jobs.office import NOW, begun, copied, enrolled

QUIZ: Final = "sequence"
"""A quiz that is quickly drawn."""


def hand_in(desk: Desk, person: str, *, wrong: tuple[int, ...] = ()) -> str:
    """Hand in a person's form that is out: rightly, but for questions that are left blank; return its number."""
    form_id = next(out.form for out in forms_out(desk.company.store) if out.person_id == person)
    key = archived_key(desk.company, form_id)
    answers = {str(entry.number): entry.right[:1] if entry.kind == "numeric" else entry.right for entry in key.entries}
    answers |= {str(number): () for number in wrong}
    (graded,) = grade_inbox(
        desk, Inbox(codes=(make_answer_code(archived_form(desk.company, form_id), answers),)), "T-0001"
    )
    assert isinstance(graded, Graded), graded
    return form_id


@pytest.fixture(scope="module")
def graded_once(tmp_path_factory: pytest.TempPathFactory) -> tuple[Course, Path]:
    """Grade two people: one fails, repeats and passes; the other passes. The course is read once for all tests here."""
    folder = enrolled(begun(tmp_path_factory.mktemp("graded") / "bench"))
    course = sound_course(folder)
    with open_company(Places(folder)) as company:
        desk = Desk.at(course, company, NOW, lambda _line: None)
        issue_quiz(desk, QUIZ, ["T-0002", "T-0003"])
        hand_in(desk, "T-0002", wrong=(1, 2, 3))
        hand_in(desk, "T-0003")
        issue_quiz(desk, QUIZ, ["T-0002"])
        hand_in(desk, "T-0002")
    return course, folder


@pytest.fixture
def desk(graded_once: tuple[Course, Path], tmp_path: Path) -> Iterator[Desk]:
    """Give the desk of a copy of that company."""
    course, folder = graded_once
    with open_company(Places(copied(folder, tmp_path / "bench"))) as company:
        yield Desk.at(course, company, NOW, lambda _line: None)


def told(attempts: tuple[Attempt, ...]) -> list[tuple[str, int, bool]]:
    return [(one.person, one.number, one.standing.passed) for one in attempts]


def test_every_graded_form_is_an_attempt_in_the_order_of_marking(desk: Desk) -> None:
    attempts = attempts_at(desk.company, QUIZ)
    assert told(attempts) == [("Ada Bench", 1, False), ("Bo Vise", 1, True), ("Ada Bench", 2, True)]
    assert all(one.standing.watched_by == "Sal Signer" and not one.standing.changed for one in attempts)
    recorded = [result for person in ("T-0002", "T-0003") for result in results_of(desk.company.store, person)]
    assert {one.form: float(result.score) for result in recorded for one in attempts if one.form == result.form} == {
        one.form: one.standing.score for one in attempts
    }
    for one in attempts:
        assert one.answered
        assert one.standing.score == pytest.approx(100 * one.answered.result.points / one.answered.result.of, abs=0.01)
    assert sum(one.blank for one in by_question(attempts)) == 3


def test_the_sheet_is_written_and_listed(desk: Desk) -> None:
    made = write_class_sheet(desk, QUIZ, Choice())
    assert (made.page.name, made.forms, made.no_pdf) == ("sequence.html", 3, "")
    page = made.page.read_text(encoding="utf-8")
    assert "Class sheet for Quiz: the heater and its sequence" in page
    assert "all 3" in page
    assert "1 of 2 people passed at the first attempt." in page
    assert made.page.with_suffix(".pdf").read_bytes().startswith(b"%PDF")
    listed = (desk.folders.trainer / "index.html").read_text(encoding="utf-8")
    assert 'href="classes/sequence.html"' in listed
    assert 'href="classes/sequence.pdf"' in listed
    assert "graded forms: 3" in listed


def test_the_same_records_give_the_same_bytes(desk: Desk) -> None:
    page = write_class_sheet(desk, QUIZ, Choice()).page
    before = page.read_bytes(), page.with_suffix(".pdf").read_bytes()
    page.unlink()
    page.with_suffix(".pdf").unlink()
    write_class_sheet(desk, QUIZ, Choice())
    assert (page.read_bytes(), page.with_suffix(".pdf").read_bytes()) == before


def test_grading_makes_it_anew(desk: Desk) -> None:
    page = desk.folders.trainer / "classes" / "sequence.html"
    press = desk.press()
    renew_class_sheets(desk, press, [QUIZ, QUIZ, "lockout"])
    press.finish()
    assert page.is_file()
    assert not page.with_name("lockout.html").exists()
    issue_quiz(desk, QUIZ, ["T-0003"])
    hand_in(desk, "T-0003")
    assert "all 4" in page.read_text(encoding="utf-8")


def test_a_mark_changed_by_hand_counts_as_changed(desk: Desk) -> None:
    store, first = desk.company.store, attempts_at(desk.company, QUIZ)[0]
    (seq,) = [one.seq for one in results_of(store, "T-0002") if one.form == first.form]
    marks = Marks(
        first.form, Fraction(9, 10), Fraction(8, 10), passed=True, replaces=seq, reason="question 1 was misprinted",
        objectives={name: Fraction(1) for name in first.standing.objectives},
    )  # fmt: skip
    record_result(store, marks, desk.company.key, NOW)
    changed = attempts_at(desk.company, QUIZ)[0]
    assert (changed.form, changed.number, changed.standing.score) == (first.form, 1, 90.0)
    assert changed.standing.passed
    assert changed.standing.changed
    assert set(changed.standing.objectives.values()) == {100.0}
    assert changed.answered == first.answered, "the answers stay what they were"


def test_answers_gone_from_the_archive_leave_the_marks(desk: Desk) -> None:
    first = attempts_at(desk.company, QUIZ)[0]
    (desk.company.places.archive / f"{first.form}.response.json").unlink()
    assert attempts_at(desk.company, QUIZ)[0] == replace(first, answered=None)
    assert "not in the archive any more: 1." in write_class_sheet(desk, QUIZ, Choice()).page.read_text("utf-8")


def test_a_person_who_was_erased_is_left_out(desk: Desk) -> None:
    erase(desk.company.store, "T-0002", desk.company.key, NOW)
    assert told(attempts_at(desk.company, QUIZ)) == [("Bo Vise", 1, True)]


def test_chosen_forms_and_days_have_a_sheet_of_their_own(desk: Desk) -> None:
    whole = write_class_sheet(desk, QUIZ, Choice()).page.read_bytes()
    repeat = attempts_at(desk.company, QUIZ)[2]
    chosen = write_class_sheet(desk, QUIZ, Choice(forms=(repeat.form,)))
    assert (chosen.page.name, chosen.forms) == ("sequence-chosen.html", 1)
    assert "(2) Ada Bench" in chosen.page.read_text("utf-8"), "a repeat stays one, whatever is chosen"
    since = write_class_sheet(desk, QUIZ, Choice(since=NOW.date()))
    assert (since.page.name, since.forms) == ("sequence-since-2026-11-25.html", 3)
    assert "3, since 2026-11-25" in since.page.read_text("utf-8")
    assert since.page.with_name("sequence.html").read_bytes() == whole


def refusal(desk: Desk, quiz: str, choice: Choice) -> str:
    with pytest.raises(Refusal) as refused:
        write_class_sheet(desk, quiz, choice)
    return str(refused.value)


def test_what_was_not_graded_is_refused_with_what_there_is(desk: Desk) -> None:
    forms = ", ".join(one.form for one in attempts_at(desk.company, QUIZ))
    assert refusal(desk, "lockout", Choice()) == (
        "no form of the quiz 'lockout' was graded yet; try: graded forms are there of: sequence"
    )
    assert refusal(desk, QUIZ, Choice(forms=("7K3Q-9XA2",))) == (
        f"'7K3Q-9XA2' is no graded form of the quiz 'sequence'; try: name one of: {forms}"
    )
    tomorrow: date = NOW.date() + timedelta(days=1)
    assert refusal(desk, QUIZ, Choice(since=tomorrow)) == (
        "none of the forms chosen was marked on 2026-11-26 or later; try: the last one was marked on 2026-11-25"
    )


def test_before_anything_was_graded_the_refusal_says_what_to_do(
    graded_once: tuple[Course, Path], tmp_path: Path
) -> None:
    with open_company(Places(begun(tmp_path / "fresh"))) as company:
        desk = Desk.at(graded_once[0], company, NOW, lambda _line: None)
        assert refusal(desk, QUIZ, Choice()) == (
            "no form of the quiz 'sequence' was graded yet; "
            "try: grade what trainees hand in first: courseware grade --help"
        )
