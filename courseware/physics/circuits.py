"""Circuits: the voltage a long lead keeps for itself."""

from typing import Any, Final

from courseware.physics.ranges import hold

_COPPER_RESISTIVITY: Final = 1.7241e-8  # ohm m at 20 °C, International Annealed Copper Standard
_COPPER_COEFFICIENT: Final = 0.00393  # 1/K at 20 °C, the same standard
_TWENTY_DEGREES: Final = 293.15  # K


def copper_resistance(length: Any, area: Any, temperature: Any) -> Any:
    """Return the resistance of one copper conductor.

    R = ρ20 (1 + α (T − 293.15 K)) L / A, ρ20 = 1.7241e-8 Ω·m, α = 0.00393 /K.

    Parameters
    ----------
    length : float or array
        Length L of the conductor [m]; 0 to 1,000 m.
    area : float or array
        Cross-section A [m2]; 1e-7 to 1e-3 m2.
    temperature : float or array
        Conductor temperature T [K]; 233 to 373 K.

    Returns
    -------
    float or array
        Resistance R [ohm].

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    International Annealed Copper Standard (NBS Handbook 100), constants from memory.

    Examples
    --------
    1,000 ft of No. 14 AWG (2.081 mm2) at 20 °C; the Handbook's wire table has 2.525 ohm (from memory):

    >>> copper_resistance(304.8, 2.081e-6, 293.15)
    2.525
    """
    hold("conductor length", length, 0.0, 1000.0, "m")
    hold("conductor area", area, 1e-7, 1e-3, "m2")
    hold("conductor temperature", temperature, 233.0, 373.0, "K")
    resistivity = _COPPER_RESISTIVITY * (1.0 + _COPPER_COEFFICIENT * (temperature - _TWENTY_DEGREES))
    return resistivity * length / area


def lead_voltage_drop(current: Any, length: Any, area: Any, temperature: Any) -> Any:
    """Return the voltage lost in a two-wire copper lead, there and back.

    ΔU = 2 I R.

    Parameters
    ----------
    current : float or array
        Current I [A], rms; 0 to 100 A.
    length : float or array
        Length L of the lead, one way [m]; 0 to 1,000 m.
    area : float or array
        Cross-section A of each conductor [m2]; 1e-7 to 1e-3 m2.
    temperature : float or array
        Conductor temperature T [K]; 233 to 373 K.

    Returns
    -------
    float or array
        Voltage drop ΔU [V], rms.

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    Ohm's law, power factor 1, reactance left out: within 1 % for leads up to No. 10 AWG.

    Examples
    --------
    10 A through 100 ft of No. 14 AWG at 20 °C: 2 · 10 A · 0.2525 ohm.

    >>> lead_voltage_drop(10.0, 30.48, 2.081e-6, 293.15)
    5.05
    """
    hold("current", current, 0.0, 100.0, "A")
    return 2.0 * current * copper_resistance(length, area, temperature)
