"""Ignition: the transformer under low line voltage, and the gap its peak voltage can jump."""

from typing import Any, Final

import numpy as np

from courseware.physics.ranges import hold

# AIEE sparkover between needle points, 760 mmHg and 25 °C: peak V, and the gap in m. The 5 kV row is left
# out: the same table's 5 kV row for spheres does not fit Peek's measurements, so the table is used from 10 kV.
_NEEDLE_PEAK: Final = np.array([10e3, 15e3, 20e3, 25e3, 30e3, 35e3, 40e3, 50e3])
_NEEDLE_GAP: Final = np.array([0.0085, 0.0130, 0.0175, 0.0220, 0.0269, 0.0320, 0.0381, 0.0520])
SHORTEST_NEEDLE_GAP: Final = float(_NEEDLE_GAP[0])  # m
LONGEST_NEEDLE_GAP: Final = float(_NEEDLE_GAP[-1])  # m


def transformer_secondary_voltage(line_voltage: Any, rated_line_voltage: Any, rated_secondary_voltage: Any) -> Any:
    """Return the open-circuit secondary voltage of an iron-core ignition transformer.

    U2 = U2r · U1 / U1r: the ratio of turns holds at any line voltage.

    Parameters
    ----------
    line_voltage : float or array
        Line voltage U1 at the primary [V], rms; 0 to 150 V.
    rated_line_voltage : float or array
        Rated line voltage U1r [V], rms; 100 to 150 V.
    rated_secondary_voltage : float or array
        Rated secondary voltage U2r [V], rms; 5,000 to 15,000 V.

    Returns
    -------
    float or array
        Secondary voltage U2 [V], rms.

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    Turns ratio of an ideal transformer, any textbook of electrical engineering. 120 V to 10,000 V is the
    common rating of oil burner ignition (trade magazines).

    Examples
    --------
    The night-time lockout of a trade magazine's story: the line sagged to about 100 V.

    >>> transformer_secondary_voltage(100.0, 120.0, 10000.0)
    8333.3
    """
    hold("line voltage", line_voltage, 0.0, 150.0, "V")
    hold("rated line voltage", rated_line_voltage, 100.0, 150.0, "V")
    hold("rated secondary voltage", rated_secondary_voltage, 5e3, 15e3, "V")
    return rated_secondary_voltage * line_voltage / rated_line_voltage


def least_line_voltage(needed_secondary_voltage: Any, rated_line_voltage: Any, rated_secondary_voltage: Any) -> Any:
    """Return the line voltage below which a sound transformer no longer gives the voltage that ignition needs.

    U1 = U1r · U2 / U2r.

    Parameters
    ----------
    needed_secondary_voltage : float or array
        Secondary voltage U2 that the spark needs [V], rms; 0 to 15,000 V.
    rated_line_voltage : float or array
        Rated line voltage U1r [V], rms; 100 to 150 V.
    rated_secondary_voltage : float or array
        Rated secondary voltage U2r [V], rms; 5,000 to 15,000 V.

    Returns
    -------
    float or array
        Line voltage U1 [V], rms.

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    Turns ratio of an ideal transformer, any textbook of electrical engineering.

    Examples
    --------
    "The spark needs more than 9,000 VAC" (trade magazines), so a 10,000 V transformer needs 90 % of its line:

    >>> least_line_voltage(9000.0, 120.0, 10000.0)
    108.0
    """
    hold("needed secondary voltage", needed_secondary_voltage, 0.0, 15e3, "V")
    hold("rated line voltage", rated_line_voltage, 100.0, 150.0, "V")
    hold("rated secondary voltage", rated_secondary_voltage, 5e3, 15e3, "V")
    return rated_line_voltage * needed_secondary_voltage / rated_secondary_voltage


def peak_voltage(rms_voltage: Any) -> Any:
    """Return the peak of a sine wave, which is what jumps a gap.

    Û = √2 · U.

    Parameters
    ----------
    rms_voltage : float or array
        Voltage U [V], rms; 0 to 50,000 V.

    Returns
    -------
    float or array
        Peak voltage Û [V].

    Raises
    ------
    RangeError
        If the value is outside its range.

    Notes
    -----
    Definition of the root mean square of a sine; an igniter that chops its wave does not follow it.

    Examples
    --------
    >>> peak_voltage(10000.0)
    14142.1
    """
    hold("rms voltage", rms_voltage, 0.0, 50e3, "V")
    return 2.0**0.5 * rms_voltage


def needle_sparkover_voltage(gap: Any) -> Any:
    """Return the peak voltage that jumps a gap between two points in still air of 25 °C and 760 mmHg.

    Û(d): linear interpolation in the table.

    Parameters
    ----------
    gap : float or array
        Gap d between the points [m]; 0.0085 to 0.052 m.

    Returns
    -------
    float or array
        Sparkover voltage Û [V], peak.

    Raises
    ------
    RangeError
        If the gap is outside the table.

    Notes
    -----
    AIEE needle-gap table, as quoted by hobbyists of high voltage (second hand). Needles were given up as a
    standard because they scatter; electrode tines do too.

    Examples
    --------
    Half an inch:

    >>> float(needle_sparkover_voltage(0.0127))
    14666.7
    """
    hold("needle gap", gap, SHORTEST_NEEDLE_GAP, LONGEST_NEEDLE_GAP, "m")
    return np.interp(gap, _NEEDLE_GAP, _NEEDLE_PEAK)


def air_density_factor(pressure: Any, temperature: Any) -> Any:
    """Return the factor by which sparkover voltage follows the density of the air, 1 at 25 °C and 760 mmHg.

    δ = (p / 101325 Pa) · (298.15 K / T).

    Parameters
    ----------
    pressure : float or array
        Air pressure p [Pa], absolute; 50,000 to 110,000 Pa.
    temperature : float or array
        Air temperature T [K]; 233 to 333 K.

    Returns
    -------
    float or array
        Density factor δ [-].

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    Ideal gas, reference 25 °C, as in the AIEE table and Peek's 3.92 b / (273 + t). Tables referred to 20 °C
    differ by 1.7 %; never mix the two.

    Examples
    --------
    30 °C and 740 mmHg, printed 0.96:

    >>> air_density_factor(98658.0, 303.15)
    0.958
    """
    hold("air pressure", pressure, 50e3, 110e3, "Pa")
    hold("air temperature", temperature, 233.0, 333.0, "K")
    return pressure / 101325.0 * 298.15 / temperature
