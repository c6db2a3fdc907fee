"""Change a mark by hand: a signer gives an item other points and says why; the result is worked out anew."""

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.grading.by_hand import with_points
from courseware.grading.mark import grade
from courseware.grading.result import Result
from courseware.jobs.class_sheet import renew_class_sheets
from courseware.jobs.company import Company, archived_form, archived_key, name_of, signer_key
from courseware.jobs.desk import Desk
from courseware.jobs.feedback import Outcome, marks_of, write_feedback
from courseware.jobs.standing import form_void, holder_of, issued_form
from courseware.publish.feedback import ChangedMark
from courseware.quiz.form import Form
from courseware.quiz.response import read_response
from courseware.records import registers
from courseware.records.by_hand import HandMark, hand_marks
from courseware.records.identity import Person
from courseware.records.people import find_person
from courseware.records.registers import Certificate, certificates_of, results_of
from courseware.records.results import percent, record_result

ENDED: Final = ("withdrawn", "erased")


@dataclass(frozen=True, slots=True)
class Change:
    """What is to be changed.

    Attributes
    ----------
    form : str
        A graded form.
    item : int
        Number of the item [-].
    points : Fraction
        Points [-] that it is to have.
    reason : str
        Why, naming nobody.
    by : str or None
        Person id of the signer who decided it; whoever's key is at the desk by default.
    """

    form: str
    item: int
    points: Fraction
    reason: str
    by: str | None = None


@dataclass(frozen=True, slots=True)
class Changed:
    """A mark that was changed.

    Attributes
    ----------
    person : Person
        Whose form it is.
    before, result : Result
        The result before, and now.
    certificates : tuple of Certificate
        Those that rest on the form and have not been withdrawn: the office decides what becomes of them.
    no_pdf : str
        What to install for PDF; empty if the sheet was made on paper too.
    """

    person: Person
    before: Result
    result: Result
    certificates: tuple[Certificate, ...]
    no_pdf: str


@dataclass(frozen=True, slots=True)
class Marked:
    """A graded form: as graded, what was changed by hand since, and its entries in the records, standing one last."""

    form: Form
    graded: Result
    by_hand: tuple[HandMark, ...]
    entries: tuple[registers.Result, ...]

    @property
    def standing(self) -> Result:
        """Return the result that stands."""
        return with_points(self.graded, {one.item: one.points for one in self.by_hand})


def change_mark(desk: Desk, change: Change) -> Changed:
    """Give an item of a graded form other points.

    The new result replaces the standing one in the records, with the reason; feedback and class sheet are written anew.

    Parameters
    ----------
    desk : Desk
        Who records it.
    change : Change
        What to change.

    Raises
    ------
    Refusal
        If the form was never graded or its holder was erased, there is no such item, the points are more than it can
        have or what it has, the reason is none, or the archive does not lead to the recorded score.
    """
    company = desk.company
    person = find_person(company.store, holder_of(issued_form(company, change.form)))
    decided_by = signer_key(company, change.by) if change.by else company.key.id
    marked = _marked(company, person, change.form)
    _hold(marked, change)
    points = {one.item: one.points for one in marked.by_hand} | {change.item: change.points}
    result, last = with_points(marked.graded, points), marked.entries[-1]
    marks = replace(
        marks_of(result, last.supervised_by), replaces=last.seq, reason=change.reason.strip(),
        by_hand={change.item: change.points}, decided_by=decided_by,
    )  # fmt: skip
    record_result(company.store, marks, company.key, desk.now)
    press = desk.press()
    now = replace(marked, by_hand=hand_marks(company.store, change.form))
    on = marked.entries[0].recorded_at[:10]
    changes = _told(now)
    write_feedback(desk, press, Outcome(marked.form, result, person.name, on, last.supervised_by, changes))
    renew_class_sheets(desk, press, [marked.form.blueprint])
    desk.renew_front_pages(press)
    resting = tuple(_resting(desk, person, {one.seq for one in marked.entries}))
    return Changed(person, marked.standing, result, resting, press.no_pdf)


def _marked(company: Company, person: Person, form_id: str) -> Marked:
    """Return a graded form from archive and records, and make sure that the two agree."""
    entries = tuple(one for one in results_of(company.store, person.id) if one.form == form_id)
    if not entries:
        if issued_form(company, form_id).voided_at is not None:
            raise form_void(company, form_id)
        raise Refusal(say("jobs.not-graded", form=form_id), say("jobs.not-graded-try"))
    form, key = archived_form(company, form_id), archived_key(company, form_id)
    try:
        data = (company.places.archive / f"{form_id}.response.json").read_bytes()
    except FileNotFoundError as error:
        raise Refusal(say("jobs.no-response", form=form_id), say("jobs.no-key-try")) from error
    marked = Marked(form, grade(form, key, read_response(data)), hand_marks(company.store, form_id), entries)
    found, recorded = percent(marks_of(marked.standing, None).score), f"{entries[-1].score}"
    if found != recorded:
        raise Refusal(say("jobs.other-score", form=form_id, found=found, recorded=recorded), say("jobs.no-key-try"))
    return marked


def _hold(marked: Marked, change: Change) -> None:
    """Refuse a change that is none, or that the form does not allow."""
    form, items = marked.form.id, marked.standing.marks
    if not 1 <= change.item <= len(items):
        raise Refusal(say("jobs.no-item", form=form, item=change.item), say("jobs.no-item-try", last=len(items)))
    mark = items[change.item - 1]
    if not 0 <= change.points <= mark.of or (change.points * 100).denominator != 1:
        raise Refusal(say("jobs.bad-points", item=change.item, points=change.points),
                      say("jobs.bad-points-try", most=mark.of))  # fmt: skip
    if float(change.points) == mark.points:
        raise Refusal(say("jobs.same-points", item=change.item, points=change.points), say("jobs.same-points-try"))
    if not change.reason.strip():
        raise Refusal(say("jobs.change-why"), say("jobs.change-why-try"))


def _told(marked: Marked) -> tuple[ChangedMark, ...]:
    """Return what the feedback sheet says of each change, in their order."""
    points = {mark.number: mark.points for mark in marked.graded.marks}
    told = []
    for one in marked.by_hand:
        told.append(
            ChangedMark(
                one.item, points[one.item], float(one.points), one.at[:10],
                name_of(one.signer_name), one.reason,
            )
        )  # fmt: skip
        points[one.item] = float(one.points)
    return tuple(told)


def _resting(desk: Desk, person: Person, entries: set[int]) -> tuple[Certificate, ...]:
    """Return the certificates that were granted on one of these results and have not ended before their time."""
    return tuple(
        one
        for one in certificates_of(desk.company.store, person.id)
        if entries & set(one.results) and one.status(desk.now.date()) not in ENDED
    )
