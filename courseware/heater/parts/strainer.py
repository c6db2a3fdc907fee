"""The suction strainer."""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import PartKind, Port, Setting, Values


def _step(settings: Values, inputs: Values, _memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    passes = settings["clean_flow"] * (1.0 - settings["plugged"])
    return {"oil": np.minimum(inputs["oil"], passes), "plugged": settings["plugged"]}, {}


KIND: Final = PartKind(
    name="strainer",
    meaning="suction strainer with its bowl",
    settings=(
        Setting("plugged", "", 0.0, 0.0, 1.0, "share of the screen that is plugged"),
        Setting("clean_flow", "m3/s", None, 0.0, 1e-4, "greatest flow through the clean screen"),
    ),
    inputs=(Port("oil", "m3/s", "flow the line before it can give"),),
    outputs=(
        Port("oil", "m3/s", "flow the line after it can give"),
        Port("plugged", "", "share of the screen that is plugged"),
    ),
    step=_step,
)
