"""``courseware new``: what it prints and how it ends."""

from pathlib import Path

from courseware.content.folders import shipped_course
from tests.cli.conftest import Run


def test_a_new_course_is_a_copy_of_the_shipped_one(run: Run, tmp_path: Path) -> None:
    done = run("new", "my course")
    assert (done.returncode, done.stderr) == (0, "")
    made = [path for path in (tmp_path / "my course").rglob("*") if path.is_file()]
    assert len(made) > 10
    for path in made:
        assert path.read_bytes() == (shipped_course() / path.relative_to(tmp_path / "my course")).read_bytes()
    assert done.stdout == f'my course: a course, files: {len(made)}; try: courseware check --course "my course"\n'


def test_a_company_copies_its_own_course_and_the_copy_checks(run: Run, small: Path, tmp_path: Path) -> None:
    done = run("new", "second", "--course", "small")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == 'second: a course, files: 1; try: courseware check --course "second"\n'
    page = Path("question_bank", "course.yaml")
    assert (tmp_path / "second" / page).read_bytes() == (small / page).read_bytes()
    assert run("check", "--course", "second").returncode == 0


def test_a_folder_in_use_is_refused_in_one_line(run: Run, tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "notes.txt").write_text("mine", encoding="utf-8")
    done = run("new", "mine")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "the folder 'mine' is not empty; try: name a new or empty folder: courseware new my-course\n"
    )
    assert [path.name for path in (tmp_path / "mine").iterdir()] == ["notes.txt"]
