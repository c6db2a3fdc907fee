"""The bands of a check, read and held to the rules: whole steps of the display, no gap, no overlap, on every unit."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from courseware.content.fields import Fields
from courseware.content.problems import listed, nearest, shown
from courseware.content.source import Source
from courseware.content.tree import Mapping
from courseware.content.words import say
from courseware.heater.checks import Band, Check
from courseware.heater.known import Known
from courseware.heater.readings import CANNOT
from courseware.heater.unit import Unit
from courseware.physics import units as measures

_WHOLE: Final = 1e-6  # of a step: what float arithmetic and unit conversion may leave

Edge = float | str | None


def read_bands(fields: Fields) -> dict[Band, Source]:
    """Read ``bands``: each with id, says, and the edges ``low`` and ``high``, numbers or ``{limit: name}``.

    Returns
    -------
    dict of Band to Source
        In the order of the document, each with its place.
    """
    bands: dict[Band, Source] = {}
    for one in fields.children("bands", "band"):
        band = Band(one.identifier(), _edge(one, "low"), _edge(one, "high"), one.text("says"))
        one.finish()
        if band.id == CANNOT:
            one.fault(one.source_of("id"), say("heater.band-reserved", id=CANNOT))
        if any(band.id == other.id for other in bands):
            one.fault(one.source_of("id"), say("heater.band-twice", id=band.id))
        bands[band] = one.source
    return bands


def _edge(fields: Fields, key: str) -> Edge:
    if not fields.has(key):
        return None
    if isinstance(fields.node(key), Mapping):
        limit = fields.child(key)
        assert limit is not None
        name = limit.text("limit")
        limit.finish()
        return name
    return fields.number(key)


@dataclass(frozen=True, slots=True)
class _Sheet:
    """A check being held to the rules: its fields for messages, and where each band is written."""

    fields: Fields
    check: Check
    places: tuple[Source, ...]

    def edges(self) -> Iterator[tuple[Source, float | str]]:
        """Yield each edge once, with the place of the first band that has it."""
        seen = set()
        for place, band in zip(self.places, self.check.bands, strict=True):
            for edge in (band.low, band.high):
                if edge is not None and edge not in seen:
                    seen.add(edge)
                    yield place, edge

    def amount(self, value: float) -> str:
        """Return a number in the check's unit, as a document would have it."""
        return f"{value:g} {self.check.unit}".strip()


def check_bands(fields: Fields, check: Check, known: Known, places: tuple[Source, ...]) -> None:
    """Record every fault of the bands of a check, on every unit it fits.

    Parameters
    ----------
    fields : Fields
        The check's, for messages.
    check : Check
        The check; its unit fits its signal.
    known : Known
        What the units have; the check must fit one.
    places : tuple of Source
        Where each band is written.
    """
    if check.resolution <= 0.0:
        _out_of_range(fields, "resolution", check.resolution, say("heater.a-resolution"))
    if check.error < 0.0:
        _out_of_range(fields, "error", check.error, say("heater.an-error"))
    fitting = [unit for unit in known.units if check.applies_to(unit)]
    if not fitting:
        fields.fault(fields.source_of("signal"), say("heater.applies-nowhere"))
    sheet = _Sheet(fields, check, places)
    if check.resolution > 0.0 and _ends_are_open(sheet):
        for unit in fitting:
            if _limits_fit(sheet, unit, known):
                _check_steps(sheet, unit)
                _check_spans(sheet, unit)


def _out_of_range(fields: Fields, key: str, found: float, allowed: str) -> None:
    fields.fault(fields.source_of(key), say("content.out-of-range", key=key, found=f"{found:g}"), allowed)


def _ends_are_open(sheet: _Sheet) -> bool:
    """Say whether the first band is open below, the last above, and no other is; record what is wrong."""
    sound = True
    last = len(sheet.places) - 1
    for index, (place, band) in enumerate(zip(sheet.places, sheet.check.bands, strict=True)):
        for key, edge, is_end in (("low", band.low, index == 0), ("high", band.high, index == last)):
            if is_end == (edge is None):
                continue
            sound = False
            side = say("heater.below" if key == "low" else "heater.above")
            if edge is None:
                message, allowed = say("heater.band-open", side=side), say("heater.band-open-allowed")
                sheet.fields.fault(place, _in_band(band, message), allowed)
            else:
                written = edge if isinstance(edge, str) else sheet.amount(edge)
                message, advice = say("heater.band-closed", side=side, edge=written), say("heater.leave-out", key=key)
                sheet.fields.fault(place, _in_band(band, message), advice=advice)
    return sound


def _in_band(band: Band, message: str) -> str:
    return say("heater.in-band", band=band.id, message=message)


def _limits_fit(sheet: _Sheet, unit: Unit, known: Known) -> bool:
    """Say whether the unit has every limit that an edge names, in the check's kind of unit; record what is wrong."""
    sound = True
    for place, name in sheet.edges():
        if not isinstance(name, str):
            continue
        if name not in unit.limits:
            found = say("heater.no-limit", found=shown(name), unit=unit.id)
            sheet.fields.fault(place, found, listed(unit.limits), nearest(name, unit.limits))
            sound = False
        elif not measures.same_dimension(known.limit_units[unit.id, name], sheet.check.unit):
            wants = sheet.check.unit or say("heater.plain-number")
            sheet.fields.fault(place, say("heater.limit-wrong-kind", found=name, unit=unit.id, wants=wants))
            sound = False
    return sound


def _number(sheet: _Sheet, unit: Unit, edge: Edge, missing: float) -> float:
    if edge is None:
        return missing
    return measures.from_si(unit.limits[edge], sheet.check.unit) if isinstance(edge, str) else edge


def _check_steps(sheet: _Sheet, unit: Unit) -> None:
    """Record edges that lie between two readings of the display."""
    for place, edge in sheet.edges():
        number = _number(sheet, unit, edge, 0.0)
        steps = number / sheet.check.resolution
        if abs(steps - round(steps)) > _WHOLE:
            written = sheet.amount(number)
            if isinstance(edge, str):
                written = say("heater.limit-is", limit=edge, amount=written, unit=unit.id)
            allowed = say("heater.off-step-allowed", resolution=sheet.amount(sheet.check.resolution))
            sheet.fields.fault(place, say("heater.off-step", edge=written), allowed)


def _check_spans(sheet: _Sheet, unit: Unit) -> None:
    """Record bands that hold no reading, and neighbours that do not meet."""
    spans = [
        (_number(sheet, unit, band.low, -math.inf), _number(sheet, unit, band.high, math.inf))
        for band in sheet.check.bands
    ]
    for place, band, (low, high) in zip(sheet.places, sheet.check.bands, spans, strict=True):
        if low >= high:
            span = {"low": sheet.amount(low), "high": sheet.amount(high)}
            sheet.fields.fault(place, say("heater.band-empty", band=band.id, unit=unit.id, **span))
    for index, place in enumerate(sheet.places[1:], start=1):
        ends, starts = spans[index - 1][1], spans[index][0]
        apart = (starts - ends) / sheet.check.resolution
        if abs(apart) > _WHOLE:
            first, second = (band.id for band in sheet.check.bands[index - 1 : index + 1])
            start, end = (sheet.amount(value) for value in sorted((ends, starts)))
            key = "heater.band-gap" if apart > 0 else "heater.band-overlap"
            sheet.fields.fault(place, say(key, first=first, second=second, unit=unit.id, low=start, high=end))
