"""The error of a value outside a formula's range: it names quantity, value, range and unit."""

from typing import Any

import numpy as np

_ROUNDING = 1e-12  # of the range: what a unit conversion may leave at its ends


class RangeError(ValueError):
    """A value lies outside the range a formula or table is valid for."""


def hold(name: str, value: Any, low: float, high: float, unit: str) -> None:
    """Raise :class:`RangeError` if any value lies outside [low, high], or is not a number.

    Parameters
    ----------
    name : str
        What the value is, in words.
    value : float or array
        The value [unit].
    low, high : float
        The range [unit], ends included, and what float rounding leaves at them.
    unit : str
        SI unit of all three; empty for a plain number.
    """
    values = np.asarray(value, dtype=float)
    slack = _ROUNDING * max(abs(low), abs(high))
    wrong = values[~((values >= low - slack) & (values <= high + slack))]
    if wrong.size:
        ending = f" {unit}" if unit else ""
        raise RangeError(
            f"{name} is {wrong.flat[0]:.6g}{ending}; the formula holds from {low:.6g} to {high:.6g}{ending}"
        )
