"""A sequence chart shows the run it simulates: its stretches are held to the unit's own settings."""

import re
from pathlib import Path

import pytest

from tests.publish.conftest import Shipped
from tests.publish.sample_teaching import read_figure

CHART = """\
kind: sequence-chart
title: A start
caption: A start
reads: It lights.
until: 70
lanes:
  - {signal: nozzle.oil, above: 0.0, says: Oil}
  - {signal: electrode.spark, above: 0.0, says: Spark}
  - {signal: burner.flame, says: Flame}
panels:
  - {unit: bay-siphon, says: Siphon, faults: {transformer-open: 1}}
"""
#: The thermostat calls two seconds into the record (the default of the part kind).
CALL = 2.0


def seconds(span: str) -> tuple[float, float]:
    start, end = re.findall(r"[\d.]+", span)
    return float(start), float(end)


def test_without_a_spark_oil_runs_for_one_trial_and_no_flame_comes(tmp_path: Path, shipped: Shipped) -> None:
    found, problems = read_figure(tmp_path, CHART, shipped.teaching)
    assert problems == ""
    (says, control, oil, spark, flame), = found.table.rows  # fmt: skip
    assert (says, spark, flame) == ("Siphon", "never", "never")
    start, end = seconds(oil)
    trial = shipped.teaching.trade.units["bay-siphon"].setting("control", "trial")
    assert end - start == pytest.approx(trial, abs=1.0)  # 45 s, drawn in steps of 0.5 s
    assert CALL <= start <= CALL + 2.0
    assert control.startswith("standby from 0.0 s")
    assert "lockout from" in control


def test_bars_are_as_long_as_the_stretches_they_show(tmp_path: Path, shipped: Shipped) -> None:
    found, _ = read_figure(tmp_path, CHART, shipped.teaching)
    start, end = seconds(found.table.rows[0][2])
    ((x, width),) = re.findall(r'class="fig-bar" x="([\d.]+)" y="[\d.]+" width="([\d.]+)"', found.shapes)
    scale = float(width) / (end - start)  # user units in a second
    ticks = [
        float(one) for one in re.findall(r'<line class="fig-axis" x1="([\d.]+)" y1="[\d.]+" x2="\1"', found.shapes)
    ]
    assert ticks[-1] - ticks[1] == pytest.approx(70 * scale, abs=0.5)
    assert float(x) - ticks[1] == pytest.approx(start * scale, abs=0.2)


def test_states_of_the_job_arrange_the_unit(tmp_path: Path, shipped: Shipped) -> None:
    # Common practice: no air, no oil on a siphon nozzle; on a metered one the oil flows with the air off.
    panels = (
        "panels:\n"
        "  - {unit: bay-siphon, says: Siphon, states: {air-line: 'off'}}\n"
        "  - {unit: bay-metered, says: Metered, states: {air-line: 'off', air-switch-lead: 'on'}}\n"
    )
    found, problems = read_figure(tmp_path, CHART[: CHART.index("panels:")] + panels, shipped.teaching)
    assert problems == ""
    assert [row[2] == "never" for row in found.table.rows] == [True, False]
    assert all(row[3] != "never" for row in found.table.rows)


@pytest.mark.parametrize(
    ("old", "new", "report"),
    [
        (
            "burner.flame",
            "burner.fire",
            (
                "27: lesson 'spark', block 'figure', panel 1: the unit 'bay-siphon' has no signal 'burner.fire'\n"
                "    allowed: burner.carbon_dioxide, burner.carbon_monoxide, burner.flame, burner.gas, burner.heat, "
                "burner.oxygen, burner.puff, burner.smoke, burner.unburned\n"
                "    try: did you mean 'burner.flame'?"
            ),
        ),
        (
            "faults: {transformer-open: 1}",
            "states: {air-lime: off}",
            (
                "27: lesson 'spark', block 'figure', panel 1, states: 'states' names the variable 'air-lime', "
                "which does not exist\n"
            ),
        ),
        (
            "transformer-open: 1",
            "transformer-open: 2",
            (
                "27: lesson 'spark', block 'figure', panel 1, faults: 'transformer-open' is 2\n    allowed: "
                "from 0.0 to 1.0"
            ),
        ),
    ],
)
def test_a_faulty_chart_gives_its_message(tmp_path: Path, shipped: Shipped, old: str, new: str, report: str) -> None:
    _, problems = read_figure(tmp_path, CHART.replace(old, new), shipped.teaching)
    assert problems.startswith(f"modules/spark.md:{report}")
