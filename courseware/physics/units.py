"""Units of measurement for people: parsed, converted and written; pint inside, imported when first needed."""

import math
import re
from collections.abc import Mapping
from functools import cache, lru_cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    import pint

# What an author may write: the text as pint reads it, and as a page shows it.
_UNITS: Final[Mapping[str, tuple[str, str]]] = MappingProxyType(
    {
        "": ("dimensionless", ""),
        "V": ("volt", "V"),
        "kV": ("kilovolt", "kV"),
        "A": ("ampere", "A"),
        "mA": ("milliampere", "mA"),
        "ohm": ("ohm", "Ω"),
        "kohm": ("kiloohm", "kΩ"),
        "ohm*m": ("ohm * meter", "Ω·m"),
        "K": ("kelvin", "K"),
        "degC": ("degree_Celsius", "°C"),
        "degF": ("degree_Fahrenheit", "°F"),
        # a difference of temperatures, as net stack temperature is
        "degC-net": ("delta_degree_Celsius", "°C net"),
        "degF-net": ("delta_degree_Fahrenheit", "°F net"),
        "degF-rise": ("delta_degree_Fahrenheit", "°F rise"),  # as of room air through the heater
        "Pa": ("pascal", "Pa"),
        "kPa": ("kilopascal", "kPa"),
        "psi": ("psi", "psi"),
        "psig": ("psi", "psig"),
        "psia": ("psi", "psia"),
        "inHg": ("inHg", "inHg"),
        "inWC": ("inWC", "inWC"),
        "m": ("meter", "m"),
        "cm": ("centimeter", "cm"),
        "mm": ("millimeter", "mm"),
        "in": ("inch", "in"),
        "ft": ("foot", "ft"),
        "m2": ("meter ** 2", "m²"),
        "mm2": ("millimeter ** 2", "mm²"),
        "ft2": ("foot ** 2", "ft²"),
        "m3": ("meter ** 3", "m³"),
        "L": ("liter", "L"),
        "gal": ("gallon", "gal"),
        "m3/s": ("meter ** 3 / second", "m³/s"),
        "L/h": ("liter / hour", "L/h"),
        "gph": ("gallon / hour", "gph"),
        "gal/h": ("gallon / hour", "gal/h"),
        "cfm": ("foot ** 3 / minute", "cfm"),
        "kg/m3": ("kilogram / meter ** 3", "kg/m³"),
        "J/m3": ("joule / meter ** 3", "J/m³"),
        "J/kg": ("joule / kilogram", "J/kg"),
        "MJ/kg": ("megajoule / kilogram", "MJ/kg"),
        "Btu/lb": ("Btu / pound", "Btu/lb"),
        "Btu/gal": ("Btu / gallon", "Btu/gal"),
        "W": ("watt", "W"),
        "kW": ("kilowatt", "kW"),
        "Btu/h": ("Btu / hour", "Btu/h"),
        "W/K": ("watt / kelvin", "W/K"),
        "J/K": ("joule / kelvin", "J/K"),
        "kg/s": ("kilogram / second", "kg/s"),
        "s": ("second", "s"),
        "min": ("minute", "min"),
        "h": ("hour", "h"),
        "%": ("percent", "%"),
        "ppm": ("ppm", "ppm"),
    }
)
UNITS: Final = frozenset(_UNITS)
_BY_SYMBOL: Final = MappingProxyType({symbol: name for name, (_, symbol) in _UNITS.items()})
_POINTS_ON_A_SCALE: Final = frozenset({"degC", "degF"})
_DIFFERENCES: Final = frozenset(name for name, (text, _) in _UNITS.items() if text.startswith("delta_"))

_NUMBER_AND_UNIT: Final = re.compile(r"\s*([-+−]?(?:\d{1,3}(?:,\d{3})+|\d+)?(?:\.\d+)?(?:[eE][-+]?\d+)?)\s*(.*?)\s*")


class UnitError(ValueError):
    """A text is no number with a known unit."""


@lru_cache(maxsize=1)
def _registry() -> "pint.UnitRegistry[float]":
    import pint  # noqa: PLC0415 - takes half a second, and most commands never need it

    registry: pint.UnitRegistry[float] = pint.UnitRegistry(cache_folder=None)
    # Conventional inch of water column (water of 1000 kg/m3 under standard gravity), the trade's draft unit.
    registry.define("inWC = 249.08891 pascal")
    return registry


@cache
def _pint_unit(unit: str) -> "pint.Unit":
    name = _BY_SYMBOL.get(unit, unit)
    if name not in _UNITS:
        raise UnitError(f"'{unit}' is not a known unit")
    return _registry().Unit(_UNITS[name][0])


def to_si(value: float, unit: str) -> float:
    """Return a value [unit] in SI base units.

    Parameters
    ----------
    value : float
        The value [unit].
    unit : str
        One of ``UNITS``; gauge pressure stays gauge pressure.

    Raises
    ------
    UnitError
        If the unit is not known.

    Examples
    --------
    The exact definition 32 °F = 273.15 K:

    >>> to_si(32.0, "degF")
    273.15
    """
    return float(_registry().Quantity(value, _pint_unit(unit)).to_base_units().magnitude)


def from_si(value: float, unit: str) -> float:
    """Return an SI value in the unit; the inverse of :func:`to_si`.

    Parameters
    ----------
    value : float
        The value [SI base units].
    unit : str
        One of ``UNITS``.

    Raises
    ------
    UnitError
        If the unit is not known.

    Examples
    --------
    1 psi = 6894.757 Pa (NIST SP 811, appendix B.8):

    >>> from_si(68947.57, "psig")
    10.00000
    """
    target = _pint_unit(unit)
    base = _registry().get_base_units(target)[1]
    return float(_registry().Quantity(value, base).to(target).magnitude)


def same_dimension(unit: str, other: str) -> bool:
    """Say whether two known units measure the same kind of thing; a temperature and a difference of two do not."""
    names = {_BY_SYMBOL.get(one, one) for one in (unit, other)}
    if names & _POINTS_ON_A_SCALE and names & _DIFFERENCES:
        return False
    return bool(_pint_unit(unit).dimensionality == _pint_unit(other).dimensionality)


def parse(text: str) -> tuple[float, str]:
    """Return number and unit of a text.

    Parameters
    ----------
    text : str
        Such as ``8.3 kV``, ``10,000 V``, ``−0.02 inWC`` or ``72 %``.

    Returns
    -------
    tuple of float and str
        The number [unit], and the unit.

    Raises
    ------
    UnitError
        If there is no number, or the unit is not known.

    Examples
    --------
    >>> parse("10,000 V")
    (10000.0, 'V')
    """
    match = _NUMBER_AND_UNIT.fullmatch(text)
    number, unit = (match[1].replace(",", "").replace("−", "-"), match[2]) if match else ("", "")
    try:
        value = float(number)
    except ValueError:
        raise UnitError(f"'{text}' does not start with a number") from None
    if not math.isfinite(value):
        raise UnitError(f"'{text}' is too large a number")
    unit = unit if unit in _UNITS else _BY_SYMBOL.get(unit, unit)
    _pint_unit(unit)
    return value, unit


def show(value_si: float, unit: str, digits: int) -> str:
    """Return an SI value as a page writes it.

    Parameters
    ----------
    value_si : float
        The value [SI base units].
    unit : str
        One of ``UNITS``.
    digits : int
        Decimals [-].

    Examples
    --------
    >>> show(8333.3, "kV", 1), show(-4.98, "inWC", 2), show(0.0729, "%", 1)
    ('8.3 kV', '−0.02 inWC', '7.3%')
    """
    return write(from_si(value_si, unit), unit, digits)


def write(value: float, unit: str, digits: int) -> str:
    """Return a value [unit] as a page writes it, with ``digits`` decimals; see :func:`show`."""
    rounded = round(value, digits)
    number = f"{abs(rounded):,.{digits}f}"
    sign = "−" if rounded < 0 and not math.isclose(rounded, 0.0) else ""
    symbol = _UNITS[_BY_SYMBOL.get(unit, unit)][1]
    space = "" if symbol in ("", "%") else " "
    return f"{sign}{number}{space}{symbol}"
