"""A list of the office: shown on a page, printed on paper, and written as a file for a spreadsheet.

A spreadsheet takes a cell that begins with ``=`` for a formula and works it out, whoever wrote it: a name can be an
attack on whoever opens the file. So text is written as the OWASP page *CSV Injection* says: quoted, and with an
apostrophe before a beginning that a spreadsheet would act on. Numbers are no text, and stay numbers. The lines are
those of RFC 4180.
"""

import csv
import io
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from courseware.content.words import say

Cell = str | int | Decimal
"""What a list holds: text, or a number that a spreadsheet may add up."""

#: Beginnings that a spreadsheet acts on: OWASP, CSV Injection; the line feed and the full-width forms stand there too.
ACTED_ON: Final = tuple("=+-@\t\r\n\uff1d\uff0b\uff0d\uff20")


@dataclass(frozen=True, slots=True)
class Table:
    """A list.

    Attributes
    ----------
    name : str
        Its words in the catalogue: ``<name>`` is its title and ``no-<name>`` what is said where it is empty.
    columns : tuple of str
        Names of its columns; the words of each are ``column-<name>``.
    rows : tuple of tuple of Cell
        The cells, row by row; the first of a row says what the row is about.
    links : tuple of str
        For each row the address that its first cell leads to; empty text, or no links at all: it leads nowhere.
    """

    name: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    links: tuple[str, ...] = ()

    @property
    def title(self) -> str:
        """Return what the list is called."""
        return say(f"publish_office.{self.name}")

    @property
    def empty(self) -> str:
        """Return what is said where nothing is on the list."""
        return say(f"publish_office.no-{self.name}")

    @property
    def headings(self) -> tuple[str, ...]:
        """Return the words over the columns."""
        return tuple(say(f"publish_office.column-{column}") for column in self.columns)

    def link(self, row: int) -> str:
        """Return where the first cell of a row leads; empty for nowhere."""
        return self.links[row] if self.links else ""


def csv_bytes(table: Table) -> bytes:
    """Return a list as a CSV file: one line of headings, then one line a row.

    In UTF-8 with a byte-order mark, without which a common office suite reads names outside ASCII wrongly (common
    practice, no source).
    """
    text = io.StringIO()
    writer = csv.writer(text, quoting=csv.QUOTE_NONNUMERIC, lineterminator="\r\n")
    for row in (table.headings, *table.rows):
        writer.writerow([tamed(cell) if isinstance(cell, str) else cell for cell in row])
    return text.getvalue().encode("utf-8-sig")


def tamed(text: str) -> str:
    """Return a text that no spreadsheet takes for a formula; one that looks like none is left as it is.

    Examples
    --------
    >>> tamed("=1+1"), tamed("Ann Lee"), tamed("-5 F at the stack"), tamed("  @sum")
    ("'=1+1", 'Ann Lee', "'-5 F at the stack", "'  @sum")
    """
    return f"'{text}" if text.startswith(ACTED_ON) or text.lstrip().startswith(ACTED_ON) else text
