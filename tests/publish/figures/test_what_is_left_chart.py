"""The bars of a call's shares are as long as the shares they show."""

import re
from pathlib import Path

import pytest

from tests.publish.conftest import Shipped
from tests.publish.sample_teaching import read_figure

CHART = """\
kind: what-is-left-chart
caption: The blame shifts
reads: It shrinks.
unit: bay-metered
faults: {strainer-plugged: 1}
checks: [blower-turns, tank-level, spark-at-electrode]
columns: [blower-turns, spark-at-electrode]
"""


def test_every_bar_is_as_long_as_its_share(tmp_path: Path, shipped: Shipped) -> None:
    found, problems = read_figure(tmp_path, CHART, shipped.teaching)
    assert problems == ""
    widths = [float(one) for one in re.findall(r'class="fig-bar" x="[\d.]+" y="[\d.]+" width="([\d.]+)"', found.shapes)]
    shares = [cell for row in found.table.rows for cell in row[1:]]
    assert len(widths) == len(shares) >= 15
    largest = max(float(one) for one in shares if one.isdigit())
    unit = max(widths) / largest  # of one call in a hundred; both numbers are told to the nearest whole one
    for width, share in zip(widths, shares, strict=True):
        told = float(share) if share.isdigit() else 0.0
        assert width == pytest.approx(told * unit, abs=unit)


def test_nothing_is_drawn_outside_the_figure(tmp_path: Path, shipped: Shipped) -> None:
    found, _ = read_figure(tmp_path, CHART, shipped.teaching)
    for x, size, words in re.findall(r'<text [^>]*x="([\d.]+)"[^>]*font-size="([\d.]+)"[^>]*>([^<]*)<', found.shapes):
        assert float(x) + 0.5 * float(size) * len(words) <= 400.5
    assert max(float(one) for one in re.findall(r' y="([\d.]+)"', found.shapes)) < found.height


def test_the_title_names_what_leads_at_each_stage(tmp_path: Path, shipped: Shipped) -> None:
    found, _ = read_figure(tmp_path, CHART, shipped.teaching)
    assert found.title.startswith("Of 100 calls, how many need each repair. Start: ")
    assert "2, after 3 checks: Steady blue spark across the tines: " in found.title
    assert found.table.head[2] == "1, after 1 check: Blower runs at full speed"


def test_every_column_adds_up_to_a_hundred(tmp_path: Path, shipped: Shipped) -> None:
    found, _ = read_figure(tmp_path, CHART, shipped.teaching)
    for place in range(1, len(found.table.head)):
        shares = [row[place] for row in found.table.rows]
        assert sum(int(one) for one in shares if one.isdigit()) == pytest.approx(100, abs=len(shares) / 2)
    assert found.table.rows[-1][0] == "All others together"


@pytest.mark.parametrize(
    ("old", "new", "report"),
    [
        (
            "checks: [blower-turns",
            "checks: [blower-runs",
            "22: lesson 'spark', block 'figure': 'checks' names the check 'blower-runs', which does not exist",
        ),
        (
            "columns: [blower-turns",
            "columns: [electrode-gap",
            (
                "23: lesson 'spark', block 'figure': 'columns' names the check 'electrode-gap', which does not exist\n"
                "    allowed: blower-turns, spark-at-electrode, tank-level"
            ),
        ),
        (
            "columns: [blower-turns",
            "columns: [blower-turns, tank-level, blower-turns, tank-level",
            "23: lesson 'spark', block 'figure': 'columns' names 5 checks\n    allowed: at most 4",
        ),
    ],
)
def test_a_faulty_call_gives_its_message(tmp_path: Path, shipped: Shipped, old: str, new: str, report: str) -> None:
    _, problems = read_figure(tmp_path, CHART.replace(old, new), shipped.teaching)
    assert problems.startswith(f"modules/spark.md:{report}")
