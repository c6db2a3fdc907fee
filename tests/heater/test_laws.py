"""Laws of fire, vent and suction, on the shipped units with their loops closed."""

import itertools
from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courseware.heater.faults import Change
from courseware.heater.load import Trade
from courseware.heater.parts.base import Array
from courseware.heater.simulate import Case, Run, simulate, simulate_each, timeline
from courseware.heater.unit import Unit
from tests.heater.bench import part

AIR_OXYGEN = 0.20946
INWC = 249.089  # Pa


def put(name: str, setting: str, value: float) -> Change:
    return Change(name, setting, None, value)


def sweep(unit: Unit, name: str, setting: str, values: Sequence[float], *others: Change) -> Run:
    """Run the unit once for each value of one setting."""
    return simulate_each(unit, [()] * len(values), [[put(name, setting, value), *others] for value in values])


def warm(run: Run, signal: str) -> Array:
    """Return a signal of every case in its settled run; all must have one."""
    index = run.moments["run"]
    assert index.min() >= 0
    return np.asarray(run.signals[signal][index, np.arange(index.size)])


def rises(values: Array) -> bool:
    return bool(np.all(np.diff(values) > 0))


def never_falls(values: Array, slack: float = 1e-12) -> bool:
    return bool(np.all(np.diff(values) >= -slack) and values[-1] > values[0])


# Fire


@pytest.mark.parametrize(("name", "setting"), [("blower", "band"), ("blower", "dirt")])
def test_less_air_makes_more_monoxide_and_more_smoke(unit: Unit, name: str, setting: str) -> None:
    less = np.linspace(0.0, 0.35, 8)
    run = sweep(unit, name, setting, list(1.0 - less if setting == "band" else less))
    # Air-free is counted to 20.9 %, and air has 20.946 %: the same fire reads a twentieth of a ppm less with less air.
    assert never_falls(warm(run, "exchanger.monoxide_air_free"), slack=1e-7)
    assert never_falls(warm(run, "burner.smoke"))
    assert rises(-warm(run, "flue.air"))


@pytest.mark.parametrize(("name", "setting", "worse"), [
    ("nozzle", "plugged", (0.0, 0.1, 0.2, 0.3)), ("nozzle", "worn", (0.0, 0.3, 0.6, 1.0)),
    ("preheater", "setpoint", (344.0, 325.0, 310.0, 300.0)), ("air_regulator", "setpoint", (68e3, 58e3, 48e3, 42e3)),
])  # fmt: skip
def test_a_poorer_spray_makes_more_monoxide_and_more_smoke(
    unit: Unit, name: str, setting: str, worse: tuple[float, ...]
) -> None:
    run = sweep(unit, name, setting, worse)
    assert rises(-warm(run, "nozzle.spray"))
    assert rises(warm(run, "exchanger.monoxide_air_free"))
    assert rises(warm(run, "burner.smoke"))


def test_a_poor_spray_does_it_with_oxygen_to_spare(metered: Unit) -> None:
    run = sweep(metered, "preheater", "element", (1.0, 0.0))
    assert warm(run, "burner.smoke")[1] > 3.0
    assert warm(run, "exchanger.oxygen")[1] > 0.05


def fuel_line() -> tuple[float, float]:
    """Return carbon and dry gas per theoretical air, in moles, of a used-oil surrogate (composition from memory)."""
    carbon, hydrogen, oxygen, sulfur = 0.855 / 12.011, 0.128 / 1.008, 0.01 / 31.998, 0.005 / 32.06
    air = (carbon + hydrogen / 4 + sulfur - oxygen) / AIR_OXYGEN
    return carbon / air, (carbon + air * (1 - AIR_OXYGEN)) / air


def test_all_three_gases_lie_on_the_fuels_line(trade: Trade, unit: Unit) -> None:
    """From CO2 and CO alone: carbon tells how much gas there is, so how much air, so how much oxygen must be left."""
    carbon, gas = fuel_line()
    singles: list[Case] = [
        ((fault, grade),) for fault in trade.faults.values() if fault.applies_to(unit) for grade in fault.severities
    ]
    run = simulate(unit, [(), *singles])
    lit = run.moments["run"] >= 0
    index = np.maximum(run.moments["run"], 0)
    oxygen, dioxide, monoxide = (
        run.signals[f"exchanger.{name}"][index, np.arange(index.size)][lit]
        for name in ("oxygen", "carbon_dioxide", "carbon_monoxide")
    )
    assert lit.sum() > 30
    whole = carbon / (dioxide + monoxide)
    excess = whole - gas - monoxide * whole / 2
    expected = AIR_OXYGEN * excess / whole + monoxide / 2
    np.testing.assert_allclose(oxygen, np.maximum(expected, 0.0), atol=6e-4)


def test_oxygen_is_what_the_flows_of_oil_and_air_leave(unit: Unit) -> None:
    """Air of 1.2 and oil of 880 kg/m3, and the oil's air by its own composition."""
    run = sweep(unit, "blower", "band", (0.9, 1.0, 1.2, 1.5))
    per_kilogram = (0.855 / 12.011 + 0.128 / 1.008 / 4 + 0.005 / 32.06 - 0.01 / 31.998) / AIR_OXYGEN * 28.9647
    ratio = warm(run, "flue.air") * 1.2 / (warm(run, "nozzle.oil") * 880.0 * per_kilogram)
    _, gas = fuel_line()
    expected = AIR_OXYGEN * (ratio - 1) / (ratio - 1 + gas)
    np.testing.assert_allclose(warm(run, "exchanger.oxygen"), expected, atol=1.5e-3)


# Heat


def test_soot_makes_a_hotter_stack_and_a_weaker_draft_over_the_fire(unit: Unit) -> None:
    run = sweep(unit, "exchanger", "soot", (0.0, 0.25, 0.5, 0.75, 1.0))
    assert rises(warm(run, "exchanger.net"))
    assert rises(-warm(run, "exchanger.rise"))
    assert rises(warm(run, "flue.over_fire"))


def test_limit_opens_when_the_room_air_fails_and_stops_the_burner(unit: Unit) -> None:
    """Between 200 and 250 F (common practice); the control loses its line, the fan does not come on again by it."""
    for wrong in (put("exchanger", "fan_works", 0.0), put("exchanger", "airflow", 0.2)):
        run = simulate(unit, [()], [wrong])
        opened = int(np.argmin(run.signals["limit.made"][:, 0]))
        assert run.signals["limit.made"][opened, 0] == 0.0
        assert 366.5 <= run.signals["exchanger.shell"][opened - 1, 0] <= 394.3
        assert run.signals["burner.flame"][-1, 0] == run.signals["control.line"][-1, 0] == 0.0
        assert [state for _, state in timeline(run)][-2:] == ["run", "standby"]


def test_with_the_limit_bridged_the_exchanger_goes_on_getting_hotter(unit: Unit) -> None:
    changes = [put("exchanger", "fan_works", 0.0), put("limit", "bridged", 1.0)]
    run = simulate(unit, [()], changes, duration=240.0)
    assert run.signals["burner.flame"][-1, 0] == 1.0
    assert run.signals["exchanger.shell"][-1, 0] > 394.3 + 50.0


def test_a_healthy_unit_never_opens_its_limit(unit: Unit) -> None:
    run = simulate(unit, [()], duration=600.0)
    assert run.signals["limit.made"].min() == 1.0
    assert run.signals["exchanger.fan"][-1, 0] == 1.0


# Vent


def test_draft_rises_with_height_and_with_cold_outdoors(unit: Unit) -> None:
    shut = put("flue", "stuck_shut", 1.0)
    assert rises(-warm(sweep(unit, "flue", "height", (3.0, 5.0, 7.0, 10.0), shut), "flue.breech"))
    assert rises(-warm(sweep(unit, "flue", "outdoor", (305.0, 290.0, 275.0, 250.0), shut), "flue.breech"))


def test_blockage_takes_draft_and_air_and_brings_fumes(unit: Unit) -> None:
    run = sweep(unit, "flue", "blockage", (0.55, 0.6, 0.65, 0.7, 0.75))
    assert rises(warm(run, "flue.over_fire"))
    assert rises(-warm(run, "flue.air"))
    assert never_falls(warm(run, "flue.spill"))
    assert never_falls(warm(run, "exchanger.room_monoxide"))


def test_room_monoxide_is_the_spilled_gas_over_the_fresh_air(unit: Unit) -> None:
    """What comes in each second must leave with the room's fresh air: ppm of the gas times spill over ventilation."""
    run = sweep(unit, "flue", "blockage", (0.7, 0.75))
    fresh = part(unit, "exchanger").settings["ventilation"]
    expected = warm(run, "burner.carbon_monoxide") * warm(run, "flue.spill") / fresh
    np.testing.assert_allclose(warm(run, "exchanger.room_monoxide"), expected, rtol=1e-3)


def test_the_loop_of_draft_and_temperature_settles(unit: Unit) -> None:
    """Ten seconds into the run the draft stands within a hundredth of an inch of water of where it ends."""
    for changes in (
        [],
        [put("flue", "stuck_shut", 1.0)],
        [put("flue", "stuck_open", 1.0)],
        [put("flue", "height", 9.0)],
    ):
        run = simulate(unit, [()], changes)
        for signal in ("flue.breech", "flue.over_fire"):
            assert abs(warm(run, signal)[0] - run.signals[signal][-1, 0]) < 0.002 * INWC


# Suction


def vacuum_of(unit: Unit) -> str:
    return next(name for name in ("pump.vacuum", "nozzle.vacuum") if unit.has_output(name))


def test_a_plugged_strainer_raises_vacuum_long_before_the_flow_falls(unit: Unit) -> None:
    plugged = np.linspace(0.0, 0.72, 13)
    run = sweep(unit, "strainer", "plugged", list(plugged))
    vacuum, oil = warm(run, vacuum_of(unit)), warm(run, "nozzle.oil")
    assert rises(vacuum)
    assert np.all(oil == oil[0])
    assert vacuum[-1] > 2 * vacuum[0]
    assert float(warm(sweep(unit, "strainer", "plugged", (0.8,)), "nozzle.oil")[0]) < oil[0]


def test_a_suction_leak_takes_vacuum_and_brings_bubbles_and_a_lean_fire(unit: Unit) -> None:
    run = sweep(unit, "suction_line", "leak", (0.0, 0.1, 0.2, 0.3))
    assert rises(-warm(run, vacuum_of(unit)))
    assert rises(warm(run, "suction_line.bubbles"))
    assert rises(warm(run, "exchanger.oxygen"))


# Whatever is wrong, no reading is impossible

BOUNDS = {
    "burner.smoke": (0.0, 9.0),
    "exchanger.oxygen": (0.0, 0.20946),
    "exchanger.carbon_dioxide": (0.0, 0.1551),
    "exchanger.carbon_monoxide": (0.0, 0.29),  # half the air, all carbon to monoxide; an analyzer shows OL long before
    "exchanger.monoxide_air_free": (0.0, 0.6),
    "exchanger.net": (0.0, 2200.0),
    "exchanger.rise": (0.0, 300.0),
    "exchanger.room_monoxide": (0.0, 0.05),
    "exchanger.shell": (233.0, 2600.0),
    "flue.spill": (0.0, 1.5),
    "flue.air": (0.0, 5.0),
    "nozzle.spray": (0.0, 1.0),
    "preheater.temperature": (263.0, 411.0),
}

WRONG = st.lists(st.lists(st.tuples(st.integers(0, 999), st.floats(0.0, 1.0)), max_size=4), min_size=8, max_size=8)


@settings(max_examples=8, deadline=None)
@given(wrong=WRONG)
def test_no_reading_leaves_the_possible(unit: Unit, wrong: list[list[tuple[int, float]]]) -> None:
    known = [(one.id, setting) for one in unit.parts for setting in one.behaviour.settings]

    def change(index: int, share: float) -> Change:
        name, setting = known[index % len(known)]
        return put(name, setting.name, setting.low + share * (setting.high - setting.low))

    run = simulate_each(unit, [()] * len(wrong), [[change(*one) for one in case] for case in wrong], duration=60.0)
    for name, (low, high) in BOUNDS.items():
        values = run.signals[name]
        assert np.all(np.isfinite(values)), name
        assert values.min() >= low - 1e-12, name
        assert values.max() <= high + 1e-9, name


def test_pairs_of_the_worst_faults_stay_within_the_possible(trade: Trade, unit: Unit) -> None:
    worst = [(fault, max(fault.severities)) for fault in trade.faults.values() if fault.applies_to(unit)]
    pairs: Sequence[Case] = list(itertools.combinations(worst, 2))[::5]
    run = simulate(unit, pairs)
    for name, (low, high) in BOUNDS.items():
        assert low - 1e-12 <= run.signals[name].min(), name
        assert run.signals[name].max() <= high + 1e-9, name
    lost = (run.signals["burner.flame"][1:] < run.signals["burner.flame"][:-1]) & (
        run.signals["control.state"][1:] == 5
    )
    assert lost.sum(axis=0).max() <= 3  # no flame that goes out and comes back at every step
