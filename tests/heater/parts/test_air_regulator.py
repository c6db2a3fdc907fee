from courseware.heater.parts.air_regulator import KIND
from tests.heater.bench import settle


def test_holds_its_setpoint_and_cannot_raise_pressure() -> None:
    assert settle(KIND, {"pressure": 7e5}, setpoint=7e4)["pressure"] == 7e4
    assert settle(KIND, {"pressure": 3e4}, setpoint=7e4)["pressure"] == 3e4
    assert settle(KIND, {"pressure": 7e5}, setpoint=0.0)["pressure"] == 0.0
