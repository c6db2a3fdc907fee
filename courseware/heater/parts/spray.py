"""What both air-atomizing nozzles share: how finely the air breaks up the oil."""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import Port, Setting, Values

SPRAY_SETTINGS: Final = (
    Setting("rated_air", "Pa", None, 2e4, 2e5, "air pressure at which it sprays as rated, gauge"),
    Setting("plugged", "", 0.0, 0.0, 1.0, "share of the oil passage that is plugged or carboned"),
    Setting("worn", "", 0.0, 0.0, 1.0, "wear of the passages; 1 is worn out"),
    Setting("connected", "", 1.0, 0.0, 1.0, "0 if the oil line is taken off it"),
)
SPRAY_OUTPUTS: Final = (
    Port("oil", "m3/s", "oil that reaches the chamber"),
    Port("air", "Pa", "atomizing air pressure, gauge"),
    Port("spray", "", "fineness of the spray: 1 as rated, 0 none"),
    Port("passage", "", "oil passage as seen: 1 sound, less where it is plugged, more where it is worn"),
)
SPRAY_INPUTS: Final = (
    Port("bubbles", "", "share of air in the oil", default=0.0),
    Port("thin", "", "what the oil's temperature leaves of the fineness", default=1.0),
)


def fineness(settings: Values, air: Any, inputs: Values) -> Any:
    """Return the fineness of the spray [-]: in proportion to the air pressure [Pa], up to the rated one.

    A plugged or worn passage, air in the oil and thick oil each take their share of it; how much is ours (common
    practice says only that they spoil the spray).
    """
    passage = (1.0 - 0.6 * settings["plugged"]) * (1.0 - 0.4 * settings["worn"])
    return np.minimum(air / settings["rated_air"], 1.0) * passage * (1.0 - 0.5 * inputs["bubbles"]) * inputs["thin"]


def passage(settings: Values) -> Any:
    """Return the oil passage as a magnifier shows it [-]: of plugging and wear, what is worse is seen."""
    seen_worn = settings["worn"] > settings["plugged"]
    return np.where(seen_worn, 1.0 + settings["worn"], 1.0 - settings["plugged"])
