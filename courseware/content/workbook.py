"""The first sheet of an XLSX workbook (ISO/IEC 29500) as text, cell by cell, from a file that anybody may have sent.

What the spreadsheet shows and what the file keeps differ for dates, percentages and formulas. A table that is read for
its words takes a cell only where the two are sure to be the same; of any other it is told why not. Nothing in the file
is run, no address in it is followed, and the XML library refuses entities.
"""

import io
import re
import warnings
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from courseware.content.problems import Problems
from courseware.content.source import Source
from courseware.content.words import say

if TYPE_CHECKING:
    from openpyxl.cell import Cell, MergedCell
    from openpyxl.workbook import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

ZIP: Final = b"PK\x03\x04"
OLE: Final = b"\xd0\xcf\x11\xe0"
"""How old workbooks begin, and new ones that are locked with a password."""
LARGEST_UNPACKED: Final = 20_000_000
MOST_ROWS: Final = 5_000
MOST_COLUMNS: Final = 100

# Formats under which a number looks as it is kept: General, text, and plain digits.
_PLAIN: Final = re.compile(r"General|@|[#0,]*0(\.0+)?")


@dataclass(frozen=True, slots=True)
class Unfit:
    """A cell whose text cannot be told from the file: what was found instead, and what to try."""

    found: str
    advice: str


Value = str | Unfit


def read_workbook(data: bytes, start: Source, problems: Problems) -> dict[int, list[Value]]:
    """Read the first sheet that is not hidden.

    Parameters
    ----------
    data : bytes
        The file.
    start : Source
        Its name, for problems.
    problems : Problems
        Receives every fault found.

    Returns
    -------
    dict of int to list of (str or Unfit)
        By the number of the row [-], from 1: its cells from column A on. Nothing if the file cannot be read.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            size = sum(part.file_size for part in archive.infolist())
        if size > LARGEST_UNPACKED:
            found = say("content_table.unpacks-too-large", size=size, limit=LARGEST_UNPACKED)
            problems.add(start, "", found, advice=say("content_table.too-large-try"))
            return {}
        shown, kept = (_opened(data, results=results) for results in (True, False))
        return _rows(shown, kept, start, problems)
    except Exception:  # noqa: BLE001  # what a damaged file makes the libraries raise has no end
        problems.add(start, "", say("content_table.damaged"), advice=say("content_table.damaged-try"))
        return {}


def _opened(data: bytes, *, results: bool) -> "Workbook":
    """Open the workbook with the results of its formulas, or with the formulas."""
    import openpyxl  # noqa: PLC0415  # a third of a second that most commands need not wait

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of drawings and checks that it passes over; a table has none
        return openpyxl.load_workbook(io.BytesIO(data), data_only=results, keep_links=False)


def _rows(shown: "Workbook", kept: "Workbook", start: Source, problems: Problems) -> dict[int, list[Value]]:
    sheet: Worksheet | None = next((one for one in shown.worksheets if one.sheet_state == "visible"), None)
    if sheet is None:
        problems.add(start, "", say("content_table.sheets-hidden"), advice=say("content_table.sheets-hidden-try"))
        return {}
    if sheet.max_row > MOST_ROWS:
        found = say("content_table.too-long", sheet=sheet.title, last=sheet.max_row, most=MOST_ROWS)
        problems.add(start, "", found, advice=say("content_table.too-long-try"))
        return {}
    width = min(sheet.max_column, MOST_COLUMNS)
    pairs = zip(sheet.iter_rows(max_col=width), kept[sheet.title].iter_rows(max_col=width), strict=True)
    rows = {number: list(map(_value, *pair)) for number, pair in enumerate(pairs, start=1)}
    for number in _hidden(sheet, rows):
        where = Source(start.file, number)
        problems.add(where, "", say("content_table.row-hidden"), advice=say("content_table.row-hidden-try"))
    return rows


def _hidden(sheet: "Worksheet", rows: dict[int, list[Value]]) -> Iterator[int]:
    for number, cells in rows.items():
        if number in sheet.row_dimensions and sheet.row_dimensions[number].hidden and any(cells):
            yield number


def _value(shown: "Cell | MergedCell", kept: "Cell | MergedCell") -> Value:
    value = shown.value
    if value is None:
        if kept.data_type == "f":
            return Unfit(say("content_table.cell-formula"), say("content_table.cell-formula-try"))
        return ""
    if shown.data_type == "e":
        return Unfit(say("content_table.cell-error", found=value), say("content_table.cell-error-try"))
    if isinstance(value, str):
        return value.strip()
    if isinstance(value, int | float) and not isinstance(value, bool) and _PLAIN.fullmatch(shown.number_format):
        return f"{value:.15g}"
    return Unfit(say("content_table.cell-changed", found=value), say("content_table.cell-changed-try"))
