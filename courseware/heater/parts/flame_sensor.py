"""The cadmium sulfide flame sensor: light lowers its resistance.

Between dark and flame the resistance falls by the same factor for each equal step of light reaching the cell.
"""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import OPEN_CIRCUIT, PartKind, Port, Setting, Values


def _start(_settings: Values) -> dict[str, Any]:
    return {"begun": 0.0}


def _step(settings: Values, inputs: Values, memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    begun = np.where(inputs["trial"] > 0.0, 1.0, memory["begun"])
    light = np.maximum(inputs["flame"], settings["stray"]) * (1.0 - settings["soot"])
    cell = _as_found(settings, settings["dark_ohms"] * (settings["flame_ohms"] / settings["dark_ohms"]) ** light)
    bridged = (settings["bridged"] >= 1.0) | (settings["simulated"] * begun >= 1.0)
    outputs = {
        "ohms": np.where(bridged, settings["bridge_ohms"], cell),
        "cell": cell,
        "covered": _as_found(settings, settings["dark_ohms"]),
        "bridge": settings["bridged"],
    }
    return outputs, {"begun": begun}


def _as_found(settings: Values, sound: Any) -> Any:
    """Return what a cell measures whose leads or layer may be open or shorted [ohm]."""
    return np.where(settings["open"] >= 1.0, OPEN_CIRCUIT, np.where(settings["short"] >= 1.0, 0.0, sound))


KIND: Final = PartKind(
    name="flame-sensor",
    meaning="cadmium sulfide cell that sees the flame",
    settings=(
        Setting("dark_ohms", "ohm", 1e6, 1e4, 1e8, "resistance in the dark"),
        Setting("flame_ohms", "ohm", 600.0, 100.0, 2000.0, "resistance facing the flame, lens clean"),
        Setting("soot", "", 0.0, 0.0, 1.0, "share of the light kept out by soot or a wrong aim"),
        Setting("stray", "", 0.0, 0.0, 1.0, "light that is no flame; 1 is as bright as flame"),
        Setting("open", "", 0.0, 0.0, 1.0, "1 if the cell or its lead is open"),
        Setting("short", "", 0.0, 0.0, 1.0, "1 if the cell or its lead is shorted"),
        Setting("bridged", "", 0.0, 0.0, 1.0, "1 if a bridge lies on the terminals all the time"),
        Setting("simulated", "", 0.0, 0.0, 1.0, "1 if a bridge is put on after the trial has begun"),
        Setting("bridge_ohms", "ohm", 1000.0, 0.0, 1e5, "resistance of that bridge"),
    ),
    inputs=(
        Port("flame", "", "1 while there is flame"),
        Port("trial", "V", "a voltage that comes on when the trial begins", default=0.0),
    ),
    outputs=(
        Port("ohms", "ohm", "resistance at the control's sensor terminals"),
        Port("cell", "ohm", "resistance of the cell with its leads off the control"),
        Port("covered", "ohm", "the same with the lens covered"),
        Port("bridge", "", "1 if a bridge lies on the terminals all the time"),
    ),
    start=_start,
    step=_step,
)
