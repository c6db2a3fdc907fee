"""``courseware add-questions``: an empty spreadsheet to fill in, its questions into the bank, and what is refused."""

import shutil
from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.cli.day import Day

pytestmark = pytest.mark.xdist_group("day")


def test_from_an_empty_spreadsheet_to_questions_in_the_bank(run: Run, day: Day, tmp_path: Path) -> None:
    shutil.copytree(day.company, tmp_path / "ridge")
    empty = run("add-questions", "spring.xlsx", "--template", "--company", "ridge")
    assert (empty.returncode, empty.stdout) == (
        0, "spring.xlsx: an empty spreadsheet; fill it in below the example, and delete the example\n",
    )  # fmt: skip
    done = run("add-questions", "spring.xlsx", "--author", "Pat Example", "--company", "ridge")
    file = Path("ridge", "question_bank", "items", "spring.yaml")
    assert (done.returncode, done.stdout) == (
        0,
        (
            f"questions: 1, in {file}\n"
            "  pool graded: spring-2; to have them asked, name them in a quiz in question_bank/blueprints\n"
        ),
    )
    nobody = run("add-questions", "spring.xlsx", "--replace", "--company", "ridge")
    assert (nobody.returncode, nobody.stdout) == (1, "")
    assert nobody.stderr.startswith("nobody is named as the author; try: ")
