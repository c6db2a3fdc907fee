"""The regulator of the atomizing air."""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import PartKind, Port, Setting, Values


def _step(settings: Values, inputs: Values, _memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    return {"pressure": np.minimum(inputs["pressure"], settings["setpoint"])}, {}


KIND: Final = PartKind(
    name="air-regulator",
    meaning="pressure regulator of the atomizing air",
    settings=(Setting("setpoint", "Pa", None, 0.0, 7e5, "pressure it is set to, gauge"),),
    inputs=(Port("pressure", "Pa", "supply pressure, gauge"),),
    outputs=(Port("pressure", "Pa", "regulated pressure, gauge"),),
    step=_step,
)
