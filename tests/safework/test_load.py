"""What an author is told, word for word."""

from collections.abc import Mapping
from pathlib import Path
from textwrap import dedent

import pytest

from courseware.content.documents import read_documents
from courseware.content.problems import Problems
from courseware.heater.job import load_job
from courseware.heater.load import Trade
from courseware.heater.unit import Unit
from courseware.safework.check import procedure_problems
from courseware.safework.load import SAFEWORK_KINDS, load_safework
from courseware.safework.model import SafeWork
from tests.safework.conftest import UNITS

JOB = """\
format: courseware/job/1
origin: made for the tests
variables:
  - {id: power, title: Disconnect, values: [on, off, locked], start: on,
     changes: {off: [{part: disconnect, setting: closed, to: 0}], locked: [{part: disconnect, setting: closed, to: 0}]}}
  - {id: cover, title: Cover, values: [shut, open], start: shut}
  - {id: pump, title: Pump, values: [in, out], start: in, only_on: {delivery: metered}}
derived:
  - {id: line-live, title: Line live, signal: control.line, above: 1}
"""
ACTIONS = """\
format: courseware/actions/1
origin: made for the tests
actions:
  - {id: off, title: Switch off, needs: {power: [on]}, effects: {power: off}}
  - {id: lock, title: Lock, needs: {power: [off]}, effects: {power: locked}}
  - {id: open, title: Open the cover, effects: {cover: open}, tags: [opens]}
  - {id: test, title: Test dead, needs: {line-live: [no], cover: [open]}}
  - {id: unplug, title: Unplug the pump, effects: {pump: out}}
"""
RULES = """\
format: courseware/rules/1
rules:
  - id: live-cover
    title: The cover stays shut while the power is on.
    signal_word: DANGER
    hazard: shock
    never: [{state: {cover: [open], power: [on]}}]
    reason: You would touch a live part.
    origin: made for the tests
"""
PROCEDURE = """\
format: courseware/procedure/1
id: check
title: Check
summary: Look inside.
lesson: made#up
origin: made for the tests
done: {power: [locked]}
steps:
  - {id: off, action: off, after: []}
  - {id: lock, action: lock, after: [off]}
  - {id: open, action: open, after: [lock]}
"""


def load(folder: Path, units: Mapping[str, Unit] = UNITS, **changed: str) -> tuple[Problems, SafeWork, Trade]:
    """Load four small documents, some of them changed."""
    texts = {"job": JOB, "actions": ACTIONS, "rules": RULES, "procedure": PROCEDURE, **changed}
    bank = folder / "question_bank"
    bank.mkdir()
    for name, text in texts.items():
        (bank / f"{name}.yaml").write_text(text, encoding="utf-8")
    problems = Problems()
    documents = read_documents(folder, ("job", *SAFEWORK_KINDS), problems)
    trade = Trade(units, {}, {}, {}, (), load_job(documents, problems))
    return problems, load_safework(documents, trade, problems), trade


def told(problems: Problems) -> str:
    return "\n".join(str(problem) for problem in problems) + "\n"


def test_sound_documents_have_no_problem(tmp_path: Path) -> None:
    problems, safework, trade = load(tmp_path)
    procedure_problems(safework, trade, problems)
    assert list(problems) == []
    assert [step.id for step in safework.procedures["check"].steps] == ["off", "lock", "open"]
    assert safework.procedures["check"].steps[1].source.line == 10


CASES = {
    "unknown variable": (
        {"actions": ACTIONS.replace("effects: {power: off}", "effects: {powr: off}")},
        """\
        question_bank/actions.yaml:4: action 'off', effects: 'powr' is neither a variable nor a fact of the job
            allowed: cover, power, pump
            try: did you mean 'power'?
        """,
    ),
    "unknown value": (
        {"actions": ACTIONS.replace("needs: {power: [on]}", "needs: {power: [one]}")},
        """\
        question_bank/actions.yaml:4: action 'off', needs: 'power' names the value 'one', which does not exist
            allowed: locked, off, on
            try: did you mean 'on'?
        """,
    ),
    "a fact is put": (
        {"actions": ACTIONS.replace("effects: {power: off}", "effects: {line-live: no}")},
        """\
        question_bank/actions.yaml:4: action 'off', effects: 'line-live' is a fact: it is found by simulating a start and cannot be put
            try: change the variable that brings it about
        """,  # noqa: E501 - a message as it is shown
    ),
    "unknown action": (
        {"procedure": PROCEDURE.replace("action: lock", "action: look")},
        """\
        question_bank/procedure.yaml:10: procedure 'check', step 'lock': 'action' names the action 'look', which does not exist
            allowed: lock, off, open, test, unplug
            try: did you mean 'lock'?
        """,  # noqa: E501 - a message as it is shown
    ),
    "a cycle": (
        {"procedure": PROCEDURE.replace("after: []", "after: [open]")},
        """\
        question_bank/procedure.yaml:9: procedure 'check': the steps wait for each other: off, lock, open, off
            try: take one of them out of the other's 'after'
        """,
    ),
    "unknown step": (
        {"procedure": PROCEDURE.replace("after: [lock]", "after: [luck]")},
        """\
        question_bank/procedure.yaml:11: procedure 'check', step 'open': 'after' names the step 'luck', which does not exist
            allowed: lock, off, open
            try: did you mean 'lock'?
        """,  # noqa: E501 - a message as it is shown
    ),
    "a step written too high": (
        {"procedure": PROCEDURE.replace("after: []", "after: [late]") + "  - {id: late, action: test, after: []}\n"},
        """\
        question_bank/procedure.yaml:9: procedure 'check', step 'off': 'after' names the step 'late', which is written below it
            try: write the steps in an order that they allow
        """,  # noqa: E501 - a message as it is shown
    ),
    "a step twice": (
        {"procedure": PROCEDURE.replace("id: open, action", "id: lock, action")},
        """\
        question_bank/procedure.yaml:11: step 'lock': the id 'lock' is used twice; first at question_bank/procedure.yaml:10
            try: give one of the two another id
        """,  # noqa: E501 - a message as it is shown
    ),
    "what comes first is left open": (
        {"procedure": PROCEDURE.replace(", after: [lock]", "")},
        """\
        question_bank/procedure.yaml:11: procedure 'check', step 'open': the key 'after' is missing
            try: add a line 'after: ...'
        """,
    ),
    "a unit feature that no unit has": (
        {"procedure": PROCEDURE.replace("after: [lock]", "after: [lock], only_on: {delivery: gravity}")},
        """\
        question_bank/procedure.yaml:11: procedure 'check', step 'open': no unit has 'delivery: gravity'
            allowed: metered, siphon
        """,
    ),
    "a tag that no action has": (
        {"rules": RULES.replace("{state: {cover: [open], power: [on]}}", "{tags: [open]}")},
        """\
        question_bank/rules.yaml:3: rule 'live-cover': no action has the tag 'open', so that the rule could never be broken
            allowed: opens
            try: did you mean 'opens'?
        """,  # noqa: E501 - a message as it is shown
    ),
    "nothing hands back": (
        {"rules": RULES + "    at: hand-back\n"},
        """\
        question_bank/rules.yaml:3: rule 'live-cover': no action has the tag 'hand-back', so that the rule could never be broken
            allowed: opens
        """,  # noqa: E501 - a message as it is shown
    ),
    "an empty condition": (
        {"rules": RULES.replace("{state: {cover: [open], power: [on]}}", "{}")},
        """\
        question_bank/rules.yaml:7: rule 'live-cover', condition 1: the condition names neither a state nor a tag, so that everything would break the rule
            try: add a line 'state: ...' or 'tags: ...'
        """,  # noqa: E501 - a message as it is shown
    ),
    "a signal word that is none": (
        {"rules": RULES.replace("DANGER", "NOTICE")},
        """\
        question_bank/rules.yaml:5: rule 'live-cover': 'signal_word' is 'NOTICE'
            allowed: CAUTION, DANGER, WARNING
        """,
    ),
    "a rule twice": (
        {"rules": RULES + "".join(RULES.partition("rules:\n")[2])},
        """\
        question_bank/rules.yaml:10: rule 'live-cover': the id 'live-cover' is used twice; first at question_bank/rules.yaml:3
            try: give one of the two another id
        """,  # noqa: E501 - a message as it is shown
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_a_fault_of_the_author_gives_the_whole_message(tmp_path: Path, name: str) -> None:
    changed, message = CASES[name]
    problems, _, _ = load(tmp_path, UNITS, **changed)
    assert told(problems) == dedent(message)


CARRIED_OUT = {
    "an order that breaks a rule": (
        PROCEDURE.replace("after: [lock]", "after: []"),
        """\
        question_bank/procedure.yaml:11: procedure 'check', step 'open': on '{unit}' this is never done: The cover stays shut while the power is on. You would touch a live part.
            try: it happens in an order that 'after' allows, which ends: open
        """,  # noqa: E501 - a message as it is shown
    ),
    "a step that cannot be done": (
        PROCEDURE + "  - {id: test, action: test, after: [lock]}\n",
        """\
        question_bank/procedure.yaml:12: procedure 'check', step 'test': on '{unit}': 'Test dead' cannot be done here, or does not come out as it must. Cover: wanted open, found shut.
            try: it happens in an order that 'after' allows, which ends: off, lock, test
        """,  # noqa: E501 - a message as it is shown
    ),
    "a job left undone": (
        PROCEDURE.replace("done: {power: [locked]}", "done: {power: [off]}"),
        """\
        question_bank/procedure.yaml:11: procedure 'check', step 'open': on '{unit}': The job 'Check' is left undone. Disconnect: wanted off, found locked.
            try: it happens in an order that 'after' allows, which ends: off, lock, open
        """,  # noqa: E501 - a message as it is shown
    ),
    "a job found in a state that breaks a rule": (
        PROCEDURE.replace("done:", "start: {cover: open}\ndone:"),
        """\
        question_bank/procedure.yaml:1: procedure 'check': on '{unit}' this is never done: The cover stays shut while the power is on. You would touch a live part.
        """,  # noqa: E501 - a message as it is shown
    ),
}


@pytest.mark.parametrize("name", CARRIED_OUT)
def test_a_procedure_that_goes_wrong_is_told_at_its_step_for_every_unit(tmp_path: Path, name: str) -> None:
    procedure, message = CARRIED_OUT[name]
    two = {name: UNITS[name] for name in ("siphon-interrupted-no-air-switch", "metered-interrupted-no-air-switch")}
    problems, safework, trade = load(tmp_path, two, procedure=procedure)
    assert list(problems) == []
    procedure_problems(safework, trade, problems)
    each = sorted(dedent(message).replace("{unit}", unit.title) for unit in two.values())
    assert told(problems) == "".join(each)


def test_a_step_that_handles_what_the_unit_lacks(tmp_path: Path) -> None:
    steps = PROCEDURE + "  - {id: unplug, action: unplug, after: [lock]}\n"
    problems, safework, trade = load(tmp_path, procedure=steps)
    procedure_problems(safework, trade, problems)
    without = [unit for unit in UNITS.values() if unit.features["delivery"] == "siphon"]
    assert len(problems) == len(without)
    assert str(next(iter(problems))) == dedent(f"""\
        question_bank/procedure.yaml:12: procedure 'check', step 'unplug': on '{without[0].title}' the step handles \
'pump', which that unit does not have
            try: add 'only_on' to the step""")


def test_steps_too_free_to_prove(tmp_path: Path) -> None:
    action = "".join(f"  - {{id: a{n}, title: A, needs: {{power: [on]}}}}\n" for n in range(18))
    steps = "".join(f"  - {{id: s{n}, action: a{n}, after: []}}\n" for n in range(18))
    procedure = PROCEDURE.partition("  - {id: off")[0].replace("locked", "on") + steps
    name, unit = next(iter(UNITS.items()))
    problems, safework, trade = load(tmp_path, {name: unit}, actions=ACTIONS + action, procedure=procedure)
    procedure_problems(safework, trade, problems)
    assert str(next(iter(problems))) == dedent(f"""\
        question_bank/procedure.yaml:1: procedure 'check': on '{unit.title}' the steps can be done in \
so many orders that more than 200000 states would have to be tried
            try: say in 'after' what comes first""")
