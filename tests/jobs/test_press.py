"""Writing: what has not changed is left alone, and helpers make the same papers as this process does."""

import os
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_context
from pathlib import Path

import pytest

from courseware.jobs import press as press_module
from courseware.jobs.press import Press
from courseware.publish.pdf import PdfUnavailable, html_to_pdf


def page(text: str) -> str:
    return f'<!DOCTYPE html><html lang="en"><head><title>{text}</title></head><body><h1>{text}</h1></body></html>'


def printed(folder: Path, *texts: str) -> Press:
    press = Press(lambda _: None)
    for text in texts:
        press.paper(folder / f"{text}.pdf", page(text))
    press.finish()
    return press


def never(_html: str) -> bytes:
    raise AssertionError("made again")


def test_papers_that_helpers_make_are_the_same_bytes(tmp_path: Path) -> None:
    press = printed(tmp_path, "one", "two", "three", "four")
    assert press.made == [tmp_path / f"{text}.pdf" for text in ("one", "two", "three", "four")]
    assert press.changed == 4
    assert (tmp_path / "three.pdf").read_bytes() == html_to_pdf(page("three"))


def test_a_paper_of_the_same_page_is_not_made_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    printed(tmp_path, "one")
    monkeypatch.setattr(press_module, "html_to_pdf", never)
    press = printed(tmp_path, "one")
    assert (press.made, press.changed) == ([tmp_path / "one.pdf"], 0)


@pytest.mark.parametrize("left", [lambda data: data[:-100], lambda _: b"", lambda _: html_to_pdf(page("other"))])
def test_a_paper_of_another_page_or_cut_short_is_made_again(tmp_path: Path, left: Callable[[bytes], bytes]) -> None:
    printed(tmp_path, "one")
    whole = (tmp_path / "one.pdf").read_bytes()
    (tmp_path / "one.pdf").write_bytes(left(whole))
    assert printed(tmp_path, "one").changed == 1
    assert (tmp_path / "one.pdf").read_bytes() == whole


def test_a_page_that_lies_in_two_folders_is_made_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[str] = []

    def make(html: str) -> bytes:
        asked.append(html)
        return b"paper"

    monkeypatch.setattr(press_module, "html_to_pdf", make)
    press = Press(lambda _: None)
    for folder in ("trainee", "trainer"):
        press.paper(tmp_path / folder / "form.pdf", page("form"))
    press.finish()
    assert asked == [page("form")]
    assert [path.read_bytes() for path in press.made] == [b"paper", b"paper"]


def drawn() -> str:
    """Stand for a page that takes long to draw; it must be found by another process."""
    return page(f"drawn by {os.getpid()}")


def test_a_slow_page_is_drawn_once_by_another_process(tmp_path: Path) -> None:
    press = Press(lambda _: None)
    for _ in range(2):
        press.slow_page(tmp_path / "page.html", drawn)
    press.finish()
    assert (press.made, press.changed) == ([tmp_path / "page.html"], 1)
    text = (tmp_path / "page.html").read_text(encoding="utf-8")
    assert "drawn by " in text
    assert f"drawn by {os.getpid()}<" not in text


def test_what_is_asked_for_last_is_what_lies_there(tmp_path: Path) -> None:
    press = Press(lambda _: None)
    for text in ("first", "second", "third", "last"):
        press.paper(tmp_path / "sheet.pdf", page(text))
    press.finish()
    assert press.made == [tmp_path / "sheet.pdf"]
    assert (tmp_path / "sheet.pdf").read_bytes() == html_to_pdf(page("last"))


def test_a_machine_that_killed_the_helpers_makes_the_papers_itself(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as dead:
        with pytest.raises(BrokenProcessPool):
            dead.submit(os._exit, 9).result()
        monkeypatch.setattr(press_module, "_helpers", lambda: dead)
        press = printed(tmp_path, "one", "two", "three", "four")
        press.slow_page(tmp_path / "page.html", drawn)
        press.finish()
    assert press.changed == 5
    assert (tmp_path / "four.pdf").read_bytes() == html_to_pdf(page("four"))
    assert f"drawn by {os.getpid()}<" in (tmp_path / "page.html").read_text(encoding="utf-8")


def test_a_machine_without_the_libraries_says_so_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def missing(_html: str) -> bytes:
        raise PdfUnavailable("install them")

    monkeypatch.setattr(press_module, "html_to_pdf", missing)
    press = printed(tmp_path, "one", "two")
    assert (press.no_pdf, press.made, list(tmp_path.iterdir())) == ("install them", [], [])
