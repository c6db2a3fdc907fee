"""The burner motor and blower wheel: combustion air."""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import RUNS_FROM, PartKind, Port, Setting, Values, approach


def _start(_settings: Values) -> dict[str, Any]:
    return {"speed": 0.0}


def _step(settings: Values, inputs: Values, memory: Values, dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    driven = (settings["works"] >= 1.0) & (inputs["volts"] >= RUNS_FROM)
    speed = approach(memory["speed"], np.where(driven, 1.0, 0.0), dt, settings["spin_time"])
    air = settings["flow"] * settings["band"] * (1.0 - settings["dirt"]) * speed
    return {"speed": speed, "air": air, "band": settings["band"], "dirt": settings["dirt"]}, {"speed": speed}


KIND: Final = PartKind(
    name="blower",
    meaning="burner motor with its blower wheel and air band",
    settings=(
        Setting("works", "", 1.0, 0.0, 1.0, "0 if the motor does not turn"),
        Setting("flow", "m3/s", None, 0.0, 1.0, "combustion air at full speed with the air band as set"),
        Setting("band", "", 1.0, 0.0, 3.0, "opening of the air band over that"),
        Setting("dirt", "", 0.0, 0.0, 1.0, "share of the air that dirt on the wheel takes away"),
        Setting("spin_time", "s", 0.5, 0.0, 30.0, "time constant of its speed"),
    ),
    inputs=(Port("volts", "V", "voltage at the motor"),),
    outputs=(
        Port("speed", "", "speed over full speed"),
        Port("air", "m3/s", "combustion air at the draft the unit is set for"),
        Port("band", "", "opening of the air band over the opening as set"),
        Port("dirt", "", "share of the air that dirt on the wheel takes away"),
    ),
    start=_start,
    step=_step,
)
