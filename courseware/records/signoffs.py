"""Field sign-offs: a procedure carried out on a real unit, with a qualified signer watching."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import ColumnElement

from courseware.records.events import Event
from courseware.records.keys import SigningKey
from courseware.records.kinds import signoffs as kinds
from courseware.records.ledger import append, names_nobody
from courseware.records.people import find_person
from courseware.records.store import Store
from courseware.records.tables import SignOffRow
from courseware.records.vouched import Withdrawal, with_signer, withdrawal_of


@dataclass(frozen=True, slots=True)
class FieldWork:
    """What a person did on the job, as the signer saw it.

    Attributes
    ----------
    procedure, unit : str
        Ids of the procedure carried out, and of the unit it was carried out on.
    on : date
        The day it was done, which may be before the day it is recorded.
    watched_by : str
        Key id of the signer who watched.
    course_version, course_hash : str
        Of the course whose procedure it was; the hash in 64 hexadecimal digits.
    remark : str
        What the signer has to say of it, naming nobody; may be empty.
    serial : str
        Serial number of the unit, or what its owner calls it, naming nobody; may be empty.
    """

    procedure: str
    unit: str
    on: date
    watched_by: str
    course_version: str
    course_hash: str
    remark: str = ""
    serial: str = ""


@dataclass(frozen=True, slots=True)
class SignOff:
    """A sign-off, as it is recorded.

    Attributes
    ----------
    seq : int
        Number [-] of the event that recorded it.
    work : FieldWork
        What was done.
    signer_name : str or None
        Who watched; none once erased.
    withdrawn : Withdrawal or None
        When and why it was taken back, if it was.
    """

    seq: int
    work: FieldWork
    signer_name: str | None
    withdrawn: Withdrawal | None = None


def sign_off(store: Store, person_id: str, work: FieldWork, key: SigningKey, now: datetime) -> Event:
    """Record that a person carried out a procedure while a signer watched.

    Parameters
    ----------
    store : Store
        The records.
    person_id : str
        Who did it.
    work : FieldWork
        What they did.
    key : SigningKey
        A signer's, not the person's own.
    now : datetime
        With a time zone.

    Raises
    ------
    EntryRefusedError
        If there is no such person, the watcher is no active signer or is the person, the day has not come, or
        the remark names somebody.
    """
    with store.transaction() as session:
        names_nobody(session, work.remark)
        names_nobody(session, work.serial)
        body = {
            "ref": find_person(store, person_id).ref,
            "procedure": work.procedure,
            "unit": work.unit,
            "on": work.on.isoformat(),
            "watched_by": work.watched_by,
            "remark": work.remark.strip(),
            "course_version": work.course_version,
            "course_hash": work.course_hash,
        }
        if serial := work.serial.strip():
            body["serial"] = serial
        return append(store, kinds.SIGNED_OFF.name, body, key, now)


def withdraw_sign_off(store: Store, seq: int, reason: str, key: SigningKey, now: datetime) -> Event:
    """Take a sign-off back: it counts for no certificate from now on. Those that rest on it stay as they are.

    Parameters
    ----------
    store : Store
        The records.
    seq : int
        Number [-] of the event that recorded it.
    reason : str
        What was wrong with it, naming nobody.
    key : SigningKey
        A signer's, not the person's own.
    now : datetime
        With a time zone.

    Raises
    ------
    EntryRefusedError
        If the event is no sign-off, it was taken back before, or the reason is empty or names somebody.
    """
    with store.transaction() as session:
        names_nobody(session, reason)
        return append(store, kinds.WITHDRAWN.name, {"signoff": seq, "reason": reason.strip()}, key, now)


def signoffs_of(store: Store, person_id: str) -> tuple[SignOff, ...]:
    """Return every sign-off of one person, also those taken back; in the order of recording."""
    with store.reading():
        return _signoffs(store, SignOffRow.ref == find_person(store, person_id).ref)


def signoffs_in(store: Store, seqs: Collection[int]) -> tuple[SignOff, ...]:
    """Return the sign-offs that these events recorded, in their order; whose they are does not matter."""
    return _signoffs(store, SignOffRow.seq.in_(seqs))


def _signoffs(store: Store, which: ColumnElement[bool]) -> tuple[SignOff, ...]:
    return tuple(_signoff(*found) for found in with_signer(store, SignOffRow, SignOffRow.watched_by, which))


def _signoff(row: SignOffRow, signer_name: str | None) -> SignOff:
    work = FieldWork(
        procedure=row.procedure,
        unit=row.unit,
        on=date.fromisoformat(row.done_on),
        watched_by=row.watched_by,
        course_version=row.course_version,
        course_hash=row.course_hash,
        remark=row.remark,
        serial=row.serial,
    )
    return SignOff(row.seq, work, signer_name, withdrawal_of(row))
