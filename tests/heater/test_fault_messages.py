# ruff: noqa: E501  # messages stand here as they are printed
"""Every author's fault in documents of faults and repairs, with its whole message."""

from pathlib import Path

import pytest

from tests.heater.sound import report

# name, document, the sound text, the faulty text, the report
CASES = (
    pytest.param(
        "faults",
        "repair: fix",
        "repair: fixx",
        """\
question_bank/faults.yaml:5: fault 'sag': 'repair' names the repair 'fixx', which does not exist
    allowed: fix
    try: did you mean 'fix'?""",
        id="unknown repair",
    ),
    pytest.param(
        "faults",
        "part: supply",
        "part: suply",
        """\
question_bank/faults.yaml:6: fault 'sag', change 1: no unit has the setting 'suply.volts'
    allowed: control, sensor, supply, thermostat, transformer
    try: did you mean 'supply.volts'?""",
        id="no such part",
    ),
    pytest.param(
        "faults",
        "setting: volts",
        "setting: amps",
        """\
question_bank/faults.yaml:6: fault 'sag', change 1: no unit has the setting 'supply.amps'
    allowed: supply.volts
    try: did you mean 'supply.volts'?""",
        id="no such setting",
    ),
    pytest.param(
        "faults",
        "at_worst: 96 V",
        "at_worst: 960 V",
        """\
question_bank/faults.yaml:6: fault 'sag', change 1: 'at_worst' is 960 V
    allowed: from 0 V to 150 V""",
        id="change out of range",
    ),
    pytest.param(
        "faults",
        "at_worst: 96 V",
        "at_worst: 96 V, only_on: {cabinett: steel}",
        """\
question_bank/faults.yaml:6: fault 'sag', change 1, only_on: no unit has the feature 'cabinett'
    allowed: air_switch, cabinet, igniter, ignition, oil_pump
    try: did you mean 'cabinet'?""",
        id="unknown feature",
    ),
    pytest.param(
        "faults",
        "at_worst: 96 V",
        "at_worst: 96 V, only_on: {cabinet: brick}",
        """\
question_bank/faults.yaml:6: fault 'sag', change 1, only_on: no unit has 'cabinet: brick'
    allowed: steel""",
        id="unknown feature value",
    ),
    pytest.param(
        "faults",
        "[0.5, 1]",
        "[0, 1]",
        """\
question_bank/faults.yaml:7: fault 'sag': the severity 0 is outside the grades
    allowed: more than 0, at most 1""",
        id="severity outside",
    ),
    pytest.param(
        "faults",
        "odds: 0.1",
        "odds: 0",
        """\
question_bank/faults.yaml:8: fault 'sag': 'odds' is 0
    allowed: more than 0""",
        id="odds of nothing",
    ),
    pytest.param(
        "faults",
        ("faults:\n"),
        (
            "faults:\n"
            "  - {id: sag, title: S, repair: fix, changes: [{part: supply, setting: volts, at_worst: 9 V}], severities: [1], odds: 1, origin: cp}\n"
        ),
        """\
question_bank/faults.yaml:4: fault 'sag': the id 'sag' is used twice; first at question_bank/faults.yaml:3
    try: give one of the two another id""",
        id="fault twice",
    ),
    pytest.param(
        "repairs",
        "minutes: 10",
        "minutes: 0",
        """\
question_bank/repairs.yaml:3: repair 'fix': 'minutes' is 0
    allowed: from 1 to 600""",
        id="minutes of a repair",
    ),
    pytest.param(
        "repairs",
        ", origin: common practice",
        "",
        """\
question_bank/repairs.yaml:3: repair 'fix': the key 'origin' is missing
    try: add a line 'origin: ...'""",
        id="no origin",
    ),
    pytest.param(
        "faults",
        "at_worst: 96 V",
        "at_worst: low, at_none: 1",
        """\
question_bank/faults.yaml:6: fault 'sag', change 1: 'at_none' has no unit: 1
    allowed: a number with a unit, such as '1 V'
question_bank/faults.yaml:6: fault 'sag', change 1: 'at_worst' is low
    allowed: a number with a unit, such as '1 V'""",
        id="change that is not plain",
    ),
    pytest.param(
        "faults",
        "[0.5, 1]",
        "[half, 1]",
        """\
question_bank/faults.yaml:7: fault 'sag': 'severities' is the text 'half'
    allowed: a number""",
        id="severity that is a word",
    ),
)


@pytest.mark.parametrize(("document", "old", "new", "expected"), CASES)
def test_message(tmp_path: Path, document: str, old: str, new: str, expected: str) -> None:
    assert report(tmp_path, document, old, new) == expected
