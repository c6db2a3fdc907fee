import pytest

from courseware.heater.parts.metered_nozzle import KIND
from tests.heater.bench import settle


def test_oil_comes_whether_there_is_air_or_not() -> None:
    assert settle(KIND, {"air": 0.0, "oil": 2e-6}, rated_air=8e4)["oil"] == 2e-6
    assert settle(KIND, {"air": 8e4, "oil": 2e-6}, rated_air=8e4)["oil"] == 2e-6
    assert settle(KIND, {"air": 0.0, "oil": 2e-6}, rated_air=8e4)["spray"] == 0.0
    assert settle(KIND, {"air": 4e4, "oil": 2e-6}, rated_air=8e4)["spray"] == pytest.approx(0.5)


def test_line_led_into_a_beaker_still_flows() -> None:
    found = settle(KIND, {"air": 8e4, "oil": 2e-6}, rated_air=8e4, connected=0.0)
    assert found["oil"] == 0.0
    assert found["fed"] == 2e-6
