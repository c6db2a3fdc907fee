"""A hand valve in the oil line."""

from typing import Any, Final

from courseware.heater.parts.base import PartKind, Port, Setting, Values


def _step(settings: Values, inputs: Values, _memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    return {"oil": inputs["oil"] * settings["open"], "handle": settings["open"]}, {}


KIND: Final = PartKind(
    name="hand-valve",
    meaning="hand valve in the oil line",
    settings=(Setting("open", "", 1.0, 0.0, 1.0, "1 open, 0 shut"),),
    inputs=(Port("oil", "m3/s", "flow the line before it can give"),),
    outputs=(
        Port("oil", "m3/s", "flow the line after it can give"),
        Port("handle", "", "how far its handle stands open"),
    ),
    step=_step,
)
