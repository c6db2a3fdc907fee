"""The oil preheater with its thermostat: warm oil is thin, and thin oil sprays.

It keeps the oil warm between calls too, so its temperature is the settled one: the thermostat's, or the tank's where it
does not heat. From what viscosity on the spray is coarser is common practice in words, put into numbers by us.
"""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import RUNS_FROM, PartKind, Port, Setting, Values
from courseware.physics.viscosity import oil_viscosity

_SPRAYS_BELOW: Final = 30.0  # mm2/s; thicker oil sprays coarser, by this power of the viscosity
_POWER: Final = 0.35


def _step(settings: Values, inputs: Values, _memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    heats = (settings["element"] >= 1.0) & (inputs["volts"] >= RUNS_FROM)
    warm = np.maximum(settings["setpoint"], settings["tank_temperature"])
    temperature = np.where(heats, warm, settings["tank_temperature"])
    viscosity = oil_viscosity(temperature, settings["viscosity_40"], settings["viscosity_100"])
    return {"temperature": temperature, "thin": np.minimum((_SPRAYS_BELOW / viscosity) ** _POWER, 1.0)}, {}


KIND: Final = PartKind(
    name="preheater",
    meaning="electric oil preheater with its thermostat",
    settings=(
        Setting("element", "", 1.0, 0.0, 1.0, "0 if the heating element is open"),
        Setting("setpoint", "K", 344.26, 273.15, 410.0, "oil temperature its thermostat holds"),
        Setting("tank_temperature", "K", 288.15, 263.15, 313.15, "temperature of the oil that comes"),
        # An oil like SAE 30 when new, the figures from memory.
        Setting("viscosity_40", "", 100.0, 20.0, 400.0, "viscosity of the oil at 40 °C in mm2/s (cSt)"),
        Setting("viscosity_100", "", 11.0, 3.0, 19.0, "viscosity of the oil at 100 °C in mm2/s (cSt)"),
    ),
    inputs=(Port("volts", "V", "voltage at its element"),),
    outputs=(
        Port("temperature", "K", "oil temperature at the nozzle"),
        Port("thin", "", "what the oil's temperature leaves of the fineness of the spray"),
    ),
    step=_step,
)
