"""Which precedences are gates, found from the rules."""

from dataclasses import replace

import pytest

from courseware.heater.load import Trade
from courseware.heater.unit import Unit
from courseware.safework.gates import gates, precedences
from courseware.safework.judge import judge_all
from courseware.safework.model import SafeWork
from courseware.safework.work import work_on
from tests.safework.conftest import UNITS
from tests.safework.making import chain_of, free

SIPHON = UNITS["siphon-intermittent-no-air-switch"]
METERED = UNITS["metered-interrupted-with-air-switch"]


def critical(trade: Trade, safework: SafeWork, unit_id: str, procedure_id: str) -> set[tuple[str, str]]:
    found = precedences(safework, trade, UNITS[unit_id], safework.procedures[procedure_id])
    return {(one.before, one.after) for one in found if one.critical}


def test_gates_of_the_lockout(trade: Trade, safework: SafeWork) -> None:
    found = critical(trade, safework, METERED.id, "lockout")
    # 29 CFR 1910.147(d): what is shut off, locked, relieved and proved comes before the work, each for its own reason
    assert {one for one, other in found if other == "work"} >= {
        "valve-shut", "air-zero", "off", "lock", "drain-air", "cool", "relieve-oil", "try", "meter", "dead", "proved",
    }  # fmt: skip
    # (e): whole and clear before the lock comes off, people told before the start
    assert {("clear", "unlock"), ("warn", "power-on"), ("close", "power-on"), ("full-start", "hand-back")} <= found
    # a matter of good order, not of harm
    assert not {("read", "tell"), ("work", "close"), ("record", "hand-back"), ("tell", "lock")} & found


def test_gates_of_the_ignition_test_depend_on_the_unit(trade: Trade, safework: SafeWork) -> None:
    siphon = critical(trade, safework, SIPHON.id, "ignition-test")
    metered = critical(trade, safework, METERED.id, "ignition-test")
    both = {("no-oil", "look-in-trial"), ("no-oil", "look-held")}
    assert siphon & both == {("no-oil", "look-held")}
    assert metered & both == {("no-oil", "look-in-trial")}
    assert {("air-zero", "air-off"), ("list-flame", "fit-flame"), ("no-oil", "flame-on")} <= siphon
    assert {("proved", "pump-off"), ("valve-open", "hand-back")} <= metered
    assert {("look-again", "test-reset"), ("close", "power-on"), ("look-last", "last-reset")} <= siphon & metered


@pytest.mark.parametrize("unit", [SIPHON, METERED], ids=lambda unit: unit.id)
def test_a_gate_turned_round_is_refused_by_the_judge_with_the_same_reason(
    trade: Trade, safework: SafeWork, unit: Unit
) -> None:
    for procedure in safework.procedures.values():
        work = work_on(safework, trade, unit, procedure)
        before = {name: {one for one, other in work.order.pairs() if other == name} for name in work.steps}
        found = gates(work)
        orders = [
            [*(name for name in work.steps if name in before[later] and name != earlier), later]
            for earlier, later in found
        ]
        for (_, later), rule, judged in zip(found, found.values(), judge_all(work, orders), strict=True):
            assert judged.breach is not None
            # leaving the earlier step out may stop the work before it comes to the later one
            assert (
                judged.breach.rule is rule if judged.breach.step_id == later else judged.breach.step_id in before[later]
            )


def test_a_chain_of_gates_is_a_gate(trade: Trade, safework: SafeWork) -> None:
    start = {"power": "off", "protection": "worn", "dead-test": "proved"}
    procedure = chain_of(("lock-out", "try-controls", "unplug-oil-solenoid"), start)
    found = {(one.before, one.after): one for one in precedences(safework, trade, SIPHON, procedure)}
    assert len(found) == 3
    assert found["lock-out", "unplug-oil-solenoid"].critical
    assert found["lock-out", "unplug-oil-solenoid"].reason == safework.rules["switched-off-not-locked"].reason
    assert found["try-controls", "unplug-oil-solenoid"].reason == safework.rules["controls-not-tried"].reason
    assert (found["lock-out", "try-controls"].critical, found["lock-out", "try-controls"].reason) == (False, "")


def test_what_was_so_before_is_not_the_later_steps_fault(trade: Trade, safework: SafeWork) -> None:
    procedure = chain_of(
        ("close-cover", "warn-people", "close-disconnect", "write-record"), {"power": "off", "cover": "open"}
    )
    rules = gates(work_on(safework, trade, SIPHON, procedure))
    assert {pair: rule.id for pair, rule in rules.items()} == {
        ("close-cover", "close-disconnect"): "live-parts-bare",
        ("warn-people", "close-disconnect"): "not-warned",
    }


def test_without_rules_nothing_is_a_gate(trade: Trade, safework: SafeWork) -> None:
    lawless = replace(safework, rules={})
    found = precedences(lawless, trade, SIPHON, safework.procedures["lockout"])
    assert found
    assert not any(one.critical or one.reason for one in found)


def test_free_steps_have_no_precedence(trade: Trade, safework: SafeWork) -> None:
    assert precedences(safework, trade, SIPHON, free({"read-up": [], "tell-people": []})) == ()
