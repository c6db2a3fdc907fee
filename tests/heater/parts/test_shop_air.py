from courseware.heater.parts.shop_air import KIND
from tests.heater.bench import settle


def test_is_there_before_the_burner_starts() -> None:
    assert settle(KIND, {}, 1, pressure=7e5)["pressure"] == 7e5
    assert KIND.features({}) == {"air_source": "shop"}
