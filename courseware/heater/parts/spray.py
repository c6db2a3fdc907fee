"""What both air-atomizing nozzles share: how finely the air breaks up the oil."""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import Port, Setting, Values

SPRAY_SETTINGS: Final = (
    Setting("rated_air", "Pa", None, 2e4, 2e5, "air pressure at which it sprays as rated, gauge"),
    Setting("connected", "", 1.0, 0.0, 1.0, "0 if the oil line is taken off it"),
)
SPRAY_OUTPUTS: Final = (
    Port("oil", "m3/s", "oil that reaches the chamber"),
    Port("air", "Pa", "atomizing air pressure, gauge"),
    Port("spray", "", "fineness of the spray: 1 as rated, 0 none"),
)


def fineness(settings: Values, air: Any) -> Any:
    """Return the fineness of the spray [-] at an air pressure [Pa]: in proportion, up to the rated pressure."""
    return np.minimum(air / settings["rated_air"], 1.0)
