"""The cell, against published resistances."""

import pytest

from courseware.heater.parts.base import OPEN_CIRCUIT
from courseware.heater.parts.flame_sensor import KIND
from tests.heater.bench import follow, settle


def ohms(flame: float = 0.0, trial: float = 0.0, **given: float) -> float:
    return float(settle(KIND, {"flame": flame, "trial": trial}, **given)["ohms"])


def test_published_ranges() -> None:
    """Trade web pages, component makers' manuals: flame 300 to 1,000 ohm, dark 1 Mohm typical, 50 kohm at least."""
    assert 300 <= ohms(flame=1.0) <= 1000
    assert ohms() == pytest.approx(1e6)


def test_open_is_infinite_and_short_is_zero() -> None:
    """The same pages: infinite means open, 0 means short."""
    assert ohms(flame=1.0, open=1.0) == OPEN_CIRCUIT
    assert ohms(short=1.0) == 0.0


def test_over_1600_but_not_infinite_is_dirty() -> None:
    """The same pages: over 1,600 ohm but not infinite is dirty or aimed wrong."""
    readings = [ohms(flame=1.0, soot=soot) for soot in (0.0, 0.1, 0.2, 0.5, 1.0)]
    assert readings == sorted(readings)
    assert readings[1] < 1600 < readings[2] < OPEN_CIRCUIT
    assert readings[-1] == pytest.approx(1e6)


def test_stray_light_is_seen_as_flame() -> None:
    """The same pages: room light reads below 10 kohm."""
    assert ohms(stray=0.7) < 10_000
    assert ohms(stray=1.0) == ohms(flame=1.0)


def test_bridge_lies_on_the_terminals_and_leaves_the_cell_as_it_is() -> None:
    found = settle(KIND, {"flame": 0.0, "trial": 0.0}, bridged=1.0, bridge_ohms=1000.0)
    assert found["ohms"] == 1000.0
    assert found["cell"] == pytest.approx(1e6)


def test_simulated_flame_comes_on_with_the_trial_and_stays() -> None:
    inputs = [{"flame": 0.0, "trial": volts} for volts in (0.0, 0.0, 120.0, 120.0, 0.0)]
    found = follow(KIND, inputs, "ohms", simulated=1.0, bridge_ohms=1000.0)
    assert found == [pytest.approx(1e6), pytest.approx(1e6), 1000.0, 1000.0, 1000.0]
