"""A mark changed by hand: worked out anew, recorded over the earlier one, told on the sheet; certificates are named."""

import re
from dataclasses import replace
from datetime import timedelta
from fractions import Fraction
from pathlib import Path

import pytest

from courseware.content.refusal import Refusal
from courseware.jobs.change_mark import Change, change_mark
from courseware.jobs.company import archived_form, archived_key
from courseware.jobs.desk import Desk
from courseware.jobs.grade import Graded, Inbox, grade_inbox
from courseware.quiz.answer_code import make_answer_code, parse_answer_code
from courseware.quiz.response import response_bytes
from courseware.records.by_hand import hand_marks
from courseware.records.certificates import Application, grant
from courseware.records.ledger import head
from courseware.records.registers import forms_out, results_of
from courseware.records.verify import verify
from tests.jobs.office import NOW, at_desk
from tests.records.story import COURSE, PROGRAM

REASON = "the exhibit was printed without its last row"


def graded(desk: Desk, blanks: int) -> str:
    """Answer the first form that is out by its key, but leave the first questions blank; return its number."""
    out = forms_out(desk.company.store)[0].form
    form, key = archived_form(desk.company, out), archived_key(desk.company, out)
    answers = {
        str(one.number): () if one.number <= blanks else one.right[: 1 if one.kind == "numeric" else None]
        for one in key.entries
    }
    (done,) = grade_inbox(desk, Inbox(codes=(make_answer_code(form, answers),)), "T-0001")
    assert isinstance(done, Graded)
    return out


def test_score_and_pass_follow_and_the_sheet_tells_both_changes(company: Path) -> None:
    """Two changes to a form with its first three items blank; every number is worked out from the key's points."""
    with at_desk(company) as today:
        form = graded(today, 3)
        points = [entry.points for entry in archived_key(today.company, form).entries]
        desk = replace(today, now=NOW + timedelta(days=2))
        half = Fraction(points[0], 2)
        first = change_mark(desk, Change(form, 1, half, REASON, "t-0001"))
        second = change_mark(desk, Change(form, 1, Fraction(points[0]), "the whole answer is right"))
        reached = sum(points) - points[1] - points[2]
        assert first.before.points == sum(points[3:])
        assert first.result.points == float(sum(points[3:]) + half)
        assert (second.result.points, second.result.percent) == (reached, round(100 * reached / sum(points), 1))
        assert second.result.passed == (100 * reached >= 80 * sum(points))
        *earlier, standing = results_of(desk.company.store, "T-0002")
        assert [one.replaced_by for one in earlier] == [earlier[1].seq, standing.seq]
        assert float(standing.score) == pytest.approx(100 * reached / sum(points), abs=0.01)
        assert standing.supervised_by == earlier[0].supervised_by
        assert [one.reason for one in hand_marks(desk.company.store, form)] == [REASON, "the whole answer is right"]
        assert verify(desk.company.store).ok
        sheet = (desk.folders.trainer / "feedback" / f"{form}.html").read_text(encoding="utf-8")
    shown = [f"{float(one):g}" for one in (half, points[0])]
    assert re.findall(r"<li>(Question 1: .*? points, changed by hand .*?)</li>", sheet) == [
        f"Question 1: from 0 to {shown[0]} points, changed by hand on 2026-11-27 by Sal Signer: {REASON}",
        (
            f"Question 1: from {shown[0]} to {shown[1]} points, changed by hand on 2026-11-27 by Sal Signer: "
            "the whole answer is right"
        ),
    ]
    assert "2026-11-25" in sheet, "the day it was graded"


def test_a_certificate_that_rests_on_the_form_is_named_and_stays(company: Path) -> None:
    """Granted by the records alone, under a program that asks for this one quiz."""
    with at_desk(company) as desk:
        form = graded(desk, 0)
        granted = grant(desk.company.store, Application("T-0002", PROGRAM, COURSE), desk.company.key, NOW)
        done = change_mark(desk, Change(form, 1, Fraction(0), "copied from the next table"))
        assert [one.code for one in done.certificates] == [granted.code]
        again = change_mark(desk, Change(form, 2, Fraction(0), "copied too"))
        assert [one.code for one in again.certificates] == [granted.code], "though it rests on the first result"
        assert done.certificates[0].withdrawn_on is None


def test_what_cannot_be_changed_is_told_and_nothing_is_recorded(company: Path) -> None:
    with at_desk(company) as desk:
        form = graded(desk, 1)
        most, last = archived_key(desk.company, form).entries[0].points, len(archived_form(desk.company, form).items)
        out = forms_out(desk.company.store)[0].form
        before = head(desk.company.store)
        told = {
            Change("0000-0000", 1, Fraction(1), REASON): (
                "no form '0000-0000' was ever issued; try: look at the number at the top of the quiz"
            ),
            Change(out, 1, Fraction(1), REASON): (
                f"form '{out}' has not been graded; try: grade it first: courseware grade"
            ),
            Change(form, last + 1, Fraction(1), REASON): (
                f"form '{form}' has no question {last + 1}; try: name one from 1 to {last}"
            ),
            Change(form, 1, Fraction(most + 1), REASON): (
                f"question 1 cannot have {most + 1} points; try: give from 0 to {most}, with at most two decimals"
            ),
            Change(form, 1, Fraction(1, 3), REASON): (
                f"question 1 cannot have 1/3 points; try: give from 0 to {most}, with at most two decimals"
            ),
            Change(form, 1, Fraction(0), REASON): (
                "question 1 has 0 points already; try: look at the feedback sheet"
            ),
            Change(form, 1, Fraction(1), " "): (
                "a mark is not changed without a reason; try: say in a line why, naming nobody: "
                '--reason "the picture was printed upside down"'
            ),
            Change(form, 1, Fraction(1), REASON, "T-0003"): (
                "'T-0003' is no qualified signer; try: name one of: T-0001"
            ),
        }  # fmt: skip
        for change, text in told.items():
            with pytest.raises(Refusal) as refused:
                change_mark(desk, change)
            assert str(refused.value) == text
        with pytest.raises(Refusal, match="the text names T-0002"):
            change_mark(desk, Change(form, 1, Fraction(1), "Ada Bench asked for it"))
        assert head(desk.company.store) == before


def test_an_archive_that_no_longer_leads_to_the_recorded_score_is_told(company: Path) -> None:
    with at_desk(company) as desk:
        form = graded(desk, 0)
        archive = desk.company.places.archive
        other = archived_form(desk.company, form)
        blank = make_answer_code(other, {str(item.number): () for item in other.items})
        answers = archive / f"{form}.response.json"
        answers.write_bytes(response_bytes(parse_answer_code(blank, other)))
        with pytest.raises(Refusal) as refused:
            change_mark(desk, Change(form, 1, Fraction(0), REASON))
        answers.unlink()
        with pytest.raises(Refusal) as missing:
            change_mark(desk, Change(form, 1, Fraction(0), REASON))
    assert str(refused.value) == (
        f"the archive of form '{form}' leads to 0 %, and the records hold 100 %; "
        "try: put office/forms back from your backup"
    )
    assert str(missing.value) == (
        f"the answers to form '{form}' are missing from the archive; try: put office/forms back from your backup"
    )
