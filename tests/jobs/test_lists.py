"""The office's lists: against the story's events and rows as a second path reads them, without our code."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from courseware.content.folders import shipped_course
from courseware.jobs.build import sound_course
from courseware.jobs.course import Course
from courseware.jobs.lists import LISTS, Sources, counted_as_training, file_lists
from courseware.publish.office_table import Table
from courseware.records.certificates import Application, grant, withdraw
from courseware.records.people import find_person
from courseware.records.registers import all_certificates
from courseware.records.results import record_result
from courseware.records.store import Store, open_store
from tests.records import second_path, story

LAST_DAY = date(2028, 11, 25)


@pytest.fixture(scope="module")
def course() -> Course:
    """Give the shipped course, in which the story's quiz and procedure train in energy control."""
    found = sound_course(shipped_course())
    marked = {name: replace(one, energy_control=("ignition", "ignition-test")) for name, one in found.programs.items()}
    return replace(found, programs=marked)


@pytest.fixture(scope="module")
def told_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("story") / "records.db"
    story.tell(path)
    return path


@pytest.fixture
def store(told_file: Path, tmp_path: Path) -> Iterator[Store]:
    """Give a copy of the story, open."""
    copy = tmp_path / "records.db"
    copy.write_bytes(told_file.read_bytes())
    with open_store(copy) as opened:
        yield opened


@pytest.fixture
def at(course: Course, store: Store) -> Sources:
    return Sources(course, store, story.TODAY)


def names(path: Path) -> dict[str, str]:
    """Return the name that belongs to each reference, duplicates' among them."""
    with closing(sqlite3.connect(path)) as file:
        return dict(file.execute("SELECT ref, name FROM person"))


def column(table: Table, name: str) -> list[object]:
    return [row[table.columns.index(name)] for row in table.rows]


def test_every_row_has_every_column(at: Sources) -> None:
    for name, make in LISTS.items():
        table = make(replace(at, on=LAST_DAY))
        assert table.name == name
        assert table.rows, name
        assert {len(row) for row in table.rows} == {len(table.columns)}


def test_the_certificates_are_those_of_the_events(at: Sources) -> None:
    table = LISTS["certificates"](at)
    stored = second_path.stored(at.store.path)["certificate"]
    who = names(at.store.path)
    found = {code: (name, until, entry) for name, until, code, entry in zip(
        *(column(table, one) for one in ("name", "until", "code", "entry")), strict=True)}  # fmt: skip
    assert found == {
        code: (who.get(row["ref"], "a person who was erased"), row["valid_until"], row["seq"])
        for code, row in stored.items()
    }
    assert sorted(str(one) for one in set(column(table, "state"))) == ["person erased", "valid"]


def test_the_results_are_those_of_the_events(at: Sources) -> None:
    table, who = LISTS["results"](at), names(at.store.path)
    stored = second_path.stored(at.store.path)["result"].values()
    wanted = {
        row["seq"]: (who[row["ref"]], row["form"], Decimal(row["score"]), Decimal(row["cut"]))
        for row in stored if row["ref"] in who
    }  # fmt: skip
    got = zip(*(column(table, one) for one in ("entry", "name", "form", "score", "cut")), strict=True)
    assert {seq: tuple(row) for seq, *row in got} == wanted
    by_entry = dict(zip(column(table, "entry"), table.rows, strict=True))
    assert by_entry[8][6:9] == (
        "not passed; safety rule broken: fuel-safe-before-spark",
        "Bo Lindqvist",
        "replaced by entry 9",
    )
    assert by_entry[9][6:9] == ("passed", "Bo Lindqvist", "stands")


def test_sign_offs_and_evidence_say_what_became_of_them(at: Sources) -> None:
    signoffs = {row[-1]: row for row in LISTS["sign-offs"](at).rows}
    assert signoffs[28] == (
        "Jo Okafør-Lund", "Ignition test", "siphon", "unit 4, south bay", "2026-11-25", "Ann Reyes",
        "judged the spark at once", "taken back on 2026-11-25: done on another day", 28,
    )  # fmt: skip
    assert signoffs[24][7] == "stands"
    evidence = {row[-1]: row for row in LISTS["evidence"](at).rows}
    assert evidence[31][:3] == ("Ike Ferro", "experienced", "card 4471 of a trade school, 2019")
    assert evidence[33 - 1][-2] == "taken back on 2026-11-25: the card was another's"


def test_people_are_listed_once_by_name(at: Sources) -> None:
    table = LISTS["people"](at)
    assert [row[:2] for row in table.rows] == [
        ("Ann Reyes", "T-0001"), ("Bo Lindqvist", "T-0002"), ("Ike Ferro", "T-0005"), ("Jo Okafør-Lund", "T-0003"),
        ("Lee Park", "T-0007"),
    ]  # fmt: skip
    assert column(table, "signer") == ["yes", "", "", "", ""]  # Bo's key was retired


def test_forms_out(at: Sources) -> None:
    without = replace(at, course=replace(at.course, quizbank=replace(at.course.quizbank, blueprints={})))
    assert LISTS["forms"](without).rows == (("Jo Okafør-Lund", "combustion", "T9PQ", "2026-11-25"),)


@pytest.mark.parametrize(
    ("on", "days"),
    [
        (date(2028, 9, 25), []),
        (date(2028, 9, 26), [60, 60, 60]),
        (LAST_DAY, [0, 0, 0]),
        (date(2028, 11, 26), [-1, -1, -1]),
    ],
)
def test_what_falls_due_is_told_sixty_days_before_and_until_it_is_renewed(
    at: Sources, on: date, days: list[int]
) -> None:
    table = LISTS["due"](replace(at, on=on))
    assert column(table, "days") == days
    assert set(column(table, "state")) == (
        {"renew" if min(days) >= 0 else "expired and not renewed"} if days else set()
    )
    assert column(LISTS["due"](replace(at, on=on, within=10)), "days") == [one for one in days if one <= 10]


def test_what_was_renewed_or_withdrawn_falls_due_no_more(at: Sources) -> None:
    now = story.NINE.replace(year=2028)
    story.answered(at.store, "T-0003", "R3NW", lambda: now)
    record_result(at.store, story.passed("R3NW"), story.FIRST, now)
    grant(at.store, Application("T-0003", story.PROGRAM, story.COURSE), story.FIRST, now)
    ikes = next(one for one in all_certificates(at.store) if one.person_id == "T-0005")
    withdraw(at.store, ikes.code, "wrong", story.FIRST, now)
    left = LISTS["due"](replace(at, on=LAST_DAY)).rows
    assert [row[:2] for row in left] == [("Jo Okafør-Lund", "Field service")]


def test_the_training_list_has_each_employee_and_the_dates(at: Sources) -> None:
    none = ("none on record", "", "", "")
    quiz = ("quiz passed, supervised", "2026-11-25")
    ignition = at.course.quizbank.blueprints["ignition"].title
    work = ("Ignition test", "carried out on a unit while a signer watched", "2026-11-25", "Ann Reyes")
    assert LISTS["training"](at).rows == (
        ("Ann Reyes", *none),
        ("Bo Lindqvist", *none),
        ("Ike Ferro", *work),
        ("Ike Ferro", "Ignition test", "evidence: card 4471 of a trade school, 2019", "2026-11-25", "Ann Reyes"),
        ("Ike Ferro", ignition, *quiz, "Ann Reyes"),
        ("Jo Okafør-Lund", *work),
        ("Jo Okafør-Lund", ignition, *quiz, "Bo Lindqvist"),
        ("Lee Park", *none),
    )
    assert counted_as_training(at.course) == (ignition, "Ignition test")


def test_what_the_course_does_not_mark_is_no_training(at: Sources) -> None:
    programs = {name: replace(one, energy_control=()) for name, one in at.course.programs.items()}
    bare = replace(at, course=replace(at.course, programs=programs))
    assert set(column(LISTS["training"](bare), "training")) == {"none on record"}
    assert counted_as_training(bare.course) == ()


def test_one_persons_file_has_their_rows_alone_and_no_name(at: Sources) -> None:
    jo = find_person(at.store, "T-0003")
    certificates, results, signoffs, evidence, forms = file_lists(at, jo)
    assert column(certificates, "entry") == [11, 25]
    assert column(results, "entry") == [8, 9]
    assert column(signoffs, "entry") == [24, 28]
    assert evidence.rows == ()
    assert column(forms, "form") == ["T9PQ"]
    assert "name" not in {*certificates.columns, *results.columns, *signoffs.columns, *forms.columns}
    ike = file_lists(at, find_person(at.store, "T-0006"))  # by the number of the duplicate
    assert column(ike[1], "form") == ["C8VN"]
