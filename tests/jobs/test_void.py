"""Voiding: a form counts no more and is handed out no more; its holder gets another, or nothing changes."""

import json
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.jobs.company import Places, archived_form
from courseware.jobs.grade import Graded, Inbox, grade_inbox
from courseware.jobs.issue import issue_quiz
from courseware.jobs.shelf import PAPERS, QUIZZES
from courseware.jobs.void import reissue, void, void_leaked
from courseware.quiz.answer_code import make_answer_code
from courseware.quiz.form import Form, form_bytes
from courseware.records.ledger import head
from courseware.records.people import erase
from courseware.records.registers import forms_out, results_of
from tests.jobs.office import NOW, at_desk

BY_OPTIONS = ("ordering", "multiple-choice")


def questions(form: Form) -> set[str]:
    """Return what a form asks and gives to read, from its bytes; what is to be ordered or chosen from belongs to it."""
    return {
        json.dumps(
            [one["stem"], one["exhibit"], sorted(o["text"] for o in one["options"]) * (one["kind"] in BY_OPTIONS)]
        )
        for one in json.loads(form_bytes(form))["items"]
    }


def blank(form: Form) -> Inbox:
    return Inbox(codes=(make_answer_code(form, {str(item.number): () for item in form.items}),))


def test_the_holder_gets_another_form_and_the_old_one_is_not_graded(company: Path) -> None:
    with at_desk(company) as desk:
        first, second = (one.form for one in forms_out(desk.company.store))
        old = archived_form(desk.company, first)
        done = void(desk, first, "a photo of it went round", replace=True)
        (replacement,) = done.replacements
        new = replacement.form
        assert (done.forms, replacement.person.id, replacement.again) == ((first,), "T-0002", ())
        assert (new.blueprint, new.id != first, new.items != old.items) == (old.blueprint, True, True)
        assert [(one.form, one.person_id) for one in forms_out(desk.company.store)] == [
            (second, "T-0003"), (new.id, "T-0002"),
        ]  # fmt: skip
        assert not questions(new) & questions(old)
        (refused,) = grade_inbox(desk, blank(old), None)
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
        assert f"{PAPERS}/{first}" not in page
        assert f"{QUIZZES}/{first}" not in page
        assert new.id in page


def test_a_form_may_be_voided_without_another(company: Path) -> None:
    with at_desk(company) as desk:
        first, second = (one.form for one in forms_out(desk.company.store))
        assert void(desk, first, "left before the quiz", replace=False).replacements == ()
        assert [one.form for one in forms_out(desk.company.store)] == [second]


def test_nobody_gets_the_form_of_a_person_who_was_erased(company: Path) -> None:
    with at_desk(company) as desk:
        first, _ = (one.form for one in forms_out(desk.company.store))
        erase(desk.company.store, "T-0002", desk.company.key, NOW)
        assert void(desk, first, "nobody has it", replace=True).replacements == ()


def test_where_no_other_can_be_drawn_the_form_stays_out(company: Path) -> None:
    for name, old, new in (
        ("program.yaml", ", ignition]", ", spark]"),
        ("program.yaml", ", ignition, combustion", ", spark, combustion"),
        ("blueprints/ignition.yaml", "id: ignition\n", "id: spark\n"),
    ):
        file = company / "question_bank" / name
        text = file.read_text(encoding="utf-8")
        assert text.count(old) == 1
        file.write_text(text.replace(old, new), encoding="utf-8")
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
            "no form '0000-0000' was ever issued; try: look at the number at the top of the quiz",
        ),
    ],
)
def test_what_cannot_be_voided_is_told(company: Path, form: str, reason: str, told: str) -> None:
    with at_desk(company) as desk:
        first = forms_out(desk.company.store)[0].form
        with pytest.raises(Refusal) as refused:
            void(desk, form or first, reason, replace=True)
    assert str(refused.value) == told


def test_after_a_leak_every_form_of_the_issue_that_is_out_is_replaced(company: Path) -> None:
    """Three forms go out together, one is answered, and the leaked one is voided with the other that is open."""
    with at_desk(company) as before:
        store = before.company.store
        earlier = [one.form for one in forms_out(store)]
        desk = replace(before, now=NOW + timedelta(hours=1))
        issued = [one.form for one in issue_quiz(desk, "ignition", ["T-0001", "T-0002", "T-0003"]).forms]
        assert all(isinstance(one, Graded) for one in grade_inbox(desk, blank(issued[1]), None))
        done = void_leaked(desk, issued[0].id, "a photo of it went round", replace=True)
        assert done.forms == (issued[0].id, issued[2].id)
        assert [one.person.id for one in done.replacements] == ["T-0001", "T-0003"]
        assert [one.form for one in forms_out(store)] == [*earlier, *(one.form.id for one in done.replacements)]
        for own, new in zip((issued[0], issued[2]), done.replacements, strict=True):
            assert not questions(new.form) & (questions(issued[0]) | questions(own))
            assert new.again == ()
        assert results_of(store, "T-0002")[0].form == issued[1].id
        sheet = (desk.folders.trainer / "sittings" / f"{issued[0].id}.html").read_text(encoding="utf-8")
        assert sheet.count(say("publish_proctor.void")) == 2
        assert sheet.count(say("publish_proctor.answered", on="2026-11-25")) == 1
        new_sheet = (desk.folders.trainer / "sittings" / f"{done.replacements[0].form.id}.html").read_text(
            encoding="utf-8"
        )
        assert all(one.form.id in new_sheet for one in done.replacements)


def test_a_leak_of_an_answered_form_leaves_its_result_and_replaces_the_others(company: Path) -> None:
    with at_desk(company) as desk:
        first, second = (archived_form(desk.company, one.form) for one in forms_out(desk.company.store))
        list(grade_inbox(desk, blank(first), None))
        done = void_leaked(desk, first.id, "copied afterwards", replace=True)
        assert done.forms == (second.id,)
        assert not questions(done.replacements[0].form) & (questions(first) | questions(second))
        list(grade_inbox(desk, blank(done.replacements[0].form), None))
        with pytest.raises(Refusal) as refused:
            void_leaked(desk, first.id, "once more", replace=True)
    assert str(refused.value) == (
        f"of the forms that were issued together with '{first.id}', none is out; "
        f"try: to let one of their holders sit again: courseware reissue {first.id}"
    )


def test_what_the_bank_has_nothing_else_for_is_told(company: Path) -> None:
    """The quiz on lockout has one template for some of its questions."""
    with at_desk(company) as desk:
        old = issue_quiz(desk, "lockout", ["T-0002"]).forms[0].form
        (new,) = void(desk, old.id, "lost", replace=True).replacements
        text = {item.number: json.dumps([item.stem, None]) for item in new.form.items}
        known = {json.dumps([item.stem, None]) for item in old.items if item.kind != "ordering"}
        assert new.again == tuple(number for number, one in text.items() if one in known) != ()


def test_an_answered_form_is_not_voided(company: Path) -> None:
    with at_desk(company) as desk:
        first = archived_form(desk.company, forms_out(desk.company.store)[0].form)
        list(grade_inbox(desk, blank(first), None))
        before = head(desk.company.store)
        with pytest.raises(Refusal) as refused:
            void(desk, first.id, "leaked", replace=True)
        assert head(desk.company.store) == before
    assert str(refused.value) == (
        f"form '{first.id}' was answered on 2026-11-25, and its result stands; "
        f"try: to let its holder sit again: courseware reissue {first.id}"
    )


def test_who_must_sit_again_gets_another_form_and_keeps_the_result(company: Path) -> None:
    with at_desk(company) as desk:
        store = desk.company.store
        first = archived_form(desk.company, forms_out(store)[0].form)
        list(grade_inbox(desk, blank(first), None))
        done = reissue(desk, first.id, "")
        (new,) = done.replacements
        assert (done.forms, new.person.id, new.form.blueprint) == ((), "T-0002", "ignition")
        assert not questions(new.form) & questions(first)
        assert [one.form for one in results_of(store, "T-0002")] == [first.id]
        assert new.form.id in [one.form for one in forms_out(store)]


def test_who_lost_a_form_gets_another_in_one_go(company: Path) -> None:
    with at_desk(company) as desk:
        first = forms_out(desk.company.store)[0].form
        with pytest.raises(Refusal, match="a form is not voided without a reason"):
            reissue(desk, first, "")
        done = reissue(desk, first, "the phone fell in the oil")
        assert (done.forms, done.replacements[0].person.id) == ((first,), "T-0002")
        with pytest.raises(Refusal, match=f"form '{first}' was voided on 2026-11-25: the phone fell in the oil"):
            reissue(desk, first, "again")


def test_nothing_is_reissued_to_a_person_who_was_erased(company: Path) -> None:
    with at_desk(company) as desk:
        first = forms_out(desk.company.store)[0].form
        erase(desk.company.store, "T-0002", desk.company.key, NOW)
        with pytest.raises(Refusal) as refused:
            reissue(desk, first, "lost")
    assert str(refused.value) == (
        f"the holder of form '{first}' was erased; try: take it out of use: "
        f'courseware void {first} --no-replacement --reason "its holder was erased"'
    )
