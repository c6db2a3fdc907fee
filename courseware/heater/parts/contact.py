"""Anything that makes or breaks one line: a disconnect, a limit, a terminal."""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import PartKind, Port, Setting, Values


def _step(settings: Values, inputs: Values, _memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    made = np.maximum(settings["closed"], settings["bridged"]) >= 1.0
    return {"volts": np.where(made, inputs["volts"], 0.0)}, {}


KIND: Final = PartKind(
    name="contact",
    meaning="a contact in one line: disconnect, limit or terminal",
    settings=(
        Setting("closed", "", 1.0, 0.0, 1.0, "1 made, 0 broken"),
        Setting("bridged", "", 0.0, 0.0, 1.0, "1 if a test lead lies across it"),
    ),
    inputs=(Port("volts", "V", "voltage that comes in"),),
    outputs=(Port("volts", "V", "voltage that goes out"),),
    step=_step,
)
