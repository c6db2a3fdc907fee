"""``courseware new``: what it prints and how it ends."""

from pathlib import Path

from tests.cli.conftest import Run


def test_a_new_course_is_made_and_checks(run: Run, tmp_path: Path) -> None:
    done = run("new", "my course")
    assert (done.returncode, done.stderr) == (0, "")
    count = sum(path.is_file() for path in (tmp_path / "my course").rglob("*"))
    assert count > 0
    assert done.stdout == f'my course: a course of {count} files; try: courseware check --course "my course"\n'
    assert run("check", "--course", "my course").returncode == 0


def test_a_company_copies_its_own_course(run: Run, tmp_path: Path) -> None:
    assert run("new", "first").returncode == 0
    page = tmp_path / "first" / "question_bank" / "course.yaml"
    page.write_bytes(page.read_bytes().replace(b"title: ", b"title: Our "))
    assert run("new", "second", "--course", "first").returncode == 0
    assert (tmp_path / "second" / "question_bank" / "course.yaml").read_bytes() == page.read_bytes()


def test_a_folder_in_use_is_refused_in_one_line(run: Run, tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "notes.txt").write_text("mine", encoding="utf-8")
    done = run("new", "mine")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "the folder 'mine' is not empty; try: name a new or empty folder: courseware new my-course\n"
    )
    assert [path.name for path in (tmp_path / "mine").iterdir()] == ["notes.txt"]
