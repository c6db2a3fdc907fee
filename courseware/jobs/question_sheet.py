"""The spreadsheet that a trainer writes questions in: its columns, what each row is held to, and an empty one."""

import csv
import io
from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import Final

from courseware.content.fields import ID_PATTERN
from courseware.content.problems import Problems, listed, nearest
from courseware.content.table import Columns, Row
from courseware.content.words import say
from courseware.jobs.course import Course
from courseware.quiz.pools import GRADED, POOLS

MOST_WRONG: Final = 4
_ANSWERS: Final = tuple(
    (f"wrong answer {n}", f"why wrong {n}", f"misconception {n}", f"breaks rule {n}") for n in range(1, MOST_WRONG + 1)
)
HEADER: Final = (
    "question", "right answer", "why right", *(name for answer in _ANSWERS for name in answer),
    "objective", "lesson section", "pool", "points", "minutes", "id",
)  # fmt: skip
_REQUIRED: Final = (
    "question", "right answer", "why right", *_ANSWERS[0][:2], *_ANSWERS[1][:2], "objective", "lesson section", "pool",
)  # fmt: skip
COLUMNS: Final = Columns(_REQUIRED, tuple(name for name in HEADER if name not in _REQUIRED))
DEFAULTS: Final = {"points": 1, "minutes": 2}
EXAMPLE: Final = {
    "question": "question", "right answer": "right", "why right": "because",
    "wrong answer 1": "wrong-1", "why wrong 1": "against-1", "wrong answer 2": "wrong-2", "why wrong 2": "against-2",
    "wrong answer 3": "wrong-3", "why wrong 3": "against-3",
}  # fmt: skip
BLANK_ROWS: Final = 200
"""Rows [-] of the empty spreadsheet that are formatted as text, so that it changes nothing that is typed there."""


Allowed = Mapping[str, Collection[str]]
"""What may stand in the columns that name something of the course, by the column's name without its number."""


def allowed_in(course: Course) -> Allowed:
    """Return what a course knows."""
    bank = course.quizbank
    return {
        "objective": bank.objectives,
        "lesson section": [f"{one.id}#{anchor}" for one in course.lessons for anchor in sorted(one.anchors)],
        "pool": POOLS,
        "misconception": bank.misconceptions,
        "breaks rule": course.safework.rules,
    }


def held_row(row: Row, allowed: Allowed, taken: Collection[str], problems: Problems) -> bool:
    """Report every cell of a row that cannot be meant; say whether the row may become a question.

    Parameters
    ----------
    row : Row
        One row, its texts trimmed.
    allowed : Allowed
        What the course knows.
    taken : collection of str
        Ids of other questions.
    problems : Problems
        Receives each fault with its cell.
    """
    faults = len(problems)
    for column in _REQUIRED:
        if not row.texts[column]:
            problems.add(
                row.source,
                _cell(row, column),
                say("jobs_questions.cell-empty"),
                advice=say("jobs_questions.cell-empty-try"),
            )
    for answer in _ANSWERS:
        _hold_answer(row, answer, problems)
    for column in HEADER:
        found, known = row.texts[column], allowed.get(_without_number(column))
        if found and known is not None and found not in known:
            near = [one for one in known if one.startswith(found.partition("#")[0] + "#")]
            told = say("jobs_questions.not-known", found=found)
            problems.add(row.source, _cell(row, column), told, listed(near or known), nearest(found, known))
    for column in DEFAULTS:
        found = row.texts[column]
        if found and not (found.isascii() and found.isdigit() and int(found) >= 1):
            told = say("jobs_questions.not-a-number", found=found)
            problems.add(row.source, _cell(row, column), told, say("jobs_questions.a-number"))
    name = row.texts["id"]
    if name and not ID_PATTERN.fullmatch(name):
        problems.add(
            row.source, _cell(row, "id"), say("content.bad-id", key="id", found=name), say("content.bad-id-allowed")
        )
    elif name in taken:
        told = say("jobs_questions.id-known", id=name)
        problems.add(row.source, _cell(row, "id"), told, advice=say("jobs_questions.id-known-try"))
    return len(problems) == faults


def _hold_answer(row: Row, answer: tuple[str, str, str, str], problems: Problems) -> None:
    """Report a wrong answer without its reason, and what is said of an answer that is not there."""
    filled = [column for column in answer if row.texts[column]]
    for column in answer[:2]:
        if filled and not row.texts[column] and column not in _REQUIRED:
            told = say("jobs_questions.cell-alone", other=filled[0])
            problems.add(
                row.source, _cell(row, column), told, advice=say("jobs_questions.cell-alone-try", other=filled[0])
            )


def _cell(row: Row, column: str) -> str:
    return row.where(column) or column


def question_of(row: Row, name: str, author: str) -> dict[str, object]:
    """Return a held row as the entry of a question file, under an id."""
    texts = row.texts
    wrong = []
    for text, because, misconception, rule in _ANSWERS:
        if texts[text]:
            more = {"misconception": texts[misconception], "breaks": texts[rule]}
            wrong.append({"text": texts[text], "because": texts[because]} | {k: v for k, v in more.items() if v})
    return {
        "id": name,
        "kind": "choice",
        "pool": texts["pool"],
        "objective": texts["objective"],
        **{column: int(texts[column] or default) for column, default in DEFAULTS.items()},
        "lesson": texts["lesson section"],
        "stem": [line.strip() for line in texts["question"].splitlines() if line.strip()],
        "right": {"text": texts["right answer"], "because": texts["why right"]},
        "wrong": wrong,
        "origin": say("jobs_questions.origin", author=author),
    }


def empty_sheet(course: Course, *, as_csv: bool) -> bytes:
    """Return the spreadsheet to start from: the columns, and one example that the course would take.

    As a workbook it has a second sheet with all that may stand in the columns that name something of the course.
    """
    example = _example(course)
    rows = [HEADER, [example.get(column, "") for column in HEADER]]
    if as_csv:
        held = io.StringIO(newline="")
        csv.writer(held).writerows(rows)
        return held.getvalue().encode("utf-8-sig")
    return _workbook(rows, list(_may(course)))


def _example(course: Course) -> dict[str, str]:
    objective = next(iter(course.quizbank.objectives.values()))
    texts = {column: say(f"jobs_questions.example-{key}") for column, key in EXAMPLE.items()}
    numbers = {column: str(default) for column, default in DEFAULTS.items()}
    return texts | numbers | {"objective": objective.id, "lesson section": objective.lesson, "pool": GRADED}


def _may(course: Course) -> Iterator[tuple[str, str, str]]:
    """Yield each column with a text that may stand in it, and what that means where it has words for it."""
    bank = course.quizbank
    says = {one.id: one.title for one in bank.objectives.values()}
    says |= {one.id: one.title for one in course.safework.rules.values()}
    says |= {one.id: one.believes for one in bank.misconceptions.values()}
    for column, known in allowed_in(course).items():
        for name in known:
            yield column, name, says.get(name, "")


def _without_number(column: str) -> str:
    return column.rstrip(" 0123456789")


def _workbook(rows: Iterable[Iterable[str]], may: Iterable[Iterable[str]]) -> bytes:
    import openpyxl  # noqa: PLC0415  # a third of a second that most commands need not wait
    from openpyxl.styles import Alignment, Font  # noqa: PLC0415  # the same

    book = openpyxl.Workbook()
    sheets = book.worksheets[0], book.create_sheet(say("jobs_questions.sheet-may"))
    sheets[0].title = say("jobs_questions.sheet-questions")
    for sheet, lines in zip(sheets, (rows, may), strict=True):
        for line in lines:
            sheet.append(list(line))
        for column in sheet.iter_cols(max_row=sheet.max_row + (BLANK_ROWS if sheet is sheets[0] else 0)):
            sheet.column_dimensions[column[0].column_letter].width = 28
            for cell in column:
                # As text, a spreadsheet keeps 1/8 and 80 % as they are typed.
                cell.number_format = "@"
                cell.alignment = Alignment(wrap_text=True, vertical="top")
    for cell in sheets[0][1]:
        cell.font = Font(bold=True)
    sheets[0].freeze_panes = "B2"
    held = io.BytesIO()
    book.save(held)
    return held.getvalue()
