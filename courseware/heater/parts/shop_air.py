"""Compressed air from the shop's own line."""

from typing import Any, Final

from courseware.heater.parts.base import PartKind, Port, Setting, Values


def _step(settings: Values, _inputs: Values, _memory: Values, _dt: float) -> tuple[dict[str, Any], dict[str, Any]]:
    return {"pressure": settings["pressure"]}, {}


KIND: Final = PartKind(
    name="shop-air",
    meaning="compressed air from the shop's line",
    settings=(Setting("pressure", "Pa", None, 0.0, 1.4e6, "line pressure, gauge; 0 if it is shut off"),),
    inputs=(),
    outputs=(Port("pressure", "Pa", "line pressure, gauge"),),
    step=_step,
    features=lambda _settings: {"air_source": "shop"},
)
