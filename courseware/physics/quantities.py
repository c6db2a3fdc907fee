"""The formulas as a registry: lessons and numeric questions evaluate them by id."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final


@dataclass(frozen=True, slots=True)
class Parameter:
    """One parameter of a quantity; ``unit`` is the SI unit's text, empty for a plain number."""

    name: str
    symbol: str
    meaning: str
    unit: str


@dataclass(frozen=True, slots=True)
class Quantity:
    """One computed quantity: its function and what a page needs to show it."""

    id: str
    title: str
    symbol: str
    unit: str
    parameters: tuple[Parameter, ...]
    function: Callable[..., Any]
    formula: str
    origin: str


QUANTITIES: Final[Mapping[str, Quantity]] = MappingProxyType({})


def evaluate(quantity_id: str, given: Mapping[str, float]) -> float:
    """Return the quantity, SI, from its parameters, SI."""
    return float(QUANTITIES[quantity_id].function(**given))
