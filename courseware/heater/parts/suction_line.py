"""The suction line: where it leaks, air comes with the oil."""

from typing import Any, Final

from courseware.heater.parts.base import PartKind, Port, Setting, Values


def _step(settings: Values, inputs: Values, _memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    return {"oil": inputs["oil"], "bubbles": settings["leak"]}, {}


KIND: Final = PartKind(
    name="suction-line",
    meaning="suction line from the strainer to the burner, with its clear sight tube",
    settings=(Setting("leak", "", 0.0, 0.0, 0.95, "share of what is drawn that comes as air through a leak"),),
    inputs=(Port("oil", "m3/s", "flow the line before it can give"),),
    outputs=(
        Port("oil", "m3/s", "flow the line after it can give, air and oil"),
        Port("bubbles", "", "share of air in the oil"),
    ),
    step=_step,
)
