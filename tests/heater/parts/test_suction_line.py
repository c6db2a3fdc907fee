from courseware.heater.parts.suction_line import KIND
from tests.heater.bench import settle


def test_a_leak_brings_air_with_the_oil() -> None:
    found = settle(KIND, {"oil": 4e-6}, leak=0.3)
    assert (found["oil"], found["bubbles"]) == (4e-6, 0.3)
    assert settle(KIND, {"oil": 4e-6})["bubbles"] == 0.0
