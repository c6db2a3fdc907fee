"""The line that brings the atomizing air to the burner."""

from typing import Any, Final

from courseware.heater.parts.base import PartKind, Port, Setting, Values


def _step(settings: Values, inputs: Values, _memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    return {"pressure": inputs["pressure"] * settings["connected"] * (1.0 - settings["leak"])}, {}


KIND: Final = PartKind(
    name="air-line",
    meaning="air line from the regulator to the burner",
    settings=(
        Setting("connected", "", 1.0, 0.0, 1.0, "0 if it is taken off the burner"),
        Setting("leak", "", 0.0, 0.0, 1.0, "share of the pressure lost through a leak"),
    ),
    inputs=(Port("pressure", "Pa", "pressure that comes in, gauge"),),
    outputs=(Port("pressure", "Pa", "pressure at the burner, gauge"),),
    step=_step,
)
