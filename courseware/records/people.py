"""The people: enrolled, corrected, found, merged where one was enrolled twice, and erased on request."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Final

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from courseware.records.errors import EntryRefusedError
from courseware.records.identity import Person, clean_email, clean_name, new_person, person_of
from courseware.records.keys import SigningKey
from courseware.records.kinds import people as kinds
from courseware.records.ledger import append, names_nobody
from courseware.records.moments import day_of
from courseware.records.store import Store
from courseware.records.tables import EnrollmentRow, PersonRow

MOST_NAMED: Final = 8
"""Most ids [-] that a message lists."""


@dataclass(frozen=True, slots=True)
class OnePerson:
    """Two enrollments that turned out to be one person's.

    Attributes
    ----------
    duplicate, kept : str
        Id of the enrollment that goes, and of the one that stays.
    reason : str
        Why the two are one, naming nobody.
    """

    duplicate: str
    kept: str
    reason: str


@dataclass(frozen=True, slots=True)
class Duplicate:
    """A second enrollment of somebody, merged into the first.

    Attributes
    ----------
    id : str
        The id that it had.
    reason : str
        Why the two are one.
    seq : int
        Number [-] of the event that merged them last.
    """

    id: str
    reason: str
    seq: int


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

    Where duplicates were merged into the person, all that tells of those goes with it.

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
        for one in (row, *_duplicates(session, row.ref)):
            session.delete(one)


def merge(store: Store, same: OnePerson, key: SigningKey, now: datetime) -> Person:
    """Record that somebody was enrolled twice: from now on there is one person.

    The events keep both references, and the tables put all that was recorded under the duplicate's under the
    person's. The duplicate's name, e-mail and id still lead to the person, until they are erased with them.

    Parameters
    ----------
    store : Store
        The records.
    same : OnePerson
        Who is no person of their own, and who it is.
    key : SigningKey
        A signer's who is neither of the two.
    now : datetime
        With a time zone.

    Returns
    -------
    Person
        The one who stays.

    Raises
    ------
    EntryRefusedError
        If one of the two does not exist, was erased or merged before, both are the same, or one of them has watched
        or certified the other.
    """
    with store.transaction() as session:
        names_nobody(session, same.reason)
        twice, person = _named(session, same.duplicate), _named(session, same.kept)
        body = {"ref": twice.ref, "into": person.ref, "reason": same.reason.strip()}
        append(store, kinds.MERGED.name, body, key, now)
        return person_of(person)


def duplicates_of(store: Store, person_id: str) -> tuple[Duplicate, ...]:
    """Return the enrollments that were merged into a person's, by id; refused if nobody has the id."""
    with store.reading() as session:
        ref = _row(session, person_id).ref
        query = select(PersonRow.id, EnrollmentRow.merge_reason, EnrollmentRow.last_seq).join(
            EnrollmentRow, EnrollmentRow.ref == PersonRow.ref
        )
        found = session.execute(query.where(EnrollmentRow.merged_into == ref).order_by(PersonRow.id))
        return tuple(Duplicate(one, reason or "", seq) for one, reason, seq in found)


def find_person(store: Store, person_id: str) -> Person:
    """Return the person with this id, or the one whom its bearer was merged into; refused if there is none."""
    with store.reading() as session:
        return person_of(_row(session, person_id))


def people(store: Store) -> tuple[Person, ...]:
    """Return everybody who is enrolled, not erased and no duplicate of another, by id."""
    with store.reading() as session:
        return tuple(person_of(row) for row in _standing(session))


def enrollment_days(store: Store) -> Mapping[str, date]:
    """Return the day (UTC) on which everybody was first enrolled, by id."""
    query = select(EnrollmentRow.ref, EnrollmentRow.merged_into, EnrollmentRow.enrolled_at)
    with store.reading() as session:
        first: dict[str, date] = {}
        for ref, merged_into, at in session.execute(query):
            day, one = day_of(at), merged_into or ref
            first[one] = min(first.get(one, day), day)
        return {person.id: first[person.ref] for person in _standing(session)}


def _standing(session: Session) -> Iterable[PersonRow]:
    query = select(PersonRow).join(EnrollmentRow, EnrollmentRow.ref == PersonRow.ref)
    return session.scalars(query.where(EnrollmentRow.merged_into.is_(None)).order_by(PersonRow.id)).all()


def _row(session: Session, person_id: str) -> PersonRow:
    """Return the row of the person with this id; of a duplicate, the row of whom it was merged into."""
    return _one(session, _named(session, person_id))


def _one(session: Session, row: PersonRow) -> PersonRow:
    into = session.scalar(select(EnrollmentRow.merged_into).where(EnrollmentRow.ref == row.ref))
    if into is None:
        return row
    return session.scalars(select(PersonRow).where(PersonRow.ref == into)).one()


def _duplicates(session: Session, ref: str) -> Iterable[PersonRow]:
    query = select(PersonRow).join(EnrollmentRow, EnrollmentRow.ref == PersonRow.ref)
    return session.scalars(query.where(EnrollmentRow.merged_into == ref)).all()


def _named(session: Session, person_id: str) -> PersonRow:
    row = session.get(PersonRow, person_id.strip().upper())
    if row is None:
        known = [person.id for person in _standing(session)]
        more = ["..."] if len(known) > MOST_NAMED else []
        raise EntryRefusedError("unknown-person", person=person_id, known=", ".join([*known[:MOST_NAMED], *more]))
    return row


def _hold_unique(session: Session, person: Person) -> None:
    if person.email is None:
        return
    query = select(PersonRow).where(PersonRow.email == person.email, PersonRow.id != person.id)
    found = session.scalars(query).first()
    if found is not None:
        other = _one(session, found)
        raise EntryRefusedError("email-known", email=person.email, person=other.id, name=other.name)
