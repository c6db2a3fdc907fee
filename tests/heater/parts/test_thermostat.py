from courseware.heater.parts.thermostat import KIND
from tests.heater.bench import follow


def test_calls_at_its_time() -> None:
    assert follow(KIND, [{}] * 6, "call", calls_at=2.0) == [0, 0, 0, 0, 1, 1]


def test_never_calls_if_its_wiring_is_open() -> None:
    assert follow(KIND, [{}] * 6, "call", calls_at=0.0, works=0.0) == [0] * 6
