"""The bars of a call's shares are as long as the shares they show."""

import re
from pathlib import Path

import pytest

from courseware.publish.blocks.figure import FigureBlock
from courseware.publish.figures.base import Figure
from tests.publish.conftest import Shipped
from tests.publish.sample_teaching import read_lesson, with_body

CHART = """\
kind: what-is-left-chart
caption: The blame shifts
reads: It shrinks.
unit: bay-metered
faults: {strainer-plugged: 1}
checks: [blower-turns, tank-level, spark-at-electrode]
"""


def chart(folder: Path, shipped: Shipped, text: str) -> tuple[Figure, str]:
    body = with_body(f"```figure\n{text}```\n").replace("see-the-spark", "order-the-test")
    lesson, problems = read_lesson(folder, body, shipped.teaching)
    block = lesson.pieces[-1]
    assert isinstance(block, FigureBlock)
    return block.figure, problems


def test_every_bar_is_as_long_as_its_share(tmp_path: Path, shipped: Shipped) -> None:
    found, problems = chart(tmp_path, shipped, CHART)
    assert problems == ""
    widths = [float(one) for one in re.findall(r'class="fig-bar" x="[\d.]+" y="[\d.]+" width="([\d.]+)"', found.shapes)]
    shares = [cell for row in found.table.rows for cell in row[1:]]
    assert len(widths) == len(shares) > 20
    largest = max(float(one) for one in shares if one.isdigit())
    unit = max(widths) / largest  # of one call in a hundred; both numbers are told to the nearest whole one
    for width, share in zip(widths, shares, strict=True):
        told = float(share) if share.isdigit() else 0.0
        assert width == pytest.approx(told * unit, abs=unit)


def test_nothing_is_drawn_outside_the_figure(tmp_path: Path, shipped: Shipped) -> None:
    found, _ = chart(tmp_path, shipped, CHART)
    for x, size, words in re.findall(r'<text [^>]*x="([\d.]+)"[^>]*font-size="([\d.]+)"[^>]*>([^<]*)<', found.shapes):
        assert float(x) + 0.5 * float(size) * len(words) <= 400.5
    assert max(float(one) for one in re.findall(r' y="([\d.]+)"', found.shapes)) < found.height


def test_the_title_names_what_leads_at_each_stage(tmp_path: Path, shipped: Shipped) -> None:
    found, _ = chart(tmp_path, shipped, CHART)
    assert found.title.startswith("Of 100 calls, how many need each repair. Start: ")
    assert "3: Spark at the electrode, Steady blue spark across the tines: " in found.title
    assert found.table.head[2] == "1: Burner motor and blower, Blower runs at full speed"


def test_a_faulty_call_gives_its_message(tmp_path: Path, shipped: Shipped) -> None:
    _, problems = chart(tmp_path, shipped, CHART.replace("blower-turns", "blower-runs"))
    assert problems.startswith(
        "modules/spark.md:22: lesson 'spark', block 'figure': 'checks' names the check 'blower-runs', "
        "which does not exist"
    )
