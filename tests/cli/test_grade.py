"""``courseware grade``: what it prints, and that one bad answer does not stop the rest."""

from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.cli.day import Day

pytestmark = pytest.mark.xdist_group("day")


def test_each_result_is_told_and_what_cannot_be_graded_ends_with_1(day: Day) -> None:
    first, second = day.forms()
    done = day.done["grade"]
    assert done.returncode == 1
    page = Path("ridge", "build", "trainer", "index.html")
    assert done.stdout == (
        f"form {first}, Bo Ray: 100.0 %, passed\nform {second}, Cy Dow: 0.0 %, not passed\nfeedback sheets: {page}\n"
    )
    assert any(line.startswith("no form '7K3Q' is in the archive; try: ") for line in done.stderr.splitlines())


def test_feedback_is_made_for_what_was_graded(day: Day) -> None:
    for form in day.forms():
        assert (day.company / "build" / "trainer" / "feedback" / f"{form}.html").is_file()


def test_nothing_to_grade_is_a_fault(run: Run) -> None:
    done = run("grade")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "courseware grade: name a response file, or give --code or --sheet. Try: courseware grade --help\n"
    )
