from courseware.heater.parts.ac_supply import KIND
from tests.heater.bench import settle


def test_gives_its_voltage() -> None:
    assert settle(KIND, {})["volts"] == 120.0
    assert settle(KIND, {}, volts=100.0)["volts"] == 100.0
