"""What all solenoid valves share: a coil that pulls in, or is open, and a seat that may leak."""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import OPEN_CIRCUIT, RUNS_FROM, Setting, Values

COIL_SETTINGS: Final = (
    Setting("coil", "", 1.0, 0.0, 1.0, "0 if the coil is open"),
    Setting("coil_ohms", "ohm", None, 1.0, 1e5, "resistance of a sound coil"),
    Setting("leak", "", 0.0, 0.0, 1.0, "share of the full flow that passes when it should be shut"),
)


def opening(settings: Values, volts: Any) -> Any:
    """Return how far the valve is open [-], 0 to 1, at a coil voltage [V]."""
    pulled = (settings["coil"] >= 1.0) & (volts >= RUNS_FROM)
    return np.where(pulled, 1.0, settings["leak"])


def coil_resistance(settings: Values) -> Any:
    """Return the resistance of the coil [ohm]."""
    return np.where(settings["coil"] >= 1.0, settings["coil_ohms"], OPEN_CIRCUIT)
