"""Enrollment, correction, merging and erasure of a person, whom the events call by a salted reference."""

from typing import Final

from courseware.records.book import Book, Moving
from courseware.records.errors import EntryRefusedError
from courseware.records.events import Event
from courseware.records.kinds.base import EventKind, active_signer, enrolled
from courseware.records.shapes import DIGEST, TEXT
from courseware.records.tables import (
    CertificateRow,
    EnrollmentRow,
    EvidenceRow,
    FormRow,
    ResultRow,
    SignerRow,
    SignOffRow,
)

UNDER_A_REF: Final[tuple[type[Moving], ...]] = (SignerRow, FormRow, ResultRow, SignOffRow, EvidenceRow, CertificateRow)
"""The tables whose rows stand under a person's reference, and go along when duplicates are merged."""
VOUCHED: Final[tuple[tuple[type[Moving], str], ...]] = (
    (ResultRow, "supervised_by"),
    (SignOffRow, "watched_by"),
    (EvidenceRow, "seen_by"),
    (CertificateRow, "signer"),
)
"""The tables in which a signer vouches for a person, with the column that has the signer's key."""


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
    for one in (person, *book.every(EnrollmentRow, merged_into=person.ref)):
        one.erased_at = event.at
        one.last_seq = event.seq


def _merge(event: Event, book: Book) -> None:
    if event.body["ref"] == event.body["into"]:
        raise EntryRefusedError("merges-itself", ref=event.body["ref"])
    twice, into = enrolled(event.body["ref"], book), enrolled(event.body["into"], book)
    if active_signer(event.signer, book).ref in (twice.ref, into.ref):
        raise EntryRefusedError("merges-oneself")
    _hold_watched_by_others(twice.ref, into.ref, book)
    for one in (twice, *book.every(EnrollmentRow, merged_into=twice.ref)):
        one.merged_into = into.ref
        one.last_seq = event.seq
    twice.merge_reason = event.body["reason"]
    for table in UNDER_A_REF:
        for row in list(book.every(table, ref=twice.ref)):
            book.move(row, into.ref)
            row.last_seq = event.seq


def _hold_watched_by_others(one: str, other: str, book: Book) -> None:
    """Refuse to make one person of two of whom one has watched or certified the other."""
    refs = (one, other)
    keys = {signer.id for ref in refs for signer in book.every(SignerRow, ref=ref)}
    vouched = (
        (row.seq, key)
        for ref in refs
        for table, column in VOUCHED
        for row in book.every(table, ref=ref)
        if (key := getattr(row, column)) in keys
    )
    found = min(vouched, default=None)
    if found is not None:
        raise EntryRefusedError("merges-witness", seq=found[0], signer=found[1])


ENROLLED: Final = EventKind("person-enrolled", {"ref": DIGEST, "identity": DIGEST}, _enroll)
CORRECTED: Final = EventKind("person-corrected", {"ref": DIGEST, "identity": DIGEST}, _correct)
MERGED: Final = EventKind("people-merged", {"ref": DIGEST, "into": DIGEST, "reason": TEXT}, _merge)
ERASED: Final = EventKind("person-erased", {"ref": DIGEST}, _erase)
