"""A procedure on a site: its steps on the unit, their order, and what can be wrong with one step or with the end."""

from collections.abc import Mapping
from dataclasses import dataclass

from courseware.content.words import say
from courseware.heater.load import Trade
from courseware.heater.simulate import Case
from courseware.heater.unit import Unit
from courseware.safework.model import Action, Procedure, Rule, SafeWork, State, Step
from courseware.safework.order import PartialOrder, partial_order
from courseware.safework.site import Site, broken_rule, matches, site_of, unmet


@dataclass(frozen=True, slots=True)
class Breach:
    """What is wrong with an order of steps.

    Attributes
    ----------
    rule : Rule or None
        The never-rule that is broken; None if a step could not be done, comes too early, or the job is left undone.
    step_id : str
        The step at fault; empty if the job was found so.
    position : int
        Its position [-] in the order, from 1; 0 if the job was found so.
    reason : str
        Why, in words for a trainee.
    """

    rule: Rule | None
    step_id: str
    position: int
    reason: str


@dataclass(frozen=True, slots=True)
class Work:
    """A procedure to be carried out on a site.

    Attributes
    ----------
    safework : SafeWork
        The actions and the rules.
    site : Site
        The unit, through what the engine sees of it.
    procedure : Procedure
        What is to be done.
    steps : mapping of id to Step
        The steps on this unit, in the author's order.
    order : PartialOrder
        The order of those steps.
    """

    safework: SafeWork
    site: Site
    procedure: Procedure
    steps: Mapping[str, Step]
    order: PartialOrder

    def action(self, step_id: str) -> Action:
        """Return what a step does."""
        return self.safework.actions[self.steps[step_id].action]

    def found_so(self, start: State) -> Breach | None:
        """Return the rule that is broken before anything is done, if any."""
        rule = broken_rule(self.safework, None, start, start)
        return None if rule is None else Breach(rule, "", 0, rule.reason)

    def wrong_with(self, step_id: str, before: State, after: State, position: int) -> Breach | None:
        """Return what is wrong with a step done in a state, if anything: a broken rule before an unmet need."""
        action = self.action(step_id)
        rule = broken_rule(self.safework, action, before, after)
        if rule is not None:
            return Breach(rule, step_id, position, rule.reason)
        lacking = unmet(self.site, action.needs, before)
        if lacking:
            reason = say("safework.need-unmet", action=action.title, lacking=lacking)
            return Breach(None, step_id, position, reason)
        return None

    def not_done(self, last_step: str, position: int, state: State) -> Breach | None:
        """Return what is wrong with the job as it is left after its last step, if anything."""
        if matches(self.procedure.done, state):
            return None
        lacking = unmet(self.site, self.procedure.done, state)
        reason = say("safework.not-done", procedure=self.procedure.title, lacking=lacking)
        return Breach(None, last_step, position, reason)


def work_on(safework: SafeWork, trade: Trade, unit: Unit, procedure: Procedure, case: Case = ()) -> Work:
    """Return a procedure on a unit with the faults of a case."""
    return work_at(safework, site_of(trade, unit, case), unit, procedure)


def work_at(safework: SafeWork, site: Site, unit: Unit, procedure: Procedure) -> Work:
    """Return a procedure on a unit that is seen through a given site."""
    steps = {step.id: step for step in steps_on(procedure, unit)}
    return Work(safework, site, procedure, steps, order_on(procedure, unit))


def steps_on(procedure: Procedure, unit: Unit) -> tuple[Step, ...]:
    """Return the procedure's steps on a unit, in the author's order, which is an allowed one."""
    return tuple(step for step in procedure.steps if unit.fits(step.only_on))


def order_on(procedure: Procedure, unit: Unit) -> PartialOrder:
    """Return the order of the steps on a unit; a step that is not done there still keeps its neighbours apart."""
    after = {step.id: step.after for step in procedure.steps}
    return partial_order(after, keep=[step.id for step in steps_on(procedure, unit)])
