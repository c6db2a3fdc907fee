"""A signer vouches that a person carried out a procedure on a real unit while the signer watched."""

from datetime import date, timedelta
from typing import Final

from courseware.records.book import Book
from courseware.records.errors import EntryRefusedError
from courseware.records.events import Event
from courseware.records.kinds.base import EventKind, active_signer, enrolled, not_for_oneself
from courseware.records.moments import day_of
from courseware.records.shapes import DAY, DIGEST, KEY_ID, TEXT, TEXT_OR_EMPTY
from courseware.records.tables import SignOffRow


def _sign_off(event: Event, book: Book) -> None:
    body = event.body
    enrolled(body["ref"], book)
    not_for_oneself(event, body["ref"], book)
    if active_signer(body["watched_by"], book).ref == body["ref"]:
        raise EntryRefusedError("signs-off-oneself")
    _hold_day(event)
    book.add(
        SignOffRow(
            seq=event.seq,
            last_seq=event.seq,
            ref=body["ref"],
            procedure=body["procedure"],
            unit=body["unit"],
            done_on=body["on"],
            watched_by=body["watched_by"],
            remark=body["remark"],
            course_version=body["course_version"],
            course_hash=body["course_hash"],
        )
    )


def _hold_day(event: Event) -> None:
    """Refuse a day that has not come; where the office is, the date may be one ahead of UTC."""
    on = date.fromisoformat(event.body["on"])
    if on > day_of(event.at) + timedelta(days=1):
        raise EntryRefusedError("not-done-yet", on=on, at=event.at)


SIGNED_OFF: Final = EventKind(
    "procedure-signed-off",
    {
        "ref": DIGEST,
        "procedure": TEXT,
        "unit": TEXT,
        "on": DAY,
        "watched_by": KEY_ID,
        "remark": TEXT_OR_EMPTY,
        "course_version": TEXT,
        "course_hash": DIGEST,
    },
    _sign_off,
)
