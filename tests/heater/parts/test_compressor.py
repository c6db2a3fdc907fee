import pytest

from courseware.heater.parts.compressor import KIND
from tests.heater.bench import follow, settle


def test_builds_pressure_only_while_it_turns() -> None:
    assert settle(KIND, {"volts": 120.0}, pressure=1.4e5)["pressure"] == pytest.approx(1.4e5)
    assert settle(KIND, {"volts": 120.0}, pressure=1.4e5, works=0.0)["pressure"] == 0.0
    assert settle(KIND, {"volts": 60.0}, pressure=1.4e5)["pressure"] == 0.0


def test_pressure_rises_and_falls_by_its_time_constant() -> None:
    inputs = [{"volts": 120.0}] * 3 + [{"volts": 0.0}] * 2
    assert follow(KIND, inputs, "pressure", pressure=80.0, rise_time=1.0) == [40.0, 60.0, 70.0, 35.0, 17.5]
