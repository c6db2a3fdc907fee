"""Which of these checks are made locked out, or with the power on? Every one that applies, by the checks' own needs."""

import random
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.heater.checks import Check
from courseware.heater.load import Trade
from courseware.quiz.fit import SEVERAL
from courseware.quiz.item_writing import FEWEST_SEVERAL, MOST_SEVERAL
from courseware.quiz.kinds.base import Drawn, DrawnOption, ItemKind, Materials, Wanted, draw_right_count
from courseware.safework.model import SafeWork

POWER: Final = "power"
STATES: Final[Mapping[str, tuple[str, ...]]] = {"locked": ("locked",), "on": ("on",)}
"""What a check may need of the disconnect, by the word in the question."""


@dataclass(frozen=True, slots=True)
class CheckState:
    """The checks that may be offered, and how many are [-]."""

    checks: tuple[str, ...]
    options: int


def load(fields: Fields, trade: Trade, _safework: SafeWork) -> CheckState:
    """Read ``checks`` and ``options``; each check must need the power on, or locked out."""
    checks = fields.references("checks", say("quiz.a-check"), trade.checks)
    for name in checks:
        if name in trade.checks and _state(trade.checks[name]) == "":
            fields.fault(fields.source_of("checks"), say("quiz.no-power-state", check=name))
    return CheckState(checks, fields.integer("options", low=FEWEST_SEVERAL, high=MOST_SEVERAL))


def _state(check: Check) -> str:
    """Return the state of the power that a check needs; empty if it needs none, or may do with several."""
    return next((word for word, values in STATES.items() if tuple(check.needs.get(POWER, ())) == values), "")


def draw(body: CheckState, made_from: Materials, rng: random.Random, wanted: Wanted) -> Drawn | None:
    """Draw a state, and checks of which two or more need it and one or more do not."""
    checks = {name: made_from.trade.checks[name] for name in rng.sample(body.checks, len(body.checks))}
    state = rng.choice(sorted(STATES))
    right = [name for name, check in checks.items() if _state(check) == state]
    wrong = [name for name in checks if name not in right]
    count = draw_right_count(len(right), len(wrong), body.options, rng)
    if count is None:
        return None
    chosen = [*right[:count], *wrong[: body.options - count]]
    identity = "|".join(["check-state", state, *sorted(chosen)])
    if not wanted(identity):
        return None
    belief = made_from.by_relation.get("wrong-power-state")
    return Drawn(
        identity=identity,
        stem=(say(f"quiz.check-state-{state}"), say("quiz.check-state-ask")),
        because=say("quiz.several-because", count=count),
        options=tuple(DrawnOption(checks[name].title, checks[name].asks, belief=belief) for name in chosen),
        several=tuple(range(count)),
    )


KIND: Final = ItemKind(SEVERAL, load, draw)
