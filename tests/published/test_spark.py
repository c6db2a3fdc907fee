"""Ignition formulas against published values."""

import pytest

from courseware.physics.spark import (
    air_density_factor,
    least_line_voltage,
    needle_sparkover_voltage,
    peak_voltage,
    transformer_secondary_voltage,
)


def test_transformer_of_the_night_time_lockout() -> None:
    """Trade magazine's story: line at about 100 V, lockout; "the spark needs more than 9,000 VAC"."""
    volts = transformer_secondary_voltage(100.0, 120.0, 10e3)
    assert volts == pytest.approx(8333, abs=0.5)
    assert volts < 9000


def test_threshold_line_voltage() -> None:
    """90 % of 120 V, from the same two published figures."""
    assert least_line_voltage(9000.0, 120.0, 10e3) == pytest.approx(108.0)


def test_turns_ratio() -> None:
    """120 V to 10,000 V: 83.3. A study card's "90 to 1" would give 10,800 V; we do not follow it."""
    assert transformer_secondary_voltage(120.0, 120.0, 10e3) / 120.0 == pytest.approx(83.3, abs=0.05)


def test_peak_of_open_circuit() -> None:
    """10,000 V rms is 14.1 kV peak (definition); a 15,000 V open circuit is 21.2 kV peak."""
    assert peak_voltage(10e3) == pytest.approx(14.1e3, abs=50)
    assert peak_voltage(15e3) == pytest.approx(21.2e3, abs=50)


@pytest.mark.parametrize(
    ("kilovolts", "centimeters"),
    [(10, 0.85), (15, 1.30), (20, 1.75), (25, 2.20), (30, 2.69), (35, 3.20), (40, 3.81), (50, 5.20)],
)
def test_needle_table(kilovolts: float, centimeters: float) -> None:
    """AIEE sparkover between needles, 760 mmHg, 25 °C, peak (a hobby page's copy, second hand)."""
    assert needle_sparkover_voltage(centimeters / 100) == pytest.approx(kilovolts * 1e3)


@pytest.mark.parametrize(("inches", "kilovolts"), [(1 / 2, 14.7), (5 / 8, 18.2), (3 / 4, 21.7)])
def test_needle_gap_in_inches(inches: float, kilovolts: float) -> None:
    """An igniter of 14 to 20 kV peak has a test arc of 1/2 to 5/8 in (trade magazines), as the table has it.

    3/4 in, a home-repair web page's test of a good transformer, needs 21.7 kV peak: more than the 14.1 kV of an
    open 10,000 V transformer. It is possible only as a drawn arc, so no lesson may ask for it.
    """
    assert needle_sparkover_voltage(inches * 0.0254) / 1e3 == pytest.approx(kilovolts, abs=0.06)


@pytest.mark.parametrize(("celsius", "millimeters", "printed"), [(10, 740, 1.02), (20, 760, 1.02), (30, 740, 0.96)])
def test_density_factor_table(celsius: float, millimeters: float, printed: float) -> None:
    """AIEE table of correction factors (second hand), printed to two places, ±0.006."""
    factor = air_density_factor(millimeters / 760 * 101325, 273.15 + celsius)
    assert factor == pytest.approx(printed, abs=0.006)


def test_density_factor_is_peeks() -> None:
    """Peek, 3.92 b / (273 + t) with b in cmHg, from memory: 1.000 at 76 cm and 25 °C."""
    for cm, celsius in ((76.0, 25.0), (70.0, 10.0), (60.0, 40.0)):
        assert air_density_factor(cm / 76 * 101325, 273.15 + celsius) == pytest.approx(
            3.92 * cm / (273 + celsius), rel=1e-3
        )
