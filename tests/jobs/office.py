"""A company on the bench: the shipped course, an office with known keys, and people enrolled."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from courseware.content.folders import shipped_course
from courseware.jobs.build import sound_course
from courseware.jobs.company import Beginning, Places, begin_company, open_company
from courseware.jobs.course import Course, course_hash, stock_of
from courseware.jobs.desk import Desk
from courseware.jobs.new import copy_course
from courseware.quiz.draw import Stock
from courseware.records.keys import signing_key_from_seed
from courseware.records.people import enroll

NOW: Final = datetime(2026, 11, 25, 9, 30, tzinfo=UTC)
SECRET: Final = bytes(range(32))
PEOPLE: Final = (("Ada Bench", "ada@example.com"), ("Bo Vise", "bo@example.com"))


def begun(folder: Path) -> Path:
    """Make a company with its first signer, T-0001."""
    copy_course(shipped_course(), folder)
    key = signing_key_from_seed(bytes(32))
    begin_company(folder, Beginning("Bench Heater Service", "Sal Signer", "", SECRET, key), NOW)
    return folder


def enrolled(folder: Path) -> Path:
    """Enroll two people, T-0002 and T-0003."""
    with open_company(Places(folder)) as company:
        for name, email in PEOPLE:
            enroll(company.store, name, email, company.key, NOW)
    return folder


@contextmanager
def at_desk(folder: Path) -> Iterator[Desk]:
    """Open the company's desk; nobody waits for progress. A course with the same content is loaded once for all."""
    course, stock = loaded(folder)
    with open_company(Places(folder)) as company:
        yield Desk(replace(course, folder=folder), company, NOW, lambda _line: None, stock)


_LOADED: dict[str, tuple[Course, Stock]] = {}


def loaded(folder: Path) -> tuple[Course, Stock]:
    """Return the course of a folder and what quizzes are drawn from; whatever a test changes in it is loaded anew."""
    content = course_hash(folder)
    if content not in _LOADED:
        course = sound_course(folder)
        _LOADED[content] = course, stock_of(course)
    return _LOADED[content]


def copied(folder: Path, target: Path) -> Path:
    """Return a copy of a company that a test may change."""
    shutil.copytree(folder, target)
    return target
