"""The people: enrolled, corrected, found, and erased on request."""

from dataclasses import replace
from datetime import datetime
from typing import Final

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from courseware.records.errors import EntryRefusedError
from courseware.records.identity import Person, clean_email, clean_name, new_person, person_of
from courseware.records.keys import SigningKey
from courseware.records.kinds import people as kinds
from courseware.records.ledger import append
from courseware.records.store import Store
from courseware.records.tables import EnrollmentRow, PersonRow

MOST_NAMED: Final = 8
"""Most ids [-] that a message lists."""


def enroll(store: Store, name: str, email: str, key: SigningKey, now: datetime) -> Person:
    """Enroll a person.

    Parameters
    ----------
    store : Store
        The records.
    name : str
        As printed on certificates.
    email : str
        How to tell two people of one name apart; nobody else may have it.
    key : SigningKey
        A signer's.
    now : datetime
        With a time zone.

    Raises
    ------
    EntryRefusedError
        If somebody with this e-mail is enrolled already, or the name or the e-mail is no such thing.
    """
    with store.transaction() as session:
        # Enrollments are never deleted, so the number of an erased person is not given out again.
        number = 1 + (session.scalar(select(func.count()).select_from(EnrollmentRow)) or 0)
        person = new_person(number, name, email, store.new_salt())
        _hold_unique(session, person)
        append(store, kinds.ENROLLED.name, {"ref": person.ref, "identity": person.identity()}, key, now)
        session.add(person.row())
    return person


def correct(store: Store, person: Person, key: SigningKey, now: datetime) -> Person:
    """Correct a person's name or e-mail; the chain keeps that it was corrected, not what.

    Parameters
    ----------
    store : Store
        The records.
    person : Person
        As it should be: ``dataclasses.replace(find_person(store, "T-0001"), name="Pat Doe")``.
    key : SigningKey
        A signer's.
    now : datetime
        With a time zone.

    Raises
    ------
    EntryRefusedError
        As :func:`enroll`, and if there is no such person.
    """
    right = replace(person, name=clean_name(person.name), email=clean_email(person.email))
    with store.transaction() as session:
        row = _row(session, right.id)
        _hold_unique(session, right)
        append(store, kinds.CORRECTED.name, {"ref": right.ref, "identity": right.identity()}, key, now)
        row.name, row.email = right.name, right.email
    return right


def erase(store: Store, person_id: str, key: SigningKey, now: datetime) -> None:
    """Delete all that tells who a person is; what they did stays in the chain, and nobody can tell whose it was.

    The file keeps no copy: SQLite overwrites what it deletes. Copies of the file, printed certificates and saved
    response files are the office's to destroy.

    Raises
    ------
    EntryRefusedError
        If there is no such person, or they are a signer who is not retired.
    """
    with store.transaction() as session:
        row = _row(session, person_id)
        append(store, kinds.ERASED.name, {"ref": row.ref}, key, now)
        session.delete(row)


def find_person(store: Store, person_id: str) -> Person:
    """Return the person with this id; refused, naming the ids there are, if there is none."""
    with store.reading() as session:
        return person_of(_row(session, person_id))


def people(store: Store) -> tuple[Person, ...]:
    """Return everybody who is enrolled and not erased, by id."""
    with store.reading() as session:
        return tuple(person_of(row) for row in session.scalars(select(PersonRow).order_by(PersonRow.id)))


def _row(session: Session, person_id: str) -> PersonRow:
    row = session.get(PersonRow, person_id.strip().upper())
    if row is None:
        known = session.scalars(select(PersonRow.id).order_by(PersonRow.id)).all()
        more = ["..."] if len(known) > MOST_NAMED else []
        raise EntryRefusedError("unknown-person", person=person_id, known=", ".join([*known[:MOST_NAMED], *more]))
    return row


def _hold_unique(session: Session, person: Person) -> None:
    if person.email is None:
        return
    query = select(PersonRow).where(PersonRow.email == person.email, PersonRow.id != person.id)
    other = session.scalars(query).first()
    if other is not None:
        raise EntryRefusedError("email-known", email=person.email, person=other.id, name=other.name)
