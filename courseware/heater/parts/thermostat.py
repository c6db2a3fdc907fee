"""The room thermostat: it starts the run by calling for heat."""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import PartKind, Port, Setting, Values


def _start(_settings: Values) -> dict[str, Any]:
    return {"elapsed": 0.0}


def _step(settings: Values, _inputs: Values, memory: Values, dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    calls = (settings["works"] >= 1.0) & (memory["elapsed"] >= settings["calls_at"])
    return {"call": np.where(calls, 1.0, 0.0)}, {"elapsed": memory["elapsed"] + dt}


KIND: Final = PartKind(
    name="thermostat",
    meaning="room thermostat with its 24 V wiring",
    settings=(
        Setting("works", "", 1.0, 0.0, 1.0, "0 if its contacts or wires are open"),
        Setting("calls_at", "s", 2.0, 0.0, 1e9, "time of the call from the start of the record"),
    ),
    inputs=(),
    outputs=(Port("call", "", "1 while it calls for heat"),),
    start=_start,
    step=_step,
)
