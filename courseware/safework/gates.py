"""Which precedences of a procedure guard against harm: found from the rules, not declared.

The precedence of a step over a later one is *critical* if a rule is broken by doing the later one when all that it
has to wait for is done, except this step alone. In an ordering question such a precedence is a gate,
not a matter of credit.
"""

from typing import NamedTuple

from courseware.heater.load import Trade
from courseware.heater.unit import Unit
from courseware.safework.model import Procedure, Rule, SafeWork, State
from courseware.safework.order import partial_order
from courseware.safework.site import act, broken_rule, start_of
from courseware.safework.work import Work, work_on


class Precedence(NamedTuple):
    """Two steps whose order is fixed.

    Attributes
    ----------
    before, after : str
        The steps, in their order.
    critical : bool
        True if the other order can hurt someone.
    reason : str
        The reason of the rule that is broken by the other order; empty where none is.
    """

    before: str
    after: str
    critical: bool
    reason: str


def precedences(safework: SafeWork, trade: Trade, unit: Unit, procedure: Procedure) -> tuple[Precedence, ...]:
    """Return every pair of steps whose order is fixed on a unit, direct or not.

    A pair is critical if it is so by itself, or if a chain of critical pairs links the two: who turns such a
    pair round turns one of the chain round, wherever the steps between them stand.
    """
    work = work_on(safework, trade, unit, procedure)
    rules = gates(work)
    guards: dict[str, list[str]] = {name: [] for name in work.steps}
    for earlier, later in rules:
        guards[later].append(earlier)
    critical = frozenset(partial_order(guards).pairs())
    return tuple(
        Precedence(*pair, pair in critical, _reason(pair, rules, guards) if pair in critical else "")
        for pair in work.order.pairs()
    )


def _reason(pair: tuple[str, str], rules: dict[tuple[str, str], Rule], guards: dict[str, list[str]]) -> str:
    """Return the reason of the pair itself, else of the last link of a critical chain that joins the two."""
    earlier, later = pair
    if pair in rules:
        return rules[pair].reason
    linked = partial_order(guards)
    reachable = frozenset(linked.pairs())
    between = next(name for name in guards[later] if (earlier, name) in reachable)
    return rules[between, later].reason


def gates(work: Work) -> dict[tuple[str, str], Rule]:
    """Return the rule that each critical precedence guards, one simulated start for each state that it takes."""
    pairs = work.order.pairs()
    before = [_all_but(work, *pair) for pair in pairs]
    after = [act(work.action(later), state) for state, (_, later) in zip(before, pairs, strict=True)]
    seen = work.site.see([*before, *after])
    found: dict[tuple[str, str], Rule] = {}
    for number, pair in enumerate(pairs):
        rule = broken_rule(work.safework, work.action(pair[1]), seen[number], seen[number + len(pairs)])
        if rule is not None:
            found[pair] = rule
    return found


def _all_but(work: Work, earlier: str, later: str) -> State:
    """Return the state when all that ``later`` waits for is done, except ``earlier``."""
    waited_for = {one for one, other in work.order.pairs() if other == later}
    state = start_of(work.site, work.procedure)
    for name in work.steps:
        if name in waited_for and name != earlier:
            state = act(work.action(name), state)
    return state
