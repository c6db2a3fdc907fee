"""Docstring, signature and registry of every public formula say the same."""

import inspect
import re
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from courseware.physics import atmosphere, circuits, combustion, draft, efficiency, nozzle, spark
from courseware.physics.quantities import QUANTITIES, Quantity, evaluate
from courseware.physics.ranges import RangeError
from courseware.physics.units import UNITS, same_dimension

MODULES = (atmosphere, circuits, combustion, draft, efficiency, nozzle, spark)
FUNCTIONS = {
    f"{module.__name__}.{name}": function
    for module in MODULES
    for name, function in inspect.getmembers(module, inspect.isfunction)
    if function.__module__ == module.__name__ and not name.startswith("_")
}
# Plain numbers that are a mass per mass; SI units not otherwise a unit that authors write.
WRITTEN = UNITS | {"kg/kg", "-"}


def section(function: Callable[..., Any], title: str) -> str:
    text = inspect.getdoc(function) or ""
    match = re.search(rf"^{title}\n-+\n(.*?)(?=^\w[^\n]*\n-+\n|\Z)", text, re.DOTALL | re.MULTILINE)
    assert match, f"{function.__name__} has no section {title}"
    return match[1]


def described(function: Callable[..., Any]) -> dict[str, str]:
    """Return each documented parameter with its description."""
    parts = re.split(r"^(\w+) : [^\n]*\n", section(function, "Parameters"), flags=re.MULTILINE)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


def unit_in(text: str) -> str:
    match = re.search(r"\[([^\]]*)\]", text)
    assert match, text
    return "" if match[1] == "-" else match[1]


def test_walks_all_formulas() -> None:
    assert len(FUNCTIONS) >= 25
    assert {quantity.function for quantity in QUANTITIES.values()} == set(FUNCTIONS.values())


@pytest.mark.parametrize("function", FUNCTIONS.values(), ids=FUNCTIONS)
def test_docstring_and_signature_name_the_same_parameters_with_units_and_ranges(function: Callable[..., Any]) -> None:
    documented = described(function)
    assert list(documented) == list(inspect.signature(function).parameters)
    for text in documented.values():
        assert unit_in(text) in WRITTEN
        assert re.search(r"; [-\d.,e]+ to [-\d.,e]+", text), "no range"
    assert unit_in(section(function, "Returns")) in WRITTEN
    assert "RangeError" in section(function, "Raises")
    assert len(section(function, "Notes")) > 20, "no source"
    assert ">>> " in section(function, "Examples")


@pytest.mark.parametrize("quantity", QUANTITIES.values(), ids=QUANTITIES)
def test_registry_agrees_with_the_docstring(quantity: Quantity) -> None:
    documented = described(quantity.function)
    assert [parameter.name for parameter in quantity.parameters] == list(documented)
    for parameter in quantity.parameters:
        text = documented[parameter.name]
        assert parameter.unit == unit_in(text)
        assert parameter.symbol in text or parameter.symbol in (inspect.getdoc(quantity.function) or "")
    returned = unit_in(section(quantity.function, "Returns"))
    assert quantity.unit == ("" if returned == "kg/kg" else returned)
    assert not quantity.unit or same_dimension(quantity.unit, quantity.unit)


@pytest.mark.parametrize("quantity", QUANTITIES.values(), ids=QUANTITIES)
def test_documented_range_is_the_range_that_is_held(quantity: Quantity) -> None:
    """The ends that the docstring prints are accepted, and what lies beyond is refused."""
    ends = {name: bounds(text) for name, text in described(quantity.function).items()}
    middle = {name: (low + high) / 2 for name, (low, high) in ends.items()}
    for name, (low, high) in ends.items():
        quantity.function(**{**middle, name: low})
        quantity.function(**{**middle, name: high})
        beyond = (high - low) * 0.01
        for outside in (low - beyond, high + beyond, float("nan")):
            with pytest.raises(RangeError):
                quantity.function(**{**middle, name: outside})


def bounds(text: str) -> tuple[float, float]:
    match = re.search(r"; ([-\d.,e]+) to ([-\d.,e]*\d)", text)
    assert match
    low, high = (float(end.replace(",", "")) for end in match.groups())
    return low, high


@pytest.mark.parametrize("quantity", QUANTITIES.values(), ids=QUANTITIES)
def test_arrays_give_what_single_values_give(quantity: Quantity) -> None:
    ends = {name: bounds(text) for name, text in described(quantity.function).items()}
    grid = {
        name: np.linspace(low + 0.2 * (high - low), high - 0.2 * (high - low), 5) for name, (low, high) in ends.items()
    }
    together = quantity.function(**grid)
    apart = [quantity.function(**{name: float(values[i]) for name, values in grid.items()}) for i in range(5)]
    assert together == pytest.approx(apart, rel=1e-12)


def test_evaluate_refuses_what_the_formula_does_not_take() -> None:
    with pytest.raises(TypeError):
        evaluate("peak-voltage", {"volts": 1.0})
    with pytest.raises(KeyError):
        evaluate("no-such-quantity", {})


def test_range_error_names_quantity_value_range_and_unit() -> None:
    with pytest.raises(RangeError) as found:
        spark.transformer_secondary_voltage(208.0, 120.0, 10e3)
    assert str(found.value) == "line voltage is 208 V; the formula holds from 0 to 150 V"
    with pytest.raises(RangeError) as found:
        spark.needle_sparkover_voltage(np.array([0.01, 0.004]))
    assert str(found.value) == "needle gap is 0.004 m; the formula holds from 0.0085 to 0.052 m"
    with pytest.raises(RangeError) as found:
        combustion.carbon_monoxide_air_free(1e-4, 0.209)
    assert str(found.value) == "oxygen is 0.209; the formula holds from 0 to 0.19"
    with pytest.raises(RangeError) as found:
        draft.theoretical_draft(6.0, 101325.0, 15.0, 500.0)
    assert str(found.value) == "outdoor temperature is 15 K; the formula holds from 220 to 330 K"
