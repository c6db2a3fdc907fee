"""A signer vouches that they saw evidence of what somebody has learned or done elsewhere; or takes it back."""

from typing import Final

from courseware.records.book import Book
from courseware.records.errors import EntryRefusedError
from courseware.records.events import Event
from courseware.records.kinds.base import EventKind, active_signer, enrolled, hold_day, not_for_oneself
from courseware.records.shapes import DAY, DIGEST, KEY_ID, SEQ, TEXT, TOPIC
from courseware.records.tables import EvidenceRow


def _enter(event: Event, book: Book) -> None:
    body = event.body
    enrolled(body["ref"], book)
    not_for_oneself(event, body["ref"], book)
    if active_signer(body["seen_by"], book).ref == body["ref"]:
        raise EntryRefusedError("sees-own-evidence")
    hold_day(event, body["seen_on"])
    book.add(
        EvidenceRow(
            seq=event.seq,
            last_seq=event.seq,
            ref=body["ref"],
            topic=body["topic"],
            name=body["name"],
            evidence=body["evidence"],
            seen_on=body["seen_on"],
            seen_by=body["seen_by"],
            course_version=body["course_version"],
            course_hash=body["course_hash"],
        )
    )


def _withdraw(event: Event, book: Book) -> None:
    entry = book.find(EvidenceRow, event.body["entry"])
    if entry is None:
        raise EntryRefusedError("unknown-evidence", seq=event.body["entry"])
    not_for_oneself(event, entry.ref, book)
    if entry.withdrawn_at is not None:
        raise EntryRefusedError("evidence-withdrawn-already", seq=entry.seq, at=entry.withdrawn_at)
    entry.withdrawn_at = event.at
    entry.withdrawn_reason = event.body["reason"]
    entry.last_seq = event.seq


ENTERED: Final = EventKind(
    "evidence-entered",
    {
        "ref": DIGEST,
        "topic": TOPIC,
        "name": TEXT,
        "evidence": TEXT,
        "seen_on": DAY,
        "seen_by": KEY_ID,
        "course_version": TEXT,
        "course_hash": DIGEST,
    },
    _enter,
)
WITHDRAWN: Final = EventKind("evidence-withdrawn", {"entry": SEQ, "reason": TEXT}, _withdraw)
