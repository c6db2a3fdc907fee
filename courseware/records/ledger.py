"""Writing the record: the first event, every later one, and the end of the chain."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from courseware.content.canonical import read_canonical
from courseware.records.book import StoreBook
from courseware.records.errors import EntryRefusedError
from courseware.records.events import GENESIS, Event, Head, seal
from courseware.records.identity import Person, new_person
from courseware.records.keys import SigningKey
from courseware.records.kinds import apply, company
from courseware.records.moments import stamp
from courseware.records.store import Store
from courseware.records.tables import EventRow, PersonRow

MAY_STEP_BACK: Final = company.CLOCK_CORRECTED.name
"""The one kind of event that may be dated before its predecessor: after a clock ran ahead, the records would
otherwise stay closed until that day came."""


@dataclass(frozen=True, slots=True)
class Company:
    """Whose records these are.

    Attributes
    ----------
    name : str
        As set up by the first event.
    begun_at : str
        When that was, UTC.
    """

    name: str
    begun_at: str


def begin(store: Store, company_name: str, signer_name: str, key: SigningKey, now: datetime) -> Person:
    """Set up the company and its first qualified signer.

    Parameters
    ----------
    store : Store
        New and empty.
    company_name : str
        As printed on certificates.
    signer_name : str
        The technician who vouches for what follows; the name is kept with the people, not in the chain.
    key : SigningKey
        That technician's key.
    now : datetime
        With a time zone.

    Returns
    -------
    Person
        The signer, who has no e-mail yet: :func:`courseware.records.people.correct` adds it.

    Raises
    ------
    EntryRefusedError
        If the records have been begun before, or a name is empty.
    """
    person = new_person(1, signer_name, None, store.new_salt())
    with store.transaction() as session:
        body = {
            "company": company_name.strip(),
            "public_key": key.public.hex(),
            "ref": person.ref,
            "identity": person.identity(),
        }
        append(store, company.BEGUN.name, body, key, now)
        session.add(person.row())
    return person


def append(store: Store, kind: str, body: Mapping[str, Any], key: SigningKey, now: datetime) -> Event:
    """Append one event and change the projections, in one transaction.

    Raises
    ------
    EntryRefusedError
        If the rules of the kind refuse it (see :mod:`courseware.records.kinds`), or the clock is behind
        the last event; nothing is written.
    BusyStoreError
        If another program holds the file for too long.
    """
    with store.transaction() as session:
        last = _last(session)
        before = Head(last.seq, last.hash) if last else Head(0, GENESIS)
        event = Event(before.seq + 1, stamp(now), kind, key.id, dict(body))
        if last and event.at < last.at and kind != MAY_STEP_BACK:
            raise EntryRefusedError("clock-behind", last=last.at, now=event.at)
        apply(event, StoreBook(session))
        sealed = seal(event, before.hash, key)
        session.add(
            EventRow(
                seq=event.seq,
                at=event.at,
                kind=event.kind,
                signer=event.signer,
                body=sealed.body,
                prev_hash=sealed.prev_hash,
                hash=sealed.hash,
                signature=sealed.signature,
            )
        )
        session.flush()
    return event


def correct_clock(store: Store, reason: str, key: SigningKey, now: datetime) -> Event:
    """Record that the clock was wrong, so that entries may be dated before the last one again.

    Parameters
    ----------
    store : Store
        The records.
    reason : str
        What was wrong; it names nobody, because it cannot be erased.
    key : SigningKey
        A signer's.
    now : datetime
        The right time, with a time zone.
    """
    with store.transaction() as session:
        names_nobody(session, reason)
        return append(store, company.CLOCK_CORRECTED.name, {"reason": reason.strip()}, key, now)


def head(store: Store) -> Head:
    """Return the end of the chain, to be saved outside the store."""
    with store.reading() as session:
        last = _last(session)
        return Head(last.seq, last.hash) if last else Head(0, GENESIS)


def company_of(store: Store) -> Company | None:
    """Return whose records these are; none if they have not been begun."""
    with store.reading() as session:
        first = session.get(EventRow, 1)
        return Company(read_canonical(first.body)["company"], first.at) if first else None


def names_nobody(session: Session, text: str) -> None:
    """Refuse a text for the chain that tells a person's name or e-mail: it would outlive their erasure."""
    folded = " ".join(text.split()).casefold()
    if not folded:
        return
    for person in session.scalars(select(PersonRow)):
        for told in (person.name, person.email):
            if told and re.search(rf"(?<!\w){re.escape(told.casefold())}(?!\w)", folded):
                raise EntryRefusedError("names-person", person=person.id)


def _last(session: Session) -> EventRow | None:
    return session.get(EventRow, session.scalar(select(func.max(EventRow.seq))) or 0)
