"""Experienced staff: what somebody learned or did elsewhere, entered with the evidence that a signer saw of it."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import ColumnElement

from courseware.records.events import Event
from courseware.records.keys import SigningKey
from courseware.records.kinds import evidence as kinds
from courseware.records.ledger import append, names_nobody
from courseware.records.people import find_person
from courseware.records.store import Store
from courseware.records.tables import EvidenceRow
from courseware.records.vouched import Withdrawal, with_signer, withdrawal_of


@dataclass(frozen=True, slots=True)
class Evidence:
    """What a signer saw.

    Attributes
    ----------
    topic, name : str
        ``program`` or ``procedure``, and which one: evidence on a program is of knowing what its quizzes ask, on a
        procedure of carrying it out.
    evidence : str
        What was seen, naming nobody: a card with its number, a letter, work watched.
    seen_on : date
        The day on which the signer saw it; from there on it counts as long as a result.
    seen_by : str
        Key id of the signer who saw it.
    course_version, course_hash : str
        Of the course that has the program or the procedure; the hash in 64 hexadecimal digits.
    """

    topic: str
    name: str
    evidence: str
    seen_on: date
    seen_by: str
    course_version: str
    course_hash: str


@dataclass(frozen=True, slots=True)
class EvidenceEntry:
    """Evidence, as it is recorded.

    Attributes
    ----------
    seq : int
        Number [-] of the event that recorded it.
    seen : Evidence
        What was seen.
    signer_name : str or None
        Who saw it; none once erased.
    withdrawn : Withdrawal or None
        When and why it was taken back, if it was.
    """

    seq: int
    seen: Evidence
    signer_name: str | None
    withdrawn: Withdrawal | None


def enter_evidence(store: Store, person_id: str, seen: Evidence, key: SigningKey, now: datetime) -> Event:
    """Record evidence of what a person learned or did elsewhere.

    Parameters
    ----------
    store : Store
        The records.
    person_id : str
        Whose it is.
    seen : Evidence
        What was seen.
    key : SigningKey
        A signer's, not the person's own.
    now : datetime
        With a time zone.

    Raises
    ------
    EntryRefusedError
        If there is no such person, who saw it is no active signer or is the person, the day has not come, or the
        text is empty or names somebody.
    """
    with store.transaction() as session:
        names_nobody(session, seen.evidence)
        body = {
            "ref": find_person(store, person_id).ref,
            "topic": seen.topic,
            "name": seen.name,
            "evidence": seen.evidence.strip(),
            "seen_on": seen.seen_on.isoformat(),
            "seen_by": seen.seen_by,
            "course_version": seen.course_version,
            "course_hash": seen.course_hash,
        }
        return append(store, kinds.ENTERED.name, body, key, now)


def withdraw_evidence(store: Store, seq: int, reason: str, key: SigningKey, now: datetime) -> Event:
    """Take evidence back: it counts for no certificate from now on. Those that rest on it stay as they are.

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
        If the event is no evidence, it was taken back before, or the reason is empty or names somebody.
    """
    with store.transaction() as session:
        names_nobody(session, reason)
        return append(store, kinds.WITHDRAWN.name, {"entry": seq, "reason": reason.strip()}, key, now)


def evidence_of(store: Store, person_id: str) -> tuple[EvidenceEntry, ...]:
    """Return all evidence of one person, also what was taken back; in the order of recording."""
    with store.reading():
        return _entries(store, EvidenceRow.ref == find_person(store, person_id).ref)


def evidence_in(store: Store, seqs: Collection[int]) -> tuple[EvidenceEntry, ...]:
    """Return the evidence that these events recorded, in their order; whose it is does not matter."""
    return _entries(store, EvidenceRow.seq.in_(seqs))


def _entries(store: Store, which: ColumnElement[bool]) -> tuple[EvidenceEntry, ...]:
    return tuple(_entry(*found) for found in with_signer(store, EvidenceRow, EvidenceRow.seen_by, which))


def _entry(row: EvidenceRow, signer_name: str | None) -> EvidenceEntry:
    seen = Evidence(
        topic=row.topic,
        name=row.name,
        evidence=row.evidence,
        seen_on=date.fromisoformat(row.seen_on),
        seen_by=row.seen_by,
        course_version=row.course_version,
        course_hash=row.course_hash,
    )
    return EvidenceEntry(row.seq, seen, signer_name, withdrawal_of(row))
