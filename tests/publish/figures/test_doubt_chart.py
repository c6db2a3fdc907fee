"""The bars of the next checks are as long as the information they stand for, counted out by a second path."""

import re
from pathlib import Path

import pytest

from tests.publish.conftest import Shipped
from tests.publish.sample_teaching import read_figure
from tests.quiz.kinds.enumeration import count_out, entropy

COMPARED = ("tank-level", "spark-at-electrode", "electrode-gap", "call-for-heat")
CHART = """\
kind: doubt-chart
caption: What each check would tell
reads: The tank first.
unit: bay-metered
faults: {strainer-plugged: 1}
checks: [blower-turns]
compare: [tank-level, spark-at-electrode, electrode-gap, call-for-heat]
"""


def test_the_bars_are_the_information_counted_out(tmp_path: Path, shipped: Shipped) -> None:
    found, problems = read_figure(tmp_path, CHART, shipped.teaching)
    assert problems == ""
    trade = shipped.teaching.trade
    counted = count_out(trade.units["bay-metered"], trade)
    told = ("no-flame-red-light", {"blower-turns": "turns"})
    doubt, rates = entropy(counted.shares(counted.after(*told))), counted.rates(*told)
    shares = {trade.checks[one].title: (rates[one] / doubt, trade.checks[one].minutes) for one in COMPARED}
    order = sorted(shares.items(), key=lambda one: -one[1][0])
    assert found.table.rows == tuple(
        (f"{title} ({minutes:g} min)", f"{100 * rate * minutes:.0f} %", f"{100 * rate:.1f} % a minute")
        for title, (rate, minutes) in order
    )
    widths = [float(one) for one in re.findall(r'class="fig-bar" x="2" y="[\d.]+" width="([\d.]+)"', found.shapes)]
    for width, (_, (rate, _)) in zip(widths, order, strict=True):
        assert width == pytest.approx(widths[0] * rate / order[0][1][0], abs=0.2)


@pytest.mark.parametrize("name", ["blower-turns", "oil-temperature-at-noon"])
def test_a_check_that_is_made_or_missing_is_told(tmp_path: Path, shipped: Shipped, name: str) -> None:
    _, problems = read_figure(tmp_path, CHART.replace("compare: [tank-level", f"compare: [{name}"), shipped.teaching)
    expected = {
        "blower-turns": (
            "the check 'blower-turns' cannot be compared: it is made already, or unit 'bay-metered' has nothing for it"
        ),
        "oil-temperature-at-noon": "'compare' names the check 'oil-temperature-at-noon', which does not exist",
    }[name]
    assert problems.startswith(f"modules/spark.md:23: lesson 'spark', block 'figure': {expected}")
