"""Void a form that is out, because it leaked or was lost, and issue another in its place."""

from dataclasses import dataclass

from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.jobs.desk import Desk
from courseware.jobs.grade import not_out
from courseware.jobs.issue import Issued, issue_quiz
from courseware.jobs.shelf import PAPERS, QUIZZES
from courseware.records.forms import void_form
from courseware.records.registers import forms_out


@dataclass(frozen=True, slots=True)
class Voided:
    """A form that counts no more.

    Attributes
    ----------
    form : str
        Its number.
    replacement : Issued or None
        What was issued in its place, drawn anew; none if nobody needs one.
    no_pdf : str
        What to install for PDF; empty if all papers were made.
    """

    form: str
    replacement: Issued | None
    no_pdf: str


def void(desk: Desk, form_id: str, reason: str, *, replace: bool) -> Voided:
    """Void a form, and issue another one of the same quiz to the same person: both, or neither.

    The pages and papers of the form are taken out of the folders to hand out. Its archive stays.

    Parameters
    ----------
    desk : Desk
        Who voids.
    form_id : str
        A form that is out.
    reason : str
        Why, naming nobody.
    replace : bool
        Whether to issue another form; nobody gets one whose data were erased.

    Raises
    ------
    Refusal
        If the form is not out, the reason is none, or the quiz can no longer be drawn from the course.
    """
    store = desk.company.store
    out = next((one for one in forms_out(store) if one.form == form_id), None)
    if out is None:
        raise not_out(desk.company, form_id)
    if not reason.strip():
        raise Refusal(say("jobs.void-why"), say("jobs.void-why-try"))
    with store.transaction():
        void_form(store, form_id, reason, desk.company.key, desk.now)
        issue = issue_quiz(desk, out.blueprint, [out.person_id]) if replace and out.person_id else None
    for folder in (desk.folders.trainee / QUIZZES, desk.folders.trainer / PAPERS):
        for ending in ("html", "pdf"):
            (folder / f"{form_id}.{ending}").unlink(missing_ok=True)
    desk.renew_front_pages(desk.press())
    return Voided(form_id, issue.forms[0] if issue else None, issue.no_pdf if issue else "")
