"""A workbook is read as a person sees it; where that cannot be told, the cell says so; a bad file gets one sentence."""

import random
from datetime import date, time

import openpyxl
import pytest
from openpyxl import Workbook

from courseware.content.problems import Problems
from courseware.content.source import Source
from courseware.content.words import say
from courseware.content.workbook import MOST_ROWS, Unfit, Value, read_workbook
from tests.content.workbooks import parts, rezipped, saved, workbook

HERE = Source("class.xlsx", 1)
DAMAGED = (
    "class.xlsx:1: this is no workbook that can be read: it is damaged, or something else was given its name\n"
    "    try: open it in the spreadsheet and save it again as 'Excel Workbook (.xlsx)' or as 'CSV UTF-8'"
)


def read(data: bytes) -> tuple[dict[int, list[Value]], list[str]]:
    problems = Problems()
    return read_workbook(data, HERE, problems), list(map(str, problems))


def only(value: object, form: str = "General") -> Value:
    rows, told = read(workbook([[value]], {"A1": form}))
    assert told == []
    return rows[1][0]


def test_a_workbook_written_out_by_the_standard_is_read() -> None:
    """ISO/IEC 29500-1, 18.3.1.4 (cells) and 18.18.11 (their types): shared, inline, number, formula with its result."""
    rows, told = read(
        parts(
            '<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="inlineStr"><is><t>email</t></is></c></row>'
            '<row r="3"><c r="A3"><v>12</v></c><c r="B3" t="str"><f>"a"&amp;"b"</f><v>ab</v></c></row>',
            strings='<si><t xml:space="preserve"> name </t></si>',
        )
    )
    assert told == []
    assert rows == {1: ["name", "email"], 2: ["", ""], 3: ["12", "ab"]}


@pytest.mark.parametrize(
    ("value", "form", "text"),
    [
        ("  Ada Bench\u00a0", "General", "Ada Bench"),
        (None, "General", ""),
        (8, "General", "8"),
        (8.0, "General", "8"),
        (0.1 + 0.2, "General", "0.3"),
        (8.5, "0.00", "8.5"),
        (10000, "#,##0", "10000"),
        ("1/8", "@", "1/8"),
    ],
)
def test_text_and_plain_numbers_are_what_was_typed(value: object, form: str, text: str) -> None:
    assert only(value, form) == text


@pytest.mark.parametrize(
    ("value", "form", "found"),
    [
        (date(2026, 1, 8), "yyyy-mm-dd", "2026-01-08 00:00:00"),
        (time(7, 30), "h:mm", "07:30:00"),
        (0.8, "0%", "0.8"),
        (5, "$0.00", "5"),
        (True, "General", "True"),
    ],
)
def test_what_the_spreadsheet_made_of_it_is_told(value: object, form: str, found: str) -> None:
    """1/8 becomes a date and 80 % becomes 0.8: the words of a question must not change in silence."""
    assert only(value, form) == Unfit(
        f"the spreadsheet keeps {found} here, which may not be what was typed",
        "format the cell as text, then type it again",
    )


def test_formulas_count_by_their_result_and_are_told_where_there_is_none() -> None:
    assert only("=1+1") == Unfit(
        "the cell holds a formula whose result was never saved",
        "open the workbook in the spreadsheet and save it, or type the text itself",
    )
    rows, _ = read(parts('<row r="1"><c r="A1" t="e"><f>B9</f><v>#REF!</v></c></row>'))
    assert rows == {1: [Unfit("the cell shows the error #REF!", "correct the formula, or type the text itself")]}


def test_the_first_sheet_that_shows_is_read() -> None:
    book = Workbook()
    book.worksheets[0].append(["kept away"])
    book.worksheets[0].sheet_state = "hidden"
    book.create_sheet("Class").append(["name"])
    assert read(saved(book)) == ({1: ["name"]}, [])
    book.worksheets[1].sheet_state = "veryHidden"
    book.worksheets[0].sheet_state = "visible"
    assert read(saved(book)) == ({1: ["kept away"]}, [])


def test_hidden_rows_and_sheets_are_told() -> None:
    book = Workbook()
    for text in ("name", "Ada", None, "Bo"):
        book.worksheets[0].append([text])
    for number in (3, 4):
        book.worksheets[0].row_dimensions[number].hidden = True
    assert read(saved(book))[1] == [
        ("class.xlsx:4: this row is hidden\n    try: show it or delete it: what you cannot see should not be read")
    ]
    data = parts('<row r="1"><c r="A1"><v>1</v></c></row>')
    hidden = [f"class.xlsx:1: {say('content_table.sheets-hidden')}\n    try: {say('content_table.sheets-hidden-try')}"]
    assert read(rezipped(data, b'sheetId="1"', b'sheetId="1" state="hidden"'))[1] == hidden


def test_a_sheet_that_goes_on_for_ever_is_told() -> None:
    book = Workbook()
    book.worksheets[0].append(["name"])
    book.worksheets[0].cell(MOST_ROWS + 1, 1).number_format = "0"
    assert read(saved(book)) == ({}, [
        (
            "class.xlsx:1: the sheet 'Sheet' reaches down to row 5001; a table may have 5000 rows\n"
            "    try: delete the empty rows below the table: they hold a format, and count"
        )
    ])  # fmt: skip


def test_a_small_file_that_unpacks_to_a_large_one_is_not_unpacked() -> None:
    data = rezipped(parts(""), b"<sheetData>", b"<sheetData>" + b" " * 20_000_000)
    rows, (told,) = read(data)
    assert rows == {}
    assert told.startswith("class.xlsx:1: the workbook unpacks to 2000")
    assert told.endswith(" bytes; a table may have 20000000\n    try: copy the table alone into a new file")


@pytest.mark.parametrize("entity", ['SYSTEM "file:///etc/hostname"', '"&lol;&lol;"'])
def test_entities_are_never_followed(entity: str) -> None:
    """CWE-611, an external entity, and CWE-776, one that grows on reading."""
    assert openpyxl.DEFUSEDXML, "the library that refuses entities is installed"
    doctype = f'<!DOCTYPE x [<!ENTITY lol "lol"><!ENTITY e {entity}>]>'
    rows = '<row r="1"><c r="A1" t="inlineStr"><is><t>&e;</t></is></c></row>'
    assert read(parts(rows, doctype)) == ({}, [DAMAGED])


@pytest.mark.parametrize("data", [b"", b"PK\x03\x04", b"name,email\n", parts("")[:300]])
def test_what_is_no_workbook_gets_one_sentence(data: bytes) -> None:
    assert read(data) == ({}, [DAMAGED])


def test_damage_anywhere_gets_one_sentence_or_a_table() -> None:
    sound = workbook([["name", "email"], ["Ada Bench", "ada@example.com"]])
    rng = random.Random(3)  # noqa: S311  # damage, no secret
    refused = 0
    for _ in range(80):
        data = bytearray(sound)
        for _ in range(rng.randint(1, 30)):
            data[rng.randrange(len(data))] = rng.randrange(256)
        rows, told = read(bytes(data[: rng.choice([len(data), rng.randrange(len(data))])]))
        assert rows or len(told) == 1
        refused += bool(told)
    assert refused > 25
