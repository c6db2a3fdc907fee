"""Forms that were issued together, and what became of each: what a sitting is made of."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from sqlalchemy import select

from courseware.records.store import Store
from courseware.records.tables import FormRow, PersonRow


@dataclass(frozen=True, slots=True)
class FormState:
    """A form that was issued.

    Attributes
    ----------
    form, blueprint : str
        Which form of which quiz.
    seq : int
        Number [-] of the event that issued it.
    person_id, name : str or None
        Whose it is; none once erased.
    issued_at : str
        When, UTC.
    answered_at, voided_at : str or None
        When its answers came in, or when it was voided, UTC; at most one of the two.
    """

    form: str
    blueprint: str
    seq: int
    person_id: str | None
    name: str | None
    issued_at: str
    answered_at: str | None
    voided_at: str | None

    @property
    def out(self) -> bool:
        """Say whether it may still come back."""
        return self.answered_at is None and self.voided_at is None


Issue = tuple[FormState, ...]


def issues(store: Store) -> tuple[Issue, ...]:
    """Return every form ever issued, those that went out in one go together, in the order of issuing."""
    query = (
        select(FormRow, PersonRow.id, PersonRow.name)
        .outerjoin(PersonRow, PersonRow.ref == FormRow.ref)
        .order_by(FormRow.seq)
    )
    with store.reading() as session:
        forms = [
            FormState(row.id, row.blueprint, row.seq, person_id, name, row.issued_at, row.answered_at, row.voided_at)
            for row, person_id, name in session.execute(query)
        ]
    return tuple(_together(forms))


def issue_of(store: Store, form_id: str) -> Issue:
    """Return the forms that were issued together with this one, itself included; nothing for one that never was."""
    return next((issue for issue in issues(store) if any(one.form == form_id for one in issue)), ())


def _together(forms: Iterable[FormState]) -> Iterator[Issue]:
    """Yield runs of forms whose events follow one another, of one quiz and one moment."""
    run: list[FormState] = []
    for one in forms:
        if run and (one.seq, one.blueprint, one.issued_at) != (run[-1].seq + 1, run[-1].blueprint, run[-1].issued_at):
            yield tuple(run)
            run = []
        run.append(one)
    if run:
        yield tuple(run)
