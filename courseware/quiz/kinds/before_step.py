"""What must be done before this step? Every one that applies: the key is the procedure's own partial order.

Offered are steps that the order puts before the one asked about, and steps that it puts after it; those that may be
done either side are left out. Choosing a later step is doing it too early: where safety fixes the pair, that breaks its
gate. Leaving a step out costs points only.
"""

import random
from dataclasses import dataclass
from typing import Final

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.heater.load import Trade
from courseware.quiz.fit import SEVERAL
from courseware.quiz.item_writing import FEWEST_SEVERAL, MOST_SEVERAL
from courseware.quiz.kinds.base import (
    Drawn,
    DrawnOption,
    FixedOrder,
    ItemKind,
    Materials,
    Wanted,
    draw_right_count,
    gate_of,
)
from courseware.quiz.kinds.ordering import steps_once
from courseware.safework.model import SafeWork

NEAR: Final = 8
"""Steps [-] on either side of the one asked about among which the options are drawn; those far off are too easy."""


@dataclass(frozen=True, slots=True)
class BeforeStep:
    """A procedure, the units to ask about, and how many steps are offered [-]."""

    procedure: str
    units: tuple[str, ...]
    options: int


def load(fields: Fields, trade: Trade, safework: SafeWork) -> BeforeStep:
    """Read ``procedure``, ``units`` and ``options``."""
    return BeforeStep(
        fields.reference("procedure", say("quiz.a-procedure"), safework.procedures),
        fields.references("units", say("quiz.a-unit"), trade.units),
        fields.integer("options", low=FEWEST_SEVERAL, high=MOST_SEVERAL),
    )


def draw(body: BeforeStep, made_from: Materials, rng: random.Random, wanted: Wanted) -> Drawn | None:
    """Draw a unit, a step, and steps before and after it; none if too few of them are fixed."""
    procedure = made_from.safework.procedures[body.procedure]
    unit = made_from.trade.units[rng.choice(body.units)]
    order = made_from.orders(procedure.id, unit.id)
    steps = steps_once(order.steps)
    actions = {step.id: made_from.safework.actions[step.action].title for step in steps}
    place = rng.randrange(len(steps))
    asked = steps[place].id
    earlier = [step.id for step in steps[max(place - NEAR, 0) : place] if (step.id, asked) in order.pairs]
    later = [step.id for step in steps[place + 1 : place + 1 + NEAR] if (asked, step.id) in order.pairs]
    count = draw_right_count(len(earlier), len(later), body.options, rng)
    if count is None:
        return None
    chosen = [*rng.sample(earlier, count), *rng.sample(later, body.options - count)]
    identity = "|".join(["before-step", procedure.id, unit.id, asked, *sorted(chosen)])
    if not wanted(identity):
        return None
    return Drawn(
        identity=identity,
        stem=(
            say("quiz.the-unit", unit=unit.title, summary=unit.summary),
            say("quiz.before-step-next", procedure=procedure.title, step=actions[asked]),
            say("quiz.before-step-ask"),
        ),
        because=say("quiz.several-because", count=count),
        lesson=procedure.lesson,
        options=tuple(
            _earlier(made_from, order, one, asked, actions[one])
            if number < count
            else _later(made_from, order, asked, one, actions[one])
            for number, one in enumerate(chosen)
        ),
        several=tuple(range(count)),
    )


def _earlier(made_from: Materials, order: FixedOrder, step: str, asked: str, title: str) -> DrawnOption:
    rule = order.gates.get((step, asked))
    told = say("quiz.before-step-first", reason=rule.reason) if rule else say("quiz.before-step-first-plain")
    return DrawnOption(title, told, belief=made_from.by_relation.get("step-left-out"))


def _later(made_from: Materials, order: FixedOrder, asked: str, step: str, title: str) -> DrawnOption:
    rule = order.gates.get((asked, step))
    told = say("quiz.before-step-after", reason=rule.reason) if rule else say("quiz.before-step-after-plain")
    return DrawnOption(title, told, gate_of(rule) if rule else None, made_from.by_relation.get("step-too-early"))


KIND: Final = ItemKind(SEVERAL, load, draw)
