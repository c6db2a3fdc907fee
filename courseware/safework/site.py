"""The site of the work: one unit, perhaps with a fault, and the states that the job can be in on it.

The engine sees the machine through two things only: which variables the unit has, and a function
that tells the derived facts of a state. :func:`site_of` takes both from the heater room.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from courseware.content.words import say
from courseware.heater.job import Job, Variable, consequences
from courseware.heater.load import Trade
from courseware.heater.simulate import Case
from courseware.heater.unit import Unit
from courseware.safework.model import ALWAYS, HAND_BACK, SIGNAL_WORDS, Action, Procedure, Rule, SafeWork, State

Facts = Callable[[Sequence[State]], Sequence[State]]


@dataclass(frozen=True, slots=True)
class Site:
    """Where a procedure is carried out.

    Attributes
    ----------
    variables : mapping of id to Variable
        Those that the unit has.
    titles : mapping of id to str
        What a variable or derived fact is called.
    facts : callable
        The derived facts of each of some states; one call may simulate many starts at once.
    """

    variables: Mapping[str, Variable]
    titles: Mapping[str, str]
    facts: Facts

    def see(self, states: Sequence[State]) -> tuple[State, ...]:
        """Return each state together with its derived facts."""
        return tuple({**state, **facts} for state, facts in zip(states, self.facts(states), strict=True))


def site_of(trade: Trade, unit: Unit, case: Case = ()) -> Site:
    """Return the site of work on a unit with the faults of a case."""
    job: Job = trade.job
    titles = {name: variable.title for name, variable in job.variables.items()}
    titles |= {name: fact.title for name, fact in job.derived.items()}
    return Site(
        {name: variable for name, variable in job.variables.items() if unit.fits(variable.only_on)},
        titles,
        lambda states: consequences(job, unit, states, case),
    )


def start_of(site: Site, procedure: Procedure) -> State:
    """Return the state in which the procedure finds the job."""
    return {name: procedure.start.get(name, variable.start) for name, variable in site.variables.items()}


def act(action: Action, state: State) -> State:
    """Return the state after an action."""
    return {**state, **action.effects}


def matches(wanted: Mapping[str, tuple[str, ...]], state: State) -> bool:
    """Say whether every wanted variable or fact has one of its values."""
    return all(state.get(name) in values for name, values in wanted.items())


def breaks(rule: Rule, action: Action | None, before: State, after: State) -> bool:
    """Say whether a rule is broken.

    A condition that names a kind of deed looks at the state in which the deed is done; one that names only a
    state looks at the state that the deed brings about. ``action`` is None for a job that has just been found.
    """
    for condition in rule.never:
        tags = condition.tags if rule.at == ALWAYS else condition.tags | {HAND_BACK}
        if not tags and matches(condition.state, after):
            return True
        if tags and action is not None and tags <= action.tags and matches(condition.state, before):
            return True
    return False


def broken_rule(safework: SafeWork, action: Action | None, before: State, after: State) -> Rule | None:
    """Return the gravest rule that is broken, by signal word; None if none is."""
    broken = [rule for rule in safework.rules.values() if breaks(rule, action, before, after)]
    return min(broken, key=lambda rule: SIGNAL_WORDS.index(rule.signal_word), default=None)


def unmet(site: Site, wanted: Mapping[str, tuple[str, ...]], state: State) -> str:
    """Return in words the first thing that is not as wanted; empty if all are."""
    for name, values in wanted.items():
        if state.get(name) not in values:
            return say(
                "safework.not-as-wanted", title=site.titles.get(name, name), found=in_words(state.get(name, "")),
                wanted=say("safework.or").join(in_words(value) for value in values),
            )  # fmt: skip
    return ""


def in_words(value: str) -> str:
    """Return a value as it is read out; a thing that the unit does not have has none."""
    return value.replace("-", " ") or say("safework.not-on-unit")
