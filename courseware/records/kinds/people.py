"""Enrollment, correction and erasure of a person, whom the events call by a salted reference."""

from typing import Final

from courseware.records.book import Book
from courseware.records.errors import EntryRefusedError
from courseware.records.events import Event
from courseware.records.kinds.base import EventKind, enrolled
from courseware.records.shapes import DIGEST
from courseware.records.tables import EnrollmentRow, SignerRow


def _enroll(event: Event, book: Book) -> None:
    ref = event.body["ref"]
    if book.find(EnrollmentRow, ref) is not None:
        raise EntryRefusedError("already-enrolled", ref=ref)
    book.add(
        EnrollmentRow(ref=ref, seq=event.seq, last_seq=event.seq, identity=event.body["identity"], enrolled_at=event.at)
    )


def _correct(event: Event, book: Book) -> None:
    person = enrolled(event.body["ref"], book)
    person.identity = event.body["identity"]
    person.last_seq = event.seq


def _erase(event: Event, book: Book) -> None:
    person = enrolled(event.body["ref"], book)
    if any(signer.retired_at is None for signer in book.every(SignerRow, ref=person.ref)):
        raise EntryRefusedError("erases-signer")
    person.erased_at = event.at
    person.last_seq = event.seq


ENROLLED: Final = EventKind("person-enrolled", {"ref": DIGEST, "identity": DIGEST}, _enroll)
CORRECTED: Final = EventKind("person-corrected", {"ref": DIGEST, "identity": DIGEST}, _correct)
ERASED: Final = EventKind("person-erased", {"ref": DIGEST}, _erase)
