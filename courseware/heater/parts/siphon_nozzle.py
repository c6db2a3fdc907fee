"""The siphon nozzle: its air draws the oil. No air, no oil."""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import PartKind, Port, Setting, Values
from courseware.heater.parts.spray import SPRAY_OUTPUTS, SPRAY_SETTINGS, fineness


def _step(settings: Values, inputs: Values, _memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    air = inputs["air"]
    draws = settings["flow"] * np.minimum(air / settings["rated_air"], settings["most"])
    lifts = (air >= settings["lifts_from"]) & (settings["connected"] >= 1.0)
    oil = np.where(lifts, np.minimum(draws, inputs["oil"]), 0.0)
    return {"oil": oil, "air": air, "spray": fineness(settings, air)}, {}


KIND: Final = PartKind(
    name="siphon-nozzle",
    meaning="air-atomizing nozzle that draws its oil by siphon",
    settings=(
        Setting("flow", "m3/s", None, 0.0, 1e-4, "oil flow at the rated air pressure"),
        Setting("most", "", 1.2, 1.0, 3.0, "greatest flow as a share of that, at any air pressure"),
        Setting("lifts_from", "Pa", 1.4e4, 0.0, 1e5, "air pressure from which it lifts oil, gauge"),
        *SPRAY_SETTINGS,
    ),
    inputs=(
        Port("air", "Pa", "atomizing air pressure, gauge"),
        Port("oil", "m3/s", "flow the oil line can give"),
    ),
    outputs=SPRAY_OUTPUTS,
    step=_step,
    features=lambda _settings: {"delivery": "siphon"},
)
