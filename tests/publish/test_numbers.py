"""Named numbers: computed, cited or read from a unit; every way to be wrong gives its whole message."""

from pathlib import Path

import pytest

from tests.publish.sample_teaching import FRONT, read_lesson

LINE = "  line: {value: 120 V, origin: rating of the unit}\n"
USES = "The line has {line}.\n"


def numbers(folder: Path, more: str, uses: str) -> tuple[dict[str, str], str]:
    """Load a lesson with more numbers after the usual one, from line 11; return how they are "
    "written, and the faults."""
    text = FRONT.replace(LINE, f"{LINE}{more}") + USES + uses
    lesson, problems = read_lesson(folder, text)
    return {name: number.text.replace("\N{NO-BREAK SPACE}", " ") for name, number in lesson.numbers.items()}, problems


def test_computed_from_a_number_above(tmp_path: Path) -> None:
    # 10,000 V x 100 V / 120 V = 8,333 V: a trade magazine's story of a night-time lockout at about 100 V.
    more = (
        "  low: {value: 100 V, origin: the story}\n"
        "  weak:\n"
        "    quantity: transformer-secondary-voltage\n"
        "    given: {line_voltage: low, rated_line_voltage: line, rated_secondary_voltage: 10 kV}\n"
        "    show: {kV: 2}\n"
        "    also: {V: 0}\n"
    )
    found, problems = numbers(tmp_path, more, "At {low} it gives {weak}.\n")
    assert problems == ""
    assert found["weak"] == "8.33 kV (8,333 V)"


def test_si_stands_beside_customary_units(tmp_path: Path) -> None:
    # 1/8 in = 3.175 mm and 10 psi = 68.95 kPa: NIST SP 811, appendix B.8.
    more = (
        "  gap: {value: 1/8 in, also: {mm: 1}, origin: practice}\n"
        "  air: {value: 10 psig, also: {kPa: 0}, origin: practice}\n"
        "  pull: {value: -0.02 inWC, origin: practice}\n"
        "  rule: {text: 29 CFR 1910.147, origin: the rule}\n"
    )
    found, problems = numbers(tmp_path, more, "{gap} {air} {pull} {rule}\n")
    assert problems == ""
    assert found == {
        "line": "120 V", "gap": "1/8 in (3.2 mm)", "air": "10 psig (69 kPa)", "pull": "\N{MINUS SIGN}0.02 inWC",
        "rule": "29 CFR 1910.147",
    }  # fmt: skip


WEAK = "  weak:\n    quantity: transformer-secondary-voltage\n    given: {%s}\n    show: {%s}\n"
RATED = "rated_line_voltage: 120 V, rated_secondary_voltage: 10 kV"
PARAMETERS = "line_voltage, rated_line_voltage, rated_secondary_voltage"
VOLTS = "    allowed: V, kV"


@pytest.mark.parametrize(
    ("more", "report"),
    [
        (
            "  weak: {origin: nowhere}\n",
            ("11: lesson 'spark', number 'weak': its kind cannot be told: it has none of these keys\n"
            "    allowed: call, limit, quantity, reading, setting, text, value"),
        ),
        (
            "  weak: {value: some volts, origin: nowhere}\n",
            ("11: lesson 'spark', number 'weak': 'some volts' does not start with a number\n"
            "    allowed: a number with its unit, such as 120 V or 1/8 in"),
        ),
        (
            "  weak: {value: 120 volts, origin: nowhere}\n",
            ("11: lesson 'spark', number 'weak': 'volts' is not a known unit\n"
            "    allowed: a number with its unit, such as 120 V or 1/8 in"),
        ),
        (
            WEAK % (f"line_voltage: 100 V, {RATED}", "kPa: 1"),
            f"14: lesson 'spark', number 'weak', show: the unit 'kPa' does not fit\n{VOLTS}",
        ),
        (
            WEAK % (f"line_voltage: 15 s, {RATED}", "kV: 1"),
            ("13: lesson 'spark', number 'weak': 'line_voltage' is '15 s'\n"
            "    allowed: a measure of the kind 'V', or the name of such a number above"),
        ),
        (
            WEAK % (f"line_voltage: lime, {RATED}", "kV: 1"),
            ("13: lesson 'spark', number 'weak': 'line_voltage' is 'lime'\n"
            "    allowed: a measure of the kind 'V', or the name of such a number above\n"
             "    try: did you mean 'line'?"),
        ),
        (
            WEAK % (RATED, "kV: 1"),
            f"13: lesson 'spark', number 'weak': the parameter 'line_voltage' is missing\n    allowed: {PARAMETERS}",
        ),
        (
            WEAK % (f"line_volts: 1 V, line_voltage: 100 V, {RATED}", "kV: 1"),
            ("13: lesson 'spark', number 'weak': 'line_volts' is no parameter of this quantity\n"
            f"    allowed: {PARAMETERS}\n    try: did you mean 'line_voltage'?"),
        ),
        (
            WEAK % (f"line_voltage: 500 V, {RATED}", "kV: 1"),
            ("13: lesson 'spark', number 'weak': line voltage is 500 V; the formula holds from 0 to 150 V\n"
            "    try: stay inside the range that the formula is good for"),
        ),
        (
            WEAK % (f"line_voltage: 100 V, {RATED}", "kV: 1, V: 0"),
            ("14: lesson 'spark', number 'weak': 'show' does not name exactly one unit\n"
            "    allowed: a unit and its decimals, such as {kV: 1}"),
        ),
        (
            "  weak: {setting: control.trial_time, unit: gone, show: {s: 0}}\n",
            "11: lesson 'spark', number 'weak': 'unit' names the unit 'gone', which does not exist",
        ),
    ],
)  # fmt: skip
def test_a_faulty_number_gives_its_whole_message(tmp_path: Path, more: str, report: str) -> None:
    _, problems = numbers(tmp_path, more, "{weak}\n")
    assert problems == f"modules/spark.md:{report}"
