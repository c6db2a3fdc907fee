"""``courseware check``: what it prints and how it ends."""

import json
import shutil
from pathlib import Path

from tests.cli.conftest import Run


def broken_course(folder: Path) -> None:
    (folder / "question_bank").mkdir(parents=True)
    (folder / "modules").mkdir()
    (folder / "question_bank" / "course.yaml").write_text(
        "format: courseware/course/1\ntitle: Bench\nversion: 1.10\n", encoding="utf-8"
    )
    (folder / "modules" / "a.md").write_text("# Spark\n", encoding="utf-8")


def test_the_course_that_comes_with_the_program_is_sound(run: Run) -> None:
    done = run("check")
    assert (done.returncode, done.stderr) == (0, "")
    assert "faults: none\n" in done.stdout


def test_the_same_as_json(run: Run) -> None:
    done = run("check", "--json")
    assert (done.returncode, done.stderr) == (0, "")
    report = json.loads(done.stdout)
    assert (report["format"], report["sound"], report["problems"]) == ("courseware/check/1", True, [])
    assert report["documents"]["course"] == 1


def test_a_broken_course_is_reported_whole(run: Run, tmp_path: Path) -> None:
    broken_course(tmp_path / "mine")
    done = run("check", "--course", "mine")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "modules/a.md:1: the front matter is missing\n"
        "    try: start the file with a line '---', the front matter, and a line '---'\n"
        "question_bank/course.yaml:3: course: 'version' is the number 1.10\n    allowed: text\n"
        '    try: put it in quotes: "1.10"\n'
        "faults: 2, files: 2; try: mend them, then type the same command again\n"
    )


def test_a_broken_course_as_json_ends_with_1_and_keeps_to_stdout(run: Run, tmp_path: Path) -> None:
    broken_course(tmp_path / "mine")
    done = run("check", "--course", "mine", "--json", PYTHONIOENCODING="ascii")
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


def test_checking_nothing_is_a_fault(run: Run, tmp_path: Path) -> None:
    (tmp_path / "mine" / "question_bank").mkdir(parents=True)
    (tmp_path / "mine" / "modules").mkdir()
    done = run("check", "--course", "mine")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "question_bank/:1: no content file was found in question_bank/, modules/\n"
        "    try: name the course folder with --course, or make one: courseware new my-course\n"
        "faults: 1, files: 1; try: mend them, then type the same command again\n"
    )


def test_a_folder_that_is_no_course_is_refused_in_one_line(run: Run, tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    done = run("check", "--course", "mine")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "'mine' is not a course folder: it does not hold question_bank/ and modules/; "
        "try: name another folder, or make one: courseware new my-course\n"
    )


def test_the_current_folder_is_checked_if_it_is_a_course(run: Run, tmp_path: Path) -> None:
    broken_course(tmp_path)
    assert run("check").returncode == 1
    shutil.rmtree(tmp_path / "modules")
    assert run("check").returncode == 0


def test_a_sign_that_the_console_cannot_show_stops_nothing(run: Run, tmp_path: Path) -> None:
    broken_course(tmp_path)
    (tmp_path / "question_bank" / "course.yaml").write_text("Ω½: 1\n", encoding="utf-8")
    done = run("check", PYTHONIOENCODING="ascii", PYTHONUTF8="0")
    assert done.returncode == 1
    assert done.stderr.endswith("faults: 2, files: 2; try: mend them, then type the same command again\n")
