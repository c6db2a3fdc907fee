"""The marks of a form; a wrong one is never changed but replaced by another that says why."""

from decimal import Decimal
from typing import Final

from courseware.content.canonical import canonical
from courseware.records.book import Book
from courseware.records.errors import EntryRefusedError
from courseware.records.events import Event
from courseware.records.kinds.base import EventKind, active_signer, enrolled, not_for_oneself
from courseware.records.kinds.forms import known_form
from courseware.records.shapes import (
    FLAG,
    KEY_ID,
    KEY_ID_OR_NONE,
    PERCENT,
    PERCENTS,
    POINTS_BY_ITEM,
    SEQ_OR_NONE,
    TEXT,
    TEXT_OR_EMPTY,
    TEXTS,
)
from courseware.records.tables import FormRow, ResultRow


def _record(event: Event, book: Book) -> None:
    body = event.body
    form = known_form(body["form"], book)
    enrolled(form.ref, book)
    not_for_oneself(event, form.ref, book)
    if form.answered_at is None:
        raise EntryRefusedError("form-unanswered", form=form.id)
    _hold_pass(event)
    _hold_supervisor(body["supervised_by"], form, book)
    _hold_hand(event, form, book)
    _replace(event, form, book)
    book.add(
        ResultRow(
            seq=event.seq,
            last_seq=event.seq,
            form=form.id,
            ref=form.ref,
            blueprint=form.blueprint,
            score=body["score"],
            cut=body["cut"],
            passed=body["passed"],
            gates=canonical(body["gates"]).decode("utf-8"),
            objectives=canonical(body["objectives"]).decode("utf-8"),
            supervised_by=body["supervised_by"],
            recorded_at=event.at,
        )
    )


def _hold_pass(event: Event) -> None:
    body = event.body
    if body["passed"] and body["gates"]:
        raise EntryRefusedError("passed-broken-gate", gates=", ".join(body["gates"]))
    if body["passed"] and Decimal(body["score"]) < Decimal(body["cut"]):
        raise EntryRefusedError("passed-below-cut", score=body["score"], cut=body["cut"])


def _hold_supervisor(supervisor: str | None, form: FormRow, book: Book) -> None:
    """Hold the supervisor to an active signer who is not the person who answered."""
    if supervisor is not None and active_signer(supervisor, book).ref == form.ref:
        raise EntryRefusedError("supervises-oneself")


def _hold_hand(event: Event, form: FormRow, book: Book) -> None:
    """Hold points given by hand to a result that they correct, and to a signer who decided so and did not answer."""
    body = event.body
    if "by_hand" not in body and "decided_by" not in body:
        return
    if "by_hand" not in body or "decided_by" not in body or body["replaces"] is None:
        raise EntryRefusedError("by-hand-alone", form=form.id)
    if active_signer(body["decided_by"], book).ref == form.ref:
        raise EntryRefusedError("decides-for-oneself")


def _replace(event: Event, form: FormRow, book: Book) -> None:
    """Let a form have one result that stands: the first, or the one that replaces it."""
    replaces, reason = event.body["replaces"], event.body["reason"]
    standing = [row for row in book.every(ResultRow, form=form.id) if row.replaced_by is None]
    if not standing:
        if replaces is not None:
            raise EntryRefusedError("nothing-to-replace", form=form.id, replaces=replaces)
        return
    (row,) = standing
    if replaces is None:
        raise EntryRefusedError("result-known", form=form.id, seq=row.seq)
    if replaces != row.seq:
        raise EntryRefusedError("replaces-another", form=form.id, seq=row.seq, replaces=replaces)
    if not reason:
        raise EntryRefusedError("replaces-without-reason", form=form.id, seq=row.seq)
    row.replaced_by = event.seq
    row.last_seq = event.seq


RECORDED: Final = EventKind(
    "result-recorded",
    {
        "form": TEXT,
        "score": PERCENT,
        "cut": PERCENT,
        "passed": FLAG,
        "gates": TEXTS,
        "objectives": PERCENTS,
        "supervised_by": KEY_ID_OR_NONE,
        "replaces": SEQ_OR_NONE,
        "reason": TEXT_OR_EMPTY,
    },
    _record,
    later={"by_hand": POINTS_BY_ITEM, "decided_by": KEY_ID},
)
