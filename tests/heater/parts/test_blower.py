import pytest

from courseware.heater.parts.blower import KIND
from tests.heater.bench import settle


def test_blows_at_full_speed() -> None:
    found = settle(KIND, {"volts": 120.0}, flow=0.02)
    assert found["speed"] == pytest.approx(1.0)
    assert found["air"] == pytest.approx(0.02)
    assert settle(KIND, {"volts": 120.0}, flow=0.02, band=0.5)["air"] == pytest.approx(0.01)


def test_stands_without_voltage_or_with_a_failed_motor() -> None:
    assert settle(KIND, {"volts": 0.0}, flow=0.02)["air"] == 0.0
    assert settle(KIND, {"volts": 70.0}, flow=0.02)["air"] == 0.0
    assert settle(KIND, {"volts": 120.0}, flow=0.02, works=0.0)["air"] == 0.0
