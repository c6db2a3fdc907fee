"""Issuing: a form of one's own for each, all or nobody, and the same form again only with the secret."""

from pathlib import Path

import pytest

from courseware.content.refusal import Refusal
from courseware.jobs.company import Places, archived_form, archived_key, open_company
from courseware.jobs.issue import issue_quiz
from courseware.quiz.form import form_bytes, form_sha256
from courseware.records.ledger import head
from courseware.records.registers import forms_out
from tests.jobs.office import at_desk, begun, enrolled


def test_each_person_gets_a_form_of_their_own(company: Path) -> None:
    with open_company(Places(company)) as opened:
        out = forms_out(opened.store)
        forms = [archived_form(opened, one.form) for one in out]
        keys = [archived_key(opened, one.form) for one in out]
    assert [one.person_id for one in out] == ["T-0002", "T-0003"]
    first, second = forms
    assert first.items != second.items
    assert [key.form_sha256 for key in keys] == [form_sha256(form) for form in forms]


def test_the_page_and_the_papers_are_written(company: Path) -> None:
    folders = Places(company).build
    with open_company(Places(company)) as opened:
        for one in forms_out(opened.store):
            assert one.form in (folders.trainee / "quizzes" / f"{one.form}.html").read_text(encoding="utf-8")
            paper = (folders.trainee / "quizzes" / f"{one.form}.pdf").read_bytes()
            assert paper.startswith(b"%PDF")
            assert (folders.trainer / "papers" / f"{one.form}.pdf").read_bytes() == paper


def test_the_same_company_issues_the_same_forms(company: Path, tmp_path: Path) -> None:
    again = enrolled(begun(tmp_path / "again"))
    with at_desk(again) as desk:
        issued = issue_quiz(desk, "ignition", ["T-0002", "T-0003"])
    with open_company(Places(company)) as opened:
        assert [form_bytes(one.form) for one in issued.forms] == [
            form_bytes(archived_form(opened, one.form)) for one in forms_out(opened.store)
        ]


@pytest.mark.parametrize(
    ("quiz", "people", "told"),
    [
        ("ignition", ["T-0002", "T-0009"], "T-0009"),
        ("igniton", ["T-0002"], "igniton"),
    ],
)
def test_nobody_gets_a_form_if_one_cannot(company: Path, quiz: str, people: list[str], told: str) -> None:
    files = sorted(company.rglob("*"))
    with at_desk(company) as desk:
        before = head(desk.company.store)
        with pytest.raises(Refusal, match=told):
            issue_quiz(desk, quiz, people)
        assert head(desk.company.store) == before
    assert sorted(company.rglob("*")) == files
