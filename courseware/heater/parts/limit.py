"""The high limit: it opens the line to the control when the exchanger gets too hot, and closes again when cool."""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import PartKind, Port, Setting, Values


def _start(_settings: Values) -> dict[str, Any]:
    return {"tripped": 0.0}


def _step(settings: Values, inputs: Values, memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    hot, cool = inputs["shell"] >= settings["opens_at"], inputs["shell"] < settings["closes_at"]
    tripped = np.where(hot, 1.0, np.where(cool, 0.0, memory["tripped"]))
    made = np.where((settings["closed"] >= 1.0) & (tripped < 1.0), 1.0, 0.0)
    passes = np.maximum(made, settings["bridged"]) >= 1.0
    return {"volts": np.where(passes, inputs["volts"], 0.0), "made": made}, {"tripped": tripped}


KIND: Final = PartKind(
    name="limit",
    meaning="high limit switch in the line to the control",
    settings=(
        Setting("closed", "", 1.0, 0.0, 1.0, "0 if it stays open, hot or cold"),
        Setting("bridged", "", 0.0, 0.0, 1.0, "1 if a test lead lies across it"),
        Setting("opens_at", "K", 377.6, 330.0, 450.0, "temperature of the exchanger at which it opens"),
        Setting("closes_at", "K", 350.0, 300.0, 450.0, "temperature below which it closes again"),
    ),
    inputs=(
        Port("volts", "V", "voltage that comes in"),
        Port("shell", "K", "temperature of the exchanger", default=293.15, late=True),
    ),
    outputs=(
        Port("volts", "V", "voltage that goes out"),
        Port("made", "", "1 while its own contact is closed"),
    ),
    start=_start,
    step=_step,
)
