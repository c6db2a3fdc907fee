"""The isolation of a spark fault: safe in every allowed order, and what is said of the wrong ones."""

import pytest

from courseware.heater.load import Trade
from courseware.safework.gates import precedences
from courseware.safework.judge import judge_all
from courseware.safework.model import SafeWork
from courseware.safework.prove import prove_work
from courseware.safework.work import Work, steps_on, work_at
from tests.safework.conftest import UNITS, Sites
from tests.safework.making import chain_of
from tests.safework.second_engine import Slow

SIPHON = "siphon-intermittent-no-air-switch"
METERED = "metered-interrupted-with-air-switch"


def work(sites: Sites, safework: SafeWork, unit_id: str) -> Work:
    return work_at(safework, sites.at(unit_id), UNITS[unit_id], safework.procedures["spark-isolation"])


def moved(names: list[str], step: str, behind: str) -> list[str]:
    """Return the steps with one of them put right behind another."""
    rest = [name for name in names if name != step]
    return [*rest[: rest.index(behind) + 1], step, *rest[rest.index(behind) + 1 :]]


@pytest.mark.parametrize("unit_id", UNITS)
def test_every_allowed_order_is_safe_on_units_of_every_kind(sites: Sites, safework: SafeWork, unit_id: str) -> None:
    proof = prove_work(work(sites, safework, unit_id))
    assert proof.breach is None
    assert proof.orders > 1_000_000  # much is free: an electrode can be looked at before or after the fuel is made safe


@pytest.mark.parametrize("unit_id", [SIPHON, METERED])
def test_the_second_engine_finds_the_authors_order_fine(trade: Trade, safework: SafeWork, unit_id: str) -> None:
    procedure = safework.procedures["spark-isolation"]
    names = [step.id for step in steps_on(procedure, UNITS[unit_id])]
    assert Slow(safework, trade.job, UNITS[unit_id]).judge(procedure, names) == ("fine", "", 0)


# The whole words that a trainee is shown, by the rule that is broken.
REASON = {
    "hands-in-live-unit": (
        "The ignition transformer puts out about 10,000 V as soon as the control calls for spark, and it can call"
        " at any time. Common insulated tools are rated for 1,000 V. Lock the power off before you reach in."
    ),
    "switched-off-not-locked": (
        "Anyone who is cold can walk up and switch the heater on. Your own lock and tag on the disconnect, with "
        "the key in your pocket, is what keeps it off."
    ),
    "controls-not-tried": (
        "A lock on the wrong disconnect looks just like a lock on the right one. Call for heat and press start. "
        "If anything moves, the heater is not locked out."
    ),
    "not-proved-dead": (
        "A disconnect can fail with one pole closed, and a second circuit can feed the control. Only a test of "
        "every line, with the meter proved before and again after, shows that the line is dead and the meter "
        "works."
    ),
    "oil-past-drawn-electrode": (
        "With the electrode out there is no spark at the nozzle. The control does not know that, and sprays oil "
        "until its trial runs out. The oil lies on a floor that the next spark lights. Make the fuel safe before "
        "the tester gets its power."
    ),
    "no-oil-not-proved": (
        "A shut valve can pass, and an unplugged solenoid can leak. You know that no oil comes when you have "
        "stood beside one whole trial, and then found the nozzle and the floor of the chamber dry. What held last"
        " time may leak this time."
    ),
}
# What is done wrong: the unit; steps left out; the step moved, and behind which; the rule that is broken first.
WRONG = {
    "the tester goes on while the heater has power": (SIPHON, "", ("fit-tester", "power-on"), "hands-in-live-unit"),
    "the contact is looked at right after the trial": (METERED, "", ("contact", "trial-out"), "hands-in-live-unit"),
    "the tester comes off before the lock is on": (METERED, "", ("tester-off", "off-again"), "switched-off-not-locked"),
    "the cover is opened under a lock not tried": (METERED, "", ("open-again", "lock-again"), "controls-not-tried"),
    "the electrode is drawn on the word of an unproved meter": (SIPHON, "", ("draw", "dead"), "not-proved-dead"),
    "the oil is never shut off": (METERED, "valve-shut pump-off", ("gap", "draw"), "oil-past-drawn-electrode"),
    "the tester stays on its posts": (
        SIPHON,
        "tester-off mend electrode-in contact",
        ("gap", "draw"),
        "oil-past-drawn-electrode",
    ),
    "the tester is read before no oil is proved": (
        SIPHON,
        "",
        ("read-tester", "proof-start"),
        "no-oil-not-proved",
    ),
}


@pytest.mark.parametrize("what", WRONG)
def test_a_wrong_order_is_told_by_the_first_rule_it_breaks(sites: Sites, safework: SafeWork, what: str) -> None:
    unit_id, left_out, (step, behind), rule_id = WRONG[what]
    one = work(sites, safework, unit_id)
    names = [name for name in one.steps if name not in left_out.split()]
    judged = judge_all(one, [moved(names, step, behind)])[0]
    assert judged.breach is not None
    assert judged.breach.rule is safework.rules[rule_id]
    assert judged.breach.reason == REASON[rule_id]
    assert not judged.allowed


@pytest.mark.parametrize(
    "left", [{"electrode": "drawn"}, {"spark-tester": "fitted"}, {"sensor": "drawn"}, {"sensor-leads": "off"}]
)
def test_nothing_is_left_apart(sites: Sites, safework: SafeWork, left: dict[str, str]) -> None:
    start = {"power": "locked", "full-start": "watched", "room-co": "at-most-9-ppm", **left}
    one = work_at(safework, sites.at(SIPHON), UNITS[SIPHON], chain_of(("write-record", "hand-back"), start))
    breach = judge_all(one, [["write-record", "hand-back"]])[0].breach
    assert breach is not None
    assert breach.rule is safework.rules["not-as-found"]


def test_the_tester_cannot_be_read_with_the_electrode_in_its_circuit(sites: Sites, safework: SafeWork) -> None:
    one = work(sites, safework, SIPHON)
    order = [name for name in one.steps if name not in {"draw", "porcelain", "gap", "fit-tester"}]
    judged = judge_all(one, [order])[0]
    assert judged.breach is not None
    assert (judged.breach.rule, judged.breach.step_id) == (None, "read-tester")
    assert judged.breach.reason == (
        "'Read the tester during the trial, and touch nothing' cannot be done here, or does not come out as it must. "
        "Tester at the ignition posts: wanted fitted, found off."
    )


def test_the_parts_are_taken_in_the_order_of_the_trade(trade: Trade, safework: SafeWork) -> None:
    # Electrode, then transformer, then contact: common practice, no source.
    for unit_id in (SIPHON, METERED):
        found = precedences(safework, trade, UNITS[unit_id], safework.procedures["spark-isolation"])
        pairs = {(one.before, one.after) for one in found}
        gates = {(one.before, one.after) for one in found if one.critical}
        assert {("porcelain", "read-tester"), ("gap", "read-tester"), ("read-tester", "contact")} <= pairs
        assert {("proved", "fit-tester"), ("proved-again", "contact"), ("lock-again", "contact")} <= gates
        assert {("no-oil", "read-tester"), ("close", "power-on"), ("full-start", "hand-back")} <= gates
        assert not {("porcelain", "gap"), ("gap", "porcelain")} & pairs  # the two looks at a drawn electrode swap


def test_each_unit_has_its_own_way_to_make_the_fuel_safe(safework: SafeWork) -> None:
    steps = {
        name: {step.id for step in steps_on(safework.procedures["spark-isolation"], UNITS[name])} for name in UNITS
    }
    assert {"air-zero", "air-off", "air-bled"} <= steps[SIPHON]
    assert not {"valve-shut", "pump-off"} & steps[SIPHON]
    assert {"valve-shut", "pump-off"} <= steps[METERED]
    assert not {"air-zero", "air-off", "bridge-air-switch"} & steps[METERED]
    bridged = steps["siphon-intermittent-with-air-switch"]
    assert {"list-air-switch", "bridge-air-switch", "unbridge-air-switch", "cross-air-switch"} <= bridged
