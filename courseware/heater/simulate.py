"""Run a unit through one call for heat, for many cases at once."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from courseware.heater.faults import Change, FaultMode
from courseware.heater.parts.base import Array
from courseware.heater.unit import Unit

Case = tuple[tuple[FaultMode, float], ...]  # faults present, each with its severity
MOMENTS: Final = ("standby", "prepurge", "trial", "run", "end")
STEP: Final = 0.5  # s
DURATION: Final = 120.0  # s


@dataclass(frozen=True, slots=True)
class Run:
    """What happened, for n cases over T instants.

    Attributes
    ----------
    unit : Unit
        The unit that was run.
    times : array (T,)
        Instants [s] from the start of the record; the thermostat calls soon after.
    signals : Mapping[str, array (T, n)]
        ``part.output`` to its values, SI.
    moments : Mapping[str, array (n,)]
        Moment to the index of its instant in each case; -1: it never came.
    states : tuple of str
        Names of the codes of the control's state, see :func:`timeline`.
    """

    unit: Unit
    times: Array
    signals: Mapping[str, Array]
    moments: Mapping[str, NDArray[np.int64]]
    states: tuple[str, ...]


def simulate(
    unit: Unit, cases: Sequence[Case], changes: Sequence[Change] = (), *, dt: float = STEP, duration: float = DURATION
) -> Run:
    """Run every case of a unit with the same arrangement.

    Parameters
    ----------
    unit : Unit
        The unit.
    cases : sequence of Case
        n cases; ``()`` is a healthy unit.
    changes : sequence of Change
        The arrangement: each setting is put to its ``at_worst``, whatever the faults made of it.
    dt, duration : float
        Step and length of the record [s].
    """
    return simulate_each(unit, cases, [changes] * len(cases), dt=dt, duration=duration)


def simulate_each(
    unit: Unit,
    cases: Sequence[Case],
    arrangements: Sequence[Sequence[Change]],
    *,
    dt: float = STEP,
    duration: float = DURATION,
) -> Run:
    """Run every case with an arrangement of its own; otherwise as :func:`simulate`."""
    raise NotImplementedError


def timeline(run: Run, case: int = 0) -> tuple[tuple[float, str], ...]:
    """Return (time [s], state of the control) of one case: where it starts, and every change."""
    raise NotImplementedError
