"""Questions from a spreadsheet become a file of the question bank: all of them, or none and every fault by its cell."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Final

import yaml

from courseware.content import tree
from courseware.content.documents import BANK, Document, read_documents
from courseware.content.problems import Problems
from courseware.content.refusal import Refusal
from courseware.content.source import Source
from courseware.content.table import Row, read_table
from courseware.content.words import say
from courseware.jobs.build import sound_course
from courseware.jobs.course import KINDS, Course, stock_of
from courseware.jobs.question_sheet import COLUMNS, allowed_in, empty_sheet, held_row, question_of
from courseware.publish.output import write_file
from courseware.quiz.bank import Blueprint, Draw, QuizBank
from courseware.quiz.check import bank_problems
from courseware.quiz.form import PassRule
from courseware.quiz.load import load_quiz

ITEMS: Final = "items"
WIDTH: Final = 110

Question = Mapping[str, object]
Located = tuple[Source, Question]


@dataclass(frozen=True, slots=True)
class Added:
    """A file of questions that was written, and the ids of its questions by pool."""

    file: Path
    ids: Mapping[str, tuple[str, ...]]


def add_questions(folder: Path, sheet: Path, author: str, *, anew: bool = False) -> Added:
    """Write the questions of a spreadsheet into a file of the question bank.

    The file is called like the spreadsheet. Its questions are held to everything that ``courseware check`` asks.

    Parameters
    ----------
    folder : Path
        The course folder.
    sheet : Path
        A table with the columns of :data:`~courseware.jobs.question_sheet.HEADER`.
    author : str
        Who wrote the questions; each names them as its origin.
    anew : bool
        Whether a file that was written from a spreadsheet before may be replaced.

    Raises
    ------
    ContentError
        If there is any fault in the table or, before that, in the course; with all of them, and nothing is written.
    Refusal
        If there is no author, or the file is there already.
    """
    stem = _stem(sheet)
    file = folder / BANK / ITEMS / f"{stem}.yaml"
    if not author.strip():
        raise Refusal(say("jobs_questions.no-author"), say("jobs_questions.no-author-try"))
    _hold_file(file, anew=anew)
    course, problems = sound_course(folder), Problems()
    name = file.relative_to(folder).as_posix()
    taken = {one.id for one in course.quizbank.templates.values() if one.provenance.source.file != name}
    questions = tuple(_questions(read_table(sheet, COLUMNS, problems), course, taken, (stem, author), problems))
    bank = _bank_with(folder, course, name, questions, problems)
    if not problems:
        _try(course, bank, questions, problems)
    problems.raise_if_any()
    write_file(file, _text(questions).encode("utf-8"))
    pools = {str(question["pool"]) for _, question in questions}
    ids = {pool: tuple(str(one["id"]) for _, one in questions if one["pool"] == pool) for pool in sorted(pools)}
    return Added(file, ids)


def write_empty(folder: Path, sheet: Path) -> None:
    """Write the spreadsheet to start from: CSV if it is called so, else a workbook.

    Raises
    ------
    Refusal
        If a file of that name is there already.
    """
    if sheet.exists():
        raise Refusal(say("jobs_questions.template-exists", file=sheet), say("jobs_questions.template-exists-try"))
    write_file(sheet, empty_sheet(sound_course(folder), as_csv=sheet.suffix.lower() == ".csv"))


def _stem(sheet: Path) -> str:
    """Return the name of the file of questions, which is also what the ids of its questions begin with."""
    stem = re.sub(r"[^a-z0-9]+", "-", sheet.stem.casefold()).strip("-")
    if not stem or not stem[0].isalpha():
        raise Refusal(say("jobs_questions.bad-name", name=sheet.name), say("jobs_questions.bad-name-try"))
    return stem


def _hold_file(file: Path, *, anew: bool) -> None:
    if not file.exists():
        return
    if not anew:
        raise Refusal(say("jobs_questions.exists", file=file), say("jobs_questions.exists-try"))
    if not file.read_text(encoding="utf-8", errors="replace").startswith(say("jobs_questions.comment")):
        raise Refusal(say("jobs_questions.not-ours", file=file), say("jobs_questions.not-ours-try"))


def _questions(
    rows: tuple[Row, ...], course: Course, taken: set[str], by: tuple[str, str], problems: Problems
) -> Iterator[Located]:
    """Yield each sound row as a question; what is wrong with the others goes to ``problems``."""
    allowed, (stem, author) = allowed_in(course), by
    known = set(taken)
    for row in rows:
        if held_row(row, allowed, known, problems):
            name = row.texts["id"] or next(one for one in _names(stem, row.source.line) if one not in known)
            known.add(name)
            yield row.source, question_of(row, name, author)


def _names(stem: str, row: int) -> Iterator[str]:
    yield f"{stem}-{row}"
    yield from (f"{stem}-{row}-{n}" for n in range(2, 1000))


def _bank_with(folder: Path, course: Course, name: str, questions: tuple[Located, ...], problems: Problems) -> QuizBank:
    """Load the question bank with these questions in it, as if each were written where its row stands."""
    documents = [one for one in read_documents(folder, KINDS, problems) if one.file != name]
    start = questions[0][0] if questions else Source(name, 1)
    items = tree.Sequence(tuple(_node(question, source) for source, question in questions), start)
    form = tree.Scalar("courseware/items/1", start, "courseware/items/1")
    top = tree.Mapping({"format": form, "items": items}, {"format": start, "items": start}, start)
    if questions:
        documents.append(Document("items", 1, top, name))
    return load_quiz(documents, course.trade, course.safework, problems)


def _node(value: object, source: Source) -> tree.Node:
    if isinstance(value, Mapping):
        return tree.Mapping(
            {key: _node(one, source) for key, one in value.items()}, dict.fromkeys(value, source), source
        )
    if isinstance(value, list):
        return tree.Sequence(tuple(_node(one, source) for one in value), source)
    assert isinstance(value, str | int)
    return tree.Scalar(value, source, str(value))


def _try(course: Course, bank: QuizBank, questions: tuple[Located, ...], problems: Problems) -> None:
    """Draw each question by itself, and hold it to the rules of writing as ``courseware check`` holds a quiz."""
    probes = {}
    for _, question in questions:
        template = bank.templates[str(question["id"])]
        draws = (Draw((template.id,), 1),)
        probes[template.id] = Blueprint(
            template.id, template.id, template.pool, (), PassRule(100, safety_gate=True), draws, template.provenance
        )
    bank_problems(replace(stock_of(course), bank=replace(bank, blueprints=probes)), problems)


def _text(questions: tuple[Located, ...]) -> str:
    """Return the file of questions."""
    body: dict[str, Any] = {"items": [dict(question) for _, question in questions]}
    return "\n".join(
        (
            say("jobs_questions.comment"),
            "format: courseware/items/1",
            "",
            yaml.safe_dump(body, sort_keys=False, allow_unicode=True, width=WIDTH),
        )
    )
