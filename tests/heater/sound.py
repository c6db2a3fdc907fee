"""Small heater documents without a fault, and the report on them with one text changed."""

from pathlib import Path

from tests.heater.bench import load

UNIT = """\
format: courseware/unit/1
id: bench
title: Bench unit
summary: What the messages are tried on.
origin: invented for this test
features: {cabinet: steel}
limits: {volts-low: 108 V, odd: 10.5 V, airy: 8 psig}
parts:
  - {id: supply, kind: ac-supply, settings: {volts: 120 V}}
  - {id: thermostat, kind: thermostat}
  - id: control
    kind: primary-control
    settings: {trial: 45 s, interrupted: 0}
    wires: {volts: supply.volts, call: thermostat.call, sensor: sensor.ohms}
  - {id: transformer, kind: transformer, wires: {volts: control.ignition}}
  - {id: sensor, kind: flame-sensor, wires: {flame: thermostat.call}}
"""
REPAIRS = """\
format: courseware/repairs/1
repairs:
  - {id: fix, title: Fix it, minutes: 10, lesson: ignition-test#isolate, origin: common practice}
"""
FAULTS = """\
format: courseware/faults/1
faults:
  - id: sag
    title: Sag
    repair: fix
    changes: [{part: supply, setting: volts, at_worst: 96 V}]
    severities: [0.5, 1]
    odds: 0.1
    origin: common practice
"""
JOB = """\
format: courseware/job/1
origin: common practice
variables:
  - {id: power, title: Power, values: [on, off], start: on}
"""
CHECKS = """\
format: courseware/checks/1
checks:
  - id: line
    title: Line
    asks: Measure.
    minutes: 5
    needs: {power: [on]}
    signal: control.line
    moment: end
    unit: V
    resolution: 1
    error: 0.7
    bands:
      - {id: none, high: 10, says: None}
      - {id: low, low: 10, high: {limit: volts-low}, says: Low}
      - {id: right, low: {limit: volts-low}, says: Right}
    cannot: no start
    strong: true
    lesson: ignition-test#isolate
    origin: common practice
"""
COMPLAINTS = """\
format: courseware/complaints/1
complaints:
  - {id: dead, title: Dead, says: Nothing., when: [{signal: control.motor, moment: ever, high: 1 V}], origin: cp}
  - {id: fine, title: Fine, says: Fine., origin: cp}
"""
SOUND = {
    "unit": UNIT, "repairs": REPAIRS, "faults": FAULTS, "job": JOB, "checks": CHECKS, "complaints": COMPLAINTS,
}  # fmt: skip


def report(folder: Path, document: str, old: str, new: str) -> str:
    """Return the report on the sound documents with one text of one of them changed."""
    assert SOUND[document].count(old) == 1, old
    return load(folder, **{**SOUND, document: SOUND[document].replace(old, new)})[1]
