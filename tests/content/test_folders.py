"""Which folder is the course."""

from pathlib import Path

import pytest

from courseware.content.folders import course_folder, is_course, shipped_course
from courseware.content.refusal import Refusal


def make_course(folder: Path) -> Path:
    (folder / "question_bank").mkdir(parents=True)
    (folder / "modules").mkdir()
    return folder


def test_the_named_folder_goes_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(make_course(tmp_path / "here"))
    named = make_course(tmp_path / "named")
    assert course_folder(named) == named


def test_then_the_current_folder_if_it_is_a_course(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(make_course(tmp_path / "here"))
    assert course_folder(None).resolve() == tmp_path / "here"


def test_else_the_course_that_comes_with_the_program(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert course_folder(None) == shipped_course()
    assert is_course(shipped_course())


def test_a_named_folder_that_is_no_course_is_refused_whole(tmp_path: Path) -> None:
    (tmp_path / "question_bank").mkdir()
    with pytest.raises(Refusal) as caught:
        course_folder(tmp_path)
    assert str(caught.value) == (
        f"'{tmp_path}' is not a course folder: it does not hold question_bank/ and modules/; "
        "try: name another folder, or make one: courseware new my-course"
    )
