"""What an event kind must offer, and the lookups that several kinds share."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta

from courseware.content.problems import listed
from courseware.content.words import say
from courseware.records.book import Book
from courseware.records.errors import EntryRefusedError
from courseware.records.events import Event
from courseware.records.moments import day_of
from courseware.records.shapes import Shape
from courseware.records.tables import EnrollmentRow, SignerRow


@dataclass(frozen=True, slots=True)
class EventKind:
    """One kind of event.

    Attributes
    ----------
    name : str
        As it stands in the event.
    fields : mapping
        Name to shape of each field of the body; all are required, and there are no others.
    change : callable
        Changes the projections, or raises :class:`EntryRefusedError`.
    later : mapping
        Name to shape of each field that came later: a body without it says what it said before there was one.
    """

    name: str
    fields: Mapping[str, Shape]
    change: Callable[[Event, Book], None]
    later: Mapping[str, Shape] = field(default_factory=dict)

    def hold_shape(self, event: Event) -> None:
        """Refuse a body whose fields are not exactly ours, each in its shape."""
        allowed = {**self.fields, **self.later}
        if not set(self.fields) <= set(event.body) <= set(allowed):
            raise EntryRefusedError("wrong-fields", kind=self.name, found=listed(event.body), allowed=listed(allowed))
        for name, shape in allowed.items():
            if name in event.body and not shape.holds(event.body[name]):
                told = {"field": name, "found": event.body[name], "allowed": say(f"records.{shape.says}")}
                raise EntryRefusedError("wrong-shape", kind=self.name, **told)


def active_signer(signer_id: str, book: Book) -> SignerRow:
    """Return a signer who is registered and not retired."""
    signer = book.find(SignerRow, signer_id)
    if signer is None:
        raise EntryRefusedError("unknown-signer", signer=signer_id)
    if signer.retired_at is not None:
        raise EntryRefusedError("retired-signer", signer=signer_id, at=signer.retired_at)
    return signer


def enrolled(ref: str, book: Book) -> EnrollmentRow:
    """Return the enrollment of a person who is enrolled, not erased, and not merged into another."""
    person = book.find(EnrollmentRow, ref)
    if person is None:
        raise EntryRefusedError("unknown-ref", ref=ref)
    if person.erased_at is not None:
        raise EntryRefusedError("erased-ref", ref=ref, at=person.erased_at)
    if person.merged_into is not None:
        raise EntryRefusedError("merged-ref", ref=ref, into=person.merged_into)
    return person


def hold_day(event: Event, day: str) -> None:
    """Refuse a day that has not come; where the office is, the date may be one ahead of UTC."""
    on = date.fromisoformat(day)
    if on > day_of(event.at) + timedelta(days=1):
        raise EntryRefusedError("not-done-yet", on=on, at=event.at)


def not_for_oneself(event: Event, ref: str, book: Book) -> None:
    """Refuse an entry that a signer makes about their own learning."""
    if active_signer(event.signer, book).ref == ref:
        raise EntryRefusedError("signs-for-oneself")
