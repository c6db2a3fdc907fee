"""The building's supply at the unit."""

from typing import Any, Final

from courseware.heater.parts.base import PartKind, Port, Setting, Values


def _step(settings: Values, _inputs: Values, _memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    return {"volts": settings["volts"]}, {}


KIND: Final = PartKind(
    name="ac-supply",
    meaning="the building's branch circuit, single phase",
    settings=(Setting("volts", "V", 120.0, 0.0, 150.0, "line voltage, rms; 0 if the breaker is open"),),
    inputs=(),
    outputs=(Port("volts", "V", "line voltage"),),
    step=_step,
)
