"""Viscosity of oil: why cold oil does not make a spray."""

from typing import Any

import numpy as np

from courseware.physics.ranges import hold


def oil_viscosity(temperature: Any, at_40: Any, at_100: Any) -> Any:
    """Return the kinematic viscosity of an oil from its values at 40 and 100 °C.

    log10 log10(n + 0.7) = A − B log10 T, n in mm2/s.

    Parameters
    ----------
    temperature : float or array
        Temperature T [K]; 250 to 450 K.
    at_40 : float or array
        Viscosity at 40 °C [mm2/s] (cSt); 2 to 2,000 mm2/s.
    at_100 : float or array
        Viscosity at 100 °C [mm2/s]; 1 to 100 mm2/s.

    Returns
    -------
    float or array
        Viscosity n [mm2/s].

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    ASTM D341, the form for 2 mm2/s and more.

    Examples
    --------
    An oil of 32 mm2/s at 40 °C and 5.4 at 100 °C; a worked example of D341 prints 8.5 at 80 °C:

    >>> float(round(oil_viscosity(353.15, 32.0, 5.4), 2))
    8.53
    """
    hold("temperature", temperature, 250.0, 450.0, "K")
    hold("viscosity at 40 °C", at_40, 2.0, 2000.0, "mm2/s")
    hold("viscosity at 100 °C", at_100, 1.0, 100.0, "mm2/s")
    warm, hot = np.log10(313.15), np.log10(373.15)
    at_warm, at_hot = np.log10(np.log10(at_40 + 0.7)), np.log10(np.log10(at_100 + 0.7))
    slope = (at_warm - at_hot) / (hot - warm)
    return 10.0 ** (10.0 ** (at_warm - slope * (np.log10(temperature) - warm))) - 0.7
