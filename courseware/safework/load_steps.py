"""The steps of a procedure, loaded: the order they are written in is one that they allow."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from graphlib import CycleError, TopologicalSorter

from courseware.content.documents import unique_ids
from courseware.content.fields import Fields
from courseware.content.problems import listed, nearest
from courseware.content.words import say
from courseware.heater.job import check_only_on, read_only_on
from courseware.heater.unit import Unit
from courseware.safework.model import Action, Step


def read_steps(fields: Fields, actions: Mapping[str, Action], units: Mapping[str, Unit]) -> tuple[Step, ...]:
    """Read the key ``steps`` of a procedure.

    Where ``after`` is at fault the step is returned without it, so that no engine ever meets a cycle.
    """
    steps = [_step(one, actions, units) for one in fields.children("steps", "step")]
    unique_ids(((say("safework.a-step"), step.id, step.source) for step in steps), fields.problems)
    in_cycle = _report_cycle(fields, steps)
    return tuple(_hold_order(fields, steps, in_cycle))


def _step(fields: Fields, actions: Mapping[str, Action], units: Mapping[str, Unit]) -> Step:
    step = Step(
        id=fields.identifier(),
        action=fields.reference("action", "action", actions),
        after=fields.texts("after", required=False) if _list_is_given(fields) else (),
        only_on=read_only_on(fields),
        note=fields.text("note", ""),
        source=fields.source,
    )
    check_only_on(step.only_on, units, step.source, fields.where, fields.problems)
    fields.finish()
    return step


def _list_is_given(fields: Fields) -> bool:
    """Say whether ``after`` is written, be it an empty list: what comes first is never left to be guessed."""
    return fields.node("after") is not None


def _report_cycle(fields: Fields, steps: Sequence[Step]) -> frozenset[str]:
    """Report steps that wait for each other; return their ids."""
    known = {step.id for step in steps}
    if len(known) < len(steps):
        return frozenset()  # two steps of one id: what waits for what cannot be told
    graph = {step.id: [name for name in step.after if name in known] for step in steps}
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        cycle: list[str] = error.args[1]
        source = next(step.source for step in steps if step.id == cycle[-1])
        path = say("safework.then").join(cycle)
        fields.fault(source, say("safework.cycle", path=path), advice=say("safework.cycle-try"))
        return frozenset(cycle)
    return frozenset()


def _hold_order(fields: Fields, steps: Sequence[Step], in_cycle: frozenset[str]) -> Iterable[Step]:
    """Yield the steps with what each rightly names in ``after``; report the rest."""
    known = [step.id for step in steps]
    above: set[str] = set()
    for step in steps:
        where = f"{fields.where}, {say('safework.step', id=step.id)}"
        for name in step.after:
            if name not in known:
                found = say("safework.unknown-step", step=name)
                fields.problems.add(step.source, where, found, listed(known), nearest(name, known))
            elif name not in above and not {name, step.id} <= in_cycle:
                found = say("safework.written-below", step=name)
                fields.problems.add(step.source, where, found, advice=say("safework.written-below-try"))
        yield replace(step, after=tuple(name for name in step.after if name in above))
        above.add(step.id)
