"""Check a course: read all of it, and report every fault."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from courseware.content.documents import read_documents
from courseware.content.problems import Problem, Problems
from courseware.content.words import say
from courseware.jobs.course import KINDS, Course, read_course, stock_of
from courseware.quiz.check import bank_problems

FORMAT: Final = "courseware/check/1"


@dataclass(frozen=True, slots=True)
class Report:
    """What a check found.

    Attributes
    ----------
    course : Course
        The course, with stand-ins where there are problems.
    documents : mapping of str to int
        How many documents of each kind were read [-], sorted by kind.
    problems : tuple of Problem
        Every fault, in the order of file and line.
    """

    course: Course
    documents: Mapping[str, int]
    problems: tuple[Problem, ...]

    def summary(self) -> str:
        """Return the report on a course without faults, in words."""
        kinds = ", ".join(f"{kind} {count}" for kind, count in self.documents.items())
        return say(
            "jobs.check-done", title=self.course.title, version=self.course.version, folder=self.course.folder,
            count=sum(self.documents.values()), kinds=kinds, hash=self.course.hash,
        )  # fmt: skip

    def as_json(self) -> dict[str, Any]:
        """Return the same facts for a machine."""
        return {
            "format": FORMAT,
            "sound": not self.problems,
            "course": {"title": self.course.title, "version": self.course.version, "sha256": self.course.hash},
            "documents": dict(self.documents),
            "problems": [problem.as_json() for problem in self.problems],
        }


def check_course(folder: Path) -> Report:
    """Read a course folder and report every fault.

    Parameters
    ----------
    folder : Path
        The course folder; one without a single content file is a fault in itself.

    Returns
    -------
    Report
        What was read and what is wrong.
    """
    problems = Problems()
    documents = read_documents(folder, KINDS, problems)
    course = read_course(folder, documents, problems)
    if not len(problems):  # drawing needs a sound course
        bank_problems(stock_of(course), problems)
    counts = Counter(document.kind for document in documents)
    return Report(course, dict(sorted(counts.items())), tuple(problems))
