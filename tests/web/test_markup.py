"""The HTML check sees every page, and fails on planted markup and dead links."""

from pathlib import Path

import pytest

from tests.web import markup, tools
from tests.web.markup import check_links, check_markup

GOOD = '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Gap</title></head><body>{}</body></html>'


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "lessons").mkdir()
    (tmp_path / "index.html").write_text(
        GOOD.format('<h1>Gap</h1><a href="lessons/gap.html#set">Set it</a>'), encoding="utf-8"
    )
    (tmp_path / "lessons/gap.html").write_text(GOOD.format('<h1 id="set">Set it</h1>'), encoding="utf-8")
    return tmp_path


def test_good_pages_pass_and_are_counted(folder: Path) -> None:
    report = check_markup(folder)
    report.assert_clean(expected=2)
    assert [path.name for path in report.seen] == ["index.html", "gap.html"]


def test_planted_markup_is_found(folder: Path) -> None:
    (folder / "bad.html").write_text(GOOD.format("<h1>Gap</h1>\n<p><div>1/8</p>"), encoding="utf-8")
    report = check_markup(folder)
    assert len(report.seen) == 3
    assert "bad.html:2: No “p” element in scope but a “p” end tag seen." in report.faults


def test_other_files_beside_the_pages_are_left_alone(folder: Path) -> None:
    (folder / "course.css").write_text("p { color: black }", encoding="utf-8")
    check_markup(folder).assert_clean(expected=2)


def test_seeing_no_page_fails(tmp_path: Path) -> None:
    with pytest.raises(AssertionError, match="expected 1 files, saw 0"):
        check_markup(tmp_path).assert_clean(expected=1)


def test_a_missing_checker_fails(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(markup, "NU", folder / "vnu.jar")
    with pytest.raises(tools.ToolMissingError, match="vnu-jar was not found"):
        check_markup(folder)


def test_missing_java_fails(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(folder))
    with pytest.raises(tools.ToolMissingError, match=r"java was not found \(not on PATH\)"):
        check_markup(folder)


def test_good_links_pass(folder: Path) -> None:
    check_links(folder).assert_clean(expected=2)


@pytest.mark.parametrize(
    ("link", "fault"),
    [
        ("lessons/gone.html", "dead.html: lessons/gone.html leads nowhere"),
        ("lessons/gap.html#gone", "dead.html: lessons/gap.html#gone leads nowhere"),
        ("#gone", "dead.html: #gone leads nowhere"),
        ("../elsewhere.html", "dead.html: ../elsewhere.html leads nowhere"),
    ],
)
def test_a_dead_link_is_found(folder: Path, link: str, fault: str) -> None:
    (folder / "dead.html").write_text(GOOD.format(f'<a href="{link}">read</a>'), encoding="utf-8")
    assert check_links(folder).faults == (fault,)


def test_a_link_out_of_the_folder_is_found(folder: Path) -> None:
    (folder / "lessons/gap.html").write_text(GOOD.format('<h1 id="set">Set</h1><a href="../index.html">up</a>'))
    assert check_links(folder / "lessons").faults == ("gap.html: ../index.html leads nowhere",)
