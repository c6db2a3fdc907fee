"""Data alone: a fault, and a whole unit, that nobody wrote code for."""

import ast
from pathlib import Path

import pytest

from courseware.content.folders import shipped_course
from courseware.heater.load import Trade
from courseware.heater.readings import complaint_of, true_values
from courseware.heater.simulate import Case, simulate, timeline
from courseware.heater.unit import Unit
from tests.heater.bench import load

BANK = shipped_course() / "question_bank"
SHIPPED = {
    name: (BANK / f"{name}.yaml").read_text(encoding="utf-8") for name in ("job", "repairs", "checks", "complaints")
} | {path.stem: path.read_text(encoding="utf-8") for path in (BANK / "units").glob("*.yaml")}

OWN_FAULTS = """\
format: courseware/faults/1
faults:
  - id: wheel-packed-with-dirt
    title: Blower wheel packed with dirt
    repair: clean-sensor
    changes: [{part: blower, setting: band, at_worst: 0.5}]
    severities: [0.5, 1]
    odds: 0.05
    origin: common practice, no source
  - id: dark-glass
    title: Sight glass of the sensor gone dark
    repair: clean-sensor
    changes:
      - {part: sensor, setting: soot, at_worst: 0.9}
      - {part: sensor, setting: dark_ohms, at_none: 1000 kohm, at_worst: 2000 kohm}
    severities: [1]
    odds: 0.05
    origin: common practice, no source
"""

# A kerosene-era arrangement: two valves in the oil line, no limit, no disconnect, one speed of everything.
OWN_UNIT = """\
format: courseware/unit/1
id: two-valve
title: Two-valve siphon burner
summary: A second valve in the oil line opens with the motor.
origin: invented for this test
limits:
  line-volts-low: 108 V
  line-volts-high: 132 V
  spark-voltage-low: 9.0 kV
  gap-narrow: 0.12 in
  gap-wide: 0.18 in
  air-low: 8 psig
  air-high: 15 psig
  supply-air-low: 60 psig
  flame-ohms-high: 1.6 kohm
  dark-ohms-low: 100 kohm
  suction-high: 2 inHg
  oxygen-low: 4 %
  oxygen-high: 9 %
features: {cabinet: none}
parts:
  - {id: supply, kind: ac-supply}
  - {id: thermostat, kind: thermostat}
  - id: control
    kind: primary-control
    settings: {trial: 30 s, interrupted: 1}
    wires: {volts: supply.volts, call: thermostat.call, sensor: sensor.ohms}
  - {id: transformer, kind: transformer, settings: {rated_secondary: 12 kV}, wires: {volts: control.ignition}}
  - {id: electrode, kind: electrode, settings: {gap: 4 mm, rated_gap: 4 mm}, wires: {volts: transformer.secondary}}
  - {id: air_supply, kind: shop-air, settings: {pressure: 90 psig}}
  - {id: air_regulator, kind: air-regulator, settings: {setpoint: 12 psig}, wires: {pressure: air_supply.pressure}}
  - {id: tank, kind: tank, settings: {content: 10 gal, area: 2 ft2, line_flow: 3 gph}, wires: {drawn: nozzle.oil}}
  - id: first_valve
    kind: oil-solenoid
    settings: {coil_ohms: 700 ohm}
    wires: {volts: control.motor, oil: tank.oil}
  - id: second_valve
    kind: oil-solenoid
    settings: {coil_ohms: 700 ohm}
    wires: {volts: control.valve, oil: first_valve.oil}
  - id: nozzle
    kind: siphon-nozzle
    settings: {flow: 0.75 gph, rated_air: 12 psig}
    wires: {air: air_regulator.pressure, oil: second_valve.oil}
  - {id: blower, kind: blower, settings: {flow: 24 cfm}, wires: {volts: control.motor}}
  - id: burner
    kind: burner
    settings: {oil_flow: 0.75 gph}
    wires: {oil: nozzle.oil, spray: nozzle.spray, air: blower.air, spark: electrode.spark}
  - {id: sensor, kind: flame-sensor, wires: {flame: burner.flame}}
"""


@pytest.fixture(scope="module")
def own(tmp_path_factory: pytest.TempPathFactory) -> Trade:
    trade, report = load(tmp_path_factory.mktemp("own"), **SHIPPED, faults=OWN_FAULTS, own=OWN_UNIT)
    assert report == ""
    return trade


def reads(trade: Trade, unit: Unit, signal: str, case: Case) -> float:
    check = next(check for check in trade.checks.values() if check.signal == signal)
    return float(true_values(unit, check, simulate(unit, [case], check.changes))[0])


@pytest.mark.parametrize("name", ["bay-siphon", "bay-metered"])
def test_own_fault_reads_right_alone(own: Trade, name: str) -> None:
    unit, dirt = own.units[name], own.faults["wheel-packed-with-dirt"]
    healthy = reads(own, unit, "exchanger.oxygen", ())
    half = reads(own, unit, "exchanger.oxygen", ((dirt, 0.5),))
    assert 5 < healthy < 8
    # 25 % less air: about 1.4 x 0.75 = 1.05 of theoretical, by the mole balance 20.95 x .05 / .99 = 1.1 %
    assert half == pytest.approx(1.1, abs=0.6)
    assert complaint_of(unit, own.complaints, simulate(unit, [((dirt, 1.0),)])) == ("smokes",)


@pytest.mark.parametrize("name", ["bay-siphon", "bay-metered"])
def test_own_fault_reads_right_together_with_another(own: Trade, name: str) -> None:
    unit, dirt, glass = own.units[name], own.faults["wheel-packed-with-dirt"], own.faults["dark-glass"]
    both: Case = ((dirt, 0.5), (glass, 1.0))
    assert complaint_of(unit, own.complaints, simulate(unit, [both])) == ("lights-then-quits",)
    assert reads(own, unit, "sensor.cell", both) == reads(own, unit, "sensor.cell", ((glass, 1.0),))
    run = simulate(unit, [both, ((dirt, 0.5),)])
    lit = [float(run.signals["exchanger.oxygen"][:, case].min()) for case in (0, 1)]
    assert lit[0] == lit[1]  # the dirt shows the same while the flame stands


def test_own_unit_runs_by_its_wires(own: Trade) -> None:
    unit = own.units["two-valve"]
    run = simulate(unit, [()])
    assert [state for _, state in timeline(run)] == ["standby", "proving", "trial", "run"]
    assert unit.features["ignition"] == "interrupted"
    assert unit.features["delivery"] == "siphon"
    assert unit.features["cabinet"] == "none"
    assert run.signals["transformer.secondary"].max() == pytest.approx(12_000)
    first = run.signals["first_valve.oil"][:, 0]
    second = run.signals["second_valve.oil"][:, 0]
    assert (first > 0).argmax() < (second > 0).argmax()  # it opens with the motor, before the fuel valve


def test_own_unit_takes_the_checks_and_faults_that_fit_it(own: Trade) -> None:
    unit = own.units["two-valve"]
    fitting = {check.signal for check in own.checks.values() if check.applies_to(unit)}
    assert "transformer.secondary" in fitting
    assert not {signal for signal in fitting if signal.startswith(("pump.", "strainer.", "oil_solenoid."))}
    assert all(fault.applies_to(unit) for fault in own.faults.values())


def test_no_code_names_a_thing_of_the_data(trade: Trade) -> None:
    """Ids of faults, units, checks, repairs and complaints are no string of any module."""
    names = {*trade.units, *trade.faults, *trade.checks, *trade.repairs, *(one.id for one in trade.complaints)}
    package = Path(__file__).parents[2] / "courseware"
    named = {
        f"{path.relative_to(package)}:{node.lineno}: {node.value}"
        for path in package.rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and node.value in names
    }
    assert named == set()
