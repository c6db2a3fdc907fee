"""The siphon nozzle: its air draws the oil. No air, no oil.

The vacuum it pulls is the static lift plus a loss that grows with the square of how hard it draws on the line, up to
what its air can pull; so a plugged strainer shows in vacuum before the flow falls.
"""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import PartKind, Port, Setting, Values
from courseware.heater.parts.spray import SPRAY_INPUTS, SPRAY_OUTPUTS, SPRAY_SETTINGS, fineness, passage


def _step(settings: Values, inputs: Values, _memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    air = inputs["air"]
    size = (1.0 - settings["plugged"]) * (1.0 + 0.25 * settings["worn"])
    draws = settings["flow"] * size * np.minimum(air / settings["rated_air"], settings["most"])
    lifts = (air >= settings["lifts_from"]) & (settings["connected"] >= 1.0)
    oil = np.where(lifts, np.minimum(draws, inputs["oil"]) * (1.0 - inputs["bubbles"]), 0.0)
    outputs = {
        "oil": oil, "air": air, "spray": fineness(settings, air, inputs), "passage": passage(settings),
        "vacuum": np.where(lifts, _vacuum(settings, inputs, draws), 0.0),
    }  # fmt: skip
    return outputs, {}


def _vacuum(settings: Values, inputs: Values, draws: Any) -> Any:
    drawn = draws / np.maximum(inputs["oil"], 1e-3 * settings["flow"] + 1e-12)
    most = settings["greatest_vacuum"] * np.minimum(inputs["air"] / settings["rated_air"], settings["most"])
    vacuum = np.minimum(settings["lift"] + settings["loss"] * drawn**2, most)
    return np.where(inputs["wet"] >= 1.0, vacuum * (1.0 - inputs["bubbles"]), 0.0)


KIND: Final = PartKind(
    name="siphon-nozzle",
    meaning="air-atomizing nozzle that draws its oil by siphon",
    settings=(
        Setting("flow", "m3/s", None, 0.0, 1e-4, "oil flow at the rated air pressure"),
        Setting("most", "", 1.2, 1.0, 3.0, "greatest flow as a share of that, at any air pressure"),
        Setting("lifts_from", "Pa", 1.4e4, 0.0, 1e5, "air pressure from which it lifts oil, gauge"),
        Setting("lift", "Pa", 3.4e3, 0.0, 2e4, "vacuum of the static lift"),
        Setting("loss", "Pa", 1.6e4, 0.0, 5e4, "vacuum lost in a line that can just give the flow"),
        Setting(
            "greatest_vacuum", "Pa", 2.2e4, 1e3, 5e4, "vacuum it pulls on a blocked line at the rated air pressure"
        ),
        *SPRAY_SETTINGS,
    ),
    inputs=(
        Port("air", "Pa", "atomizing air pressure, gauge"),
        Port("oil", "m3/s", "flow the oil line can give"),
        Port("wet", "", "1 while the pickup is in oil", default=1.0),
        *SPRAY_INPUTS,
    ),
    outputs=(*SPRAY_OUTPUTS, Port("vacuum", "Pa", "vacuum in the oil line at the nozzle")),
    step=_step,
    features=lambda _settings: {"delivery": "siphon"},
)
