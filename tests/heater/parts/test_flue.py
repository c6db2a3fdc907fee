"""The flue, recomputed from densities and from the three balances it solves."""

import itertools
import math
from typing import Any

import pytest

from courseware.heater.parts.flue import KIND
from tests.heater.bench import settle

AIR = 0.015  # m3/s, the rated air of the tests
GAS_CONSTANT = 8.314462618 / 0.0289647  # J/(kg K), dry air
KEEPS = 1.0  # no cooling in the chimney, so that its mean temperature is that at the breech


def flue(net: float = 230.0, air: float = AIR, resistance: float = 1.0, **given: float) -> dict[str, Any]:
    inputs = {"air": air, "net": net, "resistance": resistance}
    return settle(KIND, inputs, **{"rated_air": AIR, "height": 5.5, "keeps": KEEPS, **given})


def standing_draft(net: float, height: float, outdoor: float = 273.15, room: float = 293.15) -> float:
    """Return the weight of a column of outdoor air less that of the gas beside it [Pa]: densities, not the formula."""
    density = [101325.0 / (GAS_CONSTANT * kelvin) for kelvin in (outdoor, room + net)]
    return 9.80665 * height * (density[0] - density[1])


@pytest.mark.parametrize(("net", "height"), [(100.0, 5.0), (230.0, 5.5), (230.0, 9.0), (400.0, 3.0)])
def test_without_flow_it_pulls_what_the_densities_differ(net: float, height: float) -> None:
    """Blower off and regulator shut: nothing flows, so nothing rubs."""
    found = flue(net, air=0.0, height=height, stuck_shut=1.0)
    assert -found["breech"] == pytest.approx(standing_draft(net, height), rel=1e-4)
    assert found["over_fire"] == pytest.approx(found["breech"], abs=1e-6)


def test_draft_rises_with_height_and_with_flue_temperature() -> None:
    for low, high in itertools.pairwise((2.0, 4.0, 6.0, 9.0, 14.0)):
        assert -flue(height=high, stuck_shut=1.0)["breech"] > -flue(height=low, stuck_shut=1.0)["breech"]
    for cool, hot in itertools.pairwise((0.0, 60.0, 150.0, 250.0, 400.0)):
        assert -flue(hot, stuck_shut=1.0)["breech"] > -flue(cool, stuck_shut=1.0)["breech"]


def test_regulator_holds_its_set_draft_where_there_is_more() -> None:
    for height in (5.5, 8.0, 12.0):
        assert -flue(height=height)["breech"] == pytest.approx(12.5)
    assert -flue(height=1.5)["breech"] < 12.5  # it cannot make draft


@pytest.mark.parametrize("blockage", [0.0, 0.5, 0.8])
@pytest.mark.parametrize("suction", [0.0, 20.0])
@pytest.mark.parametrize("resistance", [1.0, 3.0])
def test_shut_regulator_leaves_one_stream_through_three_resistances(
    blockage: float, suction: float, resistance: float
) -> None:
    """Blower and chimney drive; burner, exchanger and chimney resist: found by halving the interval."""
    found = flue(stuck_shut=1.0, blockage=blockage, suction=suction, resistance=resistance)
    drive = 60.0 + standing_draft(230.0, 5.5) - suction
    chimney = 5.0 / (1.0 - blockage) ** 2

    def left(share: float) -> float:
        return drive - (60.0 + 5.0 + 7.5 * resistance + chimney) * share**2

    low, high = 0.0, 3.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if left(middle) > 0 else (low, middle)
    assert found["air"] / AIR == pytest.approx(low, rel=1e-3)
    assert -found["breech"] == pytest.approx(drive - 60.0 - chimney * low**2, abs=0.05)
    assert found["over_fire"] - found["breech"] == pytest.approx(7.5 * resistance * low**2, abs=0.05)


@pytest.mark.parametrize("height", [3.0, 5.5, 9.0])
def test_open_flap_lets_in_what_its_own_draft_draws(height: float) -> None:
    """Both streams go up the chimney, mixed; the flap passes in proportion to the root of draft."""
    found = flue(stuck_open=1.0, height=height)
    draft = -found["breech"]
    gas = math.sqrt((60.0 + 12.5) / (60.0 + 5.0 + 7.5))  # at the set draft, as the model takes it
    room_air = 3.0 * math.sqrt(draft / 12.5)
    taken = math.sqrt((60.0 + draft) / (60.0 + 5.0 + 7.5))
    pull = standing_draft(230.0 / (1.0 + room_air / taken), height)
    assert draft == pytest.approx(pull - 5.0 * (gas + room_air) ** 2, abs=0.6)
    assert draft < 12.5


def test_what_is_wrong_with_the_vent_shows_in_the_draft() -> None:
    sound = flue()
    assert sound["spill"] == 0.0
    for wrong in ({"stuck_open": 1.0}, {"blockage": 0.8}, {"suction": 30.0}, {"height": 0.5}):
        assert flue(**wrong)["breech"] > sound["breech"]
        assert flue(**wrong)["over_fire"] > sound["over_fire"]
    assert flue(stuck_shut=1.0)["breech"] < sound["breech"]
    blocked = flue(blockage=0.9)
    assert blocked["breech"] > 0.0
    assert blocked["spill"] > 0.0
    assert blocked["air"] < 0.7 * sound["air"]


def test_a_blocked_flue_shows_the_whole_pressure_of_the_blower() -> None:
    found = flue(blockage=1.0)
    assert found["air"] < 0.3 * AIR
    assert 50.0 < found["breech"] <= 60.0


def test_more_draft_over_the_fire_brings_more_air() -> None:
    """Root law: (60 + d) / (60 + 5) for a draft of d over the fire instead of 5 Pa."""
    found = flue(stuck_shut=1.0, height=9.0)
    assert found["air"] / AIR == pytest.approx(math.sqrt((60.0 - found["over_fire"]) / 65.0), rel=1e-6)


def test_shows_what_can_be_seen() -> None:
    assert flue()["flap"] == 1.0
    assert flue(stuck_open=1.0)["flap"] == 2.0
    assert flue(stuck_shut=1.0)["flap"] == 0.0
    assert (flue(blockage=0.4)["blockage"], flue(suction=20.0)["building"]) == (0.4, -20.0)
