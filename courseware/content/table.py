"""A table that somebody keeps in a spreadsheet: CSV (RFC 4180) or XLSX, with the names of its columns in the first row.

Which of the two a file is, its first bytes say, not its name. A fault is told by the row and the column, as the
spreadsheet numbers them; in CSV a row may be several lines of text.
"""

import csv
import io
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from courseware.content.problems import Problems, listed, nearest
from courseware.content.source import Source
from courseware.content.words import say
from courseware.content.workbook import OLE, ZIP, Unfit, Value, read_workbook

LARGEST_TABLE: Final = 5_000_000


@dataclass(frozen=True, slots=True)
class Columns:
    """What the columns of a table are called; capitals count for nothing.

    Attributes
    ----------
    required, optional : tuple of str
        Their names, in lower case.
    others : bool
        Whether columns of other names may stand there, and are left alone.
    """

    required: tuple[str, ...]
    optional: tuple[str, ...] = ()
    others: bool = False

    @property
    def names(self) -> tuple[str, ...]:
        """Return all names, the required ones first."""
        return self.required + self.optional


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a table.

    Attributes
    ----------
    source : Source
        File and number of the row.
    texts : mapping of str to str
        By the name of each column that was asked for; empty where the cell is, or the column is not there.
    places : mapping of str to str
        Name of each of them that is there, to how a message names the cell: ``B4, email``.
    """

    source: Source
    texts: Mapping[str, str]
    places: Mapping[str, str]

    def where(self, column: str) -> str:
        """Return how a message names the cell; nothing for a column that is not there."""
        return self.places.get(column, "")


def read_table(path: Path, columns: Columns, problems: Problems) -> tuple[Row, ...]:
    """Read a table.

    Parameters
    ----------
    path : Path
        A CSV file in UTF-8, or an XLSX workbook, whose first sheet that is not hidden is read.
    columns : Columns
        What is asked of it.
    problems : Problems
        Receives every fault found.

    Returns
    -------
    tuple of Row
        The rows below the first that are not blank and without a fault.

    Raises
    ------
    OSError
        If the file cannot be opened.
    """
    start = Source(path.as_posix(), 1)
    faults = len(problems)
    rows = {number: cells for number, cells in _cells(path, start, problems).items() if any(cells)}
    if not rows:
        if len(problems) == faults:
            _lacking(columns, columns.required, start, problems)
        return ()
    header, *body = rows.items()
    heads = {at: _head(cell) for at, cell in enumerate(header[1])}
    if not _hold_heads(heads, columns, Source(start.file, header[0]), problems):
        return ()
    if not body:
        problems.add(start, "", say("content_table.empty"), advice=say("content_table.empty-try"))
    read = (_row(Source(start.file, number), cells, heads, columns, problems) for number, cells in body)
    return tuple(row for row in read if row is not None)


def _cells(path: Path, start: Source, problems: Problems) -> Mapping[int, list[Value]]:
    """Return the cells of every row, by its number."""
    size = path.stat().st_size
    if size > LARGEST_TABLE:
        found = say("content_table.too-large", size=size, limit=LARGEST_TABLE)
        problems.add(start, "", found, advice=say("content_table.too-large-try"))
        return {}
    data = path.read_bytes()
    if data.startswith(OLE):
        problems.add(start, "", say("content_table.old-or-locked"), advice=say("content_table.old-or-locked-try"))
        return {}
    if data.startswith(ZIP) or path.suffix.lower() == ".xlsx":
        return read_workbook(data, start, problems)
    try:
        rows = csv.reader(io.StringIO(data.decode("utf-8-sig"), newline=""), strict=True)
        return {number: [cell.strip() for cell in row] for number, row in enumerate(rows, start=1)}
    except (UnicodeDecodeError, csv.Error):
        problems.add(start, "", say("content_table.not-csv"), advice=say("content_table.not-csv-try"))
        return {}


def _head(cell: Value) -> str:
    return "" if isinstance(cell, Unfit) else " ".join(cell.casefold().split())


def _hold_heads(heads: Mapping[int, str], columns: Columns, source: Source, problems: Problems) -> bool:
    """Report columns that are missing, twice there or not known; say whether the rows can be read."""
    faults, named = len(problems), list(heads.values())
    missing = [name for name in columns.required if name not in named]
    if missing:
        _lacking(columns, missing, source, problems)
    for at, name in heads.items():
        where = _place(at, source, name)
        if name in columns.names and name in named[:at]:
            found = say("content_table.column-twice", name=name)
            problems.add(source, where, found, advice=say("content_table.column-twice-try"))
        elif name and name not in columns.names and not columns.others:
            problems.add(
                source, where, say("content_table.column-unknown", name=name), listed(columns.names),
                nearest(name, columns.names),
            )  # fmt: skip
    return len(problems) == faults


def _lacking(columns: Columns, missing: Collection[str], source: Source, problems: Problems) -> None:
    found = say("content_table.columns", missing=listed(missing))
    problems.add(source, "", found, advice=say("content_table.columns-try", columns=", ".join(columns.required)))


def _row(
    source: Source, cells: list[Value], heads: Mapping[int, str], columns: Columns, problems: Problems
) -> Row | None:
    """Return a row, unless one of its cells is unfit."""
    faults = len(problems)
    texts = dict.fromkeys(columns.names, "")
    for at, cell in enumerate(cells):
        name = heads.get(at, "")
        if name in columns.names:
            if isinstance(cell, Unfit):
                problems.add(source, _place(at, source, name), cell.found, advice=cell.advice)
            else:
                texts[name] = cell
        elif cell and not name and not columns.others:
            where = _place(at, source, say("content_table.no-name"))
            problems.add(source, where, say("content_table.column-none"), advice=say("content_table.column-none-try"))
    if len(problems) > faults:
        return None
    return Row(source, texts, {name: _place(at, source, name) for at, name in heads.items() if name in columns.names})


def _place(at: int, source: Source, column: str) -> str:
    return say("content_table.cell", letters=_letters(at), row=source.line, column=column)


def _letters(at: int) -> str:
    """Return what spreadsheets call a column.

    Examples
    --------
    >>> _letters(0), _letters(25), _letters(26), _letters(701), _letters(702)
    ('A', 'Z', 'AA', 'ZZ', 'AAA')
    """
    return "".join(_digits(at))[::-1]


def _digits(at: int) -> Iterator[str]:
    while at >= 0:
        yield chr(ord("A") + at % 26)
        at = at // 26 - 1
