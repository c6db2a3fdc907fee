"""The events as JSON lines, for an auditor who has neither the database nor any name.

One line an event: its content as it was hashed, and beside it the hashes and the signature in
hexadecimal. :func:`courseware.records.verify.verify_lines` checks them.
"""

from collections.abc import Iterator, Mapping
from typing import Any, Final

from sqlalchemy import select

from courseware.content.canonical import canonical, read_canonical
from courseware.records.errors import BadEventError
from courseware.records.events import EVENT_FORMAT, Sealed
from courseware.records.store import Store
from courseware.records.tables import EventRow

LINE_FIELDS: Final = frozenset({"at", "body", "format", "hash", "kind", "prev_hash", "seq", "signature", "signer"})


def export_events(store: Store) -> Iterator[dict[str, Any]]:
    """Yield every event, in order, as a value for one JSON line.

    Raises
    ------
    BadEventError
        If a body cannot be read; whatever else is wrong, :func:`courseware.records.verify.verify` tells.
    """
    with store.reading() as session:
        rows = session.scalars(select(EventRow).order_by(EventRow.seq)).all()
    for row in rows:
        try:
            body = read_canonical(row.body)
        except ValueError as error:
            raise BadEventError(row.seq, "event-unreadable") from error
        yield {
            "format": EVENT_FORMAT,
            "seq": row.seq,
            "at": row.at,
            "kind": row.kind,
            "signer": row.signer,
            "body": body,
            "prev_hash": row.prev_hash.hex(),
            "hash": row.hash.hex(),
            "signature": row.signature.hex(),
        }


def event_lines(store: Store) -> Iterator[str]:
    """Yield every event, in order, as one line of JSON with its line end."""
    for value in export_events(store):
        yield canonical(value).decode("utf-8") + "\n"


def read_line(line: str, seq: int) -> Sealed:
    """Return the event that a line claims to be, unverified.

    Raises
    ------
    BadEventError
        If the line is no event of our format; ``seq`` is the number [-] it should have.
    """
    try:
        found = read_canonical(line.rstrip("\n").encode("utf-8"))
        _hold(found)
        return Sealed(
            seq=found["seq"],
            at=found["at"],
            kind=found["kind"],
            signer=found["signer"],
            body=canonical(found["body"]),
            prev_hash=bytes.fromhex(found["prev_hash"]),
            hash=bytes.fromhex(found["hash"]),
            signature=bytes.fromhex(found["signature"]),
        )
    except (ValueError, TypeError, RecursionError) as error:
        raise BadEventError(seq, "line-unreadable") from error


def _hold(found: Any) -> None:
    if not isinstance(found, Mapping) or found.keys() != LINE_FIELDS or found["format"] != EVENT_FORMAT:
        raise ValueError("not an event of our format")
