"""A whole course: every content file of a folder, read by every room's loader."""

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from courseware.content.documents import BANK, Document, content_files, read_documents
from courseware.content.problems import Problems
from courseware.content.source import Source
from courseware.content.words import say
from courseware.heater.load import HEATER_KINDS, Trade, load_trade
from courseware.jobs.anchors import hold_anchors
from courseware.publish.field_card import FIELD_CARD_KINDS, FieldCard, load_field_cards
from courseware.publish.lesson import LESSON_KINDS, Lesson, load_lessons
from courseware.publish.teaching import Teaching
from courseware.quiz.bank import QuizBank
from courseware.quiz.draw import Stock
from courseware.quiz.kinds.base import materials
from courseware.quiz.load import QUIZ_KINDS, load_quiz
from courseware.records.program import PROGRAM_KINDS, Program, load_programs
from courseware.safework.check import procedure_problems
from courseware.safework.load import SAFEWORK_KINDS, load_safework
from courseware.safework.model import SafeWork

COURSE_KIND: Final = "course"
KINDS: Final = (
    COURSE_KIND,
    *HEATER_KINDS,
    *SAFEWORK_KINDS,
    *QUIZ_KINDS,
    *LESSON_KINDS,
    *FIELD_CARD_KINDS,
    *PROGRAM_KINDS,
)


@dataclass(frozen=True, slots=True)
class Course:
    """Everything that a course folder holds, loaded.

    Attributes
    ----------
    folder : Path
        The course folder.
    title : str
        What the course is called.
    version : str
        The version its authors gave it.
    hash : str
        SHA-256 [64 hex digits] over the names and contents of all content files, line ends counted as LF.
    trade : Trade
        Units, faults, repairs, checks, complaints, states of the job.
    safework : SafeWork
        Actions, never-rules, procedures.
    quizbank : QuizBank
        Objectives, item templates, blueprints.
    lessons : tuple of Lesson
        In the order of the course.
    programs : mapping of str to Program
        Certificate programs by id.
    cards : tuple of FieldCard
        Field cards for the ride-along.
    """

    folder: Path
    title: str
    version: str
    hash: str
    trade: Trade
    safework: SafeWork
    quizbank: QuizBank
    lessons: tuple[Lesson, ...]
    programs: Mapping[str, Program]
    cards: tuple[FieldCard, ...]


def stock_of(course: Course) -> Stock:
    """Return what quizzes are drawn from; what it computes is kept with it."""
    made_from = materials(course.trade, course.safework, course.quizbank.misconceptions.values())
    return Stock(course.quizbank, made_from, course.version)


def load_course(folder: Path, problems: Problems) -> Course:
    """Read a course folder.

    Parameters
    ----------
    folder : Path
        The course folder, which holds ``question_bank/`` and ``modules/``.
    problems : Problems
        Receives every fault of every file; no job may use the course before ``problems.raise_if_any()``.

    Returns
    -------
    Course
        The course; with stand-ins where there are problems.
    """
    return read_course(folder, read_documents(folder, KINDS, problems), problems)


def read_course(folder: Path, documents: Sequence[Document], problems: Problems) -> Course:
    """Load a course from its documents; the rest is as in :func:`load_course`."""
    title, version = _title_page(documents, problems)
    trade = load_trade(documents, problems)
    safework = load_safework(documents, trade, problems)
    if not problems:  # a procedure can only be carried out on units and with actions that are sound
        procedure_problems(safework, trade, problems)
    quizbank = load_quiz(documents, trade, safework, problems)
    objectives = {objective.id: objective.title for objective in quizbank.objectives.values()}
    lessons = load_lessons(documents, Teaching(trade, safework, objectives), problems)
    programs = load_programs(documents, quizbank.blueprints, safework.procedures, problems)
    cards = load_field_cards(documents, trade, safework, problems)
    hold_anchors(trade, safework, quizbank, lessons, problems)
    return Course(folder, title, version, course_hash(folder), trade, safework, quizbank, lessons, programs, cards)


def _title_page(documents: Sequence[Document], problems: Problems) -> tuple[str, str]:
    """Return the course's title and version from its one ``course`` document."""
    pages = [document for document in documents if document.kind == COURSE_KIND]
    if not pages and documents:
        problems.add(Source(f"{BANK}/", 1), "", say("jobs.no-title-page"), advice=say("jobs.no-title-page-try"))
    for page in pages[1:]:
        found = say("jobs.two-title-pages", first=pages[0].source)
        problems.add(page.source, "", found, advice=say("jobs.two-title-pages-try"))
    title = version = ""
    for page in reversed(pages):
        fields = page.fields(say("jobs.title-page"), problems)
        title, version = fields.text("title"), fields.text("version")
        fields.finish()
    return title, version


def course_hash(folder: Path) -> str:
    """Return the fingerprint of a course's content.

    Parameters
    ----------
    folder : Path
        The course folder.

    Returns
    -------
    str
        SHA-256 [64 hex digits] over each content file in the order of names: its name, its length and its bytes. CRLF
        counts as LF, so that a copy that git made on Windows is the same course.
    """
    digest = hashlib.sha256()
    for name, path in content_files(folder, Problems()):
        try:
            data = path.read_bytes().replace(b"\r\n", b"\n")
        except OSError:
            continue  # reading the documents has reported it
        digest.update(f"{name}\n{len(data)}\n".encode(errors="surrogateescape") + data)
    return digest.hexdigest()
