"""The high limit: cold, hot, cooling down, bridged."""

import pytest

from courseware.heater.parts.limit import KIND
from tests.heater.bench import follow, settle

LIMIT = {"opens_at": 377.0, "closes_at": 350.0}


@pytest.mark.parametrize(
    ("closed", "bridged", "shell", "volts", "made"),
    [(1, 0, 300, 120, 1), (0, 0, 300, 0, 0), (1, 0, 380, 0, 0), (1, 1, 380, 120, 0), (0, 1, 300, 120, 0)],
)
def test_opens_hot_and_a_bridge_takes_its_place(
    closed: float, bridged: float, shell: float, volts: float, made: float
) -> None:
    found = settle(KIND, {"volts": 120.0, "shell": shell}, closed=closed, bridged=bridged, **LIMIT)
    assert (found["volts"], found["made"]) == (volts, made)


def test_closes_again_only_when_it_has_cooled() -> None:
    temperatures = [300.0, 376.0, 377.0, 360.0, 350.0, 349.0, 376.0]
    inputs = [{"volts": 120.0, "shell": one} for one in temperatures]
    assert follow(KIND, inputs, "made", **LIMIT) == [1, 1, 0, 0, 0, 1, 1]


def test_unwired_it_is_a_plain_contact() -> None:
    assert settle(KIND, {"volts": 120.0})["volts"] == 120.0
