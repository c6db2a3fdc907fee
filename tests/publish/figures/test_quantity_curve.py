"""A curve is the formula it names: its points are held to the turns ratio worked by hand."""

import re
from pathlib import Path

import pytest

from courseware.publish.blocks.figure import FigureBlock
from courseware.publish.figures.base import Figure
from tests.publish.sample_teaching import read_lesson, with_body

CURVE = """\
kind: quantity-curve
caption: A weak line
reads: Left of the crossing there is no spark.
quantity: transformer-secondary-voltage
along: {parameter: line_voltage, from: 90 V, to: 125 V, unit: V, step: 5}
given: {rated_line_voltage: 120 V, rated_secondary_voltage: 10 kV}
unit: kV
step: 1
marks:
  - {at: 100 V, says: at night}
  - {at: 120 V, says: as rated}
limit: {value: 9 kV, says: least}
"""


def figure(folder: Path, text: str) -> tuple[Figure, str]:
    lesson, problems = read_lesson(folder, with_body(f"```figure\n{text}```\n"))
    block = lesson.pieces[-1]
    assert isinstance(block, FigureBlock)
    return block.figure, problems


def test_the_table_holds_the_marked_points(tmp_path: Path) -> None:
    found, problems = figure(tmp_path, CURVE)
    assert problems == ""
    # 10 kV x 100/120 = 8.33 kV; 10 kV x 120/120 = 10 kV.
    assert found.table.rows == (
        ("at night", "100 V", "8.3 kV"),
        ("as rated", "120 V", "10.0 kV"),
        ("least", "", "9.0 kV"),
    )
    assert found.title.endswith("at night: 100 V, 8.3 kV; as rated: 120 V, 10.0 kV; least: 9.0 kV")


FIRING = """\
kind: quantity-curve
caption: Heat in the oil
reads: Twice the oil, twice the heat.
quantity: firing-rate
along: {parameter: flow, from: 0.5 gph, to: 2 gph, unit: gph, step: 0.5}
given: {heat_content: "138,000 Btu/gal"}
unit: kW
step: 20
marks:
  - {at: 1.7 gph, says: large}
"""


def test_points_are_written_as_finely_as_the_axis_is_divided(tmp_path: Path) -> None:
    found, problems = figure(tmp_path, FIRING)
    assert problems == ""
    # 1.7 gal/h x 138,000 Btu/gal = 234,600 Btu/h; x 0.29307 W (NIST SP 811) = 68.8 kW. Not "2 gph".
    assert found.table.rows == (("large", "1.7 gph", "68.8 kW"),)
    figures = re.findall(r">([\d.]+)</text>", found.shapes)
    assert figures == ["0.5", "1.0", "1.5", "2.0", "20", "40", "60", "80", "100"]


def test_the_drawn_line_goes_where_the_formula_goes(tmp_path: Path) -> None:
    found, _ = figure(tmp_path, CURVE)
    points = [tuple(map(float, pair.split(","))) for pair in re.search(r'points="([^"]+)"', found.shapes)[1].split()]  # type: ignore[index] # it is there
    assert points == sorted(points)  # from left to right
    slopes = [(y2 - y1) / (x2 - x1) for (x1, y1), (x2, y2) in zip(points[::12], points[12::12], strict=False)]
    assert max(slopes) - min(slopes) < 0.02  # a ratio of turns is a straight line
    dots = [
        (float(x), float(y)) for x, y in re.findall(r'<circle class="fig-dot" cx="([^"]+)" cy="([^"]+)"', found.shapes)
    ]
    for x, y in dots:
        near = min(points, key=lambda point: abs(point[0] - x))
        assert abs(near[1] - y) <= 2  # a marked point lies on the line, within the distance of two drawn points


def test_it_asks_no_colour_to_carry_meaning_and_no_style_from_outside(tmp_path: Path) -> None:
    found, _ = figure(tmp_path, CURVE)
    assert "style=" not in found.shapes
    assert set(re.findall(r'(?:fill|stroke)="([^"]+)"', found.shapes)) == {"#1c1f22", "#d8cfba", "none"}
    assert 'stroke-dasharray="6 4"' in found.shapes  # the limit is dashed, not coloured


@pytest.mark.parametrize(
    ("old", "new", "report"),
    [
        (
            "parameter: line_voltage",
            "parameter: lines",
            (
                "21: lesson 'spark', block 'figure', along: 'parameter' is 'lines'\n"
                "    allowed: line_voltage, rated_line_voltage, rated_secondary_voltage"
            ),
        ),
        (
            "to: 125 V",
            "to: 500 V",
            (
                "21: lesson 'spark', block 'figure': line voltage is 152.542 V; the formula holds from 0 to 150 V\n"
                "    try: stay inside the range that the formula is good for"
            ),
        ),
        (
            "value: 9 kV",
            "value: 9 psi",
            (
                "28: lesson 'spark', block 'figure', limit: 'value' is '9 psi'\n"
                "    allowed: a measure of the kind 'V', or the name of such a number above"
            ),
        ),
        (
            "transformer-secondary-voltage",
            "spark-length",
            "20: lesson 'spark', block 'figure': 'quantity' names the quantity 'spark-length', which does not exist",
        ),
    ],
)
def test_a_faulty_curve_gives_its_message(tmp_path: Path, old: str, new: str, report: str) -> None:
    _, problems = figure(tmp_path, CURVE.replace(old, new))
    assert problems.startswith(f"modules/spark.md:{report}")
