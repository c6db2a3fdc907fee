"""Build the course: every lesson as a page and a paper, the practice page, the field cards, and the front pages."""

import shutil
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path

from courseware.content.folders import PACKAGE
from courseware.content.problems import Problems
from courseware.heater.kept import kept, source_digest
from courseware.jobs.company import Company
from courseware.jobs.course import Course, course_hash, load_course, stock_of
from courseware.jobs.office import write_office, write_office_papers
from courseware.jobs.press import Press
from courseware.jobs.shelf import (
    CARDS,
    LESSONS,
    PRACTICE,
    card_name,
    imprint_of,
    lesson_places,
    objective_titles,
    write_front_pages,
)
from courseware.publish.field_card_page import card_sheet, field_card_page, field_card_paper
from courseware.publish.lesson import render_lesson
from courseware.publish.output import OutputFolders
from courseware.publish.practice_page import practice_page
from courseware.publish.teaching import Teaching
from courseware.quiz.practice import practice_calls


@dataclass(frozen=True, slots=True)
class Built:
    """What a build made.

    Attributes
    ----------
    start : Path
        The page to open first.
    files, changed : int
        Files made, and how many of them changed [-].
    no_pdf : str
        What to install for PDF; empty if all papers were made.
    """

    start: Path
    files: int
    changed: int
    no_pdf: str


def sound_course(folder: Path) -> Course:
    """Return the course of a folder.

    Raises
    ------
    ContentError
        If there is any fault in it; with all of them.
    """
    problems = Problems()
    course = load_course(folder, problems)
    problems.raise_if_any()
    return course


def build_course(course: Course, company: Company | None, out: Path, on: date, press: Press) -> Built:
    """Write every lesson, the practice page, the field cards and the front pages.

    Parameters
    ----------
    course : Course
        A sound course.
    company : Company or None
        Whose records the front pages list.
    out : Path
        The folder that holds ``trainee``, ``trainer`` and ``office``.
    on : date
        The day of the lists.
    press : Press
        Writes all of it.
    """
    folders = OutputFolders.under(out)
    write_practice(course, folders.trainee, press)  # first, since it takes longest
    _write_lessons(course, folders.trainee, press)
    _write_cards(course, folders.trainee / CARDS, press)
    write_front_pages(course, company, folders, press, on)
    if company is None:
        write_office(course, company, folders, press, on)
    else:
        write_office_papers(course, company, folders, press, on)
    return Built(out / "index.html", len(press.made), press.changed, press.no_pdf)


def _write_lessons(course: Course, trainee: Path, press: Press) -> None:
    teaching = Teaching(course.trade, course.safework, objective_titles(course))
    imprint, folder = imprint_of(course), trainee / LESSONS
    for lesson in course.lessons:
        press.page(folder / f"{lesson.id}.html", render_lesson(lesson, teaching, imprint))
        press.paper(folder / f"{lesson.id}.pdf", render_lesson(lesson, teaching, imprint, paper=True, root=""))
    _drop_others(folder, {lesson.id for lesson in course.lessons})


def write_practice(course: Course, trainee: Path, press: Press) -> None:
    """Take the practice page in hand."""
    press.slow_page(trainee / PRACTICE, partial(practice_html, course.folder.resolve()))


def practice_html(folder: Path) -> str:
    """Return the practice page of a sound course; its calls take half a minute to draw and explain, so it is kept."""

    def make() -> bytes:
        course = sound_course(folder)
        made_from, places = stock_of(course).materials, lesson_places(course, f"../{LESSONS}")
        return practice_page(practice_calls(made_from), made_from, places, imprint_of(course)).encode("utf-8")

    return kept((source_digest(PACKAGE), course_hash(folder).encode("ascii")), make).decode("utf-8")


def _write_cards(course: Course, folder: Path, press: Press) -> None:
    """Write every field card for every unit."""
    sheets = {
        card_name(card, unit): card_sheet(card, unit, course.trade, course.safework)
        for card in course.cards
        for unit in course.trade.units.values()
    }
    for name, sheet in sheets.items():
        press.page(folder / f"{name}.html", field_card_page(sheet, imprint_of(course), root="../"))
        press.paper(folder / f"{name}.pdf", field_card_paper(sheet, imprint_of(course)))
    _drop_others(folder, sheets.keys())


def _drop_others(folder: Path, names: Collection[str]) -> None:
    """Remove what an earlier build made of a lesson or a card that there is no more."""
    kept = {f"{name}.{ending}" for name in names for ending in ("html", "pdf")}
    for path in sorted(folder.glob("*")):
        if path.name in kept:
            continue
        if path.is_dir():
            shutil.rmtree(path)
        else:
            path.unlink()
