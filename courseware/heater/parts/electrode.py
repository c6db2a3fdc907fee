"""Electrode, posts and porcelain: what becomes of the secondary voltage.

Trade magazines say that the spark of a 10,000 V transformer needs more than 9,000 V to light the oil. The
model takes that at the rated gap, and adds or takes off what the needle-gap table asks for a longer or
shorter one. A spark that jumps but lacks that voltage is seen, and does not light the oil.
"""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import PartKind, Port, Setting, Values
from courseware.physics.spark import (
    LONGEST_NEEDLE_GAP,
    SHORTEST_NEEDLE_GAP,
    needle_sparkover_voltage,
    peak_voltage,
)


def sparkover(gap: Any) -> Any:
    """Return the peak voltage [V] that jumps a gap [m] of any length.

    Below the needle table the voltage is taken as proportional to the gap, above it as that of the longest gap.
    """
    in_table = np.clip(gap, SHORTEST_NEEDLE_GAP, LONGEST_NEEDLE_GAP)
    return needle_sparkover_voltage(in_table) * np.minimum(gap / SHORTEST_NEEDLE_GAP, 1.0)


def _step(settings: Values, inputs: Values, _memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    path = settings["gap"] + settings["post_gap"]
    jumps_at = sparkover(path)
    arrives = inputs["volts"] * (1.0 - settings["crack"])
    needed = settings["needed"] + (jumps_at - sparkover(settings["rated_gap"])) / peak_voltage(1.0)
    jumps = (peak_voltage(arrives) >= jumps_at) & (arrives > 0.0)
    outputs = {
        "gap": settings["gap"],
        "post_gap": settings["post_gap"],
        "crack": settings["crack"],
        "spark": np.where(jumps, arrives / needed, 0.0),
    }
    return outputs, {}


KIND: Final = PartKind(
    name="electrode",
    meaning="electrode assembly: posts, porcelain and tines",
    settings=(
        Setting("gap", "m", None, 0.0005, 0.03, "gap between the tines"),
        Setting("rated_gap", "m", None, 0.002, 0.008, "gap the unit is set to"),
        Setting("needed", "V", 9000.0, 5e3, 15e3, "secondary voltage that lights the oil at the rated gap, rms"),
        Setting("post_gap", "m", 0.0, 0.0, 0.02, "air between transformer post and electrode with the cover shut"),
        Setting("crack", "", 0.0, 0.0, 1.0, "share of the voltage lost to ground over cracked porcelain"),
    ),
    inputs=(Port("volts", "V", "secondary voltage, rms"),),
    outputs=(
        Port("gap", "m", "gap between the tines"),
        Port("post_gap", "m", "air between post and electrode"),
        Port("crack", "", "share of the voltage lost over the porcelain"),
        Port("spark", "", "spark at the tines: 0 none, below 1 too weak to light the oil"),
    ),
    step=_step,
)
