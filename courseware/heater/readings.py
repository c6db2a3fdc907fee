"""From a run to what the technician reads: values, displays, verdicts and their exact probabilities.

A reading is the true value plus a normal error, rounded to the resolution of the display. Band edges are
multiples of the resolution, so the band of a reading follows from the rounded value alone, and the
probability of each band is the normal distribution between edges moved down by half a step.
What stands at or above zero never reads below zero.
"""

import math
import random
from collections.abc import Sequence
from functools import cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from courseware.content.words import say
from courseware.heater.checks import Band, Check, Condition
from courseware.heater.complaints import Complaint
from courseware.heater.parts.base import Array
from courseware.heater.simulate import Run
from courseware.heater.unit import Unit
from courseware.physics import units

CANNOT: Final = "cannot"
EVER: Final = "ever"

Flags = NDArray[np.bool_]


def outcomes(unit: Unit, check: Check) -> tuple[str, ...]:
    """Return the outcomes of a check: the ids of its bands, then ``cannot``.

    Raises
    ------
    ValueError
        If the unit has nothing that the check reads.
    """
    _hold_fit(unit, check)
    return (*(band.id for band in check.bands), CANNOT)


def _hold_fit(unit: Unit, check: Check) -> None:
    if not check.applies_to(unit):
        raise ValueError(f"unit '{unit.id}' has nothing that check '{check.id}' reads")


def edge(unit: Unit, check: Check, value: float | str | None, *, missing: float) -> float:
    """Return a band edge in steps of the display: whole, infinite, or ``missing`` where the band is open.

    Parameters
    ----------
    unit : Unit
        Gives the limit, where the edge names one.
    check : Check
        Gives unit and resolution.
    value : float | str | None
        The edge [unit of the check], the name of a limit, or None.
    missing : float
        What stands for None.
    """
    if value is None:
        return missing
    number = units.from_si(unit.limits[value], check.unit) if isinstance(value, str) else value
    return float(round(number / check.resolution))


def true_values(unit: Unit, check: Check, run: Run) -> Array:
    """Return what a perfect instrument would read, unrounded.

    Parameters
    ----------
    unit : Unit
        The unit of the run.
    check : Check
        The check; the run must have been made with its changes.
    run : Run
        n cases.

    Returns
    -------
    array (n,)
        Values [unit of the check]; nan where there is nothing to read.

    Raises
    ------
    ValueError
        If the unit has nothing that the check reads.
    """
    _hold_fit(unit, check)
    index = run.moments[check.moment]
    columns = np.arange(index.size)
    readable = index >= 0
    for condition in check.given:
        readable &= _holds(condition, run, index)
    factor, offset = _from_si(check.unit)
    values = run.signals[check.signal][index, columns] * factor + offset
    return np.where(readable, values, np.nan)


@cache
def _from_si(unit: str) -> tuple[float, float]:
    """Return factor and offset that turn SI into a unit; every unit here is linear."""
    offset = units.from_si(0.0, unit)
    return units.from_si(1.0, unit) - offset, offset


def verdict_probabilities(unit: Unit, check: Check, run: Run) -> Array:
    """Return the exact probability of each outcome.

    Returns
    -------
    array (n, k)
        Probabilities [-] in the order of :func:`outcomes`; each row adds up to 1.
    """
    values = true_values(unit, check, run)
    below = [_chance_below(check, values, edge(unit, check, band.low, missing=-math.inf)) for band in check.bands]
    edges = np.stack([*below, np.ones_like(values)], axis=1)
    readable = ~np.isnan(values)
    bands = np.where(readable[:, None], np.diff(edges, axis=1), 0.0)
    return np.column_stack([bands, np.where(readable, 0.0, 1.0)])


def _chance_below(check: Check, values: Array, step: float) -> Array:
    """Return the probability that the display shows less than ``step`` steps."""
    if step == -math.inf:
        return np.zeros_like(values)
    if check.error == 0.0:
        return np.where(_rounded(values / check.resolution) < step, 1.0, 0.0)
    distance = ((step - 0.5) * check.resolution - values) / check.error
    chance = np.array([0.5 * math.erfc(-one / math.sqrt(2.0)) for one in distance])
    return np.where((values >= 0.0) & (step <= 0.0), 0.0, chance)


def _rounded(steps: Array) -> Array:
    """Return values [steps] on the display: halves go up, and what float arithmetic left just below a half too."""
    return np.floor(steps + 0.5 + 1e-9)


def draw(unit: Unit, check: Check, run: Run, case: int, rng: random.Random) -> tuple[float | None, str]:
    """Draw one reading with the instrument's error.

    Parameters
    ----------
    unit : Unit
        The unit of the run.
    check : Check
        The check; the run must have been made with its changes.
    run : Run
        n cases.
    case : int
        Which of them.
    rng : random.Random
        Source of the error; one normal number is taken from it, whether there is a reading or not.

    Returns
    -------
    tuple of float | None and str
        The reading [unit of the check] and its outcome; None and ``cannot`` where there is nothing to read.
    """
    noise = rng.gauss(0.0, 1.0)
    value = float(true_values(unit, check, run)[case])
    if math.isnan(value):
        return None, CANNOT
    read = value + noise * check.error
    if value >= 0.0:
        read = max(read, 0.0)
    if check.top is not None:
        read = min(read, check.top)
    steps = float(_rounded(np.asarray(read / check.resolution)))
    return steps * check.resolution, band_of(unit, check, steps).id


def band_of(unit: Unit, check: Check, steps: float) -> Band:
    """Return the band of a displayed value [steps of the display]."""
    return next(band for band in check.bands if steps < edge(unit, check, band.high, missing=math.inf))


def shown(unit: Unit, check: Check, value: float | None) -> str:
    """Return how a reading is written on the sheet.

    Parameters
    ----------
    unit : Unit
        The unit.
    check : Check
        The check.
    value : float | None
        The reading [unit of the check], as :func:`draw` gives it.

    Returns
    -------
    str
        ``8.5 kV``; the words of its band where it is seen or heard; ``OL`` above the instrument's range; why
        there is none for None.
    """
    if value is None:
        return check.cannot
    if not check.unit:
        return band_of(unit, check, round(value / check.resolution)).says
    digits = decimals(check.resolution)
    if check.top is not None and value >= check.top:
        return say("heater.over-range", top=units.write(check.top, check.unit, digits))
    return units.write(value, check.unit, digits)


def decimals(resolution: float) -> int:
    """Return how many decimals a display of this resolution shows.

    Examples
    --------
    >>> decimals(0.05), decimals(1.0), decimals(500.0)
    (2, 0, 0)
    """
    text = f"{resolution:.6f}".rstrip("0")
    return len(text.partition(".")[2])


def complaint_of(unit: Unit, complaints: Sequence[Complaint], run: Run) -> tuple[str, ...]:
    """Return the id of the complaint in each case: the first whose conditions the run meets.

    A condition on a signal that the unit lacks is not met. The last complaint asks nothing, so every case has one.
    """
    count = next(iter(run.moments.values())).size
    found = [""] * count
    for complaint in complaints:
        if not all(unit.has_output(one.signal) for one in complaint.when):
            continue
        met = np.ones(count, dtype=bool)
        for condition in complaint.when:
            met &= _met(condition, run)
        found = [complaint.id if not old and new else old for old, new in zip(found, met, strict=True)]
    return tuple(found)


def _met(condition: Condition, run: Run) -> Flags:
    if condition.moment == EVER:
        return _inside(condition, run.signals[condition.signal].max(axis=0))
    index = run.moments[condition.moment]
    return (index >= 0) & _holds(condition, run, index)


def _holds(condition: Condition, run: Run, index: NDArray[np.int64]) -> Flags:
    return _inside(condition, run.signals[condition.signal][index, np.arange(index.size)])


def _inside(condition: Condition, values: Array) -> Flags:
    low = -math.inf if condition.low is None else condition.low
    high = math.inf if condition.high is None else condition.high
    return (values >= low) & (values < high)
