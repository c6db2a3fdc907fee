"""What an item kind is made of, and what it hands over: a question without numbers, tags or places.

A kind draws *what* is asked and answered. Where an option stands and which tag it has is decided
elsewhere (:mod:`courseware.quiz.layout`), by chance that knows nothing of what is right.
"""

import random
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from courseware.content.fields import Fields
from courseware.diagnosis.keep import signatures_of
from courseware.diagnosis.signatures import Signatures
from courseware.heater.load import Trade
from courseware.heater.simulate import Run
from courseware.quiz.form import Belief, Exhibit
from courseware.quiz.item_writing import FEWEST_RIGHT
from courseware.quiz.misconceptions import Misconception, Named
from courseware.safework.gates import gates
from courseware.safework.model import Rule, SafeWork, Step
from courseware.safework.work import work_on


@dataclass(frozen=True, slots=True)
class FixedOrder:
    """What is fixed about the order of a procedure's steps on a unit.

    Attributes
    ----------
    steps : tuple of Step
        In one allowed order.
    pairs : tuple of (str, str)
        Ids (earlier, later) of every two steps whose order is fixed.
    gates : mapping of (str, str) to Rule
        The rule that turning a pair round breaks by itself, all else being done in order.
    """

    steps: tuple[Step, ...]
    pairs: tuple[tuple[str, str], ...]
    gates: Mapping[tuple[str, str], Rule]


@dataclass(frozen=True, slots=True)
class Materials:
    """What questions are made from.

    Attributes
    ----------
    trade : Trade
        Units, faults, checks, repairs.
    safework : SafeWork
        Actions, rules, procedures.
    signatures : callable
        From a unit's id to its signatures; made when first asked for, and kept.
    runs : callable
        From a unit's id to what each check finds in each atom of the signatures' space; likewise.
    orders : callable
        From the ids of a procedure and a unit to the steps and what is fixed about their order; likewise.
    beliefs : mapping of str to Belief
        The misconceptions of the catalogue, by id.
    by_relation : mapping of str to Belief
        Those that a relation shows, by the relation.
    """

    trade: Trade
    safework: SafeWork
    signatures: Callable[[str], Signatures]
    runs: Callable[[str], Mapping[str, Run]]
    orders: Callable[[str, str], FixedOrder]
    beliefs: Mapping[str, Belief] = field(default_factory=dict)
    by_relation: Mapping[str, Belief] = field(default_factory=dict)


def materials(trade: Trade, safework: SafeWork, misconceptions: Iterable[Misconception] = ()) -> Materials:
    """Return materials that simulate each unit once, when first needed."""
    catalogue = tuple(misconceptions)
    signatures = cache(lambda unit_id: signatures_of(trade.units[unit_id], trade))

    def order(procedure_id: str, unit_id: str) -> FixedOrder:
        work = work_on(safework, trade, trade.units[unit_id], safework.procedures[procedure_id])
        return FixedOrder(tuple(work.steps.values()), work.order.pairs(), gates(work))

    return Materials(
        trade,
        safework,
        signatures,
        lambda unit_id: signatures(unit_id).finds,
        cache(order),
        {one.id: one.belief for one in catalogue},
        {one.relation: one.belief for one in catalogue if one.relation},
    )


@dataclass(frozen=True, slots=True)
class DrawnGate:
    """A safety rule that a wrong answer breaks; the fields are those of :class:`~courseware.quiz.form.Gate`."""

    rule: str
    signal_word: str
    reason: str


def gate_of(rule: Rule) -> DrawnGate:
    """Return what a form's key says of a rule."""
    return DrawnGate(rule.title, rule.signal_word, rule.reason)


@dataclass(frozen=True, slots=True)
class DrawnOption:
    """One option.

    Attributes
    ----------
    text : str
        What the trainee reads.
    feedback : str
        What rules it out; for a right one of several, why it belongs to the answer.
    gate : DrawnGate or None
        The rule that choosing it breaks; for a right one of several, that leaving it out breaks.
    belief : Belief or None
        The misconception that choosing it shows, or leaving it out if it is right.
    """

    text: str
    feedback: str = ""
    gate: DrawnGate | None = None
    belief: Belief | None = None


@dataclass(frozen=True, slots=True)
class DrawnNumber:
    """A number as the answer, in the unit of the question.

    Attributes
    ----------
    value, tolerance : str
        Decimal text.
    slips : mapping of str to str
        Wrong value, as decimal text, to the sentence that says which slip leads to it.
    beliefs : mapping of str to Belief
        The misconception behind a slip, by the same wrong value.
    """

    value: str
    tolerance: str
    slips: Mapping[str, str] = field(default_factory=dict)
    beliefs: Mapping[str, Belief] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Drawn:
    """One question as a kind draws it.

    Attributes
    ----------
    identity : str
        The same for two draws iff they are the same question; no form asks it twice.
    stem : tuple of str
        Paragraphs; the last one asks.
    because : str
        Why the right answer is right.
    lesson : str
        Lesson and section; empty: the template's.
    exhibit : Exhibit or None
        What is given to read.
    options : tuple of DrawnOption
        To choose from, or to put in order (then written in one allowed order).
    right : int
        Index of the right option [-]; of no meaning for an order, a number, or several right ones.
    several : tuple of int
        Indices of the right options of a question that takes every one that applies; else empty.
    in_order : bool
        The options stay as they are written, smallest number first; else their places are drawn.
    number : DrawnNumber or None
        The answer, if it is a number.
    unit : str
        Its unit.
    pairs : tuple of (int, int)
        Indices (earlier, later) of every two steps whose order matters.
    order_gates : tuple of (int, int, DrawnGate)
        Those of them that safety fixes.
    """

    identity: str
    stem: tuple[str, ...]
    because: str
    lesson: str = ""
    exhibit: Exhibit | None = None
    options: tuple[DrawnOption, ...] = ()
    right: int = 0
    several: tuple[int, ...] = ()
    in_order: bool = False
    number: DrawnNumber | None = None
    unit: str = ""
    pairs: tuple[tuple[int, int], ...] = ()
    order_gates: tuple[tuple[int, int, DrawnGate], ...] = ()


def draw_right_count(right: int, wrong: int, options: int, rng: random.Random) -> int | None:
    """Draw how many [-] of the options are right where every right one is asked for; None if there are too few."""
    fewest, most = max(FEWEST_RIGHT, options - wrong), min(right, options - 1)
    return rng.randint(fewest, most) if fewest <= most else None


Wanted = Callable[[str], bool]
"""Says whether a question with this identity is wanted: of the right pool, and not asked yet."""


@dataclass(frozen=True, slots=True)
class ItemKind:
    """How templates of a kind are loaded and drawn from.

    Attributes
    ----------
    answered : str
        The form's word for how the item is answered: ``scenario``, ``numeric``, ``choice``, ``multiple-choice`` or
        ``ordering``.
    load : callable
        Reads the kind's own keys of a template into a body; faults become problems.
    draw : callable
        Draws one question that is wanted from a body; None if this attempt gave none, and another may.
    claims : callable
        The identities that belong to the template's pool because it lists them. Where it is None, the
        identity itself says to which pool a question belongs.
    named : callable
        The misconceptions that the template names, each with its place; None: the kind finds them by relation.
    """

    answered: str
    load: Callable[[Fields, Trade, SafeWork], Any]
    draw: Callable[[Any, Materials, random.Random, Wanted], Drawn | None]
    claims: Callable[[Any], frozenset[str]] | None = None
    named: Callable[[Any], Iterable[Named]] | None = None
