"""A roster: everybody on it gets a form, who is new is enrolled; or every fault is told and nothing is recorded."""

from pathlib import Path

import pytest

from courseware.content.problems import ContentError, Problems
from courseware.content.refusal import Refusal
from courseware.jobs.roster import issue_to_roster, read_roster
from courseware.records.ledger import head
from courseware.records.registers import forms_out
from tests.jobs.office import at_desk


def roster(folder: Path, text: str, encoding: str = "utf-8") -> Path:
    path = folder / "class.csv"
    path.write_bytes(text.encode(encoding))
    return path


def told(path: Path) -> list[str]:
    problems = Problems()
    list(read_roster(path, problems))
    return [str(problem).replace(path.as_posix(), "class.csv") for problem in problems]


def test_who_is_new_is_enrolled_and_everybody_gets_a_form(company: Path, tmp_path: Path) -> None:
    """As a spreadsheet saves it: a byte-order mark, CRLF, another column, quotes, an empty line."""
    text = 'Site,EMail,Name\r\nNorth,cy@example.com,"Dow, Cy"\r\n,,\r\nSouth,ADA@example.com,Ada Bench\r\n'
    with at_desk(company) as desk:
        done = issue_to_roster(desk, "ignition", roster(tmp_path, text, "utf-8-sig"))
        assert [(one.id, one.name, one.email) for one in done.enrolled] == [("T-0004", "Dow, Cy", "cy@example.com")]
        assert [one.person.id for one in done.issue.forms] == ["T-0004", "T-0002"]
        assert [one.person_id for one in forms_out(desk.company.store)] == ["T-0002", "T-0003", "T-0004", "T-0002"]


def test_every_fault_is_told_by_its_line_and_nothing_is_recorded(company: Path, tmp_path: Path) -> None:
    text = "name,email\nBo Bench,ada@example.com\nCy Dow,cy@example\u0020com\n,dot\nEve Ray,eve@x.org\nEve,EVE@x.org\n"
    path = roster(tmp_path, text)
    with at_desk(company) as desk:
        before = head(desk.company.store)
        with pytest.raises(ContentError) as refused:
            issue_to_roster(desk, "ignition", path)
        assert head(desk.company.store) == before
    assert str(refused.value).replace(path.as_posix(), "class.csv") == (
        "class.csv:2: 'ada@example.com' belongs to T-0002, Ada Bench; the roster says Bo Bench\n"
        "    try: correct the name or the e-mail in the roster\n"
        "class.csv:3: 'cy@example com' is no e-mail address\n"
        "    try: give an address such as pat.doe@example.com\n"
        "class.csv:4: '' is no name to print: it is empty, longer than 120 characters, or holds characters that do not "
        "print\n"
        "    try: give the name as it is to stand on the certificate\n"
        "class.csv:4: 'dot' is no e-mail address\n"
        "    try: give an address such as pat.doe@example.com\n"
        "class.csv:6: the e-mail 'eve@x.org' stands on line 5 already\n"
        "    try: keep one of the two lines, or give the other person's own address"
    )


def test_a_quiz_that_is_none_enrolls_nobody(company: Path, tmp_path: Path) -> None:
    with at_desk(company) as desk:
        before = head(desk.company.store)
        with pytest.raises(Refusal, match="igniton"):
            issue_to_roster(desk, "igniton", roster(tmp_path, "name,email\nCy Dow,cy@example.com\n"))
        assert head(desk.company.store) == before


@pytest.mark.parametrize(
    ("data", "report"),
    [
        (
            "name;email\nCy Dow;cy@example.com\n",
            (
                "class.csv:1: the first line lacks the column: email, name\n"
                "    try: begin the file with the line: name,email"
            ),
        ),
        (
            "",
            (
                "class.csv:1: the first line lacks the column: email, name\n"
                "    try: begin the file with the line: name,email"
            ),
        ),
        (
            "name,email\n\n , \n",
            "class.csv:1: nobody is on the roster\n    try: write one person a line, below the line name,email",
        ),
        (
            'name,email\n"Cy Dow,cy@example.com\n',
            (
                "class.csv:1: this is no CSV file in UTF-8\n"
                "    try: in the spreadsheet, save as 'CSV UTF-8 (comma delimited)'"
            ),
        ),
    ],
)
def test_what_is_no_roster_is_told(tmp_path: Path, data: str, report: str) -> None:
    assert told(roster(tmp_path, data)) == [report]


def test_another_encoding_is_told(tmp_path: Path) -> None:
    assert told(roster(tmp_path, "name,email\nJos\u00e9,jo@example.com\n", "latin-1")) == [
        (
            "class.csv:1: this is no CSV file in UTF-8\n"
            "    try: in the spreadsheet, save as 'CSV UTF-8 (comma delimited)'"
        )
    ]
