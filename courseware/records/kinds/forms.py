"""A quiz form going out to one person, and its response coming back, once; or never, because it was voided."""

from typing import Final

from courseware.records.book import Book
from courseware.records.errors import EntryRefusedError
from courseware.records.events import Event
from courseware.records.kinds.base import EventKind, enrolled
from courseware.records.shapes import CHANNEL, DIGEST, MOMENT_OR_EMPTY, TEXT
from courseware.records.tables import FormRow


def _issue(event: Event, book: Book) -> None:
    body = event.body
    enrolled(body["ref"], book)
    if book.find(FormRow, body["form"]) is not None:
        raise EntryRefusedError("form-known", form=body["form"])
    book.add(
        FormRow(
            id=body["form"],
            seq=event.seq,
            last_seq=event.seq,
            ref=body["ref"],
            blueprint=body["blueprint"],
            course_version=body["course_version"],
            course_hash=body["course_hash"],
            form_sha256=body["form_sha256"],
            key_sha256=body["key_sha256"],
            issued_at=event.at,
        )
    )


def _receive(event: Event, book: Book) -> None:
    form = known_form(event.body["form"], book)
    enrolled(form.ref, book)
    _hold_out(form)
    form.answered_at = event.at
    form.response_sha256 = event.body["response_sha256"]
    form.channel = event.body["channel"]
    form.last_seq = event.seq


def _void(event: Event, book: Book) -> None:
    form = known_form(event.body["form"], book)
    _hold_out(form)
    form.voided_at = event.at
    form.void_reason = event.body["reason"]
    form.last_seq = event.seq


def _hold_out(form: FormRow) -> None:
    """Refuse a form that has come back already, or never will."""
    if form.answered_at is not None:
        raise EntryRefusedError("form-answered", form=form.id, at=form.answered_at)
    if form.voided_at is not None:
        raise EntryRefusedError("form-voided", form=form.id, at=form.voided_at, reason=form.void_reason)


def known_form(form_id: str, book: Book) -> FormRow:
    """Return a form that was issued."""
    form = book.find(FormRow, form_id)
    if form is None:
        raise EntryRefusedError("unknown-form", form=form_id)
    return form


ISSUED: Final = EventKind(
    "form-issued",
    {
        "form": TEXT,
        "ref": DIGEST,
        "blueprint": TEXT,
        "course_version": TEXT,
        "course_hash": DIGEST,
        "form_sha256": DIGEST,
        "key_sha256": DIGEST,
    },
    _issue,
)
RECEIVED: Final = EventKind(
    "response-received",
    {
        "form": TEXT,
        "response_sha256": DIGEST,
        "channel": CHANNEL,
        "started": MOMENT_OR_EMPTY,
        "finished": MOMENT_OR_EMPTY,
    },
    _receive,
)
VOIDED: Final = EventKind("form-voided", {"form": TEXT, "reason": TEXT}, _void)
