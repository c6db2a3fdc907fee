"""Void forms that are out, because they were lost or leaked, and issue others in their place."""

from collections.abc import Sequence
from dataclasses import dataclass
from dataclasses import replace as replaced

from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.jobs.desk import Desk
from courseware.jobs.issue import Issue, Issued, issue_quiz
from courseware.jobs.shelf import PAPERS, QUIZZES
from courseware.jobs.sitting import write_sitting
from courseware.jobs.standing import form_out, form_void, holder_of, issued_form, shown_on
from courseware.records.forms import void_form
from courseware.records.issues import FormState, issue_of


@dataclass(frozen=True, slots=True)
class Voided:
    """Forms that count no more.

    Attributes
    ----------
    forms : tuple of str
        Their numbers.
    replacements : tuple of Issued
        What was issued in their place, drawn anew; nobody gets one whose data were erased.
    no_pdf : str
        What to install for PDF; empty if all papers were made.
    """

    forms: tuple[str, ...]
    replacements: tuple[Issued, ...]
    no_pdf: str


def void(desk: Desk, form_id: str, reason: str, *, replace: bool) -> Voided:
    """Void a form, and issue another one of the same quiz to the same person: both, or neither.

    The pages and papers of the form are taken out of the folders to hand out. Its archive stays. The other form asks
    what this one did not, as far as the bank has it.

    Parameters
    ----------
    desk : Desk
        Who voids.
    form_id : str
        A form that is out.
    reason : str
        Why, naming nobody.
    replace : bool
        Whether to issue another form.

    Raises
    ------
    Refusal
        If the form is not out, the reason is none, or the quiz can no longer be drawn from the course.
    """
    return _void(desk, (form_out(desk.company, form_id),), reason, (), replace=replace)


def void_leaked(desk: Desk, form_id: str, reason: str, *, replace: bool) -> Voided:
    """Void every form that was issued together with a leaked one and is still out, and issue others in their place.

    Answers that are in already stand. The other forms ask nothing that the leaked one showed, as far as the bank has
    something else.

    Parameters
    ----------
    desk, reason, replace
        As for :func:`void`.
    form_id : str
        The form that leaked, whatever became of it.

    Raises
    ------
    Refusal
        As for :func:`void`; also if none of the forms is out.
    """
    issued_form(desk.company, form_id)
    still_out = tuple(one for one in issue_of(desk.company.store, form_id) if one.out)
    if not still_out:
        raise Refusal(say("jobs.none-out", form=form_id), say("jobs.none-out-try", form=form_id))
    return _void(desk, still_out, reason, (form_id,), replace=replace)


def reissue(desk: Desk, form_id: str, reason: str) -> Voided:
    """Give the holder of a form another one of the same quiz, with other questions as far as the bank has them.

    A form that is out is voided; one that was answered is kept, with its result.

    Parameters
    ----------
    desk : Desk
        Who reissues.
    form_id : str
        Whose holder gets another.
    reason : str
        Why, naming nobody; needed for a form that is out.

    Raises
    ------
    Refusal
        If the form is void already, its holder was erased, or as for :func:`void`.
    """
    state = issued_form(desk.company, form_id)
    person_id = holder_of(state)
    if state.out:
        return _void(desk, (state,), reason, (), replace=True)
    if state.voided_at is not None:
        raise form_void(desk.company, form_id)
    issue = issue_quiz(desk, state.blueprint, [person_id], {person_id: shown_on(desk.company, [form_id])})
    return Voided((), issue.forms, issue.no_pdf)


def _void(desk: Desk, forms: Sequence[FormState], reason: str, leaked: Sequence[str], *, replace: bool) -> Voided:
    company, issue = desk.company, Issue((), "")
    if not reason.strip():
        raise Refusal(say("jobs.void-why"), say("jobs.void-why-try"))
    own: dict[str, list[str]] = {}
    for one in forms:
        if replace and one.person_id is not None:
            own.setdefault(one.person_id, []).append(one.form)
    press = desk.press()
    with company.store.transaction():
        for one in forms:
            void_form(company.store, one.form, reason, company.key, desk.now)
        if own:
            known = {person: shown_on(company, [*leaked, *seen]) for person, seen in own.items()}
            # On the same press: the lists are written once, when the old forms are gone too.
            issue = issue_quiz(replaced(desk, shared=press), forms[0].blueprint, list(own), known)
    for one in forms:
        _take_in(desk, one.form)
    write_sitting(desk.company, desk.imprint, press, forms[0].form)
    desk.renew_front_pages(press)
    return Voided(tuple(one.form for one in forms), issue.forms, press.no_pdf)


def _take_in(desk: Desk, form_id: str) -> None:
    """Take the pages and papers of a form out of the folders to hand out."""
    for folder in (desk.folders.trainee / QUIZZES, desk.folders.trainer / PAPERS):
        for ending in ("html", "pdf"):
            (folder / f"{form_id}.{ending}").unlink(missing_ok=True)
