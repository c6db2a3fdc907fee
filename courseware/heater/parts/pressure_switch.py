"""The switch that proves atomizing air before ignition."""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import PartKind, Port, Setting, Values


def _step(settings: Values, inputs: Values, _memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    made = (inputs["pressure"] >= settings["closes_at"]) & (settings["works"] >= 1.0)
    return {"closed": np.where(made | (settings["bridged"] >= 1.0), 1.0, 0.0)}, {}


KIND: Final = PartKind(
    name="pressure-switch",
    meaning="air-pressure switch that must prove before ignition",
    settings=(
        Setting("closes_at", "Pa", None, 1e3, 7e5, "pressure at which it closes, gauge"),
        Setting("works", "", 1.0, 0.0, 1.0, "0 if it stays open"),
        Setting("bridged", "", 0.0, 0.0, 1.0, "1 if a test lead lies across it"),
    ),
    inputs=(Port("pressure", "Pa", "air pressure, gauge"),),
    outputs=(Port("closed", "", "1 when it is closed"),),
    step=_step,
    features=lambda _settings: {"air_switch": "fitted"},
)
