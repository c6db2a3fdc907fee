"""The qualified technicians who sign the record."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select

from courseware.records.keys import SigningKey, key_id
from courseware.records.kinds import signers as kinds
from courseware.records.ledger import append, names_nobody
from courseware.records.people import find_person
from courseware.records.store import Store
from courseware.records.tables import PersonRow, SignerRow


@dataclass(frozen=True, slots=True)
class Signer:
    """A technician whose key signs, or once signed.

    Attributes
    ----------
    id : str
        Of the key.
    person_id, name : str or None
        Who it is; none if they were erased.
    public_key : bytes
        32 bytes (RFC 8032).
    added_at, retired_at : str
        When, UTC; ``retired_at`` is none while the key signs.
    """

    id: str
    person_id: str | None
    name: str | None
    public_key: bytes
    added_at: str
    retired_at: str | None


def add_signer(store: Store, person_id: str, public_key: bytes, key: SigningKey, now: datetime) -> str:
    """Let an enrolled person sign with a key of their own; returns the key's id.

    Parameters
    ----------
    store : Store
        The records.
    person_id : str
        The person, enrolled before.
    public_key : bytes
        The public half of *their* key, 32 bytes: the private half stays with them.
    key : SigningKey
        A present signer's, who vouches for them.
    now : datetime
        With a time zone.
    """
    with store.transaction():
        body = {"public_key": public_key.hex(), "ref": find_person(store, person_id).ref}
        append(store, kinds.ADDED.name, body, key, now)
    return key_id(public_key)


def retire_signer(store: Store, signer_id: str, reason: str, key: SigningKey, now: datetime) -> None:
    """End a key's use; what it signed before stays good. The last signer cannot be retired.

    Parameters
    ----------
    store : Store
        The records.
    signer_id : str
        Id of the key.
    reason : str
        Why, naming nobody.
    key : SigningKey
        A present signer's.
    now : datetime
        With a time zone.
    """
    with store.transaction() as session:
        names_nobody(session, reason)
        append(store, kinds.RETIRED.name, {"signer": signer_id, "reason": reason.strip()}, key, now)


def signers(store: Store) -> tuple[Signer, ...]:
    """Return every signer, in the order of being added."""
    with store.reading() as session:
        query = (
            select(SignerRow, PersonRow).outerjoin(PersonRow, PersonRow.ref == SignerRow.ref).order_by(SignerRow.seq)
        )
        return tuple(
            Signer(
                signer.id,
                person.id if person else None,
                person.name if person else None,
                bytes.fromhex(signer.public_key),
                signer.added_at,
                signer.retired_at,
            )
            for signer, person in session.execute(query)
        )
