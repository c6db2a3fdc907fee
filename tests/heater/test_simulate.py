"""Units run: the sequence, the two ways of delivery, and what faults make of them."""

import itertools
from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courseware.heater.faults import Change, FaultMode
from courseware.heater.load import Trade
from courseware.heater.simulate import Case, Run, faulty_values, simulate, simulate_each, timeline
from courseware.heater.unit import Unit
from tests.heater.bench import part


def put(name: str, setting: str, value: float) -> Change:
    return Change(name, setting, None, value)


AIR_OFF = (put("air_regulator", "setpoint", 0.0), put("air_line", "connected", 0.0))
OIL_OFF = (put("oil_valve", "open", 0.0), put("pump", "enabled", 0.0))
FLAME_SIMULATED = (put("sensor", "simulated", 1.0),)
SWITCH_BRIDGED = (put("air_switch", "bridged", 1.0),)


def run(unit: Unit, *changes: Change, case: Case = (), duration: float = 60.0) -> Run:
    return simulate(unit, [case], changes, duration=duration)


def states(found: Run) -> list[str]:
    return [state for _, state in timeline(found)]


def ever(found: Run, signal: str) -> float:
    return float(found.signals[signal].max())


def at_end(found: Run, signal: str) -> float:
    return float(found.signals[signal][-1, 0])


# The sequence of each unit


def test_sequence_of_the_siphon_unit(siphon: Unit) -> None:
    """Common practice, no source: no prepurge, the trial begins with the motor, flame within seconds."""
    found = timeline(run(siphon))
    assert [state for _, state in found] == ["standby", "proving", "trial", "run"]
    assert found[1][0] == part(siphon, "thermostat").settings["calls_at"]
    assert found[3][0] - found[2][0] < 3.0


def test_sequence_of_the_metered_unit(metered: Unit) -> None:
    found = timeline(run(metered))
    assert [state for _, state in found] == ["standby", "proving", "prepurge", "trial", "run"]
    assert found[3][0] - found[2][0] == part(metered, "control").settings["prepurge"] == 10.0


def test_no_flame_is_lockout_at_the_end_of_the_trial(unit: Unit) -> None:
    found = {state: time for time, state in timeline(run(unit, put("transformer", "output", 0.0)))}
    assert list(found)[-2:] == ["trial", "lockout"]
    assert found["lockout"] - found["trial"] == part(unit, "control").settings["trial"]
    assert found["lockout"] - found["trial"] in (15.0, 30.0, 45.0)  # trials in use, common practice


def test_oil_of_a_whole_trial_lies_in_the_chamber_after_lockout(unit: Unit) -> None:
    """15 s of 1.7 gph is 27 mL, 45 s of 1.0 gph is 47 mL: rate times time, by hand."""
    found = run(unit, put("transformer", "output", 0.0))
    trial = part(unit, "control").settings["trial"]
    rate = part(unit, "burner").settings["oil_flow"]
    assert at_end(found, "burner.unburned") == pytest.approx(rate * trial, rel=0.01)


def test_spark_in_run_is_intermittent_on_one_unit_and_interrupted_on_the_other(siphon: Unit, metered: Unit) -> None:
    assert siphon.features["ignition"] == "intermittent"
    assert metered.features["ignition"] == "interrupted"
    assert at_end(run(siphon), "electrode.spark") > 1.0
    assert at_end(run(metered), "electrode.spark") == 0.0
    assert ever(run(metered), "electrode.spark") > 1.0


def test_flame_lost_in_run_is_one_recycle_then_lockout(unit: Unit) -> None:
    """A tank that runs dry in run: one recycle, no flame in that trial, lockout."""
    rate = part(unit, "burner").settings["oil_flow"]
    found = run(unit, put("tank", "content", 15.0 * rate), duration=120.0)
    assert states(found)[-2:] == ["trial", "lockout"]
    assert states(found).count("recycle") == 1
    assert states(found).count("run") == 1
    assert ever(found, "burner.flame") == 1.0
    assert at_end(found, "control.light") == 1.0


def test_stray_light_before_the_trial_is_a_refused_start(unit: Unit) -> None:
    for light in (put("sensor", "stray", 1.0), put("sensor", "short", 1.0), put("sensor", "bridged", 1.0)):
        found = run(unit, light)
        assert states(found) == ["standby", "refused"]
        assert ever(found, "nozzle.oil") == ever(found, "transformer.primary") == 0.0


def test_sensor_that_sees_nothing_lets_it_light_and_then_locks_it_out(unit: Unit) -> None:
    found = run(unit, put("sensor", "open", 1.0))
    assert states(found)[-1] == "lockout"
    assert ever(found, "burner.flame") == 1.0


# Making the fuel safe: what stops the oil on which unit


def test_siphon_unit_brings_no_oil_without_air(siphon: Unit) -> None:
    found = run(siphon, *AIR_OFF)
    assert ever(found, "nozzle.oil") == 0.0
    assert ever(found, "electrode.spark") > 1.0  # and there is a spark to look at
    assert ever(run(siphon), "nozzle.oil") > 0.0


def test_metered_unit_stops_before_the_spark_without_air(metered: Unit) -> None:
    found = run(metered, *AIR_OFF)
    assert states(found) == ["standby", "proving"]
    assert ever(found, "electrode.spark") == ever(found, "nozzle.oil") == 0.0


def test_metered_unit_dribbles_oil_without_air_when_its_air_switch_is_bridged(metered: Unit) -> None:
    found = run(metered, *AIR_OFF, *SWITCH_BRIDGED)
    assert ever(found, "electrode.spark") > 1.0
    assert ever(found, "nozzle.oil") > 0.0
    assert ever(found, "nozzle.spray") == 0.0


def test_metered_unit_sparks_without_oil_when_its_oil_is_shut_off(metered: Unit) -> None:
    for off in (OIL_OFF[:1], OIL_OFF[1:], OIL_OFF):
        found = run(metered, *off)
        assert ever(found, "nozzle.oil") == 0.0
        assert ever(found, "electrode.spark") > 1.0


def test_leaking_solenoid_lets_oil_through_before_the_trial_on_the_metered_unit_alone(
    siphon: Unit, metered: Unit
) -> None:
    leak = put("oil_solenoid", "leak", 0.5)
    purge = run(metered, leak).signals["nozzle.oil"][:, 0]
    before_trial = {state: time for time, state in timeline(run(metered, leak))}["trial"]
    assert purge[int(before_trial / 0.5) - 2] > 0.0
    np.testing.assert_array_equal(run(siphon, leak).signals["nozzle.oil"], run(siphon).signals["nozzle.oil"])


def test_simulated_flame_keeps_the_spark_on_one_unit_and_ends_it_on_the_other(siphon: Unit, metered: Unit) -> None:
    looking = run(siphon, *AIR_OFF, *FLAME_SIMULATED)
    assert states(looking)[-1] == "run"
    assert at_end(looking, "electrode.spark") > 1.0
    gone = run(metered, *OIL_OFF, *FLAME_SIMULATED)
    assert states(gone)[-1] == "run"
    assert at_end(gone, "electrode.spark") == 0.0


def test_with_a_simulated_flame_nothing_stops_the_oil(unit: Unit) -> None:
    found = run(unit, *FLAME_SIMULATED, put("transformer", "output", 0.0), duration=120.0)
    assert states(found)[-1] == "run"
    assert at_end(found, "nozzle.oil") > 0.0
    assert at_end(found, "burner.flame") == 0.0
    trial = part(unit, "control").settings["trial"] * part(unit, "burner").settings["oil_flow"]
    assert at_end(found, "burner.unburned") > 2 * trial


# Faults


def test_line_at_100_volts_locks_out_as_in_the_story(unit: Unit) -> None:
    """Trade magazine: night-time lockout at about 100 V. 10,000 V x 100 / 120 = 8,333 V; the spark needs 9,000 V."""
    found = run(unit, put("supply", "volts", 100.0))
    assert ever(found, "transformer.secondary") == pytest.approx(8333, abs=0.5)
    assert states(found)[-1] == "lockout"
    assert states(run(unit, put("supply", "volts", 109.0)))[-1] == "run"
    assert states(run(unit, put("supply", "volts", 107.5)))[-1] == "lockout"  # the threshold is 108 V


def mode(trade: Trade, part_name: str, setting: str) -> FaultMode:
    return next(
        fault
        for fault in trade.faults.values()
        if [(one.part, one.setting) for one in fault.changes] == [(part_name, setting)]
    )


def test_severity_is_linear_from_the_units_own_value(trade: Trade, unit: Unit) -> None:
    fault = mode(trade, "electrode", "gap")
    rated, worst = part(unit, "electrode").settings["gap"], fault.changes[0].at_worst
    for severity in (0.0, 0.25, 1.0):
        found = faulty_values(unit, ((fault, severity),))
        assert found["electrode", "gap"] == pytest.approx(rated + severity * (worst - rated))


def test_of_two_faults_on_one_setting_the_worse_counts_in_either_order(trade: Trade, unit: Unit) -> None:
    both = [fault for fault in trade.faults.values() if {one.setting for one in fault.changes} == {"output"}]
    assert len(both) == 2
    one, two = both
    for severity in (0.25, 1.0):
        cases: list[Case] = [((one, 1.0), (two, severity)), ((two, severity), (one, 1.0))]
        values = [faulty_values(unit, case)["transformer", "output"] for case in cases]
        assert values == [0.0, 0.0]


def test_arrangement_stands_over_the_fault(trade: Trade, unit: Unit) -> None:
    fault = mode(trade, "supply", "volts")
    found = run(unit, put("supply", "volts", 120.0), case=((fault, 1.0),))
    assert states(found)[-1] == "run"


def test_change_that_a_unit_has_no_part_for_changes_nothing(siphon: Unit) -> None:
    assert states(run(siphon, put("air_switch", "bridged", 1.0))) == states(run(siphon))
    only_metered = Change("supply", "volts", None, 0.0, {"delivery": "metered"})
    assert states(run(siphon, only_metered)) == states(run(siphon))


# Many at once


def cases_of(trade: Trade, unit: Unit) -> list[Case]:
    singles = [
        (fault, severity) for fault in trade.faults.values() if fault.applies_to(unit) for severity in fault.severities
    ]
    pairs = [(one, two) for one, two in itertools.combinations(singles, 2) if one[0] is not two[0]]
    return [(), *((one,) for one in singles), *pairs]


def test_many_cases_give_what_each_gives_alone(trade: Trade, unit: Unit) -> None:
    cases = cases_of(trade, unit)
    assert len(cases) > 400
    together = simulate(unit, cases)
    for index in range(0, len(cases), 101):
        alone = simulate(unit, [cases[index]])
        for name, values in alone.signals.items():
            np.testing.assert_allclose(together.signals[name][:, index], values[:, 0], rtol=1e-12, atol=0, err_msg=name)
        for name, moment in alone.moments.items():
            assert together.moments[name][index] == moment[0]
        assert timeline(together, index) == timeline(alone)


def test_each_case_may_have_its_own_arrangement(unit: Unit) -> None:
    arrangements: Sequence[Sequence[Change]] = [(), AIR_OFF, OIL_OFF]
    together = simulate_each(unit, [(), (), ()], arrangements)
    for index, changes in enumerate(arrangements):
        assert timeline(together, index) == timeline(run(unit, *changes))


def test_finer_steps_tell_the_same_story(unit: Unit) -> None:
    """Half a second is fine enough: with a fifth of it, the same states within a second."""
    coarse, fine = timeline(simulate(unit, [()])), timeline(simulate(unit, [()], dt=0.1))
    assert [state for _, state in coarse] == [state for _, state in fine]
    assert all(abs(one - two) <= 1.1 for (one, _), (two, _) in zip(coarse, fine, strict=True))


def test_record_is_as_long_as_asked(unit: Unit) -> None:
    found = simulate(unit, [()], duration=20.0)
    assert found.times[-1] == 20.0
    assert found.times.size == 41


# Laws, on any unit with anything wrong with it


# Eight cases of up to four settings, each put anywhere in its range: (which setting, how far along the range).
WRONG = st.lists(st.lists(st.tuples(st.integers(0, 999), st.floats(0.0, 1.0)), max_size=4), min_size=8, max_size=8)


def arrangements_of(unit: Unit, wrong: list[list[tuple[int, float]]]) -> list[list[Change]]:
    known = [(part.id, setting) for part in unit.parts for setting in part.behaviour.settings]

    def change(index: int, share: float) -> Change:
        name, setting = known[index % len(known)]
        return put(name, setting.name, setting.low + share * (setting.high - setting.low))

    return [[change(*one) for one in case] for case in wrong]


@settings(max_examples=10, deadline=None)
@given(wrong=WRONG)
def test_what_flows_and_what_burns_stays_within_physics(unit: Unit, wrong: list[list[tuple[int, float]]]) -> None:
    arrangements = arrangements_of(unit, wrong)
    found = simulate_each(unit, [()] * len(arrangements), arrangements, duration=40.0).signals
    for name in ("nozzle.oil", "nozzle.air", "burner.unburned", "transformer.secondary", "burner.oxygen"):
        assert found[name].min() >= 0.0
    assert found["burner.oxygen"].max() <= 0.20946
    assert np.all((found["electrode.spark"] == 0.0) | (found["transformer.primary"] > 0.0))
    for case in range(len(arrangements)):
        # no flame before there was spark, oil and air
        lit = np.flatnonzero(found["burner.flame"][:, case])
        for cause in ("electrode.spark", "nozzle.oil", "blower.air"):
            assert lit.size == 0 or found[cause][: lit[0] + 1, case].max() > 0.0
        # what lies in the chamber never exceeds what came
        assert found["burner.unburned"][-1, case] <= found["nozzle.oil"][:, case].sum() * 0.5 + 1e-12


NEXT = {
    "standby": {"proving", "refused"},
    "refused": {"proving", "standby"},
    "proving": {"prepurge", "trial", "refused", "standby"},
    "prepurge": {"trial", "proving", "refused", "standby"},
    "trial": {"run", "lockout", "proving", "standby"},
    "run": {"recycle", "lockout", "proving", "standby"},
    "recycle": {"proving", "standby"},
    "lockout": set[str](),
}


@settings(max_examples=10, deadline=None)
@given(wrong=WRONG)
def test_the_control_never_leaves_its_order(unit: Unit, wrong: list[list[tuple[int, float]]]) -> None:
    """Whatever is wrong: fuel and spark in trial and run alone, and lockout is for good."""
    arrangements = arrangements_of(unit, wrong)
    found = simulate_each(unit, [()] * len(arrangements), arrangements, duration=40.0)
    for case in range(len(arrangements)):
        order = [state for _, state in timeline(found, case)]
        assert all(after in NEXT[before] for before, after in itertools.pairwise(order))
    codes = found.signals["control.state"]
    firing = np.isin(codes, [found.states.index("trial"), found.states.index("run")])
    for output in ("control.valve", "control.ignition"):
        assert np.all(firing | (found.signals[output] == 0.0))
