"""Put the steps in order: some steps of a procedure on a unit; the key is the procedure's own partial order."""

import random
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.heater.load import Trade
from courseware.quiz.kinds.base import Drawn, DrawnOption, ItemKind, Materials, Wanted, gate_of
from courseware.safework.model import SafeWork, Step

FEWEST_STEPS: Final = 3
MOST_STEPS: Final = 10


@dataclass(frozen=True, slots=True)
class Ordering:
    """A procedure, the units to ask about, and how many of its steps are shown."""

    procedure: str
    units: tuple[str, ...]
    fewest: int
    most: int


def load(fields: Fields, trade: Trade, safework: SafeWork) -> Ordering:
    """Read ``procedure``, ``units`` and ``steps: {from, to}``."""
    procedure = fields.reference("procedure", say("quiz.a-procedure"), safework.procedures)
    units = fields.references("units", say("quiz.a-unit"), trade.units)
    steps = fields.child("steps")
    fewest = most = FEWEST_STEPS
    if steps is not None:
        fewest = steps.integer("from", low=FEWEST_STEPS, high=MOST_STEPS)
        most = steps.integer("to", low=fewest, high=MOST_STEPS)
        steps.finish()
    return Ordering(procedure, units, fewest, most)


def draw(body: Ordering, made_from: Materials, rng: random.Random, wanted: Wanted) -> Drawn | None:
    """Draw a unit and some steps; none if safety fixes nothing about them, or they say too little about the order."""
    procedure = made_from.safework.procedures[body.procedure]
    unit = made_from.trade.units[rng.choice(body.units)]
    order = made_from.orders(procedure.id, unit.id)
    steps = steps_once(order.steps)
    count = min(rng.randint(body.fewest, body.most), len(steps))
    chosen = [steps[place] for place in sorted(rng.sample(range(len(steps)), count))]
    titles = [made_from.safework.actions[step.action].title for step in chosen]
    place = {step.id: number for number, step in enumerate(chosen)}
    pairs = [(place[first], place[later]) for first, later in order.pairs if {first, later} <= set(place)]
    gates = {(place[a], place[b]): rule for (a, b), rule in order.gates.items() if {a, b} <= set(place)}
    identity = "|".join(["ordering", procedure.id, unit.id, *sorted(place)])
    if not gates or len(pairs) < count - 1 or not wanted(identity):
        return None
    return Drawn(
        identity=identity,
        stem=(
            say("quiz.the-unit", unit=unit.title, summary=unit.summary),
            say("quiz.ordering-ask", procedure=procedure.title),
        ),
        because=" ".join(
            say("quiz.ordering-because", first=titles[first], later=titles[later], reason=rule.reason)
            for (first, later), rule in gates.items()
        ),
        lesson=procedure.lesson,
        options=tuple(DrawnOption(title) for title in titles),
        pairs=tuple(pairs),
        order_gates=tuple((first, later, gate_of(rule)) for (first, later), rule in gates.items()),
    )


def steps_once(steps: Sequence[Step]) -> list[Step]:
    """Return the steps whose action the procedure has once: of two that read alike nobody could say which is meant."""
    times = Counter(step.action for step in steps)
    return [step for step in steps if times[step.action] == 1]


KIND: Final = ItemKind("ordering", load, draw)
