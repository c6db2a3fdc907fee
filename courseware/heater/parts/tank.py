"""The used-oil tank and its pickup."""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import PartKind, Port, Setting, Values


def _start(settings: Values) -> dict[str, Any]:
    return {"content": settings["content"]}


def _step(settings: Values, inputs: Values, memory: Values, dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    content = np.maximum(memory["content"] - inputs["drawn"] * dt, 0.0)
    wet = np.where(content > 0.0, 1.0, 0.0)
    outputs = {"level": content / settings["area"], "wet": wet, "oil": settings["line_flow"] * wet}
    return outputs, {"content": content}


KIND: Final = PartKind(
    name="tank",
    meaning="used-oil tank with its pickup",
    settings=(
        Setting("content", "m3", None, 0.0, 10.0, "oil above the pickup"),
        Setting("area", "m2", None, 0.01, 20.0, "area of the oil's surface"),
        Setting("line_flow", "m3/s", None, 0.0, 1e-4, "greatest flow the free suction line gives"),
    ),
    inputs=(Port("drawn", "m3/s", "flow drawn from it", late=True),),
    outputs=(
        Port("level", "m", "height of oil above the pickup"),
        Port("wet", "", "1 while the pickup is in oil"),
        Port("oil", "m3/s", "flow the line can give"),
    ),
    start=_start,
    step=_step,
)
