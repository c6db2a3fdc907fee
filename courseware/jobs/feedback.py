"""What becomes of a graded form: the marks that the records get, and the feedback sheet that the trainer hands out."""

from dataclasses import dataclass
from fractions import Fraction

from courseware.grading.result import Result
from courseware.jobs.company import Company
from courseware.jobs.desk import Desk
from courseware.jobs.press import Press
from courseware.jobs.shelf import FEEDBACK, LESSONS, lesson_places, objective_titles
from courseware.publish.feedback import ChangedMark, FeedbackSheet, feedback_page, feedback_paper
from courseware.quiz.form import Form
from courseware.records.results import Marks
from courseware.records.signers import signers


@dataclass(frozen=True, slots=True)
class Outcome:
    """A form that was graded.

    Attributes
    ----------
    form : Form
        As issued.
    result : Result
        Its marks.
    trainee : str
        Whose it is.
    on : str
        The day it was graded, ISO 8601.
    supervised_by : str or None
        Key id of the signer who watched; none if nobody did.
    changes : tuple of ChangedMark
        Marks that were changed by hand since.
    """

    form: Form
    result: Result
    trainee: str
    on: str
    supervised_by: str | None
    changes: tuple[ChangedMark, ...] = ()


def marks_of(result: Result, supervised_by: str | None) -> Marks:
    """Return what the records keep of a result."""
    return Marks(
        form=result.form,
        score=Fraction(result.points).limit_denominator(10_000) / result.of,
        cut=Fraction(result.needed, 100),
        passed=result.passed,
        gates_broken=tuple(mark.gate_broken.rule for mark in result.marks if mark.gate_broken is not None),
        objectives={name: Fraction(tally.points).limit_denominator(10_000) / tally.of
                    for name, tally in result.by_objective.items()},
        supervised_by=supervised_by,
    )  # fmt: skip


def write_feedback(desk: Desk, press: Press, outcome: Outcome) -> None:
    """Write the feedback sheet of a graded form, as page and paper."""
    sheet = FeedbackSheet(
        outcome.form, outcome.result, outcome.trainee, outcome.on, signer_name(desk.company, outcome.supervised_by),
        lesson_places(desk.course, f"../../trainee/{LESSONS}"), objective_titles(desk.course), outcome.changes,
    )  # fmt: skip
    stem = desk.folders.trainer / FEEDBACK / outcome.form.id
    press.page(stem.with_suffix(".html"), feedback_page(sheet, desk.imprint, root="../"))
    press.paper(stem.with_suffix(".pdf"), feedback_paper(sheet, desk.imprint))


def signer_name(company: Company, key_id: str | None) -> str:
    """Return the name of a signer by their key id; nothing for none, and for one who was erased."""
    return next((one.name or "" for one in signers(company.store) if one.id == key_id), "")
