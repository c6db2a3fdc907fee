import pytest

from courseware.heater.parts.pressure_switch import KIND
from tests.heater.bench import settle


@pytest.mark.parametrize(
    ("pressure", "works", "bridged", "closed"),
    [(5e4, 1, 0, 1), (4e4, 1, 0, 1), (3e4, 1, 0, 0), (5e4, 0, 0, 0), (0, 1, 1, 1), (0, 0, 1, 1)],
)
def test_closes_on_pressure_or_by_a_bridge(pressure: float, works: float, bridged: float, closed: float) -> None:
    found = settle(KIND, {"pressure": pressure}, closes_at=4e4, works=works, bridged=bridged)
    assert found["closed"] == closed
