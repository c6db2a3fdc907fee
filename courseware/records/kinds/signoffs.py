"""A signer vouches that a person carried out a procedure on a real unit while the signer watched; or takes it back."""

from typing import Final

from courseware.records.book import Book
from courseware.records.errors import EntryRefusedError
from courseware.records.events import Event
from courseware.records.kinds.base import EventKind, active_signer, enrolled, hold_day, not_for_oneself
from courseware.records.shapes import DAY, DIGEST, KEY_ID, SEQ, TEXT, TEXT_OR_EMPTY
from courseware.records.tables import SignOffRow


def _sign_off(event: Event, book: Book) -> None:
    body = event.body
    enrolled(body["ref"], book)
    not_for_oneself(event, body["ref"], book)
    if active_signer(body["watched_by"], book).ref == body["ref"]:
        raise EntryRefusedError("signs-off-oneself")
    hold_day(event, body["on"])
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
            serial=body.get("serial", ""),
        )
    )


def _withdraw(event: Event, book: Book) -> None:
    signoff = book.find(SignOffRow, event.body["signoff"])
    if signoff is None:
        raise EntryRefusedError("unknown-signoff", seq=event.body["signoff"])
    not_for_oneself(event, signoff.ref, book)
    if signoff.withdrawn_at is not None:
        raise EntryRefusedError("signoff-withdrawn-already", seq=signoff.seq, at=signoff.withdrawn_at)
    signoff.withdrawn_at = event.at
    signoff.withdrawn_reason = event.body["reason"]
    signoff.last_seq = event.seq


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
    later={"serial": TEXT},
)
WITHDRAWN: Final = EventKind("sign-off-withdrawn", {"signoff": SEQ, "reason": TEXT}, _withdraw)
