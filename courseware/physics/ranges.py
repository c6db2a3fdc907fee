"""The error of a value outside a formula's range: it names quantity, value, range and unit."""

from typing import Any

import numpy as np


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
        The range [unit], ends included.
    unit : str
        SI unit of all three; empty for a plain number.
    """
    values = np.asarray(value, dtype=float)
    wrong = values[~((values >= low) & (values <= high))]
    if wrong.size:
        ending = f" {unit}" if unit else ""
        raise RangeError(
            f"{name} is {wrong.flat[0]:.6g}{ending}; the formula holds from {low:.6g} to {high:.6g}{ending}"
        )
