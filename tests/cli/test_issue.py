"""``courseware issue``: what it prints, what it makes, and what it refuses."""

import re
import shutil
from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.cli.day import Day

pytestmark = pytest.mark.xdist_group("day")


def test_everybody_named_gets_a_form_and_is_told(day: Day) -> None:
    done = day.done["issue"]
    first, second = day.forms()
    assert done.returncode == 0
    page = Path("ridge", "build", "trainee", "index.html")
    assert done.stdout == (
        f"form {first} for T-0002 Bo Ray\nform {second} for T-0003 Cy Dow\nhand out what {page} lists\n"
    )
    assert re.fullmatch(r"[0-9A-Z]{4}-[0-9A-Z]{4}", first)
    assert first != second


def test_progress_is_told_beside_the_result(day: Day) -> None:
    told = day.done["issue"].stderr.splitlines()
    assert told[0] == "reading the course in ridge"
    assert f"  {Path('ridge', 'build', 'trainee', 'quizzes', f'{day.forms()[0]}.html')}" in told


def test_page_and_archive_are_made(day: Day) -> None:
    for form in day.forms():
        assert (day.company / "build" / "trainee" / "quizzes" / f"{form}.html").is_file()
        assert (day.company / "office" / "forms" / f"{form}.key.sealed").is_file()


@pytest.mark.parametrize(
    ("arguments", "named"),
    [(("ignitoin", "T-0002"), "ignitoin"), (("ignition", "T-0099"), "T-0099")],
)
def test_what_is_not_known_is_refused_and_nobody_gets_a_form(
    run: Run, day: Day, tmp_path: Path, arguments: tuple[str, str], named: str
) -> None:
    company = shutil.copytree(day.company, tmp_path / "ridge")
    before = sorted((company / "office" / "forms").iterdir())
    done = run("issue", *arguments, "--company", "ridge")
    assert (done.returncode, done.stdout) == (1, "")
    reading, *told = done.stderr.splitlines()
    assert reading == "reading the course in ridge"
    assert named in told[0]
    assert "try: " in "".join(told)
    assert sorted((company / "office" / "forms").iterdir()) == before


def test_a_roster_enrolls_who_is_new_and_gives_everybody_a_form(run: Run, day: Day, tmp_path: Path) -> None:
    shutil.copytree(day.company, tmp_path / "ridge")
    (tmp_path / "class.csv").write_text(
        "name,email\nBo Ray,bo@example.com\nEve Fox,eve@example.com\n", encoding="utf-8"
    )
    done = run("issue", "ignition", "--roster", "class.csv", "--company", "ridge")
    assert done.returncode == 0
    page = Path("ridge", "build", "trainee", "index.html")
    assert re.fullmatch(
        r"T-0004 Eve Fox\nform \S+ for T-0002 Bo Ray\nform \S+ for T-0004 Eve Fox\n"
        rf"hand out what {re.escape(str(page))} lists\n",
        done.stdout,
    )


@pytest.mark.parametrize("whom", [(), ("T-0002", "--roster", "class.csv")])
def test_people_come_from_the_command_line_or_from_a_roster(run: Run, whom: tuple[str, ...]) -> None:
    done = run("issue", "ignition", *whom)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "courseware issue: name the people, or give --roster; one of the two. Try: courseware issue --help\n"
    )
