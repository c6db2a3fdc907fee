"""Flame, puddle and flue gas."""

from collections.abc import Mapping

import pytest

from courseware.heater.parts.burner import KIND
from tests.heater.bench import follow, settle

OIL = 1e-6
STOICHIOMETRIC = OIL * 880.0 * 14.2 / 1.2  # m3/s of air, from the kind's own densities
GOOD = {"oil": OIL, "spray": 1.0, "air": 1.4 * STOICHIOMETRIC, "spark": 1.11}


def burner(**inputs: float) -> dict[str, float]:
    return settle(KIND, {**GOOD, **inputs}, oil_flow=OIL)


def lights_after(spark: float) -> float:
    flame = follow(KIND, [{**GOOD, "spark": spark}] * 40, "flame", oil_flow=OIL)
    return (flame.index(1.0) + 1) * 0.5


@pytest.mark.parametrize(
    "missing",
    [{"oil": 0.0}, {"spray": 0.2}, {"air": 0.0}, {"spark": 0.0}, {"spark": 0.99}, {"air": 5 * STOICHIOMETRIC}],
)
def test_no_flame_without_spray_air_and_spark(missing: Mapping[str, float]) -> None:
    assert burner()["flame"] == 1.0
    assert burner(**missing)["flame"] == 0.0


def test_flame_stands_without_spark_once_lit() -> None:
    lit = [GOOD] * 5 + [{**GOOD, "spark": 0.0}] * 5
    assert follow(KIND, lit, "flame", oil_flow=OIL)[-5:] == [1.0] * 5
    starved = [GOOD] * 5 + [{**GOOD, "oil": 0.0}]
    assert follow(KIND, starved, "flame", oil_flow=OIL)[-1] == 0.0


def test_a_spark_that_is_just_enough_lights_late_and_with_a_puff() -> None:
    assert lights_after(1.2) == 1.0
    assert lights_after(1.0) == 6.0
    assert lights_after(1.05) == pytest.approx(3.5)
    late = settle(KIND, {**GOOD, "spark": 1.0}, oil_flow=OIL)
    assert late["puff"] == pytest.approx(6.0)  # seconds of rated flow lay in the chamber
    assert burner()["puff"] == pytest.approx(1.0)


def test_oil_that_does_not_burn_pools() -> None:
    """Oil in is oil burned or oil in the chamber: 20 s of 1 mL/s is 20 mL."""
    assert settle(KIND, {**GOOD, "spark": 0.0}, 40, oil_flow=OIL)["unburned"] == pytest.approx(2e-5)
    assert burner()["unburned"] == 0.0


@pytest.mark.parametrize(("excess", "oxygen"), [(0.2, 0.0369), (0.5, 0.0729)])
def test_oxygen_of_the_used_oil_surrogate(excess: float, oxygen: float) -> None:
    """Used-oil surrogate C85.5 H12.8 O1 S.5 (composition from memory); mole balance equal to cantera 3.2.0."""
    found = burner(air=(1 + excess) * STOICHIOMETRIC)
    assert found["oxygen"] == pytest.approx(oxygen, abs=2e-4)


def test_without_flame_the_flue_holds_air() -> None:
    assert burner(spark=0.0)["oxygen"] == pytest.approx(0.2095, abs=1e-4)
    assert burner(spark=0.0)["carbon_monoxide"] == 0.0


def test_a_poor_spray_smokes_and_makes_carbon_monoxide_with_oxygen_to_spare() -> None:
    poor, good, short = burner(spray=0.5), burner(), burner(air=0.9 * STOICHIOMETRIC)
    assert poor["oxygen"] >= good["oxygen"] > 0.05  # each CO leaves half an oxygen over
    for dirty in (poor, short):
        assert dirty["smoke"] > 4 > good["smoke"]
        assert dirty["carbon_monoxide"] > 5e-4 > good["carbon_monoxide"]
    assert short["oxygen"] == 0.0
