from courseware.heater.parts.air_line import KIND
from tests.heater.bench import settle


def test_brings_the_pressure_unless_it_is_off_or_leaks() -> None:
    assert settle(KIND, {"pressure": 8e4})["pressure"] == 8e4
    assert settle(KIND, {"pressure": 8e4}, connected=0.0)["pressure"] == 0.0
    assert settle(KIND, {"pressure": 8e4}, leak=0.25)["pressure"] == 6e4
