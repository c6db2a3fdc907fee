"""The first event, which sets up the company and its first qualified signer; and the setting right of its clock."""

from typing import Final

from courseware.records.book import Book
from courseware.records.errors import EntryRefusedError
from courseware.records.events import Event
from courseware.records.keys import key_id
from courseware.records.kinds.base import EventKind
from courseware.records.shapes import DIGEST, TEXT
from courseware.records.tables import EnrollmentRow, SignerRow


def _begin(event: Event, book: Book) -> None:
    body = event.body
    if event.signer != key_id(bytes.fromhex(body["public_key"])):
        raise EntryRefusedError("wrong-key-id", signer=event.signer)
    book.add(
        EnrollmentRow(
            ref=body["ref"], seq=event.seq, last_seq=event.seq, identity=body["identity"], enrolled_at=event.at
        )
    )
    book.add(
        SignerRow(
            id=event.signer,
            seq=event.seq,
            last_seq=event.seq,
            public_key=body["public_key"],
            ref=body["ref"],
            added_at=event.at,
        )
    )


def _correct_clock(_event: Event, _book: Book) -> None:
    """Change no row: the one entry that may be dated before its predecessor, see :mod:`..ledger`."""


BEGUN: Final = EventKind(
    "company-begun", {"company": TEXT, "public_key": DIGEST, "ref": DIGEST, "identity": DIGEST}, _begin
)
CLOCK_CORRECTED: Final = EventKind("clock-corrected", {"reason": TEXT}, _correct_clock)
