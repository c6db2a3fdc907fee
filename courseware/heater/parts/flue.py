"""The chimney with its draft regulator: what pulls, what resists, and the air that the burner gets of it.

Flows are counted in shares of the unit's rated combustion air, pressures in Pa. Three laws are solved together:

    chimney         d = D − s − Rc (m + a)^2       D theoretical draft, s suction of the building
    regulator       a = c sqrt(d) when open wide   its flap lets room air in and holds d at its set draft
    burner, heater  P + d = (Rh + K) m^2           P the blower's pressure, K the exchanger's resistance

d is the draft at the breech, d − K m^2 the draft over the fire. Flue gas is counted as air, and friction as for cold
gas. The draft is the settled one, of a flue as warm as this fire makes it; only the temperature and the dilution come a
step late. Where the breech is under pressure gas comes into the room; it is not taken off what goes up the chimney.
"""

from typing import Any, Final

import numpy as np

from courseware.heater.parts.base import PartKind, Port, Setting, Values
from courseware.physics.draft import theoretical_draft

_LEAST_OPEN: Final = 0.02  # of the flue; a blocked one still leaks
_LEAST_AIR: Final = 1e-6
_JOINTS, _DOORS = (
    0.1,
    0.02,
)  # share of the rated gas that leaks out for each root of a pascal, at the breech and the fire
_HOTTEST: Final = 1200.0  # K


def _start(_settings: Values) -> dict[str, Any]:
    return {"diluted": 0.0}


def _step(settings: Values, inputs: Values, memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    free = np.maximum(inputs["air"] / settings["rated_air"], _LEAST_AIR)
    pull = _pull(settings, inputs, memory)
    chimney = settings["chimney_loss"] / np.maximum(1.0 - settings["blockage"], _LEAST_OPEN) ** 2
    passes = settings["exchanger_loss"] * inputs["resistance"]
    head = (settings["head"] + settings["rated_draft"]) / free**2 + passes
    draft = _breech(settings, pull, chimney, head)
    air = np.sqrt(np.maximum(settings["head"] + draft, 0.0) / head)
    diluting = np.maximum(np.sqrt(np.maximum(pull - draft, 0.0) / chimney) - air, 0.0)
    over_fire = draft - passes * air**2
    spill = _JOINTS * np.sqrt(np.maximum(-draft, 0.0)) + _DOORS * np.sqrt(np.maximum(-over_fire, 0.0))
    outputs = {
        "air": np.where(free > _LEAST_AIR, air, 0.0) * settings["rated_air"],
        "breech": -draft,
        "over_fire": -over_fire,
        "spill": np.minimum(spill, air) * settings["rated_air"],
        "blockage": settings["blockage"],
        "flap": 1.0 + settings["stuck_open"] - settings["stuck_shut"],
        "building": -settings["suction"],
    }
    return outputs, {"diluted": (memory["diluted"] + diluting / np.maximum(air, _LEAST_AIR)) / 2.0}


def _pull(settings: Values, inputs: Values, memory: Values) -> Any:
    """Return what the chimney would pull if nothing flowed [Pa], less the suction of the building."""
    outdoor, room = settings["outdoor"], settings["room"]
    mixed = room + np.maximum(inputs["net"], 0.0) / (1.0 + np.minimum(memory["diluted"], 100.0))
    mean = np.clip(outdoor + settings["keeps"] * (mixed - outdoor), 220.0, _HOTTEST)
    return theoretical_draft(settings["height"], settings["barometer"], outdoor, mean) - settings["suction"]


def _breech(settings: Values, pull: Any, chimney: Any, head: Any) -> Any:
    """Return the draft at the breech [Pa]: with the flap shut, wide open, or holding its set draft in between."""
    set_draft = settings["set_draft"]
    shut = pull - chimney * (settings["head"] + np.maximum(pull, -settings["head"])) / (head + chimney)
    air = np.sqrt((settings["head"] + set_draft) / head)
    flap = settings["flap_flow"] / np.sqrt(set_draft)
    drag, gap = chimney * flap * air, 1.0 + chimney * flap**2
    root = (np.sqrt(np.maximum(drag**2 - gap * (chimney * air**2 - pull), 0.0)) - drag) / gap
    wide = np.minimum(np.where(root > 0.0, root, 0.0) ** 2, shut)
    held = np.clip(set_draft, wide, shut)
    return np.where(settings["stuck_shut"] >= 1.0, shut, np.where(settings["stuck_open"] >= 1.0, wide, held))


KIND: Final = PartKind(
    name="flue",
    meaning="flue and chimney with a barometric draft regulator",
    settings=(
        Setting("rated_air", "m3/s", None, 1e-3, 1.0, "combustion air the unit is set to"),
        Setting("height", "m", None, 0.5, 30.0, "height of the chimney above the breech"),
        Setting("outdoor", "K", 273.15, 233.0, 313.0, "outdoor temperature"),
        Setting("room", "K", 293.15, 273.0, 313.0, "room temperature"),
        Setting("barometer", "Pa", 101325.0, 6e4, 1.1e5, "barometric pressure, absolute"),
        Setting("suction", "Pa", 0.0, -10.0, 60.0, "how far the building's pressure lies below the outdoor pressure"),
        Setting("blockage", "", 0.0, 0.0, 1.0, "share of the flue that is blocked"),
        Setting("keeps", "", 0.8, 0.3, 1.0, "mean temperature over outdoors as a share of that at the breech"),
        Setting("chimney_loss", "Pa", 5.0, 0.5, 50.0, "friction of the chimney at the rated air"),
        Setting("exchanger_loss", "Pa", 7.5, 0.5, 50.0, "friction of the clean exchanger at the rated air"),
        Setting("head", "Pa", 60.0, 10.0, 500.0, "pressure of the blower at the burner head"),
        Setting("rated_draft", "Pa", 5.0, 0.0, 20.0, "draft over the fire the air was set at"),
        Setting("set_draft", "Pa", 12.5, 2.0, 50.0, "draft at the breech the regulator is set to"),
        Setting(
            "flap_flow", "", 3.0, 0.5, 10.0, "room air through the wide open flap at that draft, over the rated air"
        ),
        Setting("stuck_open", "", 0.0, 0.0, 1.0, "1 if the flap is stuck open"),
        Setting("stuck_shut", "", 0.0, 0.0, 1.0, "1 if the flap is stuck shut"),
    ),
    inputs=(
        Port("air", "m3/s", "combustion air the blower gives at the rated draft"),
        Port("net", "K", "stack temperature above room", late=True),
        Port("resistance", "", "resistance of the exchanger over that of a clean one", default=1.0, late=True),
    ),
    outputs=(
        Port("air", "m3/s", "combustion air that comes"),
        Port("breech", "Pa", "pressure at the breech against the room; below zero it draws"),
        Port("over_fire", "Pa", "pressure over the fire against the room; below zero it draws"),
        Port("spill", "m3/s", "flue gas that comes into the room, counted as cold gas"),
        Port("blockage", "", "share of the flue that is blocked"),
        Port("flap", "", "flap of the regulator: 0 stuck shut, 1 swings, 2 stuck open"),
        Port("building", "Pa", "pressure of the building against outdoors"),
    ),
    start=_start,
    step=_step,
)
