"""What does this reading tell you? Single choice made from a check's bands: the options are what its bands mean."""

import math
import random
from dataclasses import dataclass
from typing import Final

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.heater.checks import Band, Check
from courseware.heater.load import Trade
from courseware.heater.readings import decimals, edge, shown
from courseware.heater.unit import Unit
from courseware.physics.units import write
from courseware.quiz.form import Exhibit
from courseware.quiz.item_writing import FEWEST_OPTIONS, MOST_OPTIONS, faults_of_options
from courseware.quiz.kinds.base import Drawn, DrawnOption, ItemKind, Materials, Wanted
from courseware.safework.model import SafeWork

OPEN_TO: Final = 1.2
"""A reading in a band with no upper edge is at most this many times its lower edge [-]."""
WIDE: Final = 50
"""A band that is this many times as high at its end as at its start [-] is a matter of decades."""
CLEAR_BY: Final = 4.0
"""A reading stands this many of its standard errors away from the edges of its band [-]."""


@dataclass(frozen=True, slots=True)
class ReadingMeaning:
    """The units and the checks to ask about."""

    units: tuple[str, ...]
    checks: tuple[str, ...]


def load(fields: Fields, trade: Trade, _safework: SafeWork) -> ReadingMeaning:
    """Read ``units`` and ``checks``; a check must have a number to read and three to five bands."""
    units = fields.references("units", say("quiz.a-unit"), trade.units)
    checks = fields.references("checks", say("quiz.a-check"), trade.checks)
    for check_id in checks:
        check = trade.checks.get(check_id)
        if check is not None and not (check.unit and FEWEST_OPTIONS <= len(check.bands) <= MOST_OPTIONS):
            fields.fault(
                fields.source_of("checks"),
                say("quiz.no-bands", check=check_id, least=FEWEST_OPTIONS, most=MOST_OPTIONS),
            )
        elif check is not None:
            for fault in faults_of_options([band.says for band in check.bands]):
                fields.fault(fields.source_of("checks"), say("quiz.bands-alike", check=check_id, fault=fault))
    return ReadingMeaning(units, checks)


def draw(body: ReadingMeaning, made_from: Materials, rng: random.Random, _wanted: Wanted) -> Drawn | None:
    """Draw a unit, a check, a band and a reading well inside it; none if there is no such check or no room."""
    unit = made_from.trade.units[rng.choice(body.units)]
    check = made_from.trade.checks[rng.choice(body.checks)]
    if not check.applies_to(unit):
        return None
    place = rng.randrange(len(check.bands))
    value = _inside(unit, check, check.bands[place], rng)
    if value is None:
        return None
    written = shown(unit, check, value)
    return Drawn(
        identity=f"reading-meaning|{unit.id}|{check.id}|{written}",
        stem=(say("quiz.the-unit", unit=unit.title, summary=unit.summary), say("quiz.reading-meaning-ask")),
        because=say(
            "quiz.reading-meaning-because",
            range=_range(unit, check, check.bands[place]),
            reading=written,
            says=check.bands[place].says,
        ),
        lesson=check.lesson,
        exhibit=Exhibit(say("quiz.readings"), ((check.title, written),)),
        options=tuple(
            DrawnOption(band.says)
            if number == place
            else DrawnOption(
                band.says,
                say("quiz.reading-meaning-other", range=_range(unit, check, band)),
                belief=made_from.by_relation.get("taken-too-low" if number < place else "taken-too-high"),
            )
            for number, band in enumerate(check.bands)
        ),
        right=place,
    )


def edges(unit: Unit, check: Check, band: Band) -> tuple[float | None, float | None]:
    """Return the edges of a band on a unit [unit of the check]; None: open."""
    steps = (edge(unit, check, one, missing=math.nan) for one in (band.low, band.high))
    low, high = (None if math.isnan(step) else step * check.resolution for step in steps)
    return low, high


def _inside(unit: Unit, check: Check, band: Band, rng: random.Random) -> float | None:
    """Return a reading in a band, clear of its edges; None if there is no room or no end to it."""
    low, high = edges(unit, check, band)
    margin = max(CLEAR_BY * check.error, check.resolution)
    if high is None and check.top is not None and low is not None and low <= check.top:
        return check.top
    first = 0 if low is None else math.ceil((low + margin) / check.resolution)
    last = math.floor((OPEN_TO * (low or 0) if high is None else high - margin) / check.resolution)
    if last < first:
        return None
    if last > WIDE * max(first, 1):  # readings spread evenly over the decades, as they do in use
        steps = math.exp(rng.uniform(math.log(max(first, 1)), math.log(last)))
        return check.resolution * round(steps)
    return check.resolution * rng.randint(first, last)


def _range(unit: Unit, check: Check, band: Band) -> str:
    digits = decimals(check.resolution)
    low, high = (None if one is None else write(one, check.unit, digits) for one in edges(unit, check, band))
    if low is None:
        return say("quiz.range-below", high=high)
    return say("quiz.range-from", low=low) if high is None else say("quiz.range-between", low=low, high=high)


KIND: Final = ItemKind("choice", load, draw)
