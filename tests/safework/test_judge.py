"""One order at a time: what is wrong first, what is missing, what is left behind."""

import pytest

from courseware.heater.load import Trade
from courseware.safework.judge import judge, judge_all
from courseware.safework.model import SafeWork
from courseware.safework.work import steps_on, work_at
from tests.safework.conftest import UNITS, Sites, make_fault
from tests.safework.making import chain_of

SIPHON = UNITS["siphon-intermittent-no-air-switch"]
METERED = UNITS["metered-intermittent-no-air-switch"]
LEAKING = ((make_fault("oil_solenoid", "leak", 0.3), 1.0),)
WELDED = ((make_fault("disconnect", "bridged", 1.0), 1.0),)


@pytest.mark.parametrize("unit_id", UNITS)
@pytest.mark.parametrize("procedure_id", ["ignition-test", "lockout", "spark-isolation", "flame-sensor-test"])
def test_the_authors_order_is_allowed_on_every_unit(
    sites: Sites, safework: SafeWork, unit_id: str, procedure_id: str
) -> None:
    work = work_at(safework, sites.at(unit_id), UNITS[unit_id], safework.procedures[procedure_id])
    judged = judge_all(work, [list(work.steps)])[0]
    assert (judged.allowed, judged.breach, judged.missing, judged.kendall) == (True, None, (), 1.0)
    assert judged.state["handed-back"] == "yes"
    assert judged.state["oil-can-flow"] == "yes"


def test_a_rule_is_told_where_it_is_first_broken(trade: Trade, safework: SafeWork) -> None:
    procedure = safework.procedures["ignition-test"]
    names = [step.id for step in steps_on(procedure, SIPHON)]
    names.remove("proved")
    names.insert(names.index("air-off") + 1, "proved")
    judged = judge(safework, trade, SIPHON, procedure, names)
    assert judged.breach is not None
    assert judged.breach.rule is safework.rules["not-proved-dead"]
    assert (judged.breach.step_id, judged.breach.position) == ("air-off", names.index("air-off") + 1)
    assert judged.state["air-line"] == "off"  # it has been done
    assert not judged.allowed
    assert 0.99 < judged.kendall < 1.0


def test_a_step_that_cannot_be_done_stops_the_work(trade: Trade, safework: SafeWork) -> None:
    procedure = chain_of(("protect-yourself", "lock-out"), {"power": "on"})
    judged = judge(safework, trade, SIPHON, procedure, ("protect-yourself", "lock-out"))
    assert judged.breach is not None
    assert (judged.breach.rule, judged.breach.step_id, judged.breach.position) == (None, "lock-out", 2)
    assert judged.breach.reason == (
        "'Put your own lock and tag on the disconnect, and keep the key' cannot be done here, or does not come out "
        "as it must. Disconnect: wanted off, found on."
    )
    assert judged.state["power"] == "on"


def test_missing_steps_are_named_and_keep_the_order_from_being_allowed(trade: Trade, safework: SafeWork) -> None:
    procedure = chain_of(("read-up", "tell-people", "protect-yourself"))
    judged = judge(safework, trade, SIPHON, procedure, ("read-up", "protect-yourself"))
    assert (judged.allowed, judged.breach, judged.missing) == (False, None, ("tell-people",))
    assert judged.kendall == pytest.approx(1 / 3)


def test_a_harmless_order_that_is_not_the_procedures(trade: Trade, safework: SafeWork) -> None:
    procedure = chain_of(("read-up", "tell-people"))
    judged = judge(safework, trade, SIPHON, procedure, ("tell-people", "read-up"))
    assert judged.breach is not None
    assert (judged.breach.rule, judged.breach.step_id, judged.breach.position) == (None, "tell-people", 1)
    assert judged.breach.reason == (
        "'Tell the people there that the heater goes off, why, and for how long' comes before "
        "'Read the manual and the last service record, and name every energy source', which must come first."
    )
    assert judged.kendall == -1.0


def test_what_is_no_step_or_done_twice(trade: Trade, safework: SafeWork) -> None:
    procedure = chain_of(("read-up", "tell-people"))
    unknown = judge(safework, trade, SIPHON, procedure, ("read-up", "dance")).breach
    twice = judge(safework, trade, SIPHON, procedure, ("read-up", "read-up")).breach
    assert unknown is not None
    assert (unknown.step_id, unknown.position) == ("dance", 2)
    assert unknown.reason == "'dance' is not a step of this procedure on this unit."
    assert twice is not None
    assert (twice.step_id, twice.position, twice.reason) == ("read-up", 2, "'read-up' is done twice.")


def test_a_job_left_undone(trade: Trade, safework: SafeWork) -> None:
    procedure = chain_of(("shut-oil-valve",), done={"oil-can-flow": ("yes",)})
    judged = judge(safework, trade, SIPHON, procedure, ("shut-oil-valve",))
    assert judged.breach is not None
    assert judged.breach.reason == "The job 'Made' is left undone. Oil can reach the chamber: wanted yes, found no."


def test_nothing_done_is_nothing_allowed(trade: Trade, safework: SafeWork) -> None:
    judged = judge(safework, trade, SIPHON, chain_of(("read-up",)), ())
    assert (judged.allowed, judged.breach, judged.missing, judged.kendall) == (False, None, ("read-up",), 0.0)


def test_a_leaking_solenoid_makes_the_same_sequence_unsafe(trade: Trade, safework: SafeWork) -> None:
    # Only the solenoid is unplugged; the pump still runs, so a leaking seat lets oil through. No code knows of leaks.
    names = (
        "unplug-oil-solenoid", "take-lock-off", "warn-people", "close-disconnect", "call-for-heat",
        "switch-flame-lead-on", "switch-flame-lead-off",
    )  # fmt: skip
    found = {
        "power": "locked", "controls-tried": "yes", "dead-test": "proved", "burner": "standby", "people-clear": "yes",
        "flame-lead": "fitted", "flame-lead-on-list": "yes", "oil-proof": "yes",
    }  # fmt: skip
    sound = judge(safework, trade, METERED, chain_of(names, found), names)
    leaking = judge(safework, trade, METERED, chain_of(names, found), names, LEAKING)
    assert sound.allowed
    assert leaking.breach is not None
    assert leaking.breach.rule is safework.rules["oil-with-simulated-flame"]
    assert leaking.breach.step_id == "switch-flame-lead-on"
    assert leaking.state["oil-can-flow"] == "yes"


def test_trying_the_controls_finds_a_disconnect_that_does_not_open(trade: Trade, safework: SafeWork) -> None:
    procedure = safework.procedures["lockout"]
    names = [step.id for step in steps_on(procedure, SIPHON)]
    judged = judge(safework, trade, SIPHON, procedure, names, WELDED)
    assert judged.breach is not None
    assert (judged.breach.rule, judged.breach.step_id) == (None, "try")
    assert judged.breach.reason == (
        "'Call for heat; nothing may move and no light may come on; turn the thermostat down again' "
        "cannot be done here, or does not come out as it must. "
        "A call for heat brings a trial for ignition: wanted no, found yes."
    )
