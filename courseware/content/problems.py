"""Faults in content: collected while loading, shown together, in one form.

A problem says where it is (file and line, and inside which thing, by id), what was found,
what is allowed, and what to try. Loading never raises for an author's mistake: every loader
takes a :class:`Problems` and adds to it. A job that needs sound content calls
:meth:`Problems.raise_if_any`.
"""

import difflib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Any, Final

from courseware.content.source import Source
from courseware.content.words import say

_LONGEST_SHOWN: Final = 60


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One fault in the content.

    Attributes
    ----------
    source : Source
        File and line of the fault.
    where : str
        The thing it is inside, by id, such as ``fault 'transformer-open'``; may be empty.
    found : str
        What was found, as a sentence fragment.
    allowed : str
        What may stand there; empty where ``found`` says it all.
    advice : str
        What to try; empty where there is nothing better than the above.
    """

    source: Source
    where: str
    found: str
    allowed: str = ""
    advice: str = ""

    def __str__(self) -> str:
        """Return the report for a person: ``file:line: where: found``, then what to do."""
        head = f"{self.source}: {self.where}: {self.found}" if self.where else f"{self.source}: {self.found}"
        lines = [head]
        if self.allowed:
            lines.append("    " + say("content.allowed", allowed=self.allowed))
        if self.advice:
            lines.append("    " + say("content.try", advice=self.advice))
        return "\n".join(lines)

    def as_json(self) -> dict[str, Any]:
        """Return the same facts for a machine."""
        return {
            "file": self.source.file,
            "line": self.source.line,
            "where": self.where,
            "found": self.found,
            "allowed": self.allowed,
            "try": self.advice,
        }


class ContentError(Exception):
    """The content has problems; its text is the whole report."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__("\n".join(str(problem) for problem in problems))
        self.problems = problems


@dataclass(slots=True)
class Problems:
    """The list that loaders add to, in the order of file and line."""

    _found: set[Problem] = field(default_factory=set)

    def add(self, source: Source, where: str, found: str, allowed: str = "", advice: str = "") -> None:
        """Add one problem; the same problem found twice counts once."""
        self._found.add(Problem(source, where, found, allowed, advice))

    def __iter__(self) -> Iterator[Problem]:
        return iter(sorted(self._found))

    def __len__(self) -> int:
        return len(self._found)

    def raise_if_any(self) -> None:
        """Raise :class:`ContentError` with all problems, if there are any."""
        if self._found:
            raise ContentError(tuple(self))


def shown(text: str) -> str:
    r"""Return an author's text as one short line for a message.

    Examples
    --------
    >>> shown("Lock out\n the disconnect.")
    'Lock out the disconnect.'
    >>> len(shown("x" * 1000))
    60
    """
    line = " ".join(text.split())
    return line if len(line) <= _LONGEST_SHOWN else line[: _LONGEST_SHOWN - 1] + "…"


def listed(names: Iterable[str]) -> str:
    """Return names as a list for a message, sorted: ``a, b, c``."""
    return ", ".join(sorted(names))


def nearest(name: str, known: Iterable[str]) -> str:
    """Return advice that names the nearest known name, or nothing if none is near.

    Examples
    --------
    >>> nearest("repiar", ["repair", "minutes"])
    "did you mean 'repair'?"
    >>> nearest("zzz", ["repair", "minutes"])
    ''
    """
    if len(name) > _LONGEST_SHOWN:
        return ""  # comparing takes the square of the length
    match = difflib.get_close_matches(name, sorted(known), n=1, cutoff=0.6)
    return say("content.did-you-mean", name=match[0]) if match else ""
