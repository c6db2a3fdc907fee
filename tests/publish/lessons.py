"""What the tests of single lessons share: a shipped lesson by its id, and what to find in it."""

from typing import TypeVar

from courseware.content.documents import read_documents
from courseware.content.folders import shipped_course
from courseware.content.problems import Problems
from courseware.content.readability import count
from courseware.jobs.course import KINDS
from courseware.publish.lesson import Lesson, load_lessons
from courseware.publish.prose import Prose
from courseware.publish.teaching import Teaching

A = TypeVar("A")


def shipped_lesson(name: str, teaching: Teaching) -> Lesson:
    """Return a lesson of the shipped course; loading it has evaluated its numbers and carried out its procedures."""
    problems = Problems()
    documents = [one for one in read_documents(shipped_course(), KINDS, problems) if one.kind == "lesson"]
    lessons = load_lessons(documents, teaching, problems)
    problems.raise_if_any()
    return next(lesson for lesson in lessons if lesson.id == name)


def blocks(lesson: Lesson, kind: type[A]) -> list[A]:
    """Return the blocks of a kind, in order."""
    return [piece for piece in lesson.pieces if isinstance(piece, kind)]


def written(lesson: Lesson) -> dict[str, str]:
    """Return how each number is written, with plain spaces."""
    return {name: number.text.replace("\N{NO-BREAK SPACE}", " ") for name, number in lesson.numbers.items()}


def prose_grade(lesson: Lesson) -> float:
    """Return the reading grade [-] of the running text alone, so that short table cells cannot sweeten it."""
    text = "\n".join(piece.plain for piece in lesson.pieces if isinstance(piece, Prose))
    assert count(text).words > 1000
    return count(text).grade
