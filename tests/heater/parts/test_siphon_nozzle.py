import pytest

from courseware.heater.parts.siphon_nozzle import KIND
from tests.heater.bench import settle

RATED = {"flow": 1e-6, "rated_air": 7e4}


def nozzle(air: float, oil: float = 4e-6, **given: float) -> dict[str, float]:
    return settle(KIND, {"air": air, "oil": oil}, **RATED, **given)


def test_no_air_no_oil() -> None:
    assert nozzle(0.0)["oil"] == 0.0
    assert nozzle(1e4)["oil"] == 0.0  # too little to lift it
    assert nozzle(7e4)["oil"] == pytest.approx(1e-6)


def test_more_air_draws_more_oil_up_to_a_point() -> None:
    assert nozzle(3.5e4)["oil"] == pytest.approx(0.5e-6)
    assert nozzle(7.7e4)["oil"] == pytest.approx(1.1e-6)
    assert nozzle(2e5)["oil"] == pytest.approx(1.2e-6)


def test_draws_no_more_than_the_line_gives() -> None:
    assert nozzle(7e4, oil=3e-7)["oil"] == 3e-7
    assert nozzle(7e4, connected=0.0)["oil"] == 0.0


def test_spray_is_as_fine_as_the_air_makes_it() -> None:
    assert nozzle(3.5e4)["spray"] == pytest.approx(0.5)
    assert nozzle(9e4)["spray"] == 1.0
