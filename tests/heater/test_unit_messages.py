# ruff: noqa: E501  # messages stand here as they are printed
"""Every author's fault in a unit document, with its whole message."""

from pathlib import Path

import pytest

from tests.heater.sound import report

# name, document, the sound text, the faulty text, the report
CASES = (
    pytest.param(
        "unit",
        "kind: thermostat}",
        "kind: thermostatt}",
        """\
question_bank/unit.yaml:10: unit 'bench', part 'thermostat': 'kind' is 'thermostatt'
    allowed: ac-supply, air-line, air-regulator, air-solenoid, blower, burner, compressor, contact, electrode, exchanger, flame-sensor, flue, hand-valve, limit, metered-nozzle, metering-pump, oil-solenoid, preheater, pressure-switch, primary-control, shop-air, siphon-nozzle, strainer, suction-line, tank, thermostat, transformer
    try: did you mean 'thermostat'?""",
        id="unknown kind",
    ),
    pytest.param(
        "unit",
        "settings: {volts: 120 V}",
        "settings: {volt: 120 V}",
        """\
question_bank/unit.yaml:9: unit 'bench', part 'supply', settings: unknown key 'volt'
    allowed: volts
    try: did you mean 'volts'?""",
        id="unknown setting",
    ),
    pytest.param(
        "unit",
        "settings: {volts: 120 V}",
        "settings: {volts: 120}",
        """\
question_bank/unit.yaml:9: unit 'bench', part 'supply', settings: 'volts' has no unit: 120
    allowed: a number with a unit, such as '1 V'""",
        id="setting without unit",
    ),
    pytest.param(
        "unit",
        "settings: {volts: 120 V}",
        "settings: {volts: 120 psig}",
        """\
question_bank/unit.yaml:9: unit 'bench', part 'supply', settings: 'volts' is 120 psig, and that unit measures something else
    allowed: a number with a unit, such as '1 V'""",
        id="setting of the wrong kind",
    ),
    pytest.param(
        "unit",
        "settings: {volts: 120 V}",
        "settings: {volts: plenty}",
        """\
question_bank/unit.yaml:9: unit 'bench', part 'supply', settings: 'volts' is plenty
    allowed: a number with a unit, such as '1 V'""",
        id="setting unreadable",
    ),
    pytest.param(
        "unit",
        "settings: {volts: 120 V}",
        "settings: {volts: [120]}",
        """\
question_bank/unit.yaml:9: unit 'bench', part 'supply', settings: 'volts' is a list
    allowed: a number with a unit, such as '1 V'""",
        id="setting is a list",
    ),
    pytest.param(
        "unit",
        "settings: {volts: 120 V}",
        "settings: {volts: 240 V}",
        """\
question_bank/unit.yaml:9: unit 'bench', part 'supply', settings: 'volts' is 240 V
    allowed: from 0 V to 150 V""",
        id="setting out of range",
    ),
    pytest.param(
        "unit",
        "{trial: 45 s, interrupted: 0}",
        "{trial: 45 s}",
        """\
question_bank/unit.yaml:13: unit 'bench', part 'control', settings: the key 'interrupted' is missing
    try: add a line 'interrupted: ...'""",
        id="missing setting",
    ),
    pytest.param(
        "unit",
        "interrupted: 0}",
        "interrupted: no}",
        """\
question_bank/unit.yaml:13: unit 'bench', part 'control', settings: 'interrupted' is no
    allowed: a number""",
        id="plain setting with words",
    ),
    pytest.param(
        "unit",
        "{id: transformer,",
        "{id: spark-maker,",
        """\
question_bank/unit.yaml:15: unit 'bench', part 'spark-maker': the part id 'spark-maker' is not a role name
    allowed: lower-case letters and digits, words joined by '_', such as air_regulator""",
        id="bad part id",
    ),
    pytest.param(
        "unit",
        "{id: transformer,",
        "{id: thermostat,",
        """\
question_bank/unit.yaml:15: unit 'bench', part 'thermostat': the part 'thermostat' is there twice""",
        id="part twice",
    ),
    pytest.param(
        "unit",
        "sensor: sensor.ohms",
        "sensor: sensor.ohm",
        """\
question_bank/unit.yaml:11: unit 'bench', part 'control': 'sensor' is wired to 'sensor.ohm', which this unit does not have
    allowed: sensor.cell, sensor.covered, sensor.ohms
    try: did you mean 'sensor.ohms'?""",
        id="dangling wire",
    ),
    pytest.param(
        "unit",
        "sensor: sensor.ohms",
        "sensor: supply.volts",
        """\
question_bank/unit.yaml:11: unit 'bench', part 'control': 'sensor' takes ohm, but 'supply.volts' gives V
    allowed: sensor.cell, sensor.covered, sensor.ohms""",
        id="wrong wire",
    ),
    pytest.param(
        "unit",
        ", call: thermostat.call",
        "",
        """\
question_bank/unit.yaml:14: unit 'bench', part 'control', wires: the input 'call' is not wired
    try: add 'call: part.output' under 'wires'""",
        id="input not wired",
    ),
    pytest.param(
        "unit",
        "{flame: thermostat.call}",
        "{flame: thermostat.call, flam: thermostat.call}",
        """\
question_bank/unit.yaml:16: unit 'bench', part 'sensor', wires: unknown key 'flam'
    allowed: flame, trial
    try: did you mean 'flame'?""",
        id="unknown input",
    ),
    pytest.param(
        "unit",
        "wires: {flame: thermostat.call}",
        (
            "wires: {flame: thermostat.call, trial: second.volts}}\n"
            "  - {id: second, kind: contact, wires: {volts: third.volts}}\n"
            "  - {id: third, kind: contact, wires: {volts: second.volts}"
        ),
        """\
question_bank/unit.yaml:8: unit 'bench': these parts feed each other in a circle: second -> third -> second
    try: wire one of them to an input that brings the value of the step before: control.air, control.sensor""",
        id="loop",
    ),
    pytest.param(
        "unit",
        "{cabinet: steel}",
        "{igniter: solid-state}",
        """\
question_bank/unit.yaml:6: unit 'bench': the feature 'igniter' follows from the parts
    try: leave it out""",
        id="feature taken",
    ),
    pytest.param(
        "unit",
        "odd: 10.5 V",
        "odd: lots",
        """\
question_bank/unit.yaml:7: unit 'bench', limits: 'odd' is lots
    allowed: a number with a unit, such as '108 V'""",
        id="limit unreadable",
    ),
    pytest.param(
        "unit",
        "  - {id: sensor,",
        (
            "  - {id: second, kind: primary-control, settings: {trial: 15 s, interrupted: 1}, wires: {volts: supply.volts, call: thermostat.call, sensor: sensor.ohms}}\n"
            "  - {id: sensor,"
        ),
        """\
question_bank/unit.yaml:8: unit 'bench': 2 parts run the sequence
    allowed: exactly one part of a kind that has states: primary-control""",
        id="two controls",
    ),
)


@pytest.mark.parametrize(("document", "old", "new", "expected"), CASES)
def test_message(tmp_path: Path, document: str, old: str, new: str, expected: str) -> None:
    assert report(tmp_path, document, old, new) == expected
