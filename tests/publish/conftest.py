"""The course that ships, loaded once for the tests of pages made from it."""

from dataclasses import dataclass
from pathlib import Path

import pytest

from courseware.content.documents import read_documents
from courseware.content.folders import shipped_course
from courseware.content.problems import Problems
from courseware.heater.load import HEATER_KINDS, load_trade
from courseware.jobs.course import KINDS
from courseware.publish.lesson import Lesson, load_lessons, render_lesson
from courseware.publish.pages import Imprint
from courseware.publish.teaching import Teaching
from courseware.quiz.load import load_quiz
from courseware.safework.load import load_safework

IMPRINT = Imprint("Used-oil heater service", "0.1")


@dataclass(frozen=True, slots=True)
class Shipped:
    """What lessons refer to, the lesson on the ignition test, its file, and the two forms of its page."""

    teaching: Teaching
    lesson: Lesson
    file: Path
    screen: str
    paper: str


@pytest.fixture(scope="session")
def shipped() -> Shipped:
    """Give the lesson on the ignition test; that the whole course loads is part of every test that uses it."""
    problems = Problems()
    root = shipped_course()
    documents = read_documents(root, KINDS, problems)
    trade = load_trade([one for one in documents if one.kind in HEATER_KINDS], problems)
    safework = load_safework(documents, trade, problems)
    bank = load_quiz(documents, trade, safework, problems)
    teaching = Teaching(trade, safework, {one.id: one.title for one in bank.objectives.values()})
    lessons = load_lessons(documents, teaching, problems)
    problems.raise_if_any()
    lesson = next(one for one in lessons if one.id == "ignition-test")
    file = root / "modules" / "ignition-test.md"
    pages = [render_lesson(lesson, teaching, IMPRINT, paper=paper) for paper in (False, True)]
    return Shipped(teaching, lesson, file, *pages)
