"""The office's folder: one file a person, by a name that tells nothing; papers in step; no trace of the erased."""

import re
from pathlib import Path

import pytest

from courseware.jobs.lists import Sources, training_list
from courseware.jobs.office import CODE_LENGTH, file_code
from courseware.jobs.staff import erase_person, merge_people
from courseware.publish.office_table import csv_bytes
from courseware.records.people import OnePerson, enroll, find_person, people
from courseware.records.registers import forms_out
from tests.jobs.office import NOW, at_desk


@pytest.fixture
def office(company: Path) -> Path:
    """Let the office's pages be written; return their folder."""
    with at_desk(company) as desk:
        desk.renew_front_pages(desk.press())
    return company / "build" / "office"


def files_of(office: Path, name: str) -> list[Path]:
    return [path for path in sorted((office / "people").glob("*.html")) if f"File: {name}" in path.read_text("utf-8")]


def test_each_person_has_a_file_and_its_name_stands_in_no_other_folder(company: Path, office: Path) -> None:
    (file,) = files_of(office, "Ada Bench")
    assert re.fullmatch(rf"[a-z2-7]{{{CODE_LENGTH}}}\.html", file.name)
    assert len(list((office / "people").glob("*.html"))) == 3
    for path in company.rglob("*"):
        if path.is_file() and office not in path.parents:
            assert file.stem.encode() not in path.read_bytes(), path
    assert f'href="people/{file.name}"' in (office / "index.html").read_text(encoding="utf-8")


def test_the_name_of_a_file_follows_from_the_secret(company: Path) -> None:
    with at_desk(company) as desk:
        person = find_person(desk.company.store, "T-0002")
        assert file_code(desk.company, person) == file_code(desk.company, person)
        other = type(desk.company)(
            desk.company.places, desk.company.name, desk.company.store, bytes(32), desk.company.key
        )  # fmt: skip
        assert file_code(other, person) != file_code(desk.company, person)


def test_papers_are_made_when_work_ends_and_go_when_their_page_changes(company: Path, office: Path) -> None:
    assert not list(office.rglob("*.pdf"))
    with at_desk(company) as desk:
        desk.write_office_papers()
        assert len(list((office / "people").glob("*.pdf"))) == 3
        assert (office / "training-list.pdf").is_file()
        assert "training-list.pdf" in (office / "index.html").read_text(encoding="utf-8")
        enroll(desk.company.store, "Cy Dow", "cy@example.com", desk.company.key, NOW)
        desk.renew_front_pages(desk.press())
    assert not (office / "training-list.pdf").exists(), "it lacks a person"
    assert len(list((office / "people").glob("*.pdf"))) == 3, "the others' files say what they said"
    assert "training-list.pdf" not in (office / "index.html").read_text(encoding="utf-8")


def test_the_training_list_for_a_spreadsheet_is_that_of_the_page(company: Path, office: Path) -> None:
    with at_desk(company) as desk:
        table = training_list(Sources(desk.course, desk.company.store, NOW.date()))
    assert (office / "training-list.csv").read_bytes() == csv_bytes(table)
    page = (office / "training-list.html").read_text(encoding="utf-8")
    assert all(str(row[0]) in page for row in table.rows)
    assert len(table.rows) >= 3


def test_an_erased_person_leaves_no_page_behind(company: Path, office: Path) -> None:
    with at_desk(company) as desk:
        form = next(out.form for out in forms_out(desk.company.store) if out.person_id == "T-0002")
        desk.write_office_papers()
        assert list(company.rglob(f"{form}.html"))
        erase_person(desk, "T-0002")
    assert files_of(office, "Ada Bench") == []
    assert len(list((office / "people").iterdir())) == 4, "two people, a page and a paper each"
    for path in (company / "build").rglob("*"):
        if path.is_file():
            assert b"Ada Bench" not in path.read_bytes(), path
            assert path.stem != form


def test_a_duplicate_has_no_file_of_its_own(company: Path, office: Path) -> None:
    with at_desk(company) as desk:
        enroll(desk.company.store, "Ada Bench", "a.bench@example.com", desk.company.key, NOW)
        desk.renew_front_pages(desk.press())
        assert len(files_of(office, "Ada Bench")) == 2
        merge_people(desk, OnePerson("T-0004", "T-0002", "one person, two addresses"))
        assert [one.id for one in people(desk.company.store)] == ["T-0001", "T-0002", "T-0003"]
    (file,) = files_of(office, "Ada Bench")
    assert "Was also enrolled as T-0004; merged (entry " in file.read_text(encoding="utf-8")
