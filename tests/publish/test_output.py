"""Files are written whole, and only if they changed."""

from pathlib import Path

import pytest

from courseware.publish.output import OutputFolders, write_file, write_page, write_style


def test_a_file_is_written_once_and_left_alone_while_it_is_the_same(tmp_path: Path) -> None:
    path = tmp_path / "deep" / "page.html"
    assert write_page(path, "½") is True
    assert path.read_bytes() == b"\xc2\xbd"
    before = path.stat().st_mtime_ns
    assert write_page(path, "½") is False
    assert path.stat().st_mtime_ns == before
    assert write_page(path, "⅛") is True
    assert [found.name for found in path.parent.iterdir()] == ["page.html"]


def test_a_write_that_fails_leaves_the_old_file_and_no_crumbs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "page.html"
    write_file(path, b"old")

    def fail(_self: Path, _target: Path) -> None:
        raise OSError("disk full")

    monkeypatch.setattr(Path, "replace", fail)
    with pytest.raises(OSError, match="disk full"):
        write_file(path, b"new")
    assert path.read_bytes() == b"old"
    assert [found.name for found in tmp_path.iterdir()] == ["page.html"]


def test_a_folder_gets_its_style_and_fonts(tmp_path: Path) -> None:
    write_style(tmp_path)
    assert sorted(path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*") if path.is_file()) == [
        "course.css", "fonts/SourceSansPro-Bold.ttf", "fonts/SourceSansPro-BoldIt.ttf", "fonts/SourceSansPro-It.ttf",
        "fonts/SourceSansPro-Regular.ttf",
    ]  # fmt: skip


def test_the_three_folders() -> None:
    folders = OutputFolders.under(Path("build"))
    assert [folder.as_posix() for folder in folders.each()] == ["build/trainee", "build/trainer", "build/office"]
