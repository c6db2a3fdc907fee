"""The iron-core ignition transformer."""

from typing import Any, Final

from courseware.heater.parts.base import PartKind, Port, Setting, Values
from courseware.physics.spark import transformer_secondary_voltage


def _step(settings: Values, inputs: Values, _memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    ideal = transformer_secondary_voltage(inputs["volts"], settings["rated_line"], settings["rated_secondary"])
    return {"primary": inputs["volts"], "secondary": ideal * settings["output"]}, {}


KIND: Final = PartKind(
    name="transformer",
    meaning="iron-core ignition transformer",
    settings=(
        Setting("rated_line", "V", 120.0, 100.0, 150.0, "rated line voltage"),
        Setting("rated_secondary", "V", 10e3, 5e3, 15e3, "rated secondary voltage, open circuit"),
        Setting("output", "", 1.0, 0.0, 1.0, "share of the ideal output it gives; 0: open"),
    ),
    inputs=(Port("volts", "V", "voltage at the primary"),),
    outputs=(
        Port("primary", "V", "voltage at the primary"),
        Port("secondary", "V", "open-circuit voltage of the secondary, rms"),
    ),
    step=_step,
    features=lambda _settings: {"igniter": "iron-core"},
)
