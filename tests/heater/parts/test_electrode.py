"""The spark: gap, contact and porcelain."""

import pytest

from courseware.heater.parts.electrode import KIND, sparkover
from tests.heater.bench import settle

RATED = {"gap": 0.004, "rated_gap": 0.004}


def spark(volts: float, **given: float) -> float:
    return float(settle(KIND, {"volts": volts}, **{**RATED, **given})["spark"])


def test_rated_gap_needs_9000_volts() -> None:
    """Trade magazines: the spark needs more than 9,000 VAC."""
    assert spark(9000.0) == pytest.approx(1.0)
    assert spark(8333.0) < 1.0 < spark(10_000.0)


def test_each_millimeter_asks_what_the_needle_table_says() -> None:
    """AIEE table: 10 kV peak at 8.5 mm, in proportion below: 1.176 kV peak, 0.832 kV rms, a millimeter."""
    needed = 9000.0 + 10_000.0 / 8.5 / 2**0.5
    assert spark(needed, gap=0.005) == pytest.approx(1.0)
    assert spark(needed, post_gap=0.001) == pytest.approx(1.0)


def test_no_spark_where_the_peak_does_not_jump() -> None:
    """12 mm at the posts and 4 mm at the tines: 18.3 kV peak by the table, and 10 kV rms is 14.1 kV peak."""
    assert spark(10_000.0, post_gap=0.012) == 0.0
    assert 0.0 < spark(10_000.0, post_gap=0.003) < 1.0


def test_cracked_porcelain_takes_its_share() -> None:
    assert spark(10_000.0, crack=0.1) == pytest.approx(spark(9000.0))
    assert spark(10_000.0, crack=1.0) == 0.0
    assert spark(0.0) == 0.0


def test_sparkover_beyond_the_table_is_decided_here() -> None:
    assert sparkover(0.00425) == pytest.approx(5000.0)  # in proportion below 8.5 mm
    assert sparkover(0.0) == 0.0
    assert sparkover(0.0127) == pytest.approx(14_667, abs=1)  # inside it, the table
    assert sparkover(0.2) == 50_000.0  # as the longest gap above it


def test_shows_what_can_be_inspected() -> None:
    found = settle(KIND, {"volts": 0.0}, gap=0.005, rated_gap=0.004, post_gap=0.002, crack=0.3)
    assert (found["gap"], found["post_gap"], found["crack"]) == (0.005, 0.002, 0.3)
