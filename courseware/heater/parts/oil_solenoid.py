"""The solenoid valve in the oil line."""

from typing import Any, Final

from courseware.heater.parts.base import PartKind, Port, Values
from courseware.heater.parts.coil import COIL_SETTINGS, coil_resistance, opening


def _step(settings: Values, inputs: Values, _memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    passed = inputs["oil"] * opening(settings, inputs["volts"])
    return {"oil": passed, "ohms": coil_resistance(settings)}, {}


KIND: Final = PartKind(
    name="oil-solenoid",
    meaning="normally closed solenoid valve in the oil line",
    settings=COIL_SETTINGS,
    inputs=(Port("volts", "V", "voltage at the coil"), Port("oil", "m3/s", "flow the line before it can give")),
    outputs=(Port("oil", "m3/s", "flow the line after it can give"), Port("ohms", "ohm", "resistance of the coil")),
    step=_step,
)
