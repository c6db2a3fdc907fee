"""The rows that the rules read and write: in the store while appending, in memory while verifying.

The same rules therefore decide what may be written and what must be there.
"""

from collections import defaultdict
from collections.abc import Iterable
from typing import Any, Final, Protocol, TypeVar

from sqlalchemy import inspect, select
from sqlalchemy.orm import Session

from courseware.records.tables import (
    PROJECTIONS,
    CertificateRow,
    EvidenceRow,
    FormRow,
    ResultRow,
    Row,
    SignerRow,
    SignOffRow,
)

R = TypeVar("R", bound=Row)
Moving = SignerRow | FormRow | ResultRow | SignOffRow | EvidenceRow | CertificateRow
"""A row under a person's reference, which goes along when duplicates are merged."""

INDEXED: Final = ("ref", "form")
"""Columns that are searched at every event: without an index, long records would take hours. Of them only ``ref``
ever changes, by :meth:`Book.move`."""


class Book(Protocol):
    """The projections, as the rules of the event kinds see them."""

    def find(self, table: type[R], key: str | int) -> R | None:
        """Return the row with this primary key."""

    def add(self, row: Row) -> None:
        """Add a new row."""

    def every(self, table: type[R], **values: object) -> Iterable[R]:
        """Return the rows whose columns have these values."""

    def move(self, row: Moving, ref: str) -> None:
        """Put a row under another person's reference."""


class StoreBook:
    """The projections in the store, inside a transaction."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def find(self, table: type[R], key: str | int) -> R | None:
        """Return the row with this primary key."""
        return self._session.get(table, key)

    def add(self, row: Row) -> None:
        """Add a new row."""
        self._session.add(row)

    def every(self, table: type[R], **values: object) -> Iterable[R]:
        """Return the rows whose columns have these values."""
        return self._session.scalars(select(table).filter_by(**values)).all()

    def move(self, row: Moving, ref: str) -> None:
        """Put a row under another person's reference."""
        row.ref = ref


class MemoryBook:
    """The projections in memory, made from events alone."""

    def __init__(self) -> None:
        self._rows: dict[type[Row], dict[Any, Row]] = {table: {} for table in PROJECTIONS}
        self._found_by: dict[tuple[type[Row], str, object], list[Row]] = defaultdict(list)

    def find(self, table: type[R], key: str | int) -> R | None:
        """Return the row with this primary key."""
        row = self._rows[table].get(key)
        assert row is None or isinstance(row, table)
        return row

    def add(self, row: Row) -> None:
        """Add a new row."""
        self._rows[type(row)][key_of(row)] = row
        for name in INDEXED:
            if hasattr(row, name):
                self._found_by[type(row), name, getattr(row, name)].append(row)

    def every(self, table: type[R], **values: object) -> Iterable[R]:
        """Return the rows whose columns have these values."""
        rows: Iterable[Row] = self._rows[table].values()
        for name in INDEXED:
            if name in values:
                rows = self._found_by[table, name, values[name]]
        mine = (row for row in rows if isinstance(row, table))
        return [row for row in mine if all(getattr(row, name) == value for name, value in values.items())]

    def move(self, row: Moving, ref: str) -> None:
        """Put a row under another person's reference."""
        self._found_by[type(row), "ref", row.ref].remove(row)
        row.ref = ref
        self._found_by[type(row), "ref", ref].append(row)


def key_name(table: type[Row]) -> str:
    """Return the name of a table's primary key; every projection's has one column."""
    (column,) = inspect(table).primary_key
    return str(column.name)


def key_of(row: Row) -> Any:
    """Return the primary key of a row."""
    return getattr(row, key_name(type(row)))


def columns_of(table: type[Row]) -> tuple[str, ...]:
    """Return the names of a table's columns, in order."""
    return tuple(column.name for column in table.__table__.columns)
