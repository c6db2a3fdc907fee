"""What a lesson teaches with (units, checks, rules, procedures, objectives), and the reader of its blocks."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache
from itertools import count
from typing import Protocol

from markupsafe import Markup

from courseware.content.fields import Fields
from courseware.content.problems import Problems
from courseware.content.source import Source
from courseware.diagnosis.keep import signatures_of
from courseware.diagnosis.signatures import Signatures
from courseware.heater.load import Trade
from courseware.publish.prose import Prose, Writer
from courseware.safework.model import SafeWork


@dataclass(frozen=True, slots=True)
class Teaching:
    """Everything that lessons refer to.

    Attributes
    ----------
    trade : Trade
        Units, faults, repairs, checks.
    safework : SafeWork
        Actions, never-rules, procedures.
    objectives : mapping of id to str
        What a trainee is to be able to do, as one sentence each.
    signatures : callable
        From a unit's id to what each fault of it predicts; made when first asked for, and kept.
    """

    trade: Trade
    safework: SafeWork
    objectives: Mapping[str, str]
    signatures: Callable[[str], Signatures] = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        made = cache(lambda unit_id: signatures_of(self.trade.units[unit_id], self.trade))
        object.__setattr__(self, "signatures", made)


@dataclass(frozen=True, slots=True)
class View:
    """How a lesson is shown.

    Attributes
    ----------
    paper : bool
        True for a PDF: nothing folds, and answers stand at the end.
    """

    paper: bool


class Block(Protocol):
    """A piece of a lesson that is data, not prose; loaded whole, and shown on demand."""

    @property
    def prose(self) -> tuple[Prose, ...]:
        """Return what the trainee reads in it, for the reading level."""

    @property
    def answers(self) -> Markup:
        """Return what paper shows at the end of the lesson; empty if there is nothing to answer."""

    def html(self, view: View) -> Markup:
        """Return the block's HTML."""


@dataclass(frozen=True, slots=True)
class Reader:
    """What the loader of a block works with.

    Attributes
    ----------
    teaching : Teaching
        What blocks refer to.
    writer : Writer
        Turns the block's texts into prose.
    problems : Problems
        Receives every fault.
    sound : bool
        False if the bank has faults: then nothing is simulated or carried out.
    numbering : iterator of int
        Numbers the lesson's blocks, so that ids on the page are unique.
    """

    teaching: Teaching
    writer: Writer
    problems: Problems
    sound: bool
    numbering: "count[int]" = field(default_factory=lambda: count(1))

    def next_id(self, kind: str) -> str:
        """Return an id for a block on the page."""
        return f"{kind}-{next(self.numbering)}"

    def line(self, fields: Fields, key: str, *, required: bool = True) -> Prose:
        """Return the text under a key as prose without a paragraph around it."""
        return self.writer.line(fields.text(key, None if required else ""), fields.source_of(key))

    def paragraphs(self, fields: Fields, key: str, *, required: bool = True) -> Prose:
        """Return the text under a key as paragraphs."""
        return self.writer.paragraphs(fields.text(key, None if required else ""), fields.source_of(key))

    def line_at(self, text: str, source: Source) -> Prose:
        """Return a located text as prose without a paragraph around it."""
        return self.writer.line(text, source)
