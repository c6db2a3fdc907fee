"""Marks that a signer changed by hand: which item, to how many points, when, by whom and why."""

from dataclasses import dataclass
from fractions import Fraction

from sqlalchemy import select

from courseware.content.canonical import read_canonical
from courseware.records.store import Store
from courseware.records.tables import EventRow, PersonRow, ResultRow, SignerRow


@dataclass(frozen=True, slots=True)
class HandMark:
    """One mark that was changed.

    Attributes
    ----------
    seq : int
        Number [-] of the event that recorded it.
    at : str
        When, UTC.
    item : int
        Number [-] of the item.
    points : Fraction
        Points [-] that it has since.
    reason : str
        Why.
    signer_name : str or None
        Who decided it; none once erased.
    """

    seq: int
    at: str
    item: int
    points: Fraction
    reason: str
    signer_name: str | None


def hand_marks(store: Store, form_id: str) -> tuple[HandMark, ...]:
    """Return every mark of a form that was changed by hand, in the order of recording."""
    recorded = select(EventRow).join(ResultRow, ResultRow.seq == EventRow.seq).order_by(EventRow.seq)
    with store.reading() as session:
        signers = select(SignerRow.id, PersonRow.name).join(PersonRow, PersonRow.ref == SignerRow.ref)
        names = {key_id: name for key_id, name in session.execute(signers)}  # noqa: C416  # rows are no pairs to mypy
        events = [(row.seq, row.at, read_canonical(row.body)) for row in
                  session.scalars(recorded.where(ResultRow.form == form_id))]  # fmt: skip
    return tuple(
        HandMark(seq, at, int(item), Fraction(points), body["reason"], names.get(body["decided_by"]))
        for seq, at, body in events
        for item, points in body.get("by_hand", {}).items()
    )
