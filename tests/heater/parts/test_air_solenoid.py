from courseware.heater.parts.air_solenoid import KIND
from tests.heater.bench import settle


def test_passes_air_only_when_pulled_in() -> None:
    assert settle(KIND, {"volts": 120.0, "pressure": 7e4})["pressure"] == 7e4
    assert settle(KIND, {"volts": 0.0, "pressure": 7e4})["pressure"] == 0.0
    assert settle(KIND, {"volts": 60.0, "pressure": 7e4})["pressure"] == 0.0
    assert settle(KIND, {"volts": 120.0, "pressure": 7e4}, coil=0.0)["pressure"] == 0.0


def test_leak_passes_when_it_should_be_shut() -> None:
    assert settle(KIND, {"volts": 0.0, "pressure": 8e4}, leak=0.25)["pressure"] == 2e4
