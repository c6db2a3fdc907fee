"""The proctor sheet of a sitting: who sits with which form; listed while a form is out; what became of each is told."""

import re
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

from courseware.content.words import say
from courseware.jobs.company import Places, archived_form
from courseware.jobs.desk import Desk
from courseware.jobs.grade import Graded, Inbox, grade_inbox
from courseware.jobs.void import void
from courseware.quiz.answer_code import make_answer_code
from courseware.records.people import erase
from courseware.records.registers import forms_out
from tests.jobs.office import NOW, at_desk


def trainers_page(company: Path) -> str:
    return (Places(company).build.trainer / "index.html").read_text(encoding="utf-8")


def hand_in_blank(desk: Desk, form_id: str) -> None:
    form = archived_form(desk.company, form_id)
    (graded,) = grade_inbox(desk, Inbox(codes=(make_answer_code(form, {str(i.number): () for i in form.items}),)), None)
    assert isinstance(graded, Graded)


def test_the_sheet_names_everybody_with_their_form_and_is_listed(company: Path) -> None:
    with at_desk(company) as desk:
        first, second = (one.form for one in forms_out(desk.company.store))
        minutes = sum(item.minutes for item in archived_form(desk.company, first).items)
    folder = Places(company).build.trainer
    text = (folder / "sittings" / f"{first}.html").read_text(encoding="utf-8")
    assert re.findall(r'<th scope="row">(.*?)</th><td class="nowrap">(.*?)</td>', text) == [
        ("Ada Bench", first), ("Bo Vise", second),
    ]  # fmt: skip
    assert say("publish_proctor.minutes", minutes=minutes) in text
    assert (folder / "sittings" / f"{first}.pdf").read_bytes().startswith(b"%PDF")
    page = trainers_page(company)
    assert f'href="sittings/{first}.html"' in page
    assert f'href="sittings/{first}.pdf"' in page
    assert "issued 2026-11-25, forms out: 2 of 2" in page


def test_a_sitting_is_listed_until_no_form_of_it_is_out(company: Path) -> None:
    with at_desk(company) as desk:
        first, second = (one.form for one in forms_out(desk.company.store))
        hand_in_blank(desk, first)
        assert "issued 2026-11-25, forms out: 1 of 2" in trainers_page(company)
        void(desk, second, "lost", replace=False)
    assert say("publish_proctor.sheets-none") in trainers_page(company)
    text = (Places(company).build.trainer / "sittings" / f"{first}.html").read_text(encoding="utf-8")
    assert say("publish_proctor.answered", on="2026-11-25") in text
    assert say("publish_proctor.void") in text


def test_who_was_erased_is_named_nowhere(company: Path) -> None:
    with at_desk(company) as desk:
        first, second = (one.form for one in forms_out(desk.company.store))
        erase(desk.company.store, "T-0002", desk.company.key, NOW)
        void(desk, second, "lost", replace=False)
    text = (Places(company).build.trainer / "sittings" / f"{first}.html").read_text(encoding="utf-8")
    assert "Ada Bench" not in text
    assert say("jobs.erased-person") in text


def test_the_trainers_page_tells_who_has_not_returned_and_for_how_long(company: Path) -> None:
    """Two forms went out nine days ago; one comes back, the other is voided: then nobody is waited for."""

    def waited_for() -> list[tuple[str, str]]:
        return re.findall(r"<td>(Ada Bench|Bo Vise)</td><td>2026-11-25, (.*?)</td>", trainers_page(company))

    with at_desk(company) as today:
        assert waited_for() == [("Ada Bench", "today"), ("Bo Vise", "today")]
        desk = replace(today, now=NOW + timedelta(days=9))
        first, second = (one.form for one in forms_out(desk.company.store))
        hand_in_blank(desk, first)
        assert waited_for() == [("Bo Vise", "9 days")]
        void(desk, second, "lost", replace=False)
        assert waited_for() == []
