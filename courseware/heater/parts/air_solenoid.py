"""The solenoid valve in the atomizing air."""

from typing import Any, Final

from courseware.heater.parts.base import PartKind, Port, Values
from courseware.heater.parts.coil import COIL_SETTINGS, coil_resistance, opening


def _step(settings: Values, inputs: Values, _memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    passed = inputs["pressure"] * opening(settings, inputs["volts"])
    return {"pressure": passed, "ohms": coil_resistance(settings)}, {}


KIND: Final = PartKind(
    name="air-solenoid",
    meaning="normally closed solenoid valve in the atomizing air",
    settings=COIL_SETTINGS,
    inputs=(Port("volts", "V", "voltage at the coil"), Port("pressure", "Pa", "pressure before it, gauge")),
    outputs=(Port("pressure", "Pa", "pressure after it, gauge"), Port("ohms", "ohm", "resistance of the coil")),
    step=_step,
)
