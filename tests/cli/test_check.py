"""``courseware check``: what it prints and how it ends."""

import json
from pathlib import Path

import pytest

from courseware.jobs.course import course_hash
from tests.cli.conftest import Run


@pytest.fixture
def broken(small: Path) -> Path:
    """Damage the small course in two files."""
    page = small / "question_bank" / "course.yaml"
    page.write_text(page.read_text(encoding="utf-8").replace("'", ""), encoding="utf-8")
    (small / "modules" / "a.md").write_text("# Spark\n", encoding="utf-8")
    return small


REPORT = (
    "modules/a.md:1: the front matter is missing\n"
    "    try: start the file with a line '---', the front matter, and a line '---'\n"
    "question_bank/course.yaml:3: course: 'version' is the number 1.10\n    allowed: text\n"
    '    try: put it in quotes: "1.10"\n'
    "faults: 2, files: 2; try: mend them, then type the same command again\n"
)


def test_a_sound_course_is_told_whole(run: Run, small: Path) -> None:
    done = run("check", "--course", "small")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == (
        f"Bench, version 1.10, in small\ndocuments: 1 (course 1)\nfaults: none\nfingerprint: {course_hash(small)}\n"
    )


def test_a_sound_course_as_json(run: Run, small: Path) -> None:
    done = run("check", "--course", "small", "--json")
    assert (done.returncode, done.stderr) == (0, "")
    assert json.loads(done.stdout) == {
        "format": "courseware/check/1",
        "sound": True,
        "course": {"title": "Bench", "version": "1.10", "sha256": course_hash(small)},
        "documents": {"course": 1},
        "problems": [],
    }


@pytest.mark.usefixtures("broken")
def test_a_broken_course_is_reported_whole(run: Run) -> None:
    done = run("check", "--course", "small")
    assert (done.returncode, done.stdout, done.stderr) == (1, "", REPORT)


@pytest.mark.usefixtures("broken")
def test_a_broken_course_as_json_ends_with_1_and_keeps_to_stdout(run: Run) -> None:
    done = run("check", "--course", "small", "--json")
    assert (done.returncode, done.stderr) == (1, "")
    report = json.loads(done.stdout)
    assert not report["sound"]
    assert report["problems"][1] == {
        "file": "question_bank/course.yaml",
        "line": 3,
        "where": "course",
        "found": "'version' is the number 1.10",
        "allowed": "text",
        "try": 'put it in quotes: "1.10"',
    }


def test_checking_nothing_is_a_fault(run: Run, small: Path) -> None:
    (small / "question_bank" / "course.yaml").unlink()
    done = run("check", "--course", "small")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "question_bank/:1: no content file was found in question_bank/, modules/\n"
        "    try: name the course folder with --course, or make one: courseware new my-course\n"
        "faults: 1, files: 1; try: mend them, then type the same command again\n"
    )


def test_a_folder_that_is_no_course_is_refused_in_one_line(run: Run, small: Path) -> None:
    (small / "modules").rmdir()
    done = run("check", "--course", "small")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "'small' is not a course folder: it does not hold question_bank/ and modules/; "
        "try: name another folder, or make one: courseware new my-course\n"
    )


def test_the_current_folder_is_checked_if_it_is_a_course(
    run: Run, broken: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(broken)
    assert run("check").stderr == REPORT


def test_the_shipped_course_is_checked_from_an_empty_folder(shell: Run) -> None:
    done = shell("check")
    assert (done.returncode, done.stderr) == (0, "")
    assert "\nfaults: none\n" in done.stdout


def test_a_sign_that_the_console_cannot_show_stops_nothing(shell: Run, small: Path) -> None:
    (small / "question_bank" / "course.yaml").write_text("Ω: 1\nformat: courseware/course/1\n", encoding="utf-8")
    done = shell("check", "--course", "small", PYTHONIOENCODING="cp1252", PYTHONUTF8="0")
    assert done.returncode == 1
    assert "unknown key '?'" in done.stderr
    assert done.stderr.endswith("faults: 3, files: 1; try: mend them, then type the same command again\n")
