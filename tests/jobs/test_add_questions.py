"""A spreadsheet of questions becomes a file that the course takes, or every fault is told and nothing is written."""

import csv
import shutil
from pathlib import Path

import openpyxl
import pytest

from courseware.content.folders import shipped_course
from courseware.content.problems import ContentError
from courseware.content.refusal import Refusal
from courseware.jobs.add_questions import add_questions, write_empty
from courseware.jobs.check import check_course
from courseware.jobs.new import copy_course
from courseware.jobs.question_sheet import HEADER


@pytest.fixture(scope="module")
def course_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a copy of the shipped course with the empty spreadsheet beside it, as workbook and as CSV."""
    folder = tmp_path_factory.mktemp("questions") / "course"
    copy_course(shipped_course(), folder)
    write_empty(folder, folder / "Spring questions.xlsx")
    write_empty(folder, folder / "spring.csv")
    return folder


@pytest.fixture
def course(course_once: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(course_once, tmp_path / "course"))


def example(folder: Path) -> dict[str, str]:
    """Return the example of the empty spreadsheet, by column."""
    with (folder / "spring.csv").open(encoding="utf-8-sig", newline="") as file:
        (row,) = csv.DictReader(file)
    return row


def sheet(folder: Path, *rows: dict[str, str]) -> Path:
    path = folder / "mine.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, HEADER)
        writer.writeheader()
        writer.writerows(rows)
    return path


def test_the_example_is_taken_and_the_course_stays_sound(course: Path) -> None:
    """As a workbook; its file is whole by ``check``, and what is asked is what was typed."""
    added = add_questions(course, course / "Spring questions.xlsx", "Pat Example")
    assert added.ids == {"graded": ("spring-questions-2",)}
    assert added.file == course / "question_bank" / "items" / "spring-questions.yaml"
    report = check_course(course)
    assert report.problems == ()
    template = report.course.quizbank.templates["spring-questions-2"]
    typed = example(course)
    assert template.body.stem == tuple(typed["question"].split("\n"))
    assert [option.text for option in template.body.options] == [
        typed[name] for name in ("right answer", "wrong answer 1", "wrong answer 2", "wrong answer 3")
    ]
    assert template.provenance.origin == "a question of the company's own, written by Pat Example"
    assert not template.provenance.reviewed


def test_a_file_is_written_anew_only_when_told(course: Path) -> None:
    typed = example(course)
    path = sheet(course, typed)
    first = add_questions(course, path, "Pat Example").file
    written = first.read_bytes()
    with pytest.raises(Refusal) as refused:
        add_questions(course, path, "Pat Example")
    assert str(refused.value) == (
        f"'{first}' is there already; try: give the spreadsheet another name, or write the file anew: --replace"
    )
    assert first.read_bytes() == written
    sheet(course, typed | {"right answer": "Ask whoever called what the heater did before it stopped."})
    again = add_questions(course, path, "Pat Example", anew=True)
    assert (again.ids, again.file.read_bytes() != written) == ({"graded": ("mine-2",)}, True)


def test_every_fault_is_told_by_its_row_and_nothing_is_written(course: Path) -> None:
    """Cells that cannot be meant, a question that breaks rules of writing, and one that is asked already."""
    typed = example(course)
    rows = (
        typed | {"objective": "find-it-all"},
        typed | {"question": "What is not to be done?", "wrong answer 1": "All of these."},
        typed | {"id": "wrong-switch-locked"},
        typed | {"misconception 1": "off-is-enough"},
    )
    with pytest.raises(ContentError) as refused:
        add_questions(course, sheet(course, *rows), "Pat Example")
    found = {(one.source.line, one.where, one.found.partition(": ")[0]) for one in refused.value.problems}
    assert {(line, where) for line, where, _ in found} == {
        (2, "T2, objective"), (3, "item 'mine-3'"), (4, "Y4, id"), (5, "item 'mine-5'"),
    }  # fmt: skip
    assert all(one.source.file.endswith("mine.csv") for one in refused.value.problems)
    assert "item 'mine-5': 2 of 3 wrong answers name no misconception" in str(refused.value)
    assert sum(line == 3 for line, _, _ in found) >= 2
    assert not (course / "question_bank" / "items" / "mine.yaml").exists()


@pytest.mark.parametrize(
    ("name", "author", "told"),
    [
        (
            "mine.csv",
            " ",
            'nobody is named as the author; try: name who wrote the questions: --author "Pat Example"',
        ),
        (
            "2026.csv",
            "Pat Example",
            (
                "a file '2026.csv' cannot become a file of questions; "
                "try: name it with letters and digits, such as spring-questions.xlsx"
            ),
        ),
        (
            "lockout.csv",
            "Pat Example",
            "'{file}' was not written from a spreadsheet; try: give the spreadsheet another name",
        ),
    ],
)
def test_what_cannot_become_a_file_is_told_before_anything_is_read(
    course_once: Path, name: str, author: str, told: str
) -> None:
    with pytest.raises(Refusal) as refused:
        add_questions(course_once, Path(name), author, anew=True)
    assert str(refused.value) == told.replace("{file}", str(course_once / "question_bank" / "items" / "lockout.yaml"))


def test_an_empty_spreadsheet_overwrites_nothing(course_once: Path) -> None:
    with pytest.raises(Refusal) as refused:
        write_empty(course_once, course_once / "spring.csv")
    file = course_once / "spring.csv"
    assert str(refused.value) == f"'{file}' is there already; try: name a new file, such as questions.xlsx"


def test_the_workbook_says_what_may_be_written_and_keeps_what_is_typed(course_once: Path) -> None:

    book = openpyxl.load_workbook(course_once / "Spring questions.xlsx")
    first, second = book.worksheets
    assert [cell.value for cell in first[1]] == list(HEADER)
    assert {cell.number_format for row in first.iter_rows(max_row=200) for cell in row} == {"@"}
    kinds = {row[0].value for row in second.iter_rows()}
    assert kinds == {"objective", "lesson section", "pool", "misconception", "breaks rule"}
