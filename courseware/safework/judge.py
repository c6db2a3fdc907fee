"""The judge: carry out steps in the order given and say what is wrong first, and what is left behind."""

from collections.abc import Sequence
from dataclasses import dataclass

from courseware.content.words import say
from courseware.heater.load import Trade
from courseware.heater.simulate import Case
from courseware.heater.unit import Unit
from courseware.safework.model import Procedure, SafeWork, State
from courseware.safework.order import kendall
from courseware.safework.site import act, start_of
from courseware.safework.work import Breach, Work, work_on


@dataclass(frozen=True, slots=True)
class Judgement:
    """What the judge says of an order of steps.

    Attributes
    ----------
    allowed : bool
        True if every step is there, in an allowed order, no rule is broken and the job is left as it should be.
    breach : Breach or None
        The first thing wrong; a broken rule comes before an order that merely is not the procedure's.
    missing : tuple of str
        Steps of the procedure that are not in the order.
    state : mapping of variable or derived fact to value
        The job as it is left: at the end, or where the work had to stop.
    kendall : float
        Credit for the order [-], from -1 to 1; see :func:`courseware.safework.order.kendall`.
    """

    allowed: bool
    breach: Breach | None
    missing: tuple[str, ...]
    state: State
    kendall: float


def judge(  # noqa: PLR0913, PLR0917 - an order of steps is judged of a procedure, on a unit, under the rules
    safework: SafeWork, trade: Trade, unit: Unit, procedure: Procedure, step_ids: Sequence[str], case: Case = ()
) -> Judgement:
    """Judge one order of steps of a procedure on a unit.

    Parameters
    ----------
    safework, trade : SafeWork, Trade
        The rules and the machine.
    unit : Unit
        Where the work is done.
    procedure : Procedure
        The work.
    step_ids : sequence of str
        Steps in the order to be judged; it may lack some.
    case : Case
        Faults on the unit, which the technician does not know of.
    """
    return judge_all(work_on(safework, trade, unit, procedure, case), [step_ids])[0]


def judge_all(work: Work, orders: Sequence[Sequence[str]]) -> tuple[Judgement, ...]:
    """Judge several orders of steps; the starts in all their states are simulated together."""
    walks = [_walk(work, step_ids) for step_ids in orders]
    seen = iter(work.site.see([state for states in walks for state in states]))
    return tuple(
        _judge(work, step_ids, [next(seen) for _ in states]) for step_ids, states in zip(orders, walks, strict=True)
    )


def _walk(work: Work, step_ids: Sequence[str]) -> list[State]:
    """Return the state before each step and after the last; a step that is not the procedure's changes nothing."""
    states = [start_of(work.site, work.procedure)]
    for name in step_ids:
        states.append(act(work.action(name), states[-1]) if name in work.steps else states[-1])
    return states


def _judge(work: Work, step_ids: Sequence[str], states: Sequence[State]) -> Judgement:
    breach, last = _first_wrong(work, step_ids, states)
    missing = tuple(name for name in work.steps if name not in step_ids)
    if breach is None:
        breach = _too_early(work, step_ids)
    if breach is None and not missing and step_ids:
        breach = work.not_done(step_ids[-1], len(step_ids), states[last])
    return Judgement(breach is None and not missing, breach, missing, states[last], kendall(work.order, step_ids))


def _first_wrong(work: Work, step_ids: Sequence[str], states: Sequence[State]) -> tuple[Breach | None, int]:
    """Return the first rule broken or step that cannot be done, and after how many steps the work stopped."""
    found = work.found_so(states[0])
    if found is not None:
        return found, 0
    for place, name in enumerate(step_ids):
        if name not in work.steps or name in step_ids[:place]:
            key = "safework.step-repeated" if name in work.steps else "safework.no-such-step"
            return Breach(None, name, place + 1, say(key, step=name)), place
        breach = work.wrong_with(name, states[place], states[place + 1], place + 1)
        if breach is not None:
            # a deed that breaks a rule has been done; a step that cannot be done has changed nothing
            return breach, place + 1 if breach.rule else place
    return None, len(step_ids)


def _too_early(work: Work, step_ids: Sequence[str]) -> Breach | None:
    """Return the first step that comes before one that the procedure puts ahead of it."""
    place = {name: number for number, name in enumerate(step_ids, start=1)}
    wrong = [
        (place[later], place[earlier], earlier, later)
        for earlier, later in work.order.pairs()
        if later in place and earlier in place and place[earlier] > place[later]
    ]
    if not wrong:
        return None
    position, _, earlier, later = min(wrong)
    reason = say("safework.too-early", step=work.action(later).title, other=work.action(earlier).title)
    return Breach(None, later, position, reason)
