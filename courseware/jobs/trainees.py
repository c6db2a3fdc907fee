"""Invented trainees, for the demonstration: each knows so much, and takes a few things to be true that are not.

They answer the form that stands on the page they were handed. What is right they cannot work out as people do, so
they look into the key, as only the office can, and then answer as well or as badly as they are meant to.
"""

import random
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

from courseware.grading.result import Result
from courseware.quiz.form import Form, Item, Key, KeyEntry, form_from_bytes

Answers = dict[str, tuple[str, ...]]

CLINGS: Final = 0.8
"""Share [-] of the questions touched by a misconception that whoever holds it answers by it."""
HARDER: Final = 0.2
"""How much [-] the hardest and the easiest question differ in the share of trainees who know them, each way."""
LEARNS: Final = 0.6
"""Share [-] of what was not known that is known after the feedback."""
_FORM: Final = re.compile(r'<script[^>]* type="application/json"[^>]* id="form"[^>]*>(.*?)</script>', re.DOTALL)


@dataclass(frozen=True, slots=True)
class Trainee:
    """One invented trainee.

    Attributes
    ----------
    knows : float
        Share [-] of the questions of middling difficulty that the trainee knows.
    believes : frozenset of str
        Ids of the misconceptions held.
    """

    knows: float
    believes: frozenset[str]

    def taught_by(self, result: Result) -> "Trainee":
        """Return the trainee after reading the feedback: knowing more, and rid of what the feedback sets right."""
        told = {belief.id for mark in result.marks for belief in mark.beliefs}
        return replace(self, knows=self.knows + LEARNS * (1.0 - self.knows), believes=self.believes - told)


def form_on_page(html: str) -> Form:
    """Return the form that a quiz page carries."""
    found = _FORM.search(html)
    assert found is not None, "a quiz page carries its form"
    return form_from_bytes(found.group(1).replace("\\u003c", "<").encode("utf-8"))


def right_answers(key: Key) -> Answers:
    """Return the right answer to each item."""
    return {str(entry.number): _right(entry) for entry in key.entries}


def answers_of(trainee: Trainee, form: Form, key: Key, rng: random.Random) -> Answers:
    """Return what a trainee answers to each item of a form; ``rng`` makes the luck of the day."""
    return {
        str(item.number): _answer(trainee, item, entry, rng)
        for item, entry in zip(form.items, key.entries, strict=True)
    }


def _answer(trainee: Trainee, item: Item, entry: KeyEntry, rng: random.Random) -> tuple[str, ...]:
    misled = [name for name, belief in entry.misconceptions.items() if belief.id in trainee.believes]
    if misled and rng.random() < CLINGS:
        return _WAYS[item.kind](item, entry, misled[0], rng)
    easier = random.Random(entry.template).uniform(-HARDER, HARDER)  # noqa: S311 - a trait, no secret
    if rng.random() < trainee.knows + easier:
        return _right(entry)
    return _WAYS[item.kind](item, entry, "", rng)


def _right(entry: KeyEntry) -> tuple[str, ...]:
    return entry.right[:1] if entry.kind == "numeric" else entry.right


def _one_of(item: Item, entry: KeyEntry, misled_to: str, rng: random.Random) -> tuple[str, ...]:
    return (misled_to or rng.choice([option.tag for option in item.options if option.tag not in entry.right]),)


def _some_of(item: Item, entry: KeyEntry, misled_to: str, rng: random.Random) -> tuple[str, ...]:
    """Leave out one of the right ones, or add a wrong one."""
    turned = misled_to or rng.choice([option.tag for option in item.options])
    given = {*entry.right} ^ {turned}
    return tuple(option.tag for option in item.options if option.tag in given)


def _number(_item: Item, entry: KeyEntry, misled_to: str, rng: random.Random) -> tuple[str, ...]:
    return (misled_to or rng.choice([*entry.feedback, "0"]),)


def _order(_item: Item, entry: KeyEntry, _misled_to: str, rng: random.Random) -> tuple[str, ...]:
    """Turn one fixed pair of neighbours round."""
    given = list(entry.right)
    fixed = [place for place, pair in enumerate(pairwise(given)) if pair in entry.pairs]
    place = rng.choice(fixed or [0])
    given[place : place + 2] = reversed(given[place : place + 2])
    return tuple(given)


_WAYS: Final[Mapping[str, Callable[[Item, KeyEntry, str, random.Random], tuple[str, ...]]]] = {
    "scenario": _one_of,
    "choice": _one_of,
    "multiple-choice": _some_of,
    "numeric": _number,
    "ordering": _order,
}
