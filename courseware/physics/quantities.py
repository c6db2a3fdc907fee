"""The formulas as a registry: lessons and numeric questions evaluate them by id."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final

from courseware.physics import atmosphere, circuits, combustion, draft, efficiency, nozzle, spark


@dataclass(frozen=True, slots=True)
class Parameter:
    """One parameter of a quantity.

    Attributes
    ----------
    name, symbol, meaning : str
        The function's parameter, its letter in the formula, and what it is.
    unit : str
        SI unit; empty for a plain number.
    """

    name: str
    symbol: str
    meaning: str
    unit: str


@dataclass(frozen=True, slots=True)
class Quantity:
    """One computed quantity.

    Attributes
    ----------
    id, title, symbol : str
        How lessons refer to it, what it is called, and its letter.
    unit : str
        SI unit of the result; empty for a plain number.
    parameters : tuple of Parameter
        In the order of the function.
    function : callable
        SI in, SI out.
    formula, origin : str
        The formula as a page shows it, and where it comes from.
    """

    id: str
    title: str
    symbol: str
    unit: str
    parameters: tuple[Parameter, ...]
    function: Callable[..., Any]
    formula: str
    origin: str


_SGU: Final = "Steam, Its Generation and Use, 35th ed."
_ATMOSPHERE: Final = "US Standard Atmosphere, 1976"
_LINE: Final = Parameter("line_voltage", "U1", "line voltage at the primary", "V")
_RATED_LINE: Final = Parameter("rated_line_voltage", "U1r", "rated line voltage", "V")
_RATED_SECONDARY: Final = Parameter("rated_secondary_voltage", "U2r", "rated secondary voltage", "V")
_OXYGEN: Final = Parameter("oxygen", "O2", "oxygen in the dry flue gas", "")
_CO2: Final = Parameter("carbon_dioxide", "CO2", "carbon dioxide in the dry flue gas", "")
_CO: Final = Parameter("carbon_monoxide", "CO", "carbon monoxide in the dry flue gas", "")
_CO2_MAX: Final = Parameter("carbon_dioxide_max", "CO2max", "greatest carbon dioxide of the fuel", "")
_EXCESS: Final = Parameter("excess", "e", "excess air", "")
_DRY_GAS_RATIO: Final = Parameter("dry_gas_ratio", "r", "dry flue gas per theoretical air", "")
_NET: Final = Parameter("net_temperature", "ΔT", "net stack temperature", "K")
_CARBON: Final = Parameter("carbon", "C", "mass fraction of carbon", "")
_HYDROGEN: Final = Parameter("hydrogen", "H", "mass fraction of hydrogen", "")
_ALTITUDE: Final = Parameter("altitude", "z", "altitude above sea level", "m")
_LEAD: Final = (
    Parameter("length", "L", "length, one way", "m"),
    Parameter("area", "A", "cross-section of each conductor", "m2"),
    Parameter("temperature", "T", "conductor temperature", "K"),
)

_ALL: Final = (
    Quantity(
        "transformer-secondary-voltage", "Secondary voltage of an ignition transformer", "U2", "V",
        (_LINE, _RATED_LINE, _RATED_SECONDARY), spark.transformer_secondary_voltage,
        "U2 = U2r × U1 / U1r", "turns ratio of an ideal transformer",
    ),
    Quantity(
        "least-line-voltage", "Least line voltage for ignition", "U1", "V",
        (
            Parameter("needed_secondary_voltage", "U2", "secondary voltage the spark needs", "V"),
            _RATED_LINE, _RATED_SECONDARY,
        ),
        spark.least_line_voltage, "U1 = U1r × U2 / U2r", "turns ratio of an ideal transformer",
    ),
    Quantity(
        "peak-voltage", "Peak voltage of a sine wave", "Û", "V",
        (Parameter("rms_voltage", "U", "voltage, rms", "V"),), spark.peak_voltage,
        "Û = √2 × U", "definition of the root mean square",
    ),
    Quantity(
        "needle-sparkover-voltage", "Peak voltage that jumps a gap between points", "Û", "V",
        (Parameter("gap", "d", "gap between the points", "m"),), spark.needle_sparkover_voltage,
        "Û(d), table", "AIEE needle-gap table, 760 mmHg and 25 °C, second hand",
    ),
    Quantity(
        "air-density-factor", "Air density factor of sparkover", "δ", "",
        (
            Parameter("pressure", "p", "air pressure, absolute", "Pa"),
            Parameter("temperature", "T", "air temperature", "K"),
        ),
        spark.air_density_factor, "δ = (p / 101,325 Pa) × (298.15 K / T)",
        "ideal gas; AIEE table of correction factors",
    ),
    Quantity(
        "theoretical-air", "Air needed to burn a fuel", "m", "",
        (
            _CARBON, _HYDROGEN,
            Parameter("oxygen", "O", "mass fraction of oxygen", ""),
            Parameter("sulfur", "S", "mass fraction of sulfur", ""),
        ),
        combustion.theoretical_air, "m = 11.52 C + 34.56 (H − O/8) + 4.32 S", f"{_SGU}, equation 10",
    ),
    Quantity(
        "excess-air", "Excess air", "e", "", (_OXYGEN, _CO2, _CO), combustion.excess_air,
        "e = (O2 − CO/2) / (0.264 N2 − (O2 − CO/2)), N2 = 1 − CO2 − O2 − CO", "EPA Method 3B",
    ),
    Quantity(
        "flue-gas-oxygen", "Oxygen in the dry flue gas", "O2", "", (_EXCESS, _DRY_GAS_RATIO),
        combustion.flue_gas_oxygen, "O2 = 0.20946 e / (e + r)", "mole balance",
    ),
    Quantity(
        "carbon-dioxide-from-oxygen", "Carbon dioxide that belongs to an oxygen reading", "CO2", "",
        (_OXYGEN, _CO2_MAX),
        combustion.carbon_dioxide_from_oxygen, "CO2 = CO2max × (0.209 − O2) / 0.209", "dilution by air, from memory",
    ),
    Quantity(
        "carbon-monoxide-air-free", "Carbon monoxide, air-free", "COaf", "", (_CO, _OXYGEN),
        combustion.carbon_monoxide_air_free, "COaf = CO × 0.209 / (0.209 − O2)", "dilution by air; trade practice",
    ),
    Quantity(
        "excess-air-from-oxygen", "Excess air from oxygen", "e", "", (_OXYGEN, _DRY_GAS_RATIO),
        combustion.excess_air_from_oxygen, "e = r × O2 / (0.20946 − O2)", "mole balance",
    ),
    Quantity(
        "excess-air-from-carbon-dioxide", "Excess air from carbon dioxide", "e", "", (_CO2, _CO2_MAX, _DRY_GAS_RATIO),
        combustion.excess_air_from_carbon_dioxide, "e = r × (CO2max / CO2 − 1)", "mole balance",
    ),
    Quantity(
        "carbon-dioxide-from-excess-air", "Carbon dioxide in the dry flue gas", "CO2", "", (_EXCESS, _CO2_MAX),
        combustion.carbon_dioxide_from_excess_air,
        "CO2 = a / (1 + 3.774 s (1 + e) + s max(e, 0)), s = (1 / CO2max − 1) / 3.774, a = 1 + 2 s min(e, 0)",
        "mole balance; short of air, the hydrogen burns first",
    ),
    Quantity(
        "fuel-factor", "Fuel factor", "Fo", "", (_OXYGEN, _CO2, _CO), combustion.fuel_factor,
        "Fo = (0.209 − O2 + CO/2) / (CO2 + CO)", "EPA Methods 3 and 3B",
    ),
    Quantity(
        "net-stack-temperature", "Net stack temperature", "ΔT", "K",
        (
            Parameter("stack_temperature", "Ts", "flue gas temperature", "K"),
            Parameter("air_temperature", "Ta", "temperature of the combustion air", "K"),
        ),
        efficiency.net_stack_temperature, "ΔT = Ts − Ta", "definition",
    ),
    Quantity(
        "siegert-efficiency", "Combustion efficiency, lower heat content", "η", "", (_NET, _OXYGEN),
        efficiency.siegert_efficiency, "η = 1 − ΔT (0.68 / (21 − O2) + 0.007) / 100, O2 in %, ΔT in K",
        "Siegert; constants of the German 1. BImSchV",
    ),
    Quantity(
        "heat-loss-efficiency", "Combustion efficiency, higher heat content", "η", "",
        (_NET, _EXCESS, _CARBON, _HYDROGEN, Parameter("heat_content", "Hh", "higher heat content of the oil", "J/kg")),
        efficiency.heat_loss_efficiency,
        "η = 1 − [(m (1 + e) + 1 − w) c ΔT + w (L + cv ΔT)] / Hh, m = 11.52 C + 34.56 H, w = 8.936 H",
        "indirect method; short form of the ASME test code, BEE energy-audit guide",
    ),
    Quantity(
        "theoretical-draft", "Theoretical draft of a chimney", "D", "Pa",
        (
            Parameter("height", "h", "height from the breech to the top", "m"),
            Parameter("pressure", "p", "barometric pressure, absolute", "Pa"),
            Parameter("outdoor_temperature", "To", "outdoor temperature", "K"),
            Parameter("gas_temperature", "Tg", "mean flue gas temperature", "K"),
        ),
        draft.theoretical_draft, "D = (g p h / R) × (1/To − 1/Tg)", f"ideal gas; {_SGU}, equation 24",
    ),
    Quantity(
        "standard-temperature", "Temperature of the standard atmosphere", "T", "K", (_ALTITUDE,),
        atmosphere.standard_temperature, "T = 288.15 K − 0.0065 K/m × H, H = R z / (R + z), R = 6,356,766 m",
        f"{_ATMOSPHERE}, equations 18 and 23",
    ),
    Quantity(
        "standard-pressure", "Pressure of the standard atmosphere", "p", "Pa", (_ALTITUDE,),
        atmosphere.standard_pressure, "p = 101,325 Pa × (T / 288.15 K)^5.2559", f"{_ATMOSPHERE}, equation 33a",
    ),
    Quantity(
        "standard-density-ratio", "Air density over that at sea level", "σ", "", (_ALTITUDE,),
        atmosphere.standard_density_ratio, "σ = (p / 101,325 Pa) × (288.15 K / T)", f"{_ATMOSPHERE}, equation 42",
    ),
    Quantity(
        "copper-resistance", "Resistance of a copper conductor", "R", "ohm", _LEAD, circuits.copper_resistance,
        "R = ρ20 (1 + α (T − 293.15 K)) L / A, ρ20 = 1.7241e-8 Ω·m, α = 0.00393 /K",
        "International Annealed Copper Standard, from memory",
    ),
    Quantity(
        "lead-voltage-drop", "Voltage lost in a two-wire copper lead", "ΔU", "V",
        (Parameter("current", "I", "current, rms", "A"), *_LEAD), circuits.lead_voltage_drop,
        "ΔU = 2 I R", "Ohm's law",
    ),
    Quantity(
        "nozzle-flow", "Flow of a pressure-atomizing nozzle", "V", "m3/s",
        (
            Parameter("rated_flow", "Vr", "rated flow", "m3/s"),
            Parameter("rated_pressure", "pr", "rated pressure, gauge", "Pa"),
            Parameter("pressure", "p", "oil pressure at the nozzle, gauge", "Pa"),
        ),
        nozzle.nozzle_flow, "V = Vr × √(p / pr)", "square-root law of orifices; nozzle makers' charts",
    ),
    Quantity(
        "firing-rate", "Heat input of a burner", "Q", "W",
        (
            Parameter("flow", "V", "oil flow", "m3/s"),
            Parameter("heat_content", "h", "heat content of the oil", "J/m3"),
        ),
        nozzle.firing_rate, "Q = V × h", "definition",
    ),
)  # fmt: skip

QUANTITIES: Final[Mapping[str, Quantity]] = MappingProxyType({quantity.id: quantity for quantity in _ALL})


def evaluate(quantity_id: str, given: Mapping[str, float]) -> float:
    """Return a quantity from its parameters.

    Parameters
    ----------
    quantity_id : str
        A key of ``QUANTITIES``.
    given : Mapping[str, float]
        Every parameter by name, SI.

    Returns
    -------
    float
        The quantity [its SI unit].

    Raises
    ------
    KeyError
        If there is no such quantity.
    TypeError
        If a parameter is missing or too many.
    RangeError
        If a value is outside the formula's range.

    Examples
    --------
    Line voltage sagging to 100 V, a trade magazine's story:

    >>> evaluate(
    ...     "transformer-secondary-voltage",
    ...     {"line_voltage": 100.0, "rated_line_voltage": 120.0, "rated_secondary_voltage": 10000.0},
    ... )
    8333.3
    """
    return float(QUANTITIES[quantity_id].function(**given))
