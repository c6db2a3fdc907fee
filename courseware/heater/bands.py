"""The bands of a check, read and held to the rules: whole steps of the display, no gap, no overlap, on every unit."""

import math

from courseware.content.fields import Fields
from courseware.content.problems import listed, nearest, shown
from courseware.content.tree import Mapping
from courseware.content.words import say
from courseware.heater.checks import Band, Check
from courseware.heater.known import Known, LimitUnits
from courseware.heater.readings import CANNOT
from courseware.heater.unit import Unit
from courseware.physics import units as measures

_WHOLE = 1e-6  # of a step: what float arithmetic and unit conversion may leave


def read_bands(fields: Fields) -> tuple[Band, ...]:
    """Read ``bands``: each with id, says, and the edges ``low`` and ``high``, numbers or ``{limit: name}``."""
    bands: list[Band] = []
    for one in fields.children("bands", "band"):
        band = Band(one.identifier(), _edge(one, "low"), _edge(one, "high"), one.text("says"))
        one.finish()
        if band.id == CANNOT:
            one.fault(one.source_of("id"), say("heater.band-reserved", id=CANNOT))
        if any(band.id == other.id for other in bands):
            one.fault(one.source_of("id"), say("heater.band-twice", id=band.id))
        bands.append(band)
    return tuple(bands)


def _edge(fields: Fields, key: str) -> float | str | None:
    if not fields.has(key):
        return None
    if isinstance(fields.node(key), Mapping):
        limit = fields.child(key)
        assert limit is not None
        name = limit.text("limit")
        limit.finish()
        return name
    return fields.number(key)


def check_bands(fields: Fields, check: Check, known: Known) -> None:
    """Record every fault of the bands of a check, on every unit it fits.

    Parameters
    ----------
    fields : Fields
        The check's, for messages.
    check : Check
        The check.
    known : Known
        What the units have; the check must fit one.
    """
    if check.resolution <= 0.0:
        fields.fault(
            fields.source_of("resolution"),
            say("content.out-of-range", key="resolution", found=check.resolution), say("heater.a-resolution"),
        )  # fmt: skip
        return
    if check.error < 0.0:
        fields.fault(
            fields.source_of("error"),
            say("content.out-of-range", key="error", found=check.error),
            say("heater.an-error"),
        )
    fitting = [unit for unit in known.units if check.applies_to(unit)]
    if check.signal and not fitting:
        fields.fault(fields.source_of("signal"), say("heater.applies-nowhere"))
    if check.unit in measures.UNITS and _ends_are_open(fields, check):
        for unit in fitting:
            if _limits_fit(fields, check, unit, known.limit_units):
                _check_edges(fields, check, unit)


def _ends_are_open(fields: Fields, check: Check) -> bool:
    """Say whether the first band is open below, the last above, and no other is; record what is wrong."""
    found = True
    last = len(check.bands) - 1
    for index, band in enumerate(check.bands):
        for key, edge, open_here in (("low", band.low, index == 0), ("high", band.high, index == last)):
            side = say("heater.below" if key == "low" else "heater.above")
            if open_here and edge is not None:
                message = say("heater.band-closed", band=band.id, side=side, edge=_plain(edge, check))
                fields.fault(fields.source_of("bands"), message, advice=say("heater.band-closed-try", key=key))
                found = False
            if not open_here and edge is None:
                fields.fault(
                    fields.source_of("bands"), say("heater.band-open", band=band.id, side=side),
                    say("heater.band-open-allowed"),
                )  # fmt: skip
                found = False
    return found


def _limits_fit(fields: Fields, check: Check, unit: Unit, limit_units: LimitUnits) -> bool:
    found = True
    for name in [edge for band in check.bands for edge in (band.low, band.high) if isinstance(edge, str)]:
        if name not in unit.limits:
            fields.fault(
                fields.source_of("bands"), say("heater.no-limit", found=shown(name), unit=unit.id), listed(unit.limits),
                nearest(name, unit.limits),
            )  # fmt: skip
            found = False
        elif not measures.same_dimension(limit_units[unit.id, name], check.unit):
            wants = check.unit or say("heater.plain-number")
            message = say("heater.limit-wrong-kind", found=name, unit=unit.id, wants=wants)
            fields.fault(fields.source_of("bands"), message)
            found = False
    return found


def _check_edges(fields: Fields, check: Check, unit: Unit) -> None:
    """Record edges between two readings, and bands that do not meet."""
    place = fields.source_of("bands")
    edges = [edge for band in check.bands for edge in (band.low, band.high) if edge is not None]
    for edge in dict.fromkeys(edges):
        steps = _number(edge, check, unit, 0.0) / check.resolution
        if abs(steps - round(steps)) > _WHOLE:
            resolution = f"{check.resolution:g} {check.unit}".strip()
            fields.fault(
                place, say("heater.off-step", edge=_written(edge, check, unit)),
                say("heater.off-step-allowed", resolution=resolution),
            )  # fmt: skip
    for band in check.bands:
        low, high = _number(band.low, check, unit, -math.inf), _number(band.high, check, unit, math.inf)
        if low >= high:
            values = {"low": f"{low:g}", "high": f"{high:g}"}
            fields.fault(place, say("heater.band-empty", band=band.id, unit=unit.id, **values))
    for first, second in zip(check.bands, check.bands[1:], strict=False):
        high, low = _number(first.high, check, unit, math.inf), _number(second.low, check, unit, -math.inf)
        apart = (low - high) / check.resolution
        if abs(apart) > _WHOLE:
            key = "heater.band-gap" if apart > 0 else "heater.band-overlap"
            values = {"low": f"{low:g}", "high": f"{high:g}"}
            fields.fault(place, say(key, first=first.id, second=second.id, unit=unit.id, **values))


def _number(edge: float | str | None, check: Check, unit: Unit, missing: float) -> float:
    if edge is None:
        return missing
    return measures.from_si(unit.limits[edge], check.unit) if isinstance(edge, str) else edge


def _written(edge: float | str, check: Check, unit: Unit) -> str:
    amount = f"{_number(edge, check, unit, 0.0):g} {check.unit}".strip()
    return say("heater.limit-is", limit=edge, amount=amount, unit=unit.id) if isinstance(edge, str) else amount


def _plain(edge: float | str, check: Check) -> str:
    return edge if isinstance(edge, str) else f"{edge:g} {check.unit}".strip()
