"""The unit's own compressor, driven with the burner motor."""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import RUNS_FROM, PartKind, Port, Setting, Values, approach


def _start(_settings: Values) -> dict[str, Any]:
    return {"pressure": 0.0}


def _step(settings: Values, inputs: Values, memory: Values, dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    turns = (settings["works"] >= 1.0) & (inputs["volts"] >= RUNS_FROM)
    target = np.where(turns, settings["pressure"], 0.0)
    pressure = approach(memory["pressure"], target, dt, settings["rise_time"])
    return {"pressure": pressure}, {"pressure": pressure}


KIND: Final = PartKind(
    name="compressor",
    meaning="the unit's own air compressor",
    settings=(
        Setting("works", "", 1.0, 0.0, 1.0, "0 if it does not turn or does not pump"),
        Setting("pressure", "Pa", None, 0.0, 1.4e6, "pressure it reaches, gauge"),
        Setting("rise_time", "s", 1.0, 0.0, 30.0, "time constant of its pressure"),
    ),
    inputs=(Port("volts", "V", "voltage at its motor"),),
    outputs=(Port("pressure", "Pa", "pressure, gauge"),),
    start=_start,
    step=_step,
    features=lambda _settings: {"air_source": "own"},
)
