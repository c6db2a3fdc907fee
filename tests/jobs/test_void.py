"""Voiding: the form counts no more and is handed out no more; its holder gets another, or nothing changes."""

from pathlib import Path

import pytest

from courseware.content.refusal import Refusal
from courseware.jobs.company import Places, archived_form
from courseware.jobs.grade import Inbox, grade_inbox
from courseware.jobs.shelf import QUIZZES
from courseware.jobs.void import void
from courseware.quiz.answer_code import make_answer_code
from courseware.records.ledger import head
from courseware.records.people import erase
from courseware.records.registers import forms_out
from tests.jobs.office import NOW, at_desk


def test_the_holder_gets_another_form_and_the_old_one_is_not_graded(company: Path) -> None:
    with at_desk(company) as desk:
        first, second = (one.form for one in forms_out(desk.company.store))
        old = archived_form(desk.company, first)
        done = void(desk, first, "a photo of it went round", replace=True)
        assert done.replacement is not None
        new = done.replacement.form
        assert (done.form, done.replacement.person.id) == (first, "T-0002")
        assert (new.blueprint, new.id != first, new.items != old.items) == (old.blueprint, True, True)
        assert [(one.form, one.person_id) for one in forms_out(desk.company.store)] == [
            (second, "T-0003"), (new.id, "T-0002"),
        ]  # fmt: skip
        blank = make_answer_code(old, {str(item.number): () for item in old.items})
        (refused,) = grade_inbox(desk, Inbox(codes=(blank,)), None)
    assert str(refused) == (
        f"form '{first}' was voided on 2026-11-25: a photo of it went round; "
        "try: grade the form that was issued in its place"
    )
    folders = Places(company).build
    names = {
        path.name for folder in (folders.trainee / QUIZZES, folders.trainer / "papers") for path in folder.iterdir()
    }
    assert names == {f"{form}.{ending}" for form in (second, new.id) for ending in ("html", "pdf")}
    for folder in folders.each():
        page = (folder / "index.html").read_text(encoding="utf-8")
        assert first not in page
        assert new.id in page


def test_a_form_may_be_voided_without_another(company: Path) -> None:
    with at_desk(company) as desk:
        first, second = (one.form for one in forms_out(desk.company.store))
        assert void(desk, first, "left before the quiz", replace=False).replacement is None
        assert [one.form for one in forms_out(desk.company.store)] == [second]


def test_nobody_gets_the_form_of_a_person_who_was_erased(company: Path) -> None:
    with at_desk(company) as desk:
        first, _ = (one.form for one in forms_out(desk.company.store))
        erase(desk.company.store, "T-0002", desk.company.key, NOW)
        assert void(desk, first, "nobody has it", replace=True).replacement is None


def test_where_no_other_can_be_drawn_the_form_stays_out(company: Path) -> None:
    for name, old, new in (
        ("program.yaml", "[ignition]", "[spark]"),
        ("blueprints/ignition.yaml", "id: ignition\n", "id: spark\n"),
    ):
        file = company / "question_bank" / name
        file.write_text(file.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")
    with at_desk(company) as desk:
        first, _ = (one.form for one in forms_out(desk.company.store))
        before = head(desk.company.store)
        with pytest.raises(Refusal, match="ignition"):
            void(desk, first, "leaked", replace=True)
        assert head(desk.company.store) == before
    assert (Places(company).build.trainee / QUIZZES / f"{first}.html").is_file()


@pytest.mark.parametrize(
    ("form", "reason", "told"),
    [
        (
            "",
            "  ",
            (
                "a form is not voided without a reason; "
                'try: say in a line why, naming nobody: --reason "a photo of it went round"'
            ),
        ),
        (
            "0000-0000",
            "leaked",
            (
                "form '0000-0000' is not out: it was answered before, or its holder was erased; "
                "try: see office/index.html for the forms that are out"
            ),
        ),
    ],
)
def test_what_cannot_be_voided_is_told(company: Path, form: str, reason: str, told: str) -> None:
    with at_desk(company) as desk:
        first = forms_out(desk.company.store)[0].form
        with pytest.raises(Refusal) as refused:
            void(desk, form or first, reason, replace=True)
    assert str(refused.value) == told
