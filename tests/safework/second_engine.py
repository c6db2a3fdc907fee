"""The slow second way: put the settings into the unit by hand, run it, and walk one order of steps at a time.

It shares the loaded data and the simulator with the first engine, and no code of safework.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import permutations

from courseware.heater.job import Job
from courseware.heater.simulate import Case, simulate
from courseware.heater.unit import Unit
from courseware.safework.model import Action, Procedure, Rule, SafeWork

Verdict = tuple[str, str, int]  # "rule <id>", "cannot", "order", "undone" or "fine"; the step; its position


def run_facts(job: Job, unit: Unit, state: Mapping[str, str], case: Case) -> dict[str, str]:
    """Start the unit as the state leaves it, and read every fact."""
    faulty = {(change.part, change.setting): change.at_worst for fault, _ in case for change in fault.changes}
    put = {
        (change.part, change.setting): change.at_worst
        for name, value in state.items()
        for change in job.variables[name].changes.get(value, ())
    }
    settings = {**faulty, **put}
    parts = tuple(
        replace(part, settings={name: settings.get((part.id, name), value) for name, value in part.settings.items()})
        for part in unit.parts
    )
    run = simulate(replace(unit, parts=parts), [()])
    facts = {}
    for fact in job.derived.values():
        values = run.signals[fact.signal][:, 0].tolist()
        facts[fact.id] = "yes" if (max(values) if fact.when == "ever" else values[-1]) > fact.above else "no"
    return facts


class Slow:
    """One unit with one case, and what its starts have shown so far."""

    def __init__(self, safework: SafeWork, job: Job, unit: Unit, case: Case = ()) -> None:
        self.safework, self.job, self.unit, self.case = safework, job, unit, case
        self.shown: dict[tuple[tuple[str, str], ...], dict[str, str]] = {}

    def full(self, state: Mapping[str, str]) -> dict[str, str]:
        moving = {name: value for name, value in state.items() if self.job.variables[name].changes}
        key = tuple(sorted(moving.items()))
        if key not in self.shown:
            self.shown[key] = run_facts(self.job, self.unit, moving, self.case)
        return {**state, **self.shown[key]}

    def judge(self, procedure: Procedure, names: Sequence[str]) -> Verdict:
        steps = {step.id: step for step in procedure.steps}
        state = {
            name: procedure.start.get(name, variable.start)
            for name, variable in self.job.variables.items()
            if all(self.unit.features[feature] == value for feature, value in variable.only_on.items())
        }
        for position, name in enumerate(names, start=1):
            action = self.safework.actions[steps[name].action]
            before, after = self.full(state), self.full({**state, **action.effects})
            rule = gravest([rule for rule in self.safework.rules.values() if is_broken(rule, action, before, after)])
            if rule:
                return f"rule {rule}", name, position
            if any(before[need] not in values for need, values in action.needs.items()):
                return "cannot", name, position
            state = {**state, **action.effects}
        for position, name in enumerate(names, start=1):
            if any(earlier in names[position:] for earlier in waits_for(steps[name].id, procedure)):
                return "order", name, position
        end = self.full(state)
        if any(end[name] not in values for name, values in procedure.done.items()):
            return "undone", names[-1], len(names)
        return "fine", "", 0


def is_broken(rule: Rule, action: Action, before: Mapping[str, str], after: Mapping[str, str]) -> bool:
    for condition in rule.never:
        deed = set(condition.tags)
        if rule.at == "hand-back":
            deed.add("hand-back")
        seen = before if deed else after
        holds = [seen.get(name, "") in values for name, values in condition.state.items()]
        if deed.issubset(action.tags) and all(holds):
            return True
    return False


def gravest(rules: Sequence[Rule]) -> str:
    for word in ("DANGER", "WARNING", "CAUTION"):
        for rule in rules:
            if rule.signal_word == word:
                return rule.id
    return ""


def waits_for(name: str, procedure: Procedure) -> set[str]:
    """All steps before a step, found by walking up."""
    direct = {step.id: step.after for step in procedure.steps}
    found: set[str] = set()
    todo = list(direct[name])
    while todo:
        one = todo.pop()
        found.add(one)
        todo += direct[one]
    return found


def allowed_orders(procedure: Procedure) -> Iterator[tuple[str, ...]]:
    """Every permutation of the steps that breaks no precedence."""
    before = {step.id: waits_for(step.id, procedure) for step in procedure.steps}
    for order in permutations(before):
        if all(before[name] <= set(order[:place]) for place, name in enumerate(order)):
            yield order
