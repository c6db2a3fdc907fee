"""Heat and gas through the exchanger, recomputed from the balances."""

import math
from typing import Any

import pytest

from courseware.heater.parts.exchanger import KIND
from tests.heater.bench import follow, settle

RATED = {
    "rated_gas": 0.02, "gas_conductance": 50.0, "air_conductance": 620.0, "heat_capacity": 2e4, "fan_air": 0.7,
}  # fmt: skip
FIRE = {"heat": 4e4, "gas": 0.02, "oxygen": 0.06, "carbon_dioxide": 0.11, "carbon_monoxide": 2e-5}
STEPS = 600  # half-seconds: warm


def exchanger(steps: int = STEPS, inputs: dict[str, float] | None = None, **given: float) -> dict[str, Any]:
    return settle(KIND, {**FIRE, **(inputs or {})}, steps, **{**RATED, **given})


def test_what_the_gas_loses_the_air_gains() -> None:
    """40 kW less m cp (stack - room): 0.02 kg/s of 1,150 J/(kg K); the air 0.7 m3/s of 1,206 J/(m3 K)."""
    found = exchanger()
    to_room = 4e4 - 0.02 * 1150.0 * found["net"]
    assert found["rise"] * 0.7 * 1206.0 == pytest.approx(to_room, rel=1e-6)


def test_stack_temperature_is_that_of_an_exchanger_of_one_stream() -> None:
    """exp(-UA / m cp) of the gas's temperature over the shell is left; the settled shell is where it really settles."""
    found = exchanger()
    shell = found["shell"] - 293.15
    left = math.exp(-50.0 / (0.02 * 1150.0))
    assert found["net"] == pytest.approx(shell + (4e4 / 23.0 - shell) * left, rel=1e-3)


def test_soot_makes_a_hotter_stack_and_less_warm_air() -> None:
    found = [exchanger(soot=soot) for soot in (0.0, 0.3, 0.6, 1.0)]
    assert [one["net"] for one in found] == sorted(one["net"] for one in found)
    assert [one["rise"] for one in found] == sorted((one["rise"] for one in found), reverse=True)
    assert found[-1]["resistance"] > found[0]["resistance"] == 1.0


def test_more_air_than_needed_carries_heat_up_the_stack() -> None:
    """The same heat in half as much gas again: a hotter stack, less to the room."""
    usual, much = exchanger(), exchanger(inputs={"gas": 0.03})
    assert much["net"] > usual["net"]
    assert much["rise"] < usual["rise"]


def test_fan_comes_on_when_the_shell_is_warm_and_stays_until_it_is_cool() -> None:
    """On at 140 F, off below 98 F (about 130-150 F and 90-110 F, common practice)."""
    fire, out = {**FIRE}, {**FIRE, "heat": 0.0}
    fan = follow(KIND, [fire] * 120 + [out] * 900, "fan", **RATED)
    shell = follow(KIND, [fire] * 120 + [out] * 900, "shell", **RATED)
    on = fan.index(1.0)
    assert shell[on] >= 333.15 > shell[on - 1]
    off = fan.index(0.0, on)
    assert off > 120
    assert shell[off] < 310.0 <= shell[off - 1]


def test_without_air_the_shell_runs_away_past_any_limit() -> None:
    assert exchanger(fan_works=0.0)["shell"] > 400.0
    assert exchanger(airflow=0.1)["shell"] > 400.0
    assert exchanger(inputs={"volts": 0.0})["fan"] == 0.0
    assert exchanger()["shell"] < 360.0


def test_a_crack_lets_the_fans_air_into_the_stack_gas() -> None:
    """12 % room air: oxygen and carbon dioxide as a mixture of 88 parts gas and 12 parts air."""
    found = exchanger(crack=1.0)
    assert found["oxygen"] == pytest.approx(0.88 * 0.06 + 0.12 * 0.20946)
    assert found["carbon_dioxide"] == pytest.approx(0.88 * 0.11)
    assert found["oxygen_step"] == pytest.approx(found["oxygen"] - 0.06)
    assert exchanger()["oxygen_step"] == 0.0


def test_monoxide_in_the_room_is_what_comes_over_what_the_fresh_air_takes() -> None:
    assert exchanger()["room_monoxide"] == 0.0
    found = exchanger(inputs={"spill": 0.004, "carbon_monoxide": 1e-3}, ventilation=0.08)
    assert found["room_monoxide"] == pytest.approx(1e-3 * 0.004 / 0.08)
    drawn = exchanger(inputs={"carbon_monoxide": 1e-3}, crack=1.0)["room_monoxide"]
    lifted = exchanger(inputs={"carbon_monoxide": 1e-3, "over_fire": 5.0}, crack=1.0)["room_monoxide"]
    assert lifted == pytest.approx(10 * drawn)


def test_air_free_is_what_no_excess_air_would_read() -> None:
    """20 ppm at 6 % oxygen: 20 x 20.9 / 14.9 = 28.05 ppm."""
    assert exchanger()["monoxide_air_free"] == pytest.approx(28.05e-6, rel=1e-3)


def test_without_fire_the_stack_is_as_cold_as_the_room() -> None:
    found = exchanger(inputs={"heat": 0.0, "oxygen": 0.20946, "carbon_dioxide": 0.0, "carbon_monoxide": 0.0})
    assert found["net"] == found["rise"] == found["room_monoxide"] == 0.0
    assert found["shell"] == pytest.approx(293.15)
