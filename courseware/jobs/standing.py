"""How a form stands: out, answered, void, or never issued; and what it has shown to whoever saw it."""

from collections.abc import Iterable

from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.jobs.company import Company, archived_form, archived_key
from courseware.quiz.shown import Shown, shown_by
from courseware.records.issues import FormState, issue_of
from courseware.records.registers import voided


def issued_form(company: Company, form_id: str) -> FormState:
    """Return how a form stands.

    Raises
    ------
    Refusal
        If it was never issued.
    """
    found = next((one for one in issue_of(company.store, form_id) if one.form == form_id), None)
    if found is None:
        raise Refusal(say("jobs.never-issued", form=form_id), say("jobs.never-issued-try"))
    return found


def form_out(company: Company, form_id: str) -> FormState:
    """Return how a form stands that is out.

    Raises
    ------
    Refusal
        If it is not; the text tells what became of it.
    """
    state = issued_form(company, form_id)
    if state.answered_at is not None:
        found = say("jobs.form-answered", form=form_id, on=state.answered_at[:10])
        raise Refusal(found, say("jobs.form-answered-try", form=form_id))
    if not state.out:
        raise form_void(company, form_id)
    return state


def form_void(company: Company, form_id: str) -> Refusal:
    """Return the refusal of a form that was voided, with the reason."""
    on, reason = voided(company.store, form_id) or ("", "")
    return Refusal(say("jobs.void-form", form=form_id, on=on, reason=reason), say("jobs.void-form-try"))


def holder_of(state: FormState) -> str:
    """Return the id of the person whose form it is.

    Raises
    ------
    Refusal
        If their data were erased.
    """
    if state.person_id is None:
        raise Refusal(say("jobs.holder-erased", form=state.form), say("jobs.holder-erased-try", form=state.form))
    return state.person_id


def shown_on(company: Company, form_ids: Iterable[str]) -> Shown:
    """Return what some archived forms show."""
    return shown_by((archived_form(company, one), archived_key(company, one)) for one in form_ids)
