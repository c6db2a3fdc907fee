"""From a run to what the technician reads: values, displays, verdicts and their exact probabilities."""

import random
from collections.abc import Sequence

from courseware.heater.checks import Check
from courseware.heater.complaints import Complaint
from courseware.heater.parts.base import Array
from courseware.heater.simulate import Run
from courseware.heater.unit import Unit

CANNOT = "cannot"


def outcomes(unit: Unit, check: Check) -> tuple[str, ...]:
    """Return the outcomes of a check: the ids of its bands, then ``cannot``."""
    if not check.applies_to(unit):
        raise ValueError(f"unit '{unit.id}' has nothing that check '{check.id}' reads")
    return (*(band.id for band in check.bands), CANNOT)


def true_values(unit: Unit, check: Check, run: Run) -> Array:
    """Return what a perfect instrument would read [unit of the check], (n,); nan: nothing to read."""
    raise NotImplementedError


def verdict_probabilities(unit: Unit, check: Check, run: Run) -> Array:
    """Return the exact probability [-] of each outcome, (n, k)."""
    raise NotImplementedError


def shown(unit: Unit, check: Check, value: float | None) -> str:
    """Return how a reading is written on the sheet: ``8.5 kV``, the band's words, or why there is none."""
    raise NotImplementedError


def draw(unit: Unit, check: Check, run: Run, case: int, rng: random.Random) -> tuple[float | None, str]:
    """Draw one reading [unit of the check] with the instrument's error, and its outcome."""
    raise NotImplementedError


def complaint_of(unit: Unit, complaints: Sequence[Complaint], run: Run) -> tuple[str, ...]:
    """Return the id of the complaint in each case."""
    raise NotImplementedError
