from courseware.heater.parts.hand_valve import KIND
from tests.heater.bench import settle


def test_shuts_off_the_oil() -> None:
    assert settle(KIND, {"oil": 4e-6})["oil"] == 4e-6
    assert settle(KIND, {"oil": 4e-6}, open=0.0)["oil"] == 0.0
