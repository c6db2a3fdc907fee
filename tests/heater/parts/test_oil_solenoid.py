from courseware.heater.parts.base import OPEN_CIRCUIT
from courseware.heater.parts.oil_solenoid import KIND
from tests.heater.bench import settle


def test_passes_oil_only_when_pulled_in() -> None:
    assert settle(KIND, {"volts": 120.0, "oil": 2e-6})["oil"] == 2e-6
    assert settle(KIND, {"volts": 0.0, "oil": 2e-6})["oil"] == 0.0
    assert settle(KIND, {"volts": 120.0, "oil": 2e-6}, coil=0.0)["oil"] == 0.0


def test_leak_passes_when_it_should_be_shut() -> None:
    assert settle(KIND, {"volts": 0.0, "oil": 2e-6}, leak=0.5)["oil"] == 1e-6
    assert settle(KIND, {"volts": 120.0, "oil": 2e-6}, leak=0.5)["oil"] == 2e-6


def test_coil_measures_as_it_is() -> None:
    assert settle(KIND, {"volts": 0.0, "oil": 0.0}, coil_ohms=800.0)["ohms"] == 800.0
    assert settle(KIND, {"volts": 0.0, "oil": 0.0}, coil_ohms=800.0, coil=0.0)["ohms"] == OPEN_CIRCUIT
