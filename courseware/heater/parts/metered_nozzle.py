"""The air-atomizing nozzle fed by a pump: oil comes whether there is air or not."""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import PartKind, Port, Values
from courseware.heater.parts.spray import SPRAY_INPUTS, SPRAY_OUTPUTS, SPRAY_SETTINGS, fineness, passage


def _step(settings: Values, inputs: Values, _memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    oil = np.where(settings["connected"] >= 1.0, inputs["oil"], 0.0)
    outputs = {
        "oil": oil, "air": inputs["air"], "spray": fineness(settings, inputs["air"], inputs),
        "passage": passage(settings), "fed": inputs["oil"],
    }  # fmt: skip
    return outputs, {}


KIND: Final = PartKind(
    name="metered-nozzle",
    meaning="air-atomizing nozzle fed under pressure by a pump",
    settings=SPRAY_SETTINGS,
    inputs=(
        Port("air", "Pa", "atomizing air pressure, gauge"),
        Port("oil", "m3/s", "flow the pump sends"),
        *SPRAY_INPUTS,
    ),
    outputs=(*SPRAY_OUTPUTS, Port("fed", "m3/s", "flow in the oil line at the nozzle fitting")),
    step=_step,
    features=lambda _settings: {"delivery": "metered"},
)
