"""``courseware class-sheet``: what it prints, and what it refuses."""

from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.cli.day import Day

pytestmark = pytest.mark.xdist_group("day")


def test_the_sheet_of_everybody_is_told(day: Day) -> None:
    done = day.type("class sheet", "class-sheet", "ignition", "--company", "ridge")
    page = Path("ridge", "build", "trainer", "classes", "ignition.html")
    assert (done.returncode, done.stdout) == (0, f"class sheet, forms: 2; open {page}\n")
    text = (day.folder / page).read_text(encoding="utf-8")
    assert "Bo Ray" in text
    assert "Cy Dow" in text


def test_forms_are_named_as_people_type_them(day: Day) -> None:
    form = day.forms()[0].lower()
    done = day.type(
        "class sheet of one", "class-sheet", "ignition", form, "--since", "2026-01-01", "--company", "ridge"
    )
    page = Path("ridge", "build", "trainer", "classes", "ignition-since-2026-01-01-chosen.html")
    assert (done.returncode, done.stdout) == (0, f"class sheet, forms: 1; open {page}\n")


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (("lock-in",), "no form of the quiz 'lock-in' was graded yet; try: graded forms are there of: "),
        (("ignition", "--since", "2099-01-01"), "none of the forms chosen was marked on 2099-01-01 or later; try: "),
        (("ignition", "--since", "soon"), "courseware class-sheet: Invalid value for '--since': 'soon' does not match"),
        ((), "courseware class-sheet: Missing argument 'QUIZ'."),
    ],
)
def test_a_fault_is_told(day: Day, arguments: tuple[str, ...], told: str) -> None:
    done = day.type("refused", "class-sheet", *arguments, "--company", "ridge")
    assert done.returncode == 1
    assert done.stdout == ""
    assert told in done.stderr


def test_without_records_there_is_no_sheet(run: Run, small: Path) -> None:
    done = run("class-sheet", "ignition", "--company", small.name)
    assert done.returncode == 1
    assert "has no records yet" in done.stderr
