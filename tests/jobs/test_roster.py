"""A roster: everybody on it gets a form, who is new is enrolled; or every fault is told and nothing is recorded."""

from pathlib import Path

import pytest

from courseware.content.problems import ContentError, Problems
from courseware.content.refusal import Refusal
from courseware.jobs.roster import issue_to_roster, read_roster
from courseware.records.ledger import head
from courseware.records.registers import forms_out
from tests.content.workbooks import workbook
from tests.jobs.office import NOW, at_desk


def roster(folder: Path, text: str, encoding: str = "utf-8") -> Path:
    path = folder / "class.csv"
    path.write_bytes(text.encode(encoding))
    return path


def test_who_is_new_is_enrolled_and_everybody_gets_a_form(company: Path, tmp_path: Path) -> None:
    """As a spreadsheet saves it: a byte-order mark, CRLF, another column, quotes, an empty line."""
    text = 'Site,EMail,Name\r\nNorth,cy@example.com,"Dow, Cy"\r\n,,\r\nSouth,ADA@example.com,Ada Bench\r\n'
    with at_desk(company) as desk:
        done = issue_to_roster(desk, "ignition", roster(tmp_path, text, "utf-8-sig"))
        assert [(one.id, one.name, one.email) for one in done.enrolled] == [("T-0004", "Dow, Cy", "cy@example.com")]
        assert [one.person.id for one in done.issue.forms] == ["T-0004", "T-0002"]
        assert [one.person_id for one in forms_out(desk.company.store)] == ["T-0002", "T-0003", "T-0004", "T-0002"]


def test_every_fault_is_told_by_its_cell_and_nothing_is_recorded(company: Path, tmp_path: Path) -> None:
    text = "name,email\nBo Bench,ada@example.com\nCy Dow,cy@example\u0020com\n,dot\nEve Ray,eve@x.org\nEve,EVE@x.org\n"
    path = roster(tmp_path, text)
    with at_desk(company) as desk:
        before = head(desk.company.store)
        with pytest.raises(ContentError) as refused:
            issue_to_roster(desk, "ignition", path)
        assert head(desk.company.store) == before
    assert str(refused.value).replace(path.as_posix(), "class.csv") == (
        "class.csv:2: B2, email: 'ada@example.com' belongs to T-0002, Ada Bench; the roster says Bo Bench\n"
        "    try: correct the name or the e-mail in the roster\n"
        "class.csv:3: B3, email: 'cy@example com' is no e-mail address\n"
        "    try: give an address such as pat.doe@example.com\n"
        "class.csv:4: A4, name: '' is no name to print: it is empty, longer than 120 characters, or holds characters "
        "that do not print\n"
        "    try: give the name as it is to stand on the certificate\n"
        "class.csv:4: B4, email: 'dot' is no e-mail address\n"
        "    try: give an address such as pat.doe@example.com\n"
        "class.csv:6: B6, email: the e-mail 'eve@x.org' stands in row 5 already\n"
        "    try: keep one of the two rows, or give the other person's own address"
    )


def test_a_workbook_is_a_roster_too(company: Path, tmp_path: Path) -> None:
    """With a date and a percentage in columns that are nobody's business, and a formula for the name."""
    path = tmp_path / "class.xlsx"
    rows = [("Name", "Hired", "Share", "Email"), ("Cy Dow", NOW.date(), 0.8, "Cy@Example.com ")]
    path.write_bytes(workbook(rows, {"C2": "0%"}))
    with at_desk(company) as desk:
        done = issue_to_roster(desk, "ignition", path)
    assert [(one.id, one.name, one.email) for one in done.enrolled] == [("T-0004", "Cy Dow", "cy@example.com")]


def test_a_name_that_is_a_date_or_an_error_is_told_and_nothing_is_recorded(company: Path, tmp_path: Path) -> None:
    path = tmp_path / "class.xlsx"
    path.write_bytes(workbook([("name", "email"), (NOW.date(), "cy@example.com"), ("=A9", "eve@example.com")]))
    with at_desk(company) as desk:
        before = head(desk.company.store)
        with pytest.raises(ContentError) as refused:
            issue_to_roster(desk, "ignition", path)
        assert head(desk.company.store) == before
    assert str(refused.value).replace(path.as_posix(), "class.xlsx") == (
        "class.xlsx:2: A2, name: the spreadsheet keeps 2026-11-25 00:00:00 here, which may not be what was typed\n"
        "    try: format the cell as text, then type it again\n"
        "class.xlsx:3: A3, name: the cell holds a formula whose result was never saved\n"
        "    try: open the workbook in the spreadsheet and save it, or type the text itself"
    )


def test_a_quiz_that_is_none_enrolls_nobody(company: Path, tmp_path: Path) -> None:
    with at_desk(company) as desk:
        before = head(desk.company.store)
        with pytest.raises(Refusal, match="igniton"):
            issue_to_roster(desk, "igniton", roster(tmp_path, "name,email\nCy Dow,cy@example.com\n"))
        assert head(desk.company.store) == before


def test_a_table_without_the_columns_is_no_roster(tmp_path: Path) -> None:
    path = roster(tmp_path, "name;email\nCy Dow;cy@example.com\n")
    problems = Problems()
    assert list(read_roster(path, problems)) == []
    assert [str(problem).replace(path.as_posix(), "class.csv") for problem in problems] == [
        (
            "class.csv:1: the first row lacks the column: email, name\n"
            "    try: name the columns in the first row: name, email"
        )
    ]
