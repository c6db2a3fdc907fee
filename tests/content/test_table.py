"""A table from a spreadsheet: the same rows from CSV and XLSX, and every fault by row and column."""

from pathlib import Path

import pytest

from courseware.content.problems import Problems
from courseware.content.table import LARGEST_TABLE, Columns, read_table
from tests.content.workbooks import workbook

COLUMNS = Columns(("question", "right answer"), ("points",))


def table(folder: Path, data: str | bytes, name: str = "list.csv") -> Path:
    path = folder / name
    path.write_bytes(data.encode("utf-8") if isinstance(data, str) else data)
    return path


def told(path: Path, columns: Columns = COLUMNS) -> str:
    problems = Problems()
    read_table(path, columns, problems)
    return "\n".join(str(problem).replace(path.parent.as_posix() + "/", "") for problem in problems)


@pytest.mark.parametrize("name", ["list.csv", "list.xlsx", "anything"])
def test_csv_and_workbook_give_the_same_rows(tmp_path: Path, name: str) -> None:
    """Capitals and spaces of a heading count for nothing; a comma, a line break and quotes stay in a cell."""
    rows = (
        ("Points ", "Right  Answer", "QUESTION"),
        (),
        (2, 'Say "stop"', "One, two\nor three?"),
        ("", "Yes", "Sure?"),
    )
    text = 'Points ,Right  Answer,QUESTION\r\n\r\n2,"Say ""stop""","One, two\nor three?"\r\n,Yes,Sure?\r\n'
    problems = Problems()
    path = table(tmp_path, workbook(rows) if name != "list.csv" else "\ufeff" + text, name)
    found = read_table(path, COLUMNS, problems)
    assert list(problems) == []
    assert [(row.source.line, dict(row.texts)) for row in found] == [
        (3, {"question": "One, two\nor three?", "right answer": 'Say "stop"', "points": "2"}),
        (4, {"question": "Sure?", "right answer": "Yes", "points": ""}),
    ]
    assert [found[0].where(column) for column in COLUMNS.names] == ["C3, question", "B3, right answer", "A3, points"]


def test_a_column_that_may_be_missing_is_empty_and_stands_nowhere(tmp_path: Path) -> None:
    problems = Problems()
    (row,) = read_table(table(tmp_path, "question,right answer\nWhy?,So\n"), COLUMNS, problems)
    assert (row.texts["points"], row.where("points")) == ("", "")


def test_every_fault_is_told_by_row_and_column(tmp_path: Path) -> None:
    rows = (("question", "right answer"), ("Why?", "1/8"), ("How?", 0.5, "note"), ("", "", "note"))
    path = table(tmp_path, workbook(rows, {"B3": "0%"}), "list.xlsx")
    assert told(path) == (
        "list.xlsx:3: B3, right answer: the spreadsheet keeps 0.5 here, which may not be what was typed\n"
        "    try: format the cell as text, then type it again\n"
        "list.xlsx:3: C3, a column without a name: this text stands under no name\n"
        "    try: name the column in the first row, or empty the cell; in CSV, put a text that holds a comma between "
        "quotes\n"
        "list.xlsx:4: C4, a column without a name: this text stands under no name\n"
        "    try: name the column in the first row, or empty the cell; in CSV, put a text that holds a comma between "
        "quotes"
    )


def test_the_first_row_names_the_columns(tmp_path: Path) -> None:
    assert told(table(tmp_path, "question,pionts,Question,right answers\n")) == (
        "list.csv:1: the first row lacks the column: right answer\n"
        "    try: name the columns in the first row: question, right answer\n"
        "list.csv:1: B1, pionts: no column is called 'pionts'\n"
        "    allowed: points, question, right answer\n"
        "    try: did you mean 'points'?\n"
        "list.csv:1: C1, question: two columns are called 'question'\n"
        "    try: give one of them another name, or delete it\n"
        "list.csv:1: D1, right answers: no column is called 'right answers'\n"
        "    allowed: points, question, right answer\n"
        "    try: did you mean 'right answer'?"
    )


def test_other_columns_are_left_alone_where_they_may_be(tmp_path: Path) -> None:
    rows = (("question", "hired", "", "right answer"), ("Why?", 0.5, "note", "So"))
    path = table(tmp_path, workbook(rows, {"B2": "0%"}), "list.xlsx")
    assert told(path, Columns(("question", "right answer"), others=True)) == ""


LACKING = (
    "list.csv:1: the first row lacks the column: question, right answer\n"
    "    try: name the columns in the first row: question, right answer"
)
NOT_CSV = "list.csv:1: this is no CSV file in UTF-8\n    try: in the spreadsheet, save as 'CSV UTF-8 (comma delimited)'"


@pytest.mark.parametrize(
    ("data", "report"),
    [
        ("", LACKING),
        ("\n\n , \n", LACKING),
        ("question;right answer\nWhy?;So\n", LACKING + (
            "\nlist.csv:1: A1, question;right answer: no column is called 'question;right answer'\n"
            "    allowed: points, question, right answer\n    try: did you mean 'right answer'?"
        )),
        ("question,right answer\n,\n", (
            "list.csv:1: there is no row below the first\n    try: write one row for each, below the first row"
        )),
        ('question,right answer\n"Why?,So\n', NOT_CSV),
        ("question,right answer\nPourquoi?,Caf\u00e9\n".encode("latin-1"), NOT_CSV),
        (b"\xd0\xcf\x11\xe0 and so on", (
            "list.csv:1: this workbook is of the old kind (.xls), or locked with a password\n"
            "    try: save it without a password as 'Excel Workbook (.xlsx)' or as 'CSV UTF-8'"
        )),
        (b" " * (LARGEST_TABLE + 1), (
            "list.csv:1: the file has 5000001 bytes; a table may have 5000000\n"
            "    try: copy the table alone into a new file"
        )),
        (b"PK\x03\x04 and so on", (
            "list.csv:1: this is no workbook that can be read: it is damaged, or something else was given its name\n"
            "    try: open it in the spreadsheet and save it again as 'Excel Workbook (.xlsx)' or as 'CSV UTF-8'"
        )),
    ],
)  # fmt: skip
def test_what_is_no_table_gets_one_clear_sentence(tmp_path: Path, data: str | bytes, report: str) -> None:
    assert told(table(tmp_path, data)) == report


def test_a_file_that_is_not_there_is_the_systems_to_tell(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        read_table(tmp_path / "none.csv", COLUMNS, Problems())
