"""``courseware build``: what it prints and where it writes."""

import shutil
from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.cli.day import Day

pytestmark = pytest.mark.xdist_group("day")


def test_a_company_builds_into_its_folder_and_what_has_not_changed_is_not_touched(
    run: Run, day: Day, tmp_path: Path
) -> None:
    shutil.copytree(day.company, tmp_path / "ridge")
    done = run("build", "--course", "ridge")
    start = Path("ridge", "build", "index.html")
    assert done.returncode == 0
    files = len(done.stderr.splitlines()) - 1
    assert done.stderr.splitlines()[0] == "reading the course in ridge"
    assert files > 3
    assert done.stdout.startswith(f"files: {files}, changed: ")
    assert done.stdout.endswith(f"; open {start}\n")
    assert list((tmp_path / "ridge" / "build" / "trainee" / "lessons").glob("*.html"))
    cards = sorted(path.name for path in (tmp_path / "ridge" / "build" / "trainee" / "cards").iterdir())
    assert cards == [
        f"ride-along-bay-{burner}.{ending}" for burner in ("metered", "siphon") for ending in ("html", "pdf")
    ]
    listed = (tmp_path / "ridge" / "build" / "trainee" / "index.html").read_text(encoding="utf-8")
    assert all(f'href="cards/{name}"' in listed for name in cards)
    again = run("build", "--course", "ridge")
    assert again.stdout == f"files: {files}, changed: 0; open {start}\n"


def test_a_course_with_faults_is_reported_and_not_built(run: Run, small: Path, tmp_path: Path) -> None:
    (small / "modules" / "a.md").write_text("# Spark\n", encoding="utf-8")
    done = run("build", "--course", "small", "--out", "site")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "reading the course in small\n"
        "modules/a.md:1: the front matter is missing\n"
        "    try: start the file with a line '---', the front matter, and a line '---'\n"
        "faults: 1, files: 1; try: mend them, then type the same command again\n"
    )
    assert not (tmp_path / "site").exists()
