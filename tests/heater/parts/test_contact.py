import pytest

from courseware.heater.parts.contact import KIND
from tests.heater.bench import settle


@pytest.mark.parametrize(("closed", "bridged", "volts"), [(1, 0, 120), (0, 0, 0), (0, 1, 120), (1, 1, 120)])
def test_passes_if_made_or_bridged(closed: float, bridged: float, volts: float) -> None:
    assert settle(KIND, {"volts": 120.0}, closed=closed, bridged=bridged)["volts"] == volts
