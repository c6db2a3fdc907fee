"""Every procedure, carried out on every unit: what the build refuses to publish."""

from collections.abc import Iterator

from courseware.content.problems import Problems
from courseware.content.words import say
from courseware.heater.load import Trade
from courseware.heater.unit import Unit
from courseware.safework.judge import judge_all
from courseware.safework.model import Procedure, Rule, SafeWork
from courseware.safework.order import LARGEST, TooFreeError
from courseware.safework.prove import OrderProof, prove_work
from courseware.safework.work import Breach, Work, steps_on, work_on

Pair = tuple[str, str]


def procedure_problems(safework: SafeWork, trade: Trade, problems: Problems) -> None:
    """Carry every procedure out in every allowed order on every unit, and report what is wrong at the step at fault.

    Reported are a broken rule, a step that cannot be done, a job left undone, steps too free to prove,
    and a precedence that guards against harm without being called critical, or the other way round.
    """
    for procedure in safework.procedures.values():
        guards: dict[Pair, Rule | None] = {}
        for unit in trade.units.values():
            if _can_be_tried(safework, trade, unit, procedure, problems):
                work = work_on(safework, trade, unit, procedure)
                if _is_proved(work, unit, problems):
                    _add_guards(work, guards)
        _hold_critical(procedure, guards, problems)


def _can_be_tried(safework: SafeWork, trade: Trade, unit: Unit, procedure: Procedure, problems: Problems) -> bool:
    """Report steps that handle what the unit does not have, and an action that does not exist."""
    steps = steps_on(procedure, unit)
    variables = {name for name, one in trade.job.variables.items() if unit.fits(one.only_on)} | trade.job.derived.keys()
    sound = bool(steps)
    for step in steps:
        action = safework.actions.get(step.action)
        if action is None:
            sound = False  # the loader has said so
            continue
        for name in sorted((action.needs.keys() | action.effects.keys()) - variables):
            found = say("safework.unit-lacks", unit=unit.title, variable=name)
            problems.add(step.source, _place(procedure, step.id), found, advice=say("safework.unit-lacks-try"))
            sound = False
    return sound


def _is_proved(work: Work, unit: Unit, problems: Problems) -> bool:
    procedure = work.procedure
    try:
        proof = prove_work(work)
    except TooFreeError:
        found = say("safework.too-free", unit=unit.title, limit=LARGEST)
        problems.add(procedure.source, _place(procedure, ""), found, advice=say("safework.too-free-try"))
        return False
    breach = proof.breach
    if breach is None:
        return True
    source = work.steps[breach.step_id].source if breach.step_id else procedure.source
    problems.add(source, _place(procedure, breach.step_id), *_told(breach, proof, unit))
    return False


def _told(breach: Breach, proof: OrderProof, unit: Unit) -> tuple[str, str, str]:
    """Return what was found, what is allowed, and the order in which it happens."""
    key, rule = ("safework.breaks-rule", breach.rule.title) if breach.rule else ("safework.goes-wrong", "")
    found = say(key, unit=unit.title, rule=rule, reason=breach.reason)
    order = say("safework.then").join(proof.example[-4:])
    return found, "", say("safework.in-this-order", order=order) if proof.example else ""


def _place(procedure: Procedure, step_id: str) -> str:
    where = say("safework.procedure", id=procedure.id)
    return f"{where}, {say('safework.step', id=step_id)}" if step_id else where


def _add_guards(work: Work, guards: dict[Pair, Rule | None]) -> None:
    """Find, for each direct precedence, the rule that is broken when the later step comes first."""
    pairs = [(name, step.id) for step in work.steps.values() for name in step.after if name in work.steps]
    orders = [tuple(_turned(work, *pair)) for pair in pairs]
    for pair, judged in zip(pairs, judge_all(work, orders), strict=True):
        guards[pair] = guards.get(pair) or (judged.breach.rule if judged.breach else None)


def _turned(work: Work, earlier: str, later: str) -> Iterator[str]:
    """Yield the author's order with ``later`` done before ``earlier``, after all else that it has to wait for."""
    fixed = set(work.order.pairs())
    first = [name for name in work.steps if (name, later) in fixed and name != earlier and (earlier, name) not in fixed]
    yield from first
    yield later
    yield from (name for name in work.steps if name != later and name not in first)


def _hold_critical(procedure: Procedure, guards: dict[Pair, Rule | None], problems: Problems) -> None:
    """Report where what the author calls critical and what the rules find critical differ."""
    steps = {step.id: step for step in procedure.steps}
    for (earlier, later), rule in guards.items():
        step = steps[later]
        if rule is not None and earlier not in step.critical:
            found = say("safework.guard-not-told", step=earlier, rule=rule.title)
            advice = say("safework.guard-not-told-try", step=earlier)
            problems.add(step.source, _place(procedure, later), found, advice=advice)
        elif rule is None and earlier in step.critical:
            found = say("safework.guards-nothing", step=earlier)
            problems.add(step.source, _place(procedure, later), found, advice=say("safework.guards-nothing-try"))
