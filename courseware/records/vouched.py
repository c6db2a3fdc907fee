"""What results, sign-offs and evidence share: a signer vouches for the entry; and an entry may be taken back."""

from dataclasses import dataclass
from typing import TypeVar

from sqlalchemy import ColumnElement, select
from sqlalchemy.orm import InstrumentedAttribute

from courseware.records.store import Store
from courseware.records.tables import EvidenceRow, PersonRow, ResultRow, SignerRow, SignOffRow

R = TypeVar("R", ResultRow, SignOffRow, EvidenceRow)


@dataclass(frozen=True, slots=True)
class Withdrawal:
    """Why an entry counts no more.

    Attributes
    ----------
    at : str
        When it was taken back, UTC.
    reason : str
        Why.
    """

    at: str
    reason: str


def withdrawal_of(row: SignOffRow | EvidenceRow) -> Withdrawal | None:
    """Return when and why an entry was taken back; nothing for one that stands."""
    return Withdrawal(row.withdrawn_at, row.withdrawn_reason or "") if row.withdrawn_at else None


def with_signer(
    store: Store, table: type[R], vouched_by: InstrumentedAttribute[str] | InstrumentedAttribute[str | None],
    which: ColumnElement[bool],
) -> tuple[tuple[R, str | None], ...]:  # fmt: skip
    """Return the entries of a table, in the order of recording, each with the name of the signer who vouches for it.

    The name is none if nobody vouches, or once the signer was erased. ``vouched_by`` is the column of the signer's key
    id, ``which`` picks the entries.
    """
    query = (
        select(table, PersonRow.name)
        .outerjoin(SignerRow, SignerRow.id == vouched_by)
        .outerjoin(PersonRow, PersonRow.ref == SignerRow.ref)
        .where(which)
        .order_by(table.seq)
    )
    with store.reading() as session:
        return tuple((row, name) for row, name in session.execute(query))
