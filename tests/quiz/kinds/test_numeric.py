"""Numbers drawn from the registry, worked out again by plain arithmetic and by pint."""

import itertools
import re

import pint
import pytest

from courseware.content.words import say
from courseware.quiz.chance import open_chance
from courseware.quiz.kinds.base import Drawn
from courseware.quiz.kinds.numeric import KIND
from courseware.quiz.pools import GRADED, PRACTICE, pool_of
from tests.quiz.making import MATERIALS, NO_TRADE, RULES, any_question, fields_of, report

OUTPUT = """\
quantity: transformer-secondary-voltage
stem: [What is the output?]
given:
  line_voltage: {from: 90, to: 114, step: 2, unit: V}
  rated_line_voltage: {value: 120, unit: V}
  rated_secondary_voltage: {value: 10, unit: kV}
answer: {unit: kV, digits: 2, tolerance: 0.1}
slips:
  - {instead: {line_voltage: {value: 120, unit: V}}, says: That is the output at full line voltage.}
  - {factor: 1.001, says: Too near to tell from the right answer.}
"""


def drawn_from(text: str, seed: int) -> Drawn:
    fields, problems = fields_of(text)
    body = KIND.load(fields, NO_TRADE, RULES)
    fields.finish()
    assert report(problems) == ""
    drawn = KIND.draw(body, MATERIALS, open_chance(str(seed)), any_question)
    assert drawn is not None
    return drawn


def test_the_answer_is_the_ratio_of_turns_worked_out_by_hand() -> None:
    values = set()
    for seed in range(150):
        drawn = drawn_from(OUTPUT, seed)
        assert drawn.exhibit is not None
        assert drawn.number is not None
        label, line = drawn.exhibit.rows[0]
        assert label == "Line voltage at the primary, U1"
        volts = int(line.removesuffix(" V"))
        assert float(drawn.number.value) == pytest.approx(10 / 120 * volts, rel=1e-5)
        assert drawn.number.slips == {"10": "That is the output at full line voltage."}
        assert (drawn.unit, drawn.number.tolerance) == ("kV", "0.1")
        values.add(volts)
    assert values == set(range(90, 115, 2))


def test_the_answer_is_worked_out_again_in_the_units_shown() -> None:
    """Heat input of a burner, by pint from the exhibit as it is printed: US customary in, another unit out."""
    text = """\
quantity: firing-rate
stem: [What is the heat input?]
given:
  flow: {from: 0.8, to: 2.4, step: 0.1, unit: gph, digits: 1}
  heat_content: {value: 138000, unit: Btu/gal}
answer: {unit: Btu/h, digits: 0, tolerance: 2000}
"""
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    for seed in range(20):
        drawn = drawn_from(text, seed)
        assert drawn.exhibit is not None
        assert drawn.number is not None
        flow, heat = (float(row[1].split()[0].replace(",", "")) for row in drawn.exhibit.rows)
        expected = registry.Quantity(flow, "gallon/hour") * registry.Quantity(heat, "Btu/gallon")
        assert float(drawn.number.value) == pytest.approx(expected.to("Btu/hour").magnitude, rel=1e-5)
        assert drawn.unit == "Btu/h"


def test_the_explanation_shows_values_formula_and_result() -> None:
    because = drawn_from(OUTPUT, 1).because
    assert re.fullmatch(
        r"With U1 = \d+ V, U1r = 120 V, U2r = 10 kV: U2 = U2r \u00d7 U1 / U1r\. This gives U2 = \d\.\d\d kV\.", because
    )


def test_each_set_of_given_values_is_in_one_pool_whatever_the_wording() -> None:
    other = OUTPUT.replace("What is the output?", "How many kilovolts come out?")
    identities = {drawn_from(text, seed).identity for text, seed in itertools.product((OUTPUT, other), range(60))}
    assert len(identities) == 13
    assert {pool_of(identity) for identity in identities} == {PRACTICE, GRADED}


def faults(text: str) -> str:
    fields, problems = fields_of(text)
    KIND.load(fields, NO_TRADE, RULES)
    fields.finish()
    return report(problems)


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            "unit: kV, digits",
            "unit: psi, digits",
            "items.yaml:7: item 'x', answer: 'psi' does not measure what the quantity is in: V",
        ),
        (
            "from: 90, to: 114",
            "from: 90, to: 190",
            (
                "items.yaml:3: item 'x': some of the given values are outside the formula's range: "
                "line voltage is 190 V; the formula holds from 0 to 150 V"
            ),
        ),
        (
            "from: 90, to: 114",
            "from: 114, to: 90",
            "items.yaml:4: item 'x', given, line_voltage: from 114.0 to 90.0 by 2.0 gives no list of values",
        ),
        (
            "from: 90, to: 114, step: 2",
            "from: 90, to: 114, step: 0.001",
            "items.yaml:4: item 'x', given, line_voltage: from 90.0 to 114.0 by 0.001 gives no list of values",
        ),
        (
            "  rated_line_voltage: {value: 120, unit: V}\n",
            "",
            (
                "items.yaml:4: item 'x', given: the key 'rated_line_voltage' is missing\n"
                "    try: add a line 'rated_line_voltage: ...'"
            ),
        ),
        (
            "stem: [What is the output?]",
            "stem: [The output]",
            (
                "items.yaml:2: item 'x': rule 15: the stem ends with 'The output', which neither asks nor instructs\n"
                "    try: " + say("quiz.writing-try")
            ),
        ),
        (
            "tolerance: 0.1",
            "tolerance: 0",
            "items.yaml:7: item 'x', answer: 'tolerance' is 0\n    allowed: 0.0001 or more",
        ),
    ],
)
def test_faults_are_told_whole(old: str, new: str, message: str) -> None:
    assert faults(OUTPUT.replace(old, new)) == message


def test_an_unknown_quantity_is_told() -> None:
    found = faults("quantity: secondary-voltage\nstem: [How high?]\ngiven: {}\nanswer: {unit: kV}\n")
    assert found.startswith(
        "items.yaml:1: item 'x': 'quantity' names the quantity 'secondary-voltage', which does not exist\n"
    )
