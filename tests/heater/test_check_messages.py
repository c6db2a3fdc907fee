# ruff: noqa: E501  # messages stand here as they are printed
"""Every author's fault in documents of checks and complaints, with its whole message."""

from pathlib import Path

import pytest

from tests.heater.sound import report

# name, document, the sound text, the faulty text, the report
CASES = (
    pytest.param(
        "checks",
        "signal: control.line",
        "signal: control.lines",
        """\
question_bank/checks.yaml:8: check 'line': no unit has the signal 'control.lines'
    allowed: control.ignition, control.light, control.line, control.low_volts, control.motor, control.refused, control.state, control.valve
    try: did you mean 'control.line'?""",
        id="unknown signal",
    ),
    pytest.param(
        "checks",
        "signal: control.line",
        "signal: controls.line",
        """\
question_bank/checks.yaml:8: check 'line': no unit has the signal 'controls.line'
    allowed: control.ignition, control.light, control.line, control.low_volts, control.motor, control.refused, control.state, control.valve, sensor.bridge, sensor.cell, sensor.covered, sensor.ohms, supply.volts, thermostat.call, transformer.primary, transformer.secondary
    try: did you mean 'control.line'?""",
        id="unknown part of a signal",
    ),
    pytest.param(
        "checks",
        "moment: end",
        "moment: ending",
        """\
question_bank/checks.yaml:9: check 'line': 'moment' is 'ending'
    allowed: end, prepurge, run, standby, start, trial
    try: did you mean 'end'?""",
        id="unknown moment",
    ),
    pytest.param(
        "checks",
        "unit: V",
        "unit: volts",
        """\
question_bank/checks.yaml:10: check 'line': 'unit' is 'volts'
    allowed: %, A, Btu/gal, Btu/h, Btu/lb, J/K, J/kg, J/m3, K, L, L/h, MJ/kg, Pa, V, W, W/K, cfm, cm, degC, degC-net, degF, degF-net, degF-rise, ft, ft2, gal, gal/h, gph, h, in, inHg, inWC, kPa, kV, kW, kg/m3, kg/s, kohm, m, m2, m3, m3/s, mA, min, mm, mm2, ohm, ohm*m, ppm, psi, psia, psig, s""",
        id="unknown unit",
    ),
    pytest.param(
        "checks",
        "unit: V",
        "unit: psig",
        """\
question_bank/checks.yaml:10: check 'line': 'unit' is psig, but 'control.line' is V
    allowed: V, kV""",
        id="unit of the wrong kind",
    ),
    pytest.param(
        "checks",
        "{power: [on]}",
        "{powers: [on]}",
        """\
question_bank/checks.yaml:7: check 'line', needs: 'needs' names 'powers', which is no state of the job
    allowed: power
    try: did you mean 'power'?""",
        id="unknown state",
    ),
    pytest.param(
        "checks",
        "{power: [on]}",
        "{power: [onn]}",
        """\
question_bank/checks.yaml:7: check 'line', needs: 'power' is never 'onn'
    allowed: off, on
    try: did you mean 'on'?""",
        id="unknown state value",
    ),
    pytest.param(
        "checks",
        "high: {limit: volts-low}",
        "high: {limit: volts-lo}",
        """\
question_bank/checks.yaml:15: check 'line': the edge names the limit 'volts-lo', which unit 'bench' does not have
    allowed: airy, odd, volts-low
    try: did you mean 'volts-low'?""",
        id="unknown limit",
    ),
    pytest.param(
        "checks",
        "{id: none, high: 10,",
        "{id: none, high: 9.5,",
        """\
question_bank/checks.yaml:14: check 'line': the edge 9.5 V is between two readings
    allowed: multiples of the resolution, 1 V
question_bank/checks.yaml:15: check 'line': no band holds 9.5 V to 10 V on unit 'bench', between 'none' and 'low'""",
        id="edge between readings",
    ),
    pytest.param(
        "checks",
        "low: {limit: volts-low}, says: Right",
        "low: {limit: odd}, says: Right",
        """\
question_bank/checks.yaml:16: check 'line': the bands 'low' and 'right' both hold 10.5 V to 108 V on unit 'bench'
question_bank/checks.yaml:16: check 'line': the edge odd (10.5 V on unit 'bench') is between two readings
    allowed: multiples of the resolution, 1 V""",
        id="limit between readings",
    ),
    pytest.param(
        "checks",
        "{id: low, low: 10,",
        "{id: low, low: 12,",
        """\
question_bank/checks.yaml:15: check 'line': no band holds 10 V to 12 V on unit 'bench', between 'none' and 'low'""",
        id="gap",
    ),
    pytest.param(
        "checks",
        "{id: low, low: 10,",
        "{id: low, low: 8,",
        """\
question_bank/checks.yaml:15: check 'line': the bands 'none' and 'low' both hold 8 V to 10 V on unit 'bench'""",
        id="overlap",
    ),
    pytest.param(
        "checks",
        ("{id: none, high: 10, says: None}\n      - {id: low, low: 10,"),
        ("{id: none, high: 120, says: None}\n      - {id: low, low: 120,"),
        """\
question_bank/checks.yaml:15: check 'line': band 'low' holds no reading on unit 'bench': 120 V to 108 V""",
        id="empty band",
    ),
    pytest.param(
        "checks",
        "{id: low, low: 10, ",
        "{id: low, ",
        """\
question_bank/checks.yaml:15: check 'line': band 'low' is open below
    allowed: only the first band is open below, and only the last above""",
        id="open inside",
    ),
    pytest.param(
        "checks",
        "{id: none, high: 10,",
        "{id: none, low: 0, high: 10,",
        """\
question_bank/checks.yaml:14: check 'line': band 'none' leaves out what is below 0 V
    try: leave out its 'low'""",
        id="closed end",
    ),
    pytest.param(
        "checks",
        "{id: low, low: 10,",
        "{id: none, low: 10,",
        """\
question_bank/checks.yaml:15: check 'line', band 'none': the band 'none' is there twice""",
        id="band twice",
    ),
    pytest.param(
        "checks",
        "{id: low, low: 10,",
        "{id: cannot, low: 10,",
        """\
question_bank/checks.yaml:15: check 'line', band 'cannot': the band id 'cannot' is kept for a check that cannot be made""",
        id="band reserved",
    ),
    pytest.param(
        "checks",
        ("resolution: 1\n"),
        ("resolution: 0\n"),
        """\
question_bank/checks.yaml:11: check 'line': 'resolution' is 0
    allowed: more than 0""",
        id="no resolution",
    ),
    pytest.param(
        "checks",
        "error: 0.7",
        "error: -0.7",
        """\
question_bank/checks.yaml:12: check 'line': 'error' is -0.7
    allowed: 0 or more""",
        id="error below zero",
    ),
    pytest.param(
        "checks",
        "strong: true",
        ("strong: true\n    strongg: true"),
        """\
question_bank/checks.yaml:19: check 'line': unknown key 'strongg'
    allowed: asks, bands, cannot, changes, error, given, hazards, id, lesson, minutes, moment, needs, origin, resolution, reviewed, signal, strong, title, tools, unit
    try: did you mean 'strong'?""",
        id="unknown key of a check",
    ),
    pytest.param(
        "complaints",
        "when: [{signal: control.motor, moment: ever, high: 1 V}], ",
        "",
        """\
question_bank/complaints.yaml:3: complaint 'dead': it matches every run, so nothing after it is ever told
    try: move it to the end""",
        id="complaint for all in the middle",
    ),
    pytest.param(
        "complaints",
        "says: Fine., ",
        "says: Fine., when: [{signal: control.light, moment: end, low: 1}], ",
        """\
question_bank/complaints.yaml:4: complaint 'fine': it does not match every run, so a run may have no complaint
    try: end the list with a complaint that has no 'when'""",
        id="complaint for none",
    ),
    pytest.param(
        "complaints",
        "high: 1 V",
        "high: 1",
        """\
question_bank/complaints.yaml:3: complaint 'dead', condition 1: 'high' has no unit: 1
    allowed: a number with a unit, such as '1 V'""",
        id="condition without unit",
    ),
    pytest.param(
        "complaints",
        "moment: ever",
        "moment: never",
        """\
question_bank/complaints.yaml:3: complaint 'dead', condition 1: 'moment' is 'never'
    allowed: end, ever, prepurge, run, standby, start, trial
    try: did you mean 'ever'?""",
        id="unknown moment of a complaint",
    ),
    pytest.param(
        "checks",
        "high: {limit: volts-low}",
        "high: {limit: airy}",
        """\
question_bank/checks.yaml:15: check 'line': the limit 'airy' of unit 'bench' measures something else than V""",
        id="limit of the wrong kind",
    ),
    pytest.param(
        "checks",
        "{power: [on]}",
        "{power: on}",
        """\
question_bank/checks.yaml:7: check 'line', needs: 'power' is the text 'on'
    allowed: a list""",
        id="needs that are no list",
    ),
    pytest.param(
        "checks",
        (
            "    bands:\n"
            "      - {id: none, high: 10, says: None}\n"
            "      - {id: low, low: 10, high: {limit: volts-low}, says: Low}\n"
            "      - {id: right, low: {limit: volts-low}, says: Right}\n"
        ),
        "    bands: none\n",
        """\
question_bank/checks.yaml:13: check 'line': 'bands' is the text 'none'
    allowed: a list""",
        id="bands that are no list",
    ),
)


@pytest.mark.parametrize(("document", "old", "new", "expected"), CASES)
def test_message(tmp_path: Path, document: str, old: str, new: str, expected: str) -> None:
    assert report(tmp_path, document, old, new) == expected
