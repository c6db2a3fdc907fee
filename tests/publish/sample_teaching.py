"""A lesson file and its loading, for tests that write a lesson and look at what becomes of it."""

from pathlib import Path
from textwrap import dedent

from courseware.content.documents import read_documents
from courseware.content.problems import Problems
from courseware.heater.job import Job
from courseware.heater.load import Trade
from courseware.publish.blocks.figure import FigureBlock
from courseware.publish.figures.base import Figure
from courseware.publish.lesson import LESSON_KINDS, Lesson, load_lessons
from courseware.publish.teaching import Teaching
from courseware.safework.model import SafeWork

#: No unit, no rule: enough for a lesson that refers to none.
BARE = Teaching(
    Trade({}, {}, {}, {}, (), Job({}, {})), SafeWork({}, {}, {}), {"see-the-spark": "Look at a spark safely."}
)

FRONT = """\
---
format: courseware/lesson/1
id: spark
title: The spark
summary: What a spark is.
order: 1
minutes: 5
objectives: [see-the-spark]
numbers:
  line: {value: 120 V, origin: rating of the unit}
sources: [none]
origin: common practice, no source
---
"""
"""The numbers start on line 10, and the body of a lesson made with it on line 14."""


def read_lesson(folder: Path, text: str, teaching: Teaching = BARE) -> tuple[Lesson, str]:
    """Write a lesson, load it, and return it with all its problems as one text."""
    path = folder / "modules" / "spark.md"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    problems = Problems()
    documents = read_documents(folder, LESSON_KINDS, problems)
    lessons = load_lessons(documents, teaching, problems)
    return lessons[0], "\n".join(str(problem) for problem in problems)


def with_body(body: str) -> str:
    """Return a lesson with the usual front matter; the body uses its one number once, and starts on line 16."""
    return f"{FRONT}The line has {{line}}.\n\n{dedent(body)}"


def read_figure(folder: Path, text: str, teaching: Teaching) -> tuple[Figure, str]:
    """Return the figure of a lesson that has this one figure block and the course's units, and all its problems."""
    body = with_body(f"```figure\n{text}```\n").replace("see-the-spark", "order-the-test")
    lesson, problems = read_lesson(folder, body, teaching)
    block = lesson.pieces[-1]
    assert isinstance(block, FigureBlock)
    return block.figure, problems
