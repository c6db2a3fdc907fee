"""Who may sign: adding and retiring the key of a qualified technician."""

from typing import Final

from courseware.records.book import Book
from courseware.records.errors import EntryRefusedError
from courseware.records.events import Event
from courseware.records.keys import key_id
from courseware.records.kinds.base import EventKind, active_signer, enrolled
from courseware.records.shapes import DIGEST, KEY_ID, TEXT
from courseware.records.tables import SignerRow


def _add(event: Event, book: Book) -> None:
    public_key = event.body["public_key"]
    name = key_id(bytes.fromhex(public_key))
    enrolled(event.body["ref"], book)
    if book.find(SignerRow, name) is not None:
        raise EntryRefusedError("key-known", signer=name)
    book.add(
        SignerRow(
            id=name,
            seq=event.seq,
            last_seq=event.seq,
            public_key=public_key,
            ref=event.body["ref"],
            added_at=event.at,
        )
    )


def _retire(event: Event, book: Book) -> None:
    signer = active_signer(event.body["signer"], book)
    if len(list(book.every(SignerRow, retired_at=None))) == 1:
        raise EntryRefusedError("last-signer")
    signer.retired_at = event.at
    signer.last_seq = event.seq


ADDED: Final = EventKind("signer-added", {"public_key": DIGEST, "ref": DIGEST}, _add)
RETIRED: Final = EventKind("signer-retired", {"signer": KEY_ID, "reason": TEXT}, _retire)
