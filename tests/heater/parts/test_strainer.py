from courseware.heater.parts.strainer import KIND
from tests.heater.bench import settle


def test_passes_what_its_free_screen_lets_through() -> None:
    assert settle(KIND, {"oil": 4e-6}, clean_flow=4e-6)["oil"] == 4e-6
    assert settle(KIND, {"oil": 4e-6}, clean_flow=4e-6, plugged=0.75)["oil"] == 1e-6
    assert settle(KIND, {"oil": 5e-7}, clean_flow=4e-6, plugged=0.75)["oil"] == 5e-7
    assert settle(KIND, {"oil": 4e-6}, clean_flow=4e-6, plugged=1.0)["oil"] == 0.0
    assert settle(KIND, {"oil": 4e-6}, clean_flow=4e-6, plugged=0.3)["plugged"] == 0.3
