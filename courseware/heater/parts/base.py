"""What a part kind must offer: its settings, its ports, and one step of its behaviour."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Values = Mapping[str, Any]  # name to a float or an array over cases; the last axis is the case
Step = Callable[[Values, Values, Values, float], tuple[dict[str, Any], dict[str, Any]]]


@dataclass(frozen=True, slots=True)
class Setting:
    """One adjustable or breakable property of a part.

    Attributes
    ----------
    name, unit, meaning : str
        Its name, the SI unit it is kept in (empty: a plain number), and what it is.
    default : float | None
        Value [unit] of a part in order; None: every unit states its own.
    low, high : float
        Range [unit] that the behaviour is written for, faults included.
    """

    name: str
    unit: str
    default: float | None
    low: float
    high: float
    meaning: str


@dataclass(frozen=True, slots=True)
class Port:
    """One input or output of a part.

    Attributes
    ----------
    name, unit, meaning : str
        Its name, SI unit, and what flows through it.
    default : float | None
        For an input: the value [unit] it has where a unit wires nothing to it; None: it must be wired.
    late : bool
        For an input: it brings the value of the step before. Every loop of a unit passes through one.
    """

    name: str
    unit: str
    meaning: str
    default: float | None = None
    late: bool = False


def _no_memory(_settings: Values) -> dict[str, Any]:
    return {}


def _no_features(_settings: Mapping[str, float]) -> dict[str, str]:
    return {}


@dataclass(frozen=True, slots=True)
class PartKind:
    """One kind of part.

    Attributes
    ----------
    name, meaning : str
        The word in unit documents, and what it stands for.
    settings, inputs, outputs : tuple
        Its properties and ports.
    step : callable
        ``step(settings, inputs, memory, dt) -> (outputs, memory)``: floats or arrays over cases in and
        out, ``dt`` [s]. It changes nothing it is given.
    start : callable
        Memory at time zero, from the settings.
    features : callable
        Feature words that a part of this kind gives its unit, from its settings.
    states : tuple of str
        Names of the codes of its output ``state``; only a control has any.
    """

    name: str
    meaning: str
    settings: tuple[Setting, ...]
    inputs: tuple[Port, ...]
    outputs: tuple[Port, ...]
    step: Step
    start: Callable[[Values], dict[str, Any]] = _no_memory
    features: Callable[[Mapping[str, float]], dict[str, str]] = _no_features
    states: tuple[str, ...] = ()

    @property
    def output_names(self) -> frozenset[str]:
        """Return the names of its outputs."""
        return frozenset(port.name for port in self.outputs)


RUNS_FROM: Final = 80.0  # V; motors and coils of 120 V run or pull in from about two thirds of it (common practice)
OPEN_CIRCUIT: Final = 1e8  # ohm; what an open circuit measures as


def approach(value: Any, target: Any, dt: float, time_constant: Any) -> Any:
    """Return a value one step [s] nearer its target, by a first-order lag of the time constant [s]."""
    return value + (target - value) * np.minimum(dt / np.maximum(time_constant, dt), 1.0)
