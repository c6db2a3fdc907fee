"""States of the job: what the technician has done to the unit, and what the unit could do in that state.

A variable is a thing at the job that has been put one way or another: the disconnect, the air line,
a bridge, the cover. Each value may change part settings, so that a state of the job is a unit
arranged in a certain way. What matters for safety is not written down but found: a start is
simulated in that arrangement, and the derived facts read from it whether oil could flow, a spark
could fire, the control would start at all. A fault on the unit therefore changes the facts, and
with them what is safe, without a word of code about that fault.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from courseware.content.documents import Document, unique_ids
from courseware.content.fields import Fields
from courseware.content.problems import Problems, listed, nearest
from courseware.content.provenance import Provenance, read_provenance
from courseware.content.source import Source
from courseware.content.tree import Sequence as ListNode
from courseware.content.tree import describe
from courseware.content.words import say
from courseware.heater.faults import Change
from courseware.heater.simulate import Case, Run, simulate_each
from courseware.heater.unit import Unit

YES: Final = "yes"
NO: Final = "no"
EVER: Final = "ever"
END: Final = "end"


@dataclass(frozen=True, slots=True)
class Variable:
    """One thing at the job that can be in one of several states.

    Attributes
    ----------
    id, title : str
        Name in the data, and in words.
    values : tuple of str
        The states it can be in.
    start : str
        The state it is in when a technician arrives, unless a procedure says otherwise.
    changes : mapping of value to tuple of Change
        What a state does to the unit's parts; a value that changes nothing is not in it.
    only_on : mapping of feature to value
        The units that have it; empty for all units.
    source : Source
        Where it is written.
    """

    id: str
    title: str
    values: tuple[str, ...]
    start: str
    changes: Mapping[str, tuple[Change, ...]]
    only_on: Mapping[str, str]
    source: Source


@dataclass(frozen=True, slots=True)
class Derived:
    """A fact about a state, read from a start simulated in it: "yes" if the signal exceeds a level, else "no".

    Attributes
    ----------
    id, title : str
        Name in the data, and in words.
    signal : str
        The part output that is watched, as ``part.output``; on a unit without it the fact is "no".
    above : float
        The level [SI unit of the signal] that the signal must exceed.
    when : str
        ``ever``: at any time of the start; ``end``: when the simulated start has run its course.
    source : Source
        Where it is written.
    """

    id: str
    title: str
    signal: str
    above: float
    when: str
    source: Source


@dataclass(frozen=True, slots=True)
class Job:
    """All variables and derived facts of the job, by id, and the provenance of each document that states them."""

    variables: Mapping[str, Variable]
    derived: Mapping[str, Derived]
    provenance: tuple[Provenance, ...] = ()


def load_job(documents: Iterable[Document], problems: Problems) -> Job:
    """Read every document of kind ``job``; faults go to ``problems``."""
    variables: list[Variable] = []
    derived: list[Derived] = []
    provenance = []
    for document in documents:
        if document.kind == "job":
            fields = document.fields("", problems)
            provenance.append(read_provenance(fields))
            variables += [_variable(one) for one in fields.children("variables", "variable", required=False)]
            derived += [_derived(one) for one in fields.children("derived", "fact", required=False)]
            fields.finish()
    named = [(one.id, one.source) for one in variables] + [(one.id, one.source) for one in derived]
    unique_ids((("state", name, source) for name, source in named), problems)
    return Job({one.id: one for one in variables}, {one.id: one for one in derived}, tuple(provenance))


def _variable(fields: Fields) -> Variable:
    name, title = fields.identifier(), fields.text("title")
    values = fields.texts("values")
    start = fields.choice("start", values)
    changes = fields.child("changes", required=False)
    read = {} if changes is None else {value: tuple(_changes(changes, value)) for value in changes.entries()}
    for value in read.keys() - set(values):
        assert changes is not None
        found = say("heater-job.unknown-value", value=value)
        changes.fault(changes.source_of(value), found, listed(values), nearest(value, values))
    variable = Variable(name, title, values, start, read, read_only_on(fields), fields.source)
    fields.finish()
    return variable


def _changes(changes: Fields, value: str) -> Iterator[Change]:
    node = changes.entries()[value]
    if not isinstance(node, ListNode):
        changes.fault(node.source, say("content.wrong-type", key=value, found=describe(node)), say("content.a-list"))
        return
    for change in changes.children(value, "change"):
        part, setting, to = change.text("part"), change.text("setting"), change.number("to")
        yield Change(part, setting, None, to, read_only_on(change))
        change.finish()


def _derived(fields: Fields) -> Derived:
    derived = Derived(
        fields.identifier(), fields.text("title"), fields.text("signal"), fields.number("above"),
        fields.choice("when", (EVER, END), EVER), fields.source,
    )  # fmt: skip
    fields.finish()
    return derived


def read_only_on(fields: Fields) -> Mapping[str, str]:
    """Read the optional key ``only_on: {feature: value}`` of a thing that not every unit has."""
    features = fields.child("only_on", required=False)
    if features is None:
        return {}
    found = {name: features.text(name) for name in features.entries()}
    features.finish()
    return found


def check_job(job: Job, units: Mapping[str, Unit], problems: Problems) -> None:
    """Report every part setting, signal and feature that no unit has."""
    parts = [part for unit in units.values() for part in unit.parts]
    settings = {f"{part.id}.{name}" for part in parts for name in part.settings}
    signals = {f"{part.id}.{name}" for part in parts for name in part.behaviour.output_names}
    for variable in job.variables.values():
        where = say("heater-job.variable", id=variable.id)
        check_only_on(variable.only_on, units, variable.source, where, problems)
        for change in (change for changes in variable.changes.values() for change in changes):
            check_only_on(change.only_on, units, variable.source, where, problems)
            name = f"{change.part}.{change.setting}"
            if name not in settings:
                found = say("heater-job.no-setting", name=name)
                problems.add(variable.source, where, found, _of_same_part(name, settings), nearest(name, settings))
    for fact in job.derived.values():
        if fact.signal not in signals:
            where, found = say("heater-job.fact", id=fact.id), say("heater-job.no-signal", name=fact.signal)
            problems.add(fact.source, where, found, _of_same_part(fact.signal, signals), nearest(fact.signal, signals))


def _of_same_part(name: str, known: Iterable[str]) -> str:
    part, _, _ = name.partition(".")
    return listed(one for one in known if one.startswith(f"{part}."))


def check_only_on(
    only_on: Mapping[str, str], units: Mapping[str, Unit], source: Source, where: str, problems: Problems
) -> None:
    """Report every feature word that no unit has."""
    for name, value in only_on.items():
        values = {unit.features[name] for unit in units.values() if name in unit.features}
        if not values:
            names = {feature for unit in units.values() for feature in unit.features}
            problems.add(source, where, say("heater-job.no-feature", name=name), listed(names), nearest(name, names))
        elif value not in values:
            found = say("heater-job.no-feature-value", name=name, value=value)
            problems.add(source, where, found, listed(values), nearest(value, values))


def consequences(
    job: Job, unit: Unit, states: Sequence[Mapping[str, str]], case: Case = ()
) -> tuple[Mapping[str, str], ...]:
    """Return the derived facts of each state, by simulating a start in it.

    Parameters
    ----------
    job : Job
        The variables and the facts.
    unit : Unit
        The unit that is started.
    states : sequence of mapping of variable to value
        n states; a variable that a state does not name changes nothing.
    case : Case
        Faults on the unit; empty for a healthy one.

    Returns
    -------
    tuple of mapping of fact to "yes" or "no"
        One for each state. States that arrange the parts alike are simulated once, all others together.
    """
    keys = [_arranging(job, state) for state in states]
    distinct = tuple(dict.fromkeys(keys))
    if not distinct:
        return ()
    arrangements = [arrangement(job, unit, dict(key)) for key in distinct]
    facts = _read(job, unit, simulate_each(unit, [case] * len(distinct), arrangements))
    found = dict(zip(distinct, facts, strict=True))
    return tuple(found[key] for key in keys)


def _arranging(job: Job, state: Mapping[str, str]) -> tuple[tuple[str, str], ...]:
    """Return the part of a state that changes anything, as a key."""
    return tuple(
        (name, state[name]) for name, one in job.variables.items() if name in state and state[name] in one.changes
    )


def arrangement(job: Job, unit: Unit, state: Mapping[str, str]) -> tuple[Change, ...]:
    """Return what a state of the job changes on a unit."""
    changes = (change for name, value in state.items() for change in job.variables[name].changes.get(value, ()))
    return tuple(change for change in changes if change.applies_to(unit))


def _read(job: Job, unit: Unit, run: Run) -> list[dict[str, str]]:
    count = next(iter(run.moments.values())).shape[0]
    facts: list[dict[str, str]] = [{} for _ in range(count)]
    for fact in job.derived.values():
        if unit.has_output(fact.signal):
            signal = run.signals[fact.signal]
            true = (np.max(signal, axis=0) if fact.when == EVER else signal[-1]) > fact.above
        else:
            true = np.zeros(count, dtype=bool)
        for one, holds in zip(facts, true, strict=True):
            one[fact.id] = YES if holds else NO
    return facts
