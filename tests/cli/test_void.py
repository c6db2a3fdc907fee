"""``courseware void``: what it prints, with other forms in their place and without, and what it refuses."""

import re
import shutil
from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.cli.day import Day

pytestmark = pytest.mark.xdist_group("day")


def issued(run: Run, day: Day, folder: Path) -> str:
    """Issue one more form in a copy of the company; return its number."""
    shutil.copytree(day.company, folder / "ridge")
    return run("issue", "ignition", "T-0003", "--company", "ridge").stdout.split()[1]


def test_another_form_is_issued_in_its_place(run: Run, day: Day, tmp_path: Path) -> None:
    form = issued(run, day, tmp_path)
    done = run("void", form.lower(), "--reason", "a photo of it went round", "--company", "ridge")
    assert done.returncode == 0
    new = done.stdout.splitlines()[1].split()[1]
    page = Path("ridge", "build", "trainee", "index.html")
    assert new != form
    assert done.stdout == f"form {form} is void\nform {new} for T-0003 Cy Dow\nhand out what {page} lists\n"
    again = run("void", form, "--reason", "again", "--company", "ridge")
    assert (again.returncode, again.stdout) == (1, "")
    assert again.stderr.splitlines()[1].startswith(f"form '{form}' was voided on ")
    alone = run("void", new, "--reason", "left", "--no-replacement", "--company", "ridge")
    assert (alone.returncode, alone.stdout) == (0, f"form {new} is void\n")


def test_a_reason_is_asked_for(run: Run) -> None:
    done = run("void", "7K3Q-9XA2")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.startswith("courseware void: Missing option '--reason'")


def test_a_leaked_form_takes_the_others_of_its_issue_along(run: Run, day: Day, tmp_path: Path) -> None:
    shutil.copytree(day.company, tmp_path / "ridge")
    out = run("issue", "lockout", "T-0002", "T-0003", "--company", "ridge").stdout.splitlines()
    first, second = (line.split()[1] for line in out[:2])
    done = run("void", first, "--leaked", "--reason", "a photo of it went round", "--company", "ridge")
    assert done.returncode == 0
    page = re.escape(str(Path("ridge", "build", "trainee", "index.html")))
    again = r"  asks again what was known, since the course has nothing else there: question \d+(, \d+)*\n"
    assert re.fullmatch(
        rf"form {first} is void\nform {second} is void\nform \S+ for T-0002 Bo Ray\n{again}"
        rf"form \S+ for T-0003 Cy Dow\n{again}hand out what {page} lists\n",
        done.stdout,
    )
