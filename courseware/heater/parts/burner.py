"""The burner head and chamber: spray, spark and air make a flame, or a puddle.

The bounds of burning, and smoke and the share of carbon that burns to monoxide away from good adjustment, are common
practice in words put into numbers by us; all three gases follow from the mole balance, so they lie on the fuel's line.
Where air is short the missing oxygen is made up by carbon burning to monoxide alone; when all of it does, the model
ends, far beyond the range of any analyzer.
"""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import PartKind, Port, Setting, Values
from courseware.physics.combustion import OXYGEN_IN_AIR
from courseware.physics.flue_gas import dry_flue_gas

_LEAST_SPRAY: Final = 0.35  # fineness below which the oil does not burn as a spray
_RICHEST, _LEANEST = 0.5, 3.0  # air over theoretical air between which a flame stands
_SLOWEST: Final = 6.0  # a spark that is just enough takes this many times the usual time to light
_TRACE: Final = 1e-12  # m3/s of oil, a drop in half a day: no oil for a flame
# Dry gas per theoretical air, and CO2 at most, of a used-oil surrogate C 85.5, H 12.8, O 1, S 0.5 % (from memory).
_DRY_GAS, _CO2_MAX = 0.9366, 0.155
_CARBON_HEAT: Final = 0.5  # of the heat, what is lost if all carbon burns to monoxide (by heats of formation, rounded)
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
    share = _monoxide_share(ratio, inputs["spray"])
    heat = inputs["oil"] * settings["oil_density"] * settings["heating_value"] * (1.0 - _CARBON_HEAT * share)
    shown = {
        **_flue_gas(lit, ratio, inputs["spray"], share),
        **{key: kept[key] for key in _SHOWN},
        "heat": np.where(lit, heat, 0.0),
        "gas": inputs["air"] * settings["air_density"] + np.where(lit, inputs["oil"] * settings["oil_density"], 0.0),
    }
    return shown, kept


_SHOWN: Final = ("flame", "unburned", "puff")


def _short_of_air(ratio: Any) -> Any:
    return np.clip((1.15 - ratio) / 0.4, 0.0, 1.0)


def _monoxide_share(ratio: Any, spray: Any) -> Any:
    """Return the share of the carbon that burns to monoxide [-]: coarse spray, short air, or much air that chills."""
    chilled = np.clip((ratio - 1.9) / 1.1, 0.0, 1.0)
    badly = 2e-4 + 0.015 * (1.0 - spray) + 0.03 * _short_of_air(ratio) + 0.01 * chilled
    missing = 2.0 * OXYGEN_IN_AIR * (1.0 - ratio) / (_DRY_GAS * _CO2_MAX)
    return np.clip(np.maximum(badly, missing), 0.0, 1.0)


def _flue_gas(lit: Any, ratio: Any, spray: Any, share: Any) -> dict[str, Any]:
    oxygen, dioxide, monoxide = dry_flue_gas(np.clip(ratio, _RICHEST, _LEANEST) - 1.0, share, _DRY_GAS, _CO2_MAX)
    return {
        "oxygen": np.where(lit, oxygen, OXYGEN_IN_AIR),
        "carbon_dioxide": np.where(lit, dioxide, 0.0),
        "carbon_monoxide": np.where(lit, monoxide, 0.0),
        "smoke": np.where(lit, np.minimum(9.0 * (1.0 - spray + _short_of_air(ratio)), 9.0), 0.0),
    }


KIND: Final = PartKind(
    name="burner",
    meaning="burner head and combustion chamber",
    settings=(
        Setting("oil_flow", "m3/s", None, 1e-8, 1e-4, "oil flow it is rated for"),
        Setting("light_time", "s", 1.0, 0.1, 10.0, "time to light with a full spark"),
        Setting("air_needed", "", 14.2, 10.0, 18.0, "theoretical air per mass of oil"),
        Setting("oil_density", "kg/m3", 880.0, 700.0, 1000.0, "density of the oil"),
        Setting("heating_value", "J/kg", 42.8e6, 35e6, 46e6, "lower heating value of the oil"),
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
        Port("carbon_dioxide", "", "carbon dioxide in the dry flue gas, volume fraction"),
        Port("carbon_monoxide", "", "carbon monoxide in the dry flue gas, volume fraction"),
        Port("smoke", "", "smoke spot number, 0 to 9"),
        Port("unburned", "m3", "oil in the chamber that has not burned"),
        Port("heat", "W", "heat released"),
        Port("gas", "kg/s", "flue gas, or air where nothing burns"),
        Port("puff", "s", "seconds of rated oil flow that lay unburned when the flame lit"),
    ),
    start=_start,
    step=_step,
)
