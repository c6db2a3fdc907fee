"""What a marker offers."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from courseware.grading.result import Broken
from courseware.quiz.form import Gate, Item, KeyEntry


@dataclass(frozen=True, slots=True)
class Verdict:
    """What a marker says of one answer.

    Attributes
    ----------
    share : Fraction
        Part of the points earned [-], from 0 to 1, exact.
    chosen, right_answer : tuple of str
        The answer given and the right one, in words.
    against : tuple of str
        What rules the given answer out; empty if nothing was found against it.
    broken : Broken or None
        The first safety rule that the answer breaks.
    shown : tuple of str
        Where the answer goes wrong, by the names under which the key keeps its misconceptions.
    """

    share: Fraction
    chosen: tuple[str, ...]
    right_answer: tuple[str, ...]
    against: tuple[str, ...] = ()
    broken: Broken | None = None
    shown: tuple[str, ...] = ()


Marker = Callable[[Item, KeyEntry, tuple[str, ...]], Verdict]
"""Marks an answer to an item by its key; an empty answer is one left blank."""


def texts(item: Item, tags: tuple[str, ...]) -> tuple[str, ...]:
    """Return the texts of an item's options, by their tags."""
    by_tag = {option.tag: option.text for option in item.options}
    return tuple(by_tag[tag] for tag in tags)


def broken(gate: Gate) -> Broken:
    """Return what is told of a gate that an answer breaks."""
    return Broken(gate.rule, gate.signal_word, gate.reason)
