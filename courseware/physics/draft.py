"""Draft: the pull of a warm chimney."""

from typing import Any, Final

from courseware.physics.ranges import hold

_GRAVITY: Final = 9.80665  # m/s2, standard
_AIR: Final = 287.0531  # J/(kg K), dry air of 28.9647 g/mol; flue gas is counted as air


def theoretical_draft(height: Any, pressure: Any, outdoor_temperature: Any, gas_temperature: Any) -> Any:
    """Return the draft a chimney would have if nothing flowed in it.

    D = (g p h / R) (1/To − 1/Tg).

    Parameters
    ----------
    height : float or array
        Height h from the breech to the top [m]; 0 to 100 m.
    pressure : float or array
        Barometric pressure p [Pa], absolute; 50,000 to 110,000 Pa.
    outdoor_temperature : float or array
        Outdoor temperature To [K]; 220 to 330 K.
    gas_temperature : float or array
        Mean flue gas temperature Tg [K]; 220 to 1,300 K.

    Returns
    -------
    float or array
        Draft D [Pa]; above zero when the chimney pulls.

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    Ideal gas in both columns; Steam, Its Generation and Use, 35th ed., equation 24, is the same with 0.52
    for the constants and 461 for the zero of the Fahrenheit scale. What a gauge reads is less by friction.

    Examples
    --------
    The book's example, 100 ft, 60 °F and 500 °F at 14.7 psia, printed 0.67 inWC:

    >>> theoretical_draft(30.48, 101353.0, 288.71, 533.15) / 249.089
    0.67
    """
    hold("chimney height", height, 0.0, 100.0, "m")
    hold("barometric pressure", pressure, 50e3, 110e3, "Pa")
    hold("outdoor temperature", outdoor_temperature, 220.0, 330.0, "K")
    hold("flue gas temperature", gas_temperature, 220.0, 1300.0, "K")
    return _GRAVITY * pressure * height / _AIR * (1.0 / outdoor_temperature - 1.0 / gas_temperature)
