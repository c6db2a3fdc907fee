"""Which precedences of a procedure guard against harm: found from the rules, not declared.

The precedence of a step over a later one is *critical* if a rule is broken by doing the later one when all that it
has to wait for is done, except this step alone. In an ordering question such a precedence is a gate,
not a matter of credit.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from courseware.heater.load import Trade
from courseware.heater.unit import Unit
from courseware.safework.model import Procedure, Rule, SafeWork, State
from courseware.safework.order import partial_order
from courseware.safework.site import act, breaks, broken_rule, matches, start_of
from courseware.safework.work import Work, work_on

Pair = tuple[str, str]


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
    linked = frozenset(partial_order(guards).pairs())
    return tuple(
        Precedence(*pair, pair in linked, _reason(pair, rules, linked) if pair in linked else "")
        for pair in work.order.pairs()
    )


def _reason(pair: Pair, rules: Mapping[Pair, Rule], linked: frozenset[Pair]) -> str:
    """Return the reason of the pair itself, else of the last link of a chain that joins the two."""
    if pair in rules:
        return rules[pair].reason
    earlier, later = pair
    return next(rule.reason for (one, other), rule in rules.items() if other == later and (earlier, one) in linked)


def gates(work: Work) -> dict[Pair, Rule]:
    """Return the rule that each critical precedence guards; the states of all pairs are simulated together."""
    pairs = work.order.pairs()
    waits: dict[str, list[str]] = {name: [] for name in work.steps}
    for earlier, later in pairs:
        waits[later].append(earlier)
    before = [_all_but(work, earlier, waits[later]) for earlier, later in pairs]
    after = [act(work.action(later), state) for state, (_, later) in zip(before, pairs, strict=True)]
    seen = work.site.see([*before, *after])
    found: dict[Pair, Rule] = {}
    for number, pair in enumerate(pairs):
        rule = _newly_broken(work, pair[1], seen[number], seen[number + len(pairs)])
        if rule is not None:
            found[pair] = rule
    return found


def _all_but(work: Work, left_out: str, waited_for: Sequence[str]) -> State:
    """Return the state when one step is left out of what a step waits for, and with it what cannot be done then."""
    state = start_of(work.site, work.procedure)
    for name in waited_for:
        action = work.action(name)
        needs = {variable: values for variable, values in action.needs.items() if variable in state}
        if name != left_out and matches(needs, state):
            state = act(action, state)
    return state


def _newly_broken(work: Work, step_id: str, before: State, after: State) -> Rule | None:
    """Return the gravest rule that the step breaks, leaving out what was already so before it."""
    new = {name: rule for name, rule in work.safework.rules.items() if not breaks(rule, None, before, before)}
    return broken_rule(replace(work.safework, rules=new), work.action(step_id), before, after)
