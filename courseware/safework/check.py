"""Every procedure, carried out on every unit: what the build refuses to publish."""

from courseware.content.problems import Problems
from courseware.content.words import say
from courseware.heater.load import Trade
from courseware.heater.unit import Unit
from courseware.safework.model import Procedure, SafeWork
from courseware.safework.order import LARGEST, TooFreeError
from courseware.safework.prove import OrderProof, prove_work
from courseware.safework.work import Breach, Work, steps_on, work_on


def procedure_problems(safework: SafeWork, trade: Trade, problems: Problems) -> None:
    """Carry every procedure out in every allowed order on every unit, and report what is wrong at the step at fault.

    Reported are a broken rule, a step that cannot be done, a job left undone, and steps too free to prove.
    """
    for procedure in safework.procedures.values():
        for unit in trade.units.values():
            if _can_be_tried(safework, trade, unit, procedure, problems):
                _try(work_on(safework, trade, unit, procedure), unit, problems)


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


def _try(work: Work, unit: Unit, problems: Problems) -> None:
    procedure = work.procedure
    try:
        proof = prove_work(work)
    except TooFreeError:
        found = say("safework.too-free", unit=unit.title, limit=LARGEST)
        problems.add(procedure.source, _place(procedure, ""), found, advice=say("safework.too-free-try"))
        return
    breach = proof.breach
    if breach is None:
        return
    source = work.steps[breach.step_id].source if breach.step_id else procedure.source
    problems.add(source, _place(procedure, breach.step_id), *_told(breach, proof, unit))


def _told(breach: Breach, proof: OrderProof, unit: Unit) -> tuple[str, str, str]:
    """Return what was found, what is allowed, and the order in which it happens."""
    key, rule = ("safework.breaks-rule", breach.rule.title) if breach.rule else ("safework.goes-wrong", "")
    found = say(key, unit=unit.title, rule=rule, reason=breach.reason)
    order = say("safework.then").join(proof.example[-4:])
    return found, "", say("safework.in-this-order", order=order) if proof.example else ""


def _place(procedure: Procedure, step_id: str) -> str:
    where = say("safework.procedure", id=procedure.id)
    return f"{where}, {say('safework.step', id=step_id)}" if step_id else where
