"""Readings: displays, verdicts, and their probabilities computed a second way."""

import math
from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from statistics import NormalDist

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courseware.heater.checks import Band, Check, Condition
from courseware.heater.complaints import Complaint
from courseware.heater.faults import Change
from courseware.heater.load import Trade
from courseware.heater.readings import (
    CANNOT,
    complaint_of,
    decimals,
    draw,
    edge,
    outcomes,
    shown,
    true_values,
    verdict_probabilities,
)
from courseware.heater.simulate import simulate
from courseware.heater.unit import Unit
from tests.heater.bench import chance_of


def check_on(trade: Trade, signal: str, **changed: object) -> Check:
    check = next(one for one in trade.checks.values() if one.signal == signal)
    return replace(check, changes=(), given=(), **changed)  # type: ignore[arg-type]  # a test may change any field


def put(part: str, setting: str, value: float) -> Change:
    return Change(part, setting, None, value)


def chances(trade: Trade, unit: Unit, volts: float, **changed: object) -> Mapping[str, float]:
    """Return the probabilities of the bands of the line voltage check at a true voltage."""
    check = check_on(trade, "control.line", **changed)
    found = simulate(unit, [()], [put("supply", "volts", volts)], duration=5.0)
    return dict(zip(outcomes(unit, check), verdict_probabilities(unit, check, found)[0], strict=True))


@pytest.mark.parametrize("volts", [0.0, 9.0, 100.0, 107.4, 107.5, 108.0, 120.0, 131.7])
def test_probability_is_the_normal_distribution_between_half_steps(trade: Trade, siphon: Unit, volts: float) -> None:
    """By hand: 108 V is read from 107.5 V up; the standard library's normal distribution, not ours."""
    error = NormalDist(volts, 0.7)
    found = chances(trade, siphon, volts)
    assert found["none"] == pytest.approx(error.cdf(9.5), abs=1e-12)
    assert found["low"] == pytest.approx(error.cdf(107.5) - error.cdf(9.5), abs=1e-12)
    assert found["right"] == pytest.approx(error.cdf(131.5) - error.cdf(107.5), abs=1e-12)
    assert found["high"] == pytest.approx(1 - error.cdf(131.5), abs=1e-12)
    assert found[CANNOT] == 0.0


@pytest.mark.parametrize(("volts", "band"), [(107.49, "low"), (107.5, "right"), (9.49, "none"), (131.6, "high")])
def test_without_error_the_rounded_value_decides(trade: Trade, siphon: Unit, volts: float, band: str) -> None:
    found = chances(trade, siphon, volts, error=0.0)
    assert found[band] == 1.0
    assert sum(found.values()) == 1.0


def test_every_probability_is_the_share_of_drawn_readings(trade: Trade, unit: Unit) -> None:
    """Every check on every fault mode: 200 drawn readings against the exact row, by Bernstein's bound at e^-8."""
    singles = [((fault, fault.severities[0]),) for fault in trade.faults.values() if fault.applies_to(unit)]
    checks = [one for one in trade.checks.values() if one.applies_to(unit)]
    arrangements = {str(check.changes): check.changes for check in checks}
    runs = {name: simulate(unit, singles, changes) for name, changes in arrangements.items()}
    rng = chance_of(2026)
    for check in checks:
        run = runs[str(check.changes)]
        rows = verdict_probabilities(unit, check, run)
        np.testing.assert_allclose(rows.sum(axis=1), 1.0, atol=1e-12)
        case = int(np.argmin(rows.max(axis=1)))  # the case that is least sure
        count = Counter(draw(unit, check, run, case, rng)[1] for _ in range(200))
        for outcome, chance in zip(outcomes(unit, check), rows[case], strict=True):
            allowed = math.sqrt(2 * 8 * chance * (1 - chance) / 200) + 2 * 8 / (3 * 200)
            assert abs(count[outcome] / 200 - chance) <= allowed


@settings(max_examples=20, deadline=None)
@given(
    volts=st.floats(0.0, 150.0),
    resolution=st.sampled_from([0.1, 0.5, 1.0, 2.0]),
    error=st.sampled_from([0.0, 0.3, 5.0]),
)
def test_rows_add_up_to_one_and_never_go_below_zero(
    trade: Trade, siphon: Unit, volts: float, resolution: float, error: float
) -> None:
    row = list(chances(trade, siphon, volts, resolution=resolution, error=error).values())
    assert sum(row) == pytest.approx(1.0, abs=1e-12)
    assert min(row) >= 0.0


def test_what_stands_at_zero_never_reads_below_zero(trade: Trade, siphon: Unit) -> None:
    bands = (Band("less", None, 0.0, "below zero"), Band("more", 0.0, None, "zero or more"))
    check = check_on(trade, "control.line", error=5.0, bands=bands)
    run = simulate(siphon, [()], [put("supply", "volts", 0.0)], duration=5.0)
    assert verdict_probabilities(siphon, check, run)[0].tolist() == [0.0, 1.0, 0.0]
    drawn = [draw(siphon, check, run, 0, chance_of(seed)) for seed in range(20)]
    assert min(value for value, _ in drawn if value is not None) == 0.0
    assert {outcome for _, outcome in drawn} == {"more"}


def test_cannot_where_the_moment_never_comes_or_there_is_nothing_to_read(trade: Trade, siphon: Unit) -> None:
    check = next(one for one in trade.checks.values() if one.given and one.signal == "sensor.cell")
    dead = simulate(siphon, [()], [put("supply", "volts", 0.0)])
    dark = simulate(siphon, [()], [put("transformer", "output", 0.0)])
    for run in (dead, dark):
        assert math.isnan(true_values(siphon, check, run)[0])
        assert verdict_probabilities(siphon, check, run)[0].tolist() == [0.0] * len(check.bands) + [1.0]
        assert draw(siphon, check, run, 0, chance_of(1)) == (None, CANNOT)
    assert shown(siphon, check, None) == check.cannot == "no flame to measure"


def test_over_the_range_of_the_meter_is_certain_and_shown_so(trade: Trade, siphon: Unit) -> None:
    check = check_on(trade, "sensor.covered")
    run = simulate(siphon, [()], [put("sensor", "open", 1.0)], duration=5.0)
    value, outcome = draw(siphon, check, run, 0, chance_of(1))
    assert outcome == check.bands[-1].id
    assert verdict_probabilities(siphon, check, run)[0, -2] == 1.0
    assert shown(siphon, check, value) == "OL (over 2,000 kΩ)"


def test_shown_as_the_instrument_writes_it(trade: Trade, siphon: Unit) -> None:
    secondary = check_on(trade, "transformer.secondary")
    assert shown(siphon, secondary, 8.3) == "8.3 kV"
    assert shown(siphon, check_on(trade, "control.line"), 107.0) == "107 V"
    assert shown(siphon, check_on(trade, "exchanger.oxygen"), 6.3) == "6.3%"
    assert shown(siphon, check_on(trade, "nozzle.air"), 10.0) == "10.0 psig"
    seen = check_on(trade, "electrode.spark")
    assert shown(siphon, seen, 1.0) == "Steady blue spark across the tines"
    assert shown(siphon, seen, 0.9) == "Thin yellow spark that wanders"
    assert decimals(0.25) == 2


def test_edges_are_counted_in_steps_of_the_display(trade: Trade, siphon: Unit) -> None:
    check = check_on(trade, "transformer.secondary")
    assert edge(siphon, check, "spark-voltage-low", missing=0.0) == 90.0
    assert edge(siphon, check, 1.0, missing=0.0) == 10.0
    assert edge(siphon, check, None, missing=-math.inf) == -math.inf


def test_drawing_takes_the_same_from_the_generator_whether_there_is_a_reading_or_not(
    trade: Trade, siphon: Unit
) -> None:
    check = check_on(trade, "exchanger.oxygen")
    one, two = chance_of(7), chance_of(7)
    draw(siphon, check, simulate(siphon, [()]), 0, one)
    draw(siphon, check, simulate(siphon, [()], [put("supply", "volts", 0.0)]), 0, two)
    assert one.random() == two.random()


def test_check_that_does_not_fit_is_refused(trade: Trade, siphon: Unit) -> None:
    check = next(one for one in trade.checks.values() if one.signal.startswith("pump."))
    with pytest.raises(ValueError, match="has nothing that check") as found:
        outcomes(siphon, check)
    assert str(found.value) == f"unit '{siphon.id}' has nothing that check '{check.id}' reads"
    with pytest.raises(ValueError, match="has nothing that check"):
        true_values(siphon, check, simulate(siphon, [()], duration=5.0))


def test_first_complaint_that_matches_is_told(trade: Trade, siphon: Unit) -> None:
    like = trade.complaints[0]

    def complaint(name: str, *when: Condition) -> Complaint:
        return Complaint(name, name, name, when, like.provenance)

    told = (
        complaint("of-another-unit", Condition("pump.flow", "ever", None, None)),
        complaint("runs", Condition("burner.flame", "run", 1.0, None)),
        complaint("lit-once", Condition("burner.flame", "ever", 1.0, None)),
        complaint("rest"),
    )
    run = simulate(siphon, [(), (), ()], duration=60.0)
    assert complaint_of(siphon, told, run) == ("runs", "runs", "runs")
    for change, name in ((put("sensor", "open", 1.0), "lit-once"), (put("supply", "volts", 0.0), "rest")):
        assert complaint_of(siphon, told, simulate(siphon, [()], [change], duration=60.0)) == (name,)
