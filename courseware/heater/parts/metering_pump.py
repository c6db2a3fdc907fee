"""The metering pump of a unit whose oil is under pressure.

It delivers its rate, or what the suction line gives if that is less. The vacuum before it is the static lift plus
a loss that grows with the square of how hard it draws on the line; a blocked line shows the pump's greatest
vacuum, and a line that draws air shows less the more air comes.
"""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import RUNS_FROM, PartKind, Port, Setting, Values


def _step(settings: Values, inputs: Values, _memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    runs = (settings["works"] >= 1.0) & (settings["enabled"] >= 1.0) & (inputs["volts"] >= RUNS_FROM)
    flow = np.where(runs, np.minimum(settings["rate"], inputs["oil"]) * (1.0 - inputs["bubbles"]), 0.0)
    drawn = settings["rate"] / np.maximum(inputs["oil"], 1e-3 * settings["rate"])
    vacuum = np.minimum(settings["lift"] + settings["loss"] * drawn**2, settings["greatest_vacuum"])
    shows = np.where(runs & (inputs["wet"] >= 1.0), vacuum * (1.0 - inputs["bubbles"]), 0.0)
    return {"flow": flow, "vacuum": shows}, {}


KIND: Final = PartKind(
    name="metering-pump",
    meaning="metering pump that delivers oil under pressure",
    settings=(
        Setting("rate", "m3/s", None, 1e-8, 1e-4, "flow it meters"),
        Setting("works", "", 1.0, 0.0, 1.0, "0 if it does not turn or does not pump"),
        Setting("enabled", "", 1.0, 0.0, 1.0, "0 if a technician has unplugged it"),
        Setting("lift", "Pa", 7e3, 0.0, 5e4, "vacuum of the static lift"),
        Setting("loss", "Pa", 4e4, 0.0, 1e5, "vacuum lost in a line that can just give the rate"),
        Setting("greatest_vacuum", "Pa", 8.5e4, 1e4, 1e5, "vacuum it pulls on a blocked line"),
    ),
    inputs=(
        Port("volts", "V", "voltage at its motor"),
        Port("oil", "m3/s", "flow the suction line can give"),
        Port("wet", "", "1 while the pickup is in oil", default=1.0),
        Port("bubbles", "", "share of air in the oil", default=0.0),
    ),
    outputs=(
        Port("flow", "m3/s", "flow it delivers"),
        Port("vacuum", "Pa", "vacuum before it"),
    ),
    step=_step,
    features=lambda _settings: {"oil_pump": "fitted"},
)
