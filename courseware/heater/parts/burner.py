"""The burner head and chamber: spray, spark and air make a flame, or a puddle.

The bounds of burning, and smoke and carbon monoxide away from good adjustment, are common practice in words put into
numbers by us; oxygen follows from the mole balance.
"""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import PartKind, Port, Setting, Values
from courseware.physics.combustion import OXYGEN_IN_AIR, flue_gas_oxygen

_LEAST_SPRAY: Final = 0.35  # fineness below which the oil does not burn as a spray
_RICHEST, _LEANEST = 0.5, 3.0  # air over theoretical air between which a flame stands
_SLOWEST: Final = 6.0  # a spark that is just enough takes this many times the usual time to light
_TRACE: Final = 1e-12  # m3/s of oil, a drop in half a day: no oil for a flame
_FULL_RESERVE: Final = 0.1  # spark above the needed voltage, as a share of it, that lights in the usual time


def _start(_settings: Values) -> dict[str, Any]:
    return {"flame": 0.0, "lighting": 0.0, "unburned": 0.0, "puff": 0.0}


def _air_ratio(settings: Values, inputs: Values) -> Any:
    """Return combustion air over theoretical air [-]; 0 where there is no oil to speak of."""
    oil = np.maximum(inputs["oil"], _TRACE)
    needed = oil * settings["oil_density"] * settings["air_needed"] / settings["air_density"]
    return np.where(inputs["oil"] > _TRACE, inputs["air"] / needed, 0.0)


def _step(settings: Values, inputs: Values, memory: Values, dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    ratio = _air_ratio(settings, inputs)
    burns = (inputs["spray"] >= _LEAST_SPRAY) & (ratio >= _RICHEST) & (ratio <= _LEANEST)
    reserve = np.clip((inputs["spark"] - 1.0) / _FULL_RESERVE, 0.0, 1.0)
    wait = settings["light_time"] * (_SLOWEST - (_SLOWEST - 1.0) * reserve)
    lighting = np.where(burns & (inputs["spark"] >= 1.0), memory["lighting"] + dt / wait, 0.0)
    was_lit = memory["flame"] >= 1.0
    lit = burns & (was_lit | (lighting >= 1.0))
    pooled = memory["unburned"] + inputs["oil"] * dt
    kept = {
        "flame": np.where(lit, 1.0, 0.0),
        "lighting": lighting,
        "unburned": np.where(lit, 0.0, pooled),
        "puff": np.where(lit & ~was_lit, np.maximum(memory["puff"], pooled / settings["oil_flow"]), memory["puff"]),
    }
    return {**_flue_gas(lit, ratio, inputs["spray"]), **{key: kept[key] for key in _SHOWN}}, kept


_SHOWN: Final = ("flame", "unburned", "puff")


def _flue_gas(lit: Any, ratio: Any, spray: Any) -> dict[str, Any]:
    poor_spray = 1.0 - spray
    short_of_air = np.clip((1.15 - ratio) / 0.4, 0.0, 1.0)
    excess = np.clip(ratio - 1.0, 0.0, _LEANEST)
    return {
        "oxygen": np.where(lit, flue_gas_oxygen(excess, 0.9366), OXYGEN_IN_AIR),
        "carbon_monoxide": np.where(lit, 2e-5 + 2e-3 * poor_spray + 4e-3 * short_of_air, 0.0),
        "smoke": np.where(lit, np.minimum(9.0 * (poor_spray + short_of_air), 9.0), 0.0),
    }


KIND: Final = PartKind(
    name="burner",
    meaning="burner head and combustion chamber",
    settings=(
        Setting("oil_flow", "m3/s", None, 1e-8, 1e-4, "oil flow it is rated for"),
        Setting("light_time", "s", 1.0, 0.1, 10.0, "time to light with a full spark"),
        Setting("air_needed", "", 14.2, 10.0, 18.0, "theoretical air per mass of oil"),
        Setting("oil_density", "kg/m3", 880.0, 700.0, 1000.0, "density of the oil"),
        Setting("air_density", "kg/m3", 1.2, 0.5, 1.5, "density of the combustion air"),
    ),
    inputs=(
        Port("oil", "m3/s", "oil that reaches the chamber"),
        Port("spray", "", "fineness of the spray"),
        Port("air", "m3/s", "combustion air"),
        Port("spark", "", "spark at the tines; 1 is just enough"),
    ),
    outputs=(
        Port("flame", "", "1 while there is flame"),
        Port("oxygen", "", "oxygen in the dry flue gas, volume fraction"),
        Port("carbon_monoxide", "", "carbon monoxide in the dry flue gas, volume fraction"),
        Port("smoke", "", "smoke spot number, 0 to 9"),
        Port("unburned", "m3", "oil in the chamber that has not burned"),
        Port("puff", "s", "seconds of rated oil flow that lay unburned when the flame lit"),
    ),
    start=_start,
    step=_step,
)
