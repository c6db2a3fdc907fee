"""Grading: by the archived form and key, once, whatever way the answers came, whatever has become of the course."""

from pathlib import Path

import pytest

from courseware.content.refusal import Refusal
from courseware.jobs.company import Places, archived_key
from courseware.jobs.desk import Desk
from courseware.jobs.grade import Graded, Inbox, grade_inbox
from courseware.jobs.shelf import QUIZZES
from courseware.jobs.trainees import Answers, form_on_page, right_answers
from courseware.quiz.answer_code import make_answer_code
from courseware.quiz.form import Form
from courseware.quiz.response import make_response, response_bytes
from courseware.records.ledger import head
from courseware.records.registers import results_of
from tests.jobs.office import at_desk, copied


def taken(desk: Desk, person: int = 0) -> tuple[Form, Answers]:
    """Return a form that is out, from its page, and the right answers to it."""
    (page, *_) = sorted((desk.folders.trainee / QUIZZES).glob("*.html"))[person:]
    form = form_on_page(page.read_text(encoding="utf-8"))
    return form, right_answers(archived_key(desk.company, form.id))


def file_of(folder: Path, form: Form, answers: Answers) -> Path:
    path = folder / f"answers-{form.id}.json"
    path.write_bytes(response_bytes(make_response(form.id, answers)))
    return path


def outcome(desk: Desk, inbox: Inbox, supervised_by: str | None = "T-0001") -> Graded | Refusal:
    (only,) = grade_inbox(desk, inbox, supervised_by)
    return only


def test_file_code_and_sheet_lead_to_the_same_marks(company: Path, tmp_path: Path) -> None:
    marks = []
    for way in ("file", "code", "sheet"):
        with at_desk(copied(company, tmp_path / way)) as desk:
            form, answers = taken(desk)
            code = make_answer_code(form, answers)
            inboxes = {
                "file": Inbox(files=(file_of(tmp_path, form, answers),)),
                "code": Inbox(codes=(code,)),
                "sheet": Inbox(sheets=(code.lower(),)),
            }
            graded = outcome(desk, inboxes[way])
            assert isinstance(graded, Graded)
            marks.append(graded.result)
    assert marks[0].passed
    assert marks[1:] == marks[:1] * 2


def test_a_form_is_graded_alike_after_the_course_has_changed(company: Path, tmp_path: Path) -> None:
    """The bank loses the very templates that the form was drawn from, and its rules get other words."""
    with at_desk(company) as desk:
        form, answers = taken(desk)
        inbox = Inbox(files=(file_of(tmp_path, form, answers),))
    for file in (company / "question_bank").rglob("*.yaml"):
        text = file.read_text(encoding="utf-8")
        file.write_text(
            text.replace("hazard: ", "hazard: Changed. ").replace("odds: 0.0", "odds: 0.1"), encoding="utf-8"
        )
    for blueprint in (company / "question_bank" / "blueprints").glob("*.yaml"):
        text = blueprint.read_text(encoding="utf-8")
        blueprint.write_text(text.replace("percent: 80", "percent: 100"), encoding="utf-8")
    with at_desk(company) as desk:
        graded = outcome(desk, inbox)
    assert isinstance(graded, Graded)
    assert (graded.result.percent, graded.result.needed, graded.result.passed) == (100.0, 80, True)


def test_a_form_is_graded_once(company: Path, tmp_path: Path) -> None:
    with at_desk(company) as desk:
        form, answers = taken(desk)
        inbox = Inbox(files=(file_of(tmp_path, form, answers),))
        assert isinstance(outcome(desk, inbox), Graded)
        before = head(desk.company.store)
        again = outcome(desk, inbox)
        assert str(again) == (
            f"form '{form.id}' was answered on 2026-11-25, and its result stands; "
            f"try: to let its holder sit again: courseware reissue {form.id}"
        )
        assert head(desk.company.store) == before


def test_what_cannot_be_graded_does_not_stop_the_rest(company: Path, tmp_path: Path) -> None:
    with at_desk(company) as desk:
        form, answers = taken(desk)
        missing = tmp_path / "missing.json"
        inbox = Inbox(files=(missing, file_of(tmp_path, form, answers)), codes=("", "nonsense"))
        first, second, third, fourth = grade_inbox(desk, inbox, None)
    assert str(first) == (f"{missing}: No such file or directory; try: name a response file that the quiz page saved")
    assert isinstance(second, Graded)
    assert isinstance(third, Refusal)
    assert isinstance(fourth, Refusal)
    assert "no form 'N0NSENSE' is in the archive" in str(fourth)


def test_the_result_says_who_supervised_or_that_nobody_did(company: Path, tmp_path: Path) -> None:
    with at_desk(company) as desk:
        for person, supervisor in ((0, "t-0001"), (1, None)):
            form, answers = taken(desk, person)
            assert isinstance(outcome(desk, Inbox(files=(file_of(tmp_path, form, answers),)), supervisor), Graded)
        found = [results_of(desk.company.store, person)[0].supervisor_name for person in ("T-0002", "T-0003")]
    assert set(found) == {None, "Sal Signer"}


def test_only_a_signer_supervises(company: Path, tmp_path: Path) -> None:
    with at_desk(company) as desk:
        form, answers = taken(desk)
        inbox = Inbox(files=(file_of(tmp_path, form, answers),))
        with pytest.raises(Refusal) as refused:
            list(grade_inbox(desk, inbox, "T-0003"))
    assert str(refused.value) == "'T-0003' is no qualified signer; try: name one of: T-0001"


def test_the_feedback_sheet_is_listed_and_the_form_is_out_no_more(company: Path, tmp_path: Path) -> None:
    with at_desk(company) as desk:
        form, answers = taken(desk)
        outcome(desk, Inbox(files=(file_of(tmp_path, form, answers),)))
    folders = Places(company).build
    assert f'href="feedback/{form.id}.html"' in (folders.trainer / "index.html").read_text(encoding="utf-8")
    assert form.id not in (folders.trainee / "index.html").read_text(encoding="utf-8")
    assert form.id not in (folders.office / "index.html").read_text(encoding="utf-8")
