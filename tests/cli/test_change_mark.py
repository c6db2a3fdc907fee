"""``courseware change-mark``: what it prints, and that a number must be one."""

import re
import shutil
from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.cli.day import Day

pytestmark = pytest.mark.xdist_group("day")


def test_the_new_result_and_the_certificate_that_rests_on_it_are_told(run: Run, day: Day, tmp_path: Path) -> None:
    shutil.copytree(day.company, tmp_path / "ridge")
    form = day.forms()[0]
    done = run("change-mark", form.lower(), "1", "0", "--reason", "helped by a neighbor", "--company", "ridge")
    assert done.returncode == 0
    page = re.escape(str(Path("ridge", "build", "trainer", "index.html")))
    assert re.fullmatch(
        rf"form {form}, Bo Ray: question 1 from \d to 0 points\n  100\.0 % -> [\d.]+ %, (not )?passed\n"
        r"  certificate (\S+) \(.+\) rests on this form, which is now (not )?passed; the office decides: "
        rf"courseware records withdraw \2 --reason \.\.\.\nfeedback sheets: {page}\n",
        done.stdout,
    )


def test_points_are_a_number(run: Run) -> None:
    done = run("change-mark", "7K3Q-9XA2", "1", "two", "--reason", "x")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == "'two' is no number of points; try: write it with digits, such as 2 or 1.5\n"
