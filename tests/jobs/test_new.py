"""A company's own copy of a course."""

import os
import shutil
import stat
from pathlib import Path

import pytest

from courseware.content.refusal import Refusal
from courseware.jobs.new import copy_course

FILES = {
    "question_bank/course.yaml": b"format: courseware/course/1\r\ntitle: x\n",
    "question_bank/units/a.yaml": b"\xff",
    "modules/1/a.md": b"---\n",
}


@pytest.fixture
def course(tmp_path: Path) -> Path:
    folder = tmp_path / "course"
    for name, content in {**FILES, "question_bank/.hidden.yaml": b"", "README.md": b"", "build/x.yaml": b""}.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
        path.chmod(0o444)
    return folder


def contents(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.mark.parametrize("made", [False, True])
def test_the_copy_holds_the_content_byte_for_byte_and_nothing_else(course: Path, tmp_path: Path, made: bool) -> None:  # noqa: FBT001
    target = tmp_path / "deep" / "mine"
    if made:
        target.mkdir(parents=True)
    assert copy_course(course, target) == tuple(sorted(FILES))
    assert contents(target) == FILES


def test_the_copy_can_be_edited_where_the_original_cannot(course: Path, tmp_path: Path) -> None:
    copy_course(course, tmp_path / "mine")
    for path in (tmp_path / "mine").rglob("*.*"):
        assert path.stat().st_mode & stat.S_IWUSR


def test_both_folders_are_there_even_where_one_is_empty(course: Path, tmp_path: Path) -> None:
    shutil.rmtree(course / "modules")
    copy_course(course, tmp_path / "mine")
    assert (tmp_path / "mine" / "modules").is_dir()


def refusal(course: Path, target: Path) -> str:
    with pytest.raises(Refusal) as caught:
        copy_course(course, target)
    return str(caught.value)


def test_the_whole_message_of_each_refusal(course: Path, tmp_path: Path) -> None:
    advice = "; try: name a new or empty folder: courseware new my-course"
    used = tmp_path / "used"
    used.mkdir()
    (used / "notes.txt").write_bytes(b"mine")
    assert refusal(course, used) == f"the folder '{used}' is not empty{advice}"
    assert refusal(course, used / "notes.txt") == f"'{used / 'notes.txt'}' is a file{advice}"
    inside = course / "modules" / "new"
    assert (
        refusal(course, inside)
        == f"the folder '{inside}' lies inside '{course / 'modules'}', which is to be copied{advice}"
    )
    assert contents(used) == {"notes.txt": b"mine"}
    assert not inside.exists()


def test_nothing_of_a_copy_that_failed_is_left(course: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fill(source: Path, target: Path) -> None:
        if source.name == "course.yaml":
            raise OSError(28, os.strerror(28), str(target))
        Path(target).write_bytes(b"x")

    monkeypatch.setattr(shutil, "copyfile", fill)
    target = tmp_path / "mine"
    target.mkdir()
    with pytest.raises(OSError, match="No space left"):
        copy_course(course, target)
    assert list(target.iterdir()) == []
