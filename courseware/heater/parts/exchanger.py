"""The heat exchanger with the room fan: heat to the room, flue gas to the stack.

The gas side is an exchanger of one stream: of the gas's temperature over the shell, exp(−NTU) is left at the stack;
NTU falls with soot, and with more gas. Readings of the stack and of the air are the settled ones, of a heater that has
run warm; the shell itself warms over the run, and switches fan and limit. A crack lets the room fan blow air into the
gas, and lets gas out where the fire is under pressure. Carbon monoxide in the room is the settled value at the room's
ventilation.
"""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import RUNS_FROM, PartKind, Port, Setting, Values, approach
from courseware.physics.combustion import OXYGEN_IN_AIR, carbon_monoxide_air_free

_GAS_HEAT: Final = 1150.0  # J/(kg K), flue gas between stack and flame
_AIR_HEAT: Final = 1206.0  # J/(m3 K), room air
_GAS_DENSITY: Final = 1.2  # kg/m3, counted as cold air
_LEAST_GAS: Final = 1e-5  # kg/s
_STILL: Final = 0.1  # of the shell's cooling, what is left without the fan
_LIMITED: Final = 85.0  # K; the limit lets the shell settle no hotter than this above the room
_FLOW_POWER: Final = 0.3  # of the gas flow, in the coefficient of heat transfer
_SOOTED: Final = 0.5  # how much full soot adds to the resistance to heat
_CHOKED: Final = 2.0  # how much full soot adds to the resistance to flow
_LEAK_IN: Final = 0.12  # room air in the stack gas at the worst crack, with the fan on
_LEAK_OUT_LIFTED, _LEAK_OUT_DRAWN = 0.1, 0.01  # share of the gas that leaves by it, under pressure and under draft
_MOST_OXYGEN: Final = 0.19  # up to where an air-free reading means anything


def _start(settings: Values) -> dict[str, Any]:
    return {"shell": settings["room"], "fan": 0.0}


def _step(settings: Values, inputs: Values, memory: Values, dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    gas = np.maximum(inputs["gas"], _LEAST_GAS)
    capacity = gas * _GAS_HEAT
    flame = np.minimum(inputs["heat"] / capacity, 2200.0)  # K above the room
    conducts = settings["gas_conductance"] * (gas / settings["rated_gas"]) ** _FLOW_POWER
    left = np.exp(-conducts / (1.0 + _SOOTED * settings["soot"]) / capacity)
    works = (settings["fan_works"] >= 1.0) & (inputs["volts"] >= RUNS_FROM)
    settled_cooling = settings["air_conductance"] * np.where(works, np.maximum(settings["airflow"], _STILL), _STILL)
    taken = capacity * (1.0 - left)
    shell = np.minimum(taken * flame / (taken + settled_cooling), _LIMITED)
    net = shell + (flame - shell) * left
    blown = np.where(works, settings["fan_air"] * settings["airflow"], 0.0)
    rise = capacity * (flame - net) / (np.maximum(blown, 1e-3) * _AIR_HEAT)
    kept = _warm(settings, {"works": works, "taken": taken, "flame": flame}, memory, dt)
    outputs = {
        **_stack(settings, inputs, net),
        "soot": settings["soot"],
        "crack": settings["crack"],
        "resistance": 1.0 + _CHOKED * settings["soot"],
        "rise": np.where(blown > 0.0, np.minimum(rise, 300.0), 0.0),
        **kept,
    }
    return outputs, kept


def _warm(settings: Values, now: Values, memory: Values, dt: float) -> dict[str, Any]:
    """Return the shell's temperature and whether the fan turns, one step on."""
    taken = now["taken"]
    running = now["works"] & (memory["fan"] >= 1.0)
    cooling = settings["air_conductance"] * np.where(running, np.maximum(settings["airflow"], _STILL), _STILL)
    target = settings["room"] + taken * now["flame"] / (taken + cooling)
    shell = approach(memory["shell"], target, dt, settings["heat_capacity"] / (taken + cooling))
    wanted = (shell >= settings["fan_on"]) | ((memory["fan"] >= 1.0) & (shell >= settings["fan_off"]))
    return {"shell": shell, "fan": np.where(now["works"] & wanted, 1.0, 0.0)}


def _stack(settings: Values, inputs: Values, net: Any) -> dict[str, Any]:
    """Return what is measured behind the exchanger, with the room fan on, and what the room gets of it."""
    leak = _LEAK_IN * settings["crack"]
    oxygen = inputs["oxygen"] + leak * (OXYGEN_IN_AIR - inputs["oxygen"])
    monoxide = inputs["carbon_monoxide"] * (1.0 - leak)
    out = settings["crack"] * np.where(inputs["over_fire"] >= 0.0, _LEAK_OUT_LIFTED, _LEAK_OUT_DRAWN)
    into_room = inputs["spill"] + out * inputs["gas"] / _GAS_DENSITY
    fit = np.minimum(oxygen, _MOST_OXYGEN)
    return {
        "net": net * (1.0 - leak),
        "oxygen": oxygen,
        "oxygen_step": oxygen - inputs["oxygen"],
        "carbon_dioxide": inputs["carbon_dioxide"] * (1.0 - leak),
        "carbon_monoxide": monoxide,
        "monoxide_air_free": carbon_monoxide_air_free(np.minimum(monoxide, 0.05), fit),
        "room_monoxide": np.minimum(inputs["carbon_monoxide"] * into_room / settings["ventilation"], 0.05),
    }


KIND: Final = PartKind(
    name="exchanger",
    meaning="heat exchanger with the room fan",
    settings=(
        Setting("soot", "", 0.0, 0.0, 1.0, "ash and soot on the gas side; 1 is packed"),
        Setting("crack", "", 0.0, 0.0, 1.0, "crack between gas and room air; 1 is wide open"),
        Setting("rated_gas", "kg/s", None, 1e-3, 1.0, "flue gas as the unit is set"),
        Setting("gas_conductance", "W/K", None, 1.0, 1e3, "heat transfer from the gas to the clean shell at that flow"),
        Setting("air_conductance", "W/K", None, 10.0, 1e4, "heat transfer from the shell to the air with the fan on"),
        Setting("heat_capacity", "J/K", None, 1e3, 1e6, "heat capacity of the shell"),
        Setting("fan_air", "m3/s", None, 0.01, 10.0, "air the room fan moves"),
        Setting("airflow", "", 1.0, 0.05, 1.5, "share of that air that gets through"),
        Setting("fan_works", "", 1.0, 0.0, 1.0, "0 if the fan does not turn"),
        Setting("fan_on", "K", 333.15, 300.0, 370.0, "shell temperature at which the fan switch closes"),
        Setting("fan_off", "K", 310.0, 295.0, 360.0, "shell temperature at which it opens"),
        Setting("room", "K", 293.15, 273.0, 313.0, "room temperature"),
        Setting("ventilation", "m3/s", 0.08, 0.005, 5.0, "fresh air of the room"),
    ),
    inputs=(
        Port("heat", "W", "heat released"),
        Port("gas", "kg/s", "flue gas"),
        Port("oxygen", "", "oxygen in the dry flue gas of the fire"),
        Port("carbon_dioxide", "", "carbon dioxide in it"),
        Port("carbon_monoxide", "", "carbon monoxide in it"),
        Port("volts", "V", "voltage at the fan switch", default=120.0),
        Port("over_fire", "Pa", "pressure over the fire against the room", default=-5.0),
        Port("spill", "m3/s", "flue gas that comes into the room from the flue", default=0.0),
    ),
    outputs=(
        Port("net", "K", "stack temperature above the room's, settled"),
        Port("oxygen", "", "oxygen in the dry stack gas, volume fraction"),
        Port("oxygen_step", "", "how much the oxygen rises when the room fan comes on"),
        Port("carbon_dioxide", "", "carbon dioxide in the dry stack gas, volume fraction"),
        Port("carbon_monoxide", "", "carbon monoxide in the dry stack gas, volume fraction"),
        Port("monoxide_air_free", "", "the same without excess air"),
        Port("room_monoxide", "", "carbon monoxide in the room air, settled"),
        Port("soot", "", "ash and soot on the gas side"),
        Port("crack", "", "crack between gas and room air"),
        Port("resistance", "", "resistance to the gas over that of a clean exchanger"),
        Port("rise", "K", "warm air above the room's temperature, settled; 0 without a fan"),
        Port("shell", "K", "temperature of the shell"),
        Port("fan", "", "1 while the room fan turns"),
    ),
    start=_start,
    step=_step,
)
