"""The standard atmosphere: what altitude does to the air a burner breathes."""

from typing import Any, Final

from courseware.physics.ranges import hold

_SEA_LEVEL_PRESSURE: Final = 101325.0  # Pa
_SEA_LEVEL_TEMPERATURE: Final = 288.15  # K
_LAPSE: Final = 0.0065  # K/m, geopotential
_EXPONENT: Final = 5.255877  # g M / (R L), with the standard's R of 8.31432 J/(mol K)
_EARTH_RADIUS: Final = 6356766.0  # m, as in the standard


def standard_temperature(altitude: Any) -> Any:
    """Return the temperature of the standard atmosphere.

    T = 288.15 K − 0.0065 K/m · H, H = R z / (R + z), R = 6,356,766 m.

    Parameters
    ----------
    altitude : float or array
        Altitude z above sea level [m]; -500 to 11,000 m.

    Returns
    -------
    float or array
        Temperature T [K].

    Raises
    ------
    RangeError
        If the altitude is outside its range.

    Notes
    -----
    US Standard Atmosphere, 1976, equations 18 and 23.

    Examples
    --------
    5,000 ft, printed 41.2 °F:

    >>> standard_temperature(1524.0) * 1.8 - 459.67
    41.2
    """
    hold("altitude", altitude, -500.0, 11000.0, "m")
    return _SEA_LEVEL_TEMPERATURE - _LAPSE * _EARTH_RADIUS * altitude / (_EARTH_RADIUS + altitude)


def standard_pressure(altitude: Any) -> Any:
    """Return the pressure of the standard atmosphere.

    p = 101,325 Pa · (T / 288.15 K)^5.2559.

    Parameters
    ----------
    altitude : float or array
        Altitude z above sea level [m]; -500 to 11,000 m.

    Returns
    -------
    float or array
        Pressure p [Pa], absolute.

    Raises
    ------
    RangeError
        If the altitude is outside its range.

    Notes
    -----
    US Standard Atmosphere, 1976, equation 33a.

    Examples
    --------
    5,000 ft, printed 12.230 psia:

    >>> standard_pressure(1524.0) / 6894.757
    12.228
    """
    return _SEA_LEVEL_PRESSURE * (standard_temperature(altitude) / _SEA_LEVEL_TEMPERATURE) ** _EXPONENT


def standard_density_ratio(altitude: Any) -> Any:
    """Return the density of the standard atmosphere over that at sea level.

    σ = (p / 101,325 Pa) (288.15 K / T).

    Parameters
    ----------
    altitude : float or array
        Altitude z above sea level [m]; -500 to 11,000 m.

    Returns
    -------
    float or array
        Density ratio σ [-].

    Raises
    ------
    RangeError
        If the altitude is outside its range.

    Notes
    -----
    US Standard Atmosphere, 1976, equation 42, ideal gas.

    Examples
    --------
    10,000 ft, printed 73.8 %:

    >>> standard_density_ratio(3048.0)
    0.738
    """
    temperature = standard_temperature(altitude)
    return standard_pressure(altitude) / _SEA_LEVEL_PRESSURE * _SEA_LEVEL_TEMPERATURE / temperature
