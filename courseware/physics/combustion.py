"""Stoichiometry and dry flue gas: air needed, excess air, oxygen, carbon dioxide, carbon monoxide.

Flue gas is dry, as an analyser reads it; all gas amounts are volume fractions [-], 0.05 for 5 %.
"""

from typing import Any

import numpy as np

from courseware.physics.ranges import hold

OXYGEN_IN_AIR = 0.20946  # volume fraction of dry air, US Standard Atmosphere 1976
_METHOD_3_OXYGEN = 0.209  # the figure that EPA Methods 3 and 3B, and the trade's charts, calculate with
_NITROGEN_OVER_OXYGEN = (1.0 - OXYGEN_IN_AIR) / OXYGEN_IN_AIR  # moles in dry air, argon counted as nitrogen


def theoretical_air(carbon: Any, hydrogen: Any, oxygen: Any, sulfur: Any) -> Any:
    """Return the mass of dry air that burns one mass of fuel completely.

    m = 11.52 C + 34.56 (H − O/8) + 4.32 S.

    Parameters
    ----------
    carbon : float or array
        Mass fraction C of carbon [-]; 0 to 1.
    hydrogen : float or array
        Mass fraction H of hydrogen [-]; 0 to 0.3.
    oxygen : float or array
        Mass fraction O of oxygen [-]; 0 to 0.5.
    sulfur : float or array
        Mass fraction S of sulfur [-]; 0 to 0.1.

    Returns
    -------
    float or array
        Air m per fuel [kg/kg].

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    Steam, Its Generation and Use, 35th ed., equation 10.

    Examples
    --------
    Oil of 85 % carbon, 13 % hydrogen, 1 % oxygen; the book's Table 32 prints 14.3:

    >>> theoretical_air(0.85, 0.13, 0.01, 0.0)
    14.24
    """
    hold("carbon", carbon, 0.0, 1.0, "")
    hold("hydrogen", hydrogen, 0.0, 0.3, "")
    hold("oxygen", oxygen, 0.0, 0.5, "")
    hold("sulfur", sulfur, 0.0, 0.1, "")
    return 11.52 * carbon + 34.56 * (hydrogen - oxygen / 8.0) + 4.32 * sulfur


def excess_air(oxygen: Any, carbon_dioxide: Any, carbon_monoxide: Any) -> Any:
    """Return the excess air of a dry flue gas, from all three gases of an Orsat analysis.

    e = (O2 − CO/2) / (0.264 N2 − (O2 − CO/2)), N2 = 1 − CO2 − O2 − CO.

    Parameters
    ----------
    oxygen : float or array
        Oxygen O2 in the dry flue gas [-]; 0 to 0.19.
    carbon_dioxide : float or array
        Carbon dioxide CO2 in the dry flue gas [-]; 0 to 0.2.
    carbon_monoxide : float or array
        Carbon monoxide CO in the dry flue gas [-]; 0 to 0.05.

    Returns
    -------
    float or array
        Excess air e over the theoretical [-]; 0.2 for 20 %. Below zero if air is short.

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    EPA Method 3B (40 CFR 60, appendix A-2); Steam, Its Generation and Use, 35th ed., equation 14, is the
    same with 3.782 for 1/0.264, less one.

    Examples
    --------
    The oil-fired boiler test of the book's Table 48:

    >>> excess_air(0.038, 0.143, 0.0)
    0.213
    """
    hold("oxygen", oxygen, 0.0, 0.19, "")
    hold("carbon dioxide", carbon_dioxide, 0.0, 0.2, "")
    hold("carbon monoxide", carbon_monoxide, 0.0, 0.05, "")
    surplus = oxygen - carbon_monoxide / 2.0
    nitrogen = 1.0 - carbon_dioxide - oxygen - carbon_monoxide
    return surplus / (0.264 * nitrogen - surplus)


def flue_gas_oxygen(excess: Any, dry_gas_ratio: Any) -> Any:
    """Return the oxygen in the dry flue gas of complete combustion.

    O2 = 0.20946 e / (e + r).

    Parameters
    ----------
    excess : float or array
        Excess air e [-]; 0 to 20.
    dry_gas_ratio : float or array
        Dry flue gas r at no excess air, per theoretical dry air by volume [-]; 0.85 to 1.

    Returns
    -------
    float or array
        Oxygen O2 in the dry flue gas [-].

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    Mole balance: the surplus air, and its oxygen, pass through unchanged. For oils of 12 to 13 % hydrogen
    r is 0.936 to 0.938; for carbon it is 1.

    Examples
    --------
    A used-oil surrogate at 50 % excess air; its mole balance gives 7.29 %:

    >>> flue_gas_oxygen(0.5, 0.9366)
    0.0729
    """
    hold("excess air", excess, 0.0, 20.0, "")
    hold("dry gas ratio", dry_gas_ratio, 0.85, 1.0, "")
    return OXYGEN_IN_AIR * excess / (excess + dry_gas_ratio)


def carbon_dioxide_from_oxygen(oxygen: Any, carbon_dioxide_max: Any) -> Any:
    """Return the carbon dioxide that belongs to a reading of oxygen, when nothing burns to CO.

    CO2 = CO2max (0.209 − O2) / 0.209.

    Parameters
    ----------
    oxygen : float or array
        Oxygen O2 in the dry flue gas [-]; 0 to 0.209.
    carbon_dioxide_max : float or array
        Carbon dioxide CO2max of the fuel at no excess air [-]; 0.1 to 0.21.

    Returns
    -------
    float or array
        Carbon dioxide CO2 [-].

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    Dilution of the flue gas by air; an identity, from memory. Heating oil: CO2max 0.154 (a German trade glossary).

    Examples
    --------
    At CO2max 15.63 % and 7.29 % oxygen the exact mole balance gives 10.19 %:

    >>> carbon_dioxide_from_oxygen(0.0729, 0.1563)
    0.1018
    """
    hold("oxygen", oxygen, 0.0, _METHOD_3_OXYGEN, "")
    hold("greatest carbon dioxide", carbon_dioxide_max, 0.1, 0.21, "")
    return carbon_dioxide_max * (_METHOD_3_OXYGEN - oxygen) / _METHOD_3_OXYGEN


def carbon_monoxide_air_free(carbon_monoxide: Any, oxygen: Any) -> Any:
    """Return carbon monoxide as it would read with no excess air, so that readings can be compared.

    COaf = CO · 0.209 / (0.209 − O2).

    Parameters
    ----------
    carbon_monoxide : float or array
        Carbon monoxide CO in the dry flue gas [-]; 0 to 0.05.
    oxygen : float or array
        Oxygen O2 in the dry flue gas [-]; 0 to 0.19.

    Returns
    -------
    float or array
        Carbon monoxide COaf, air-free [-].

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    Dilution of the flue gas by air (trade practice; 20.9 % as in EPA Method 3).

    Examples
    --------
    87 ppm at 5 % oxygen, printed 114 ppm on a trade web page:

    >>> carbon_monoxide_air_free(87e-6, 0.05) * 1e6
    114.4
    """
    hold("carbon monoxide", carbon_monoxide, 0.0, 0.05, "")
    hold("oxygen", oxygen, 0.0, 0.19, "")
    return carbon_monoxide * _METHOD_3_OXYGEN / (_METHOD_3_OXYGEN - oxygen)


def excess_air_from_oxygen(oxygen: Any, dry_gas_ratio: Any) -> Any:
    """Return the excess air that belongs to a reading of oxygen, when nothing burns to CO.

    e = r O2 / (0.20946 − O2).

    Parameters
    ----------
    oxygen : float or array
        Oxygen O2 in the dry flue gas [-]; 0 to 0.19.
    dry_gas_ratio : float or array
        Dry flue gas r at no excess air, per theoretical dry air by volume [-]; 0.85 to 1.

    Returns
    -------
    float or array
        Excess air e over the theoretical [-].

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    Mole balance; the inverse of :func:`flue_gas_oxygen`. Handbook of Energy Engineering Calculations, page 56, has
    0.90 for r and 0.21 for the oxygen in air, for natural gas. The shop rule O2 / (0.21 − O2) reads 6 % high for oil.

    Examples
    --------
    Natural gas at 3 % oxygen; the handbook prints 15 %:

    >>> excess_air_from_oxygen(0.03, 0.90)
    0.1505
    """
    hold("oxygen", oxygen, 0.0, 0.19, "")
    hold("dry gas ratio", dry_gas_ratio, 0.85, 1.0, "")
    return dry_gas_ratio * oxygen / (OXYGEN_IN_AIR - oxygen)


def excess_air_from_carbon_dioxide(carbon_dioxide: Any, carbon_dioxide_max: Any, dry_gas_ratio: Any) -> Any:
    """Return the excess air that belongs to a reading of carbon dioxide, if air is not short.

    e = r (CO2max / CO2 − 1).

    Parameters
    ----------
    carbon_dioxide : float or array
        Carbon dioxide CO2 in the dry flue gas [-]; 0.02 to 0.155.
    carbon_dioxide_max : float or array
        Carbon dioxide CO2max of the fuel at no excess air [-]; 0.1 to 0.21.
    dry_gas_ratio : float or array
        Dry flue gas r at no excess air, per theoretical dry air by volume [-]; 0.85 to 1.

    Returns
    -------
    float or array
        Excess air e over the theoretical [-].

    Raises
    ------
    RangeError
        If a value is outside its range, or CO2 is above CO2max.

    Notes
    -----
    Mole balance: the surplus air dilutes a fixed amount of CO2. A burner that is short of air reads the same CO2
    (see :func:`carbon_dioxide_from_excess_air`), so that O2 or CO must say first on which side it burns.

    Examples
    --------
    DOE fuel oil No. 2 at 50 % excess air has 10.11 % of at most 15.51 % (mole balance, equal to cantera 3.2.0):

    >>> excess_air_from_carbon_dioxide(0.1011, 0.1551, 0.9369)
    0.500
    """
    hold("carbon dioxide", carbon_dioxide, 0.02, 0.155, "")
    hold("greatest carbon dioxide", carbon_dioxide_max, 0.1, 0.21, "")
    hold("dry gas ratio", dry_gas_ratio, 0.85, 1.0, "")
    share = carbon_dioxide / carbon_dioxide_max
    hold("carbon dioxide over the greatest of the fuel", share, 0.0, 1.0, "")
    return dry_gas_ratio * (1.0 / share - 1.0)


def carbon_dioxide_from_excess_air(excess: Any, carbon_dioxide_max: Any) -> Any:
    """Return the carbon dioxide in the dry flue gas, with air to spare or short of air.

    CO2 = a / (1 + 3.774 s (1 + e) + s max(e, 0)), s = (1 / CO2max − 1) / 3.774, a = 1 + 2 s min(e, 0).

    Parameters
    ----------
    excess : float or array
        Excess air e [-]; -0.2 to 20. Below zero air is short.
    carbon_dioxide_max : float or array
        Carbon dioxide CO2max of the fuel at no excess air [-]; 0.1 to 0.21.

    Returns
    -------
    float or array
        Carbon dioxide CO2 [-].

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    Mole balance of a hydrocarbon in dry air: s is the oxygen that one atom of carbon with its hydrogen needs, and a
    the share of the carbon that burns to CO2. Short of air the hydrogen burns first and the rest of the carbon
    becomes CO, as an Ostwald diagram has it; hydrogen left in the gas, 1 % or so, is not counted.

    Examples
    --------
    DOE fuel oil No. 2 at 50 % excess air; its exact balance gives 10.11 %:

    >>> float(carbon_dioxide_from_excess_air(0.5, 0.1551))
    0.1011
    """
    hold("excess air", excess, -0.2, 20.0, "")
    hold("greatest carbon dioxide", carbon_dioxide_max, 0.1, 0.21, "")
    needed = (1.0 / carbon_dioxide_max - 1.0) / _NITROGEN_OVER_OXYGEN
    burned = 1.0 + 2.0 * needed * np.minimum(excess, 0.0)
    # Air to spare brings its own oxygen along; short of air there is none left.
    surplus = needed * np.maximum(excess, 0.0)
    return burned / (1.0 + _NITROGEN_OVER_OXYGEN * needed * (1.0 + excess) + surplus)


def fuel_factor(oxygen: Any, carbon_dioxide: Any, carbon_monoxide: Any) -> Any:
    """Return the fuel factor: whether readings of oxygen and carbon dioxide can come from one oil flame.

    Fo = (0.209 − O2 + CO/2) / (CO2 + CO).

    Parameters
    ----------
    oxygen : float or array
        Oxygen O2 in the dry flue gas [-]; 0 to 0.19.
    carbon_dioxide : float or array
        Carbon dioxide CO2 in the dry flue gas [-]; 0.01 to 0.2.
    carbon_monoxide : float or array
        Carbon monoxide CO in the dry flue gas [-]; 0 to 0.05.

    Returns
    -------
    float or array
        Fuel factor Fo [-]. EPA accepts 1.260 to 1.413 for distillate and 1.210 to 1.370 for residual oil.

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    EPA Methods 3 and 3B (40 CFR 60, appendix A-2), second hand; the ranges from memory. Air that leaks into the
    sample does not move it: O2 rises and CO2 falls in step. What moves it is another fuel or a wrong reading.

    Examples
    --------
    The oil-fired boiler test of Steam, Its Generation and Use, Table 48, is below today's range:

    >>> fuel_factor(0.038, 0.143, 0.0)
    1.196
    """
    hold("oxygen", oxygen, 0.0, 0.19, "")
    hold("carbon dioxide", carbon_dioxide, 0.01, 0.2, "")
    hold("carbon monoxide", carbon_monoxide, 0.0, 0.05, "")
    return (_METHOD_3_OXYGEN - oxygen + carbon_monoxide / 2.0) / (carbon_dioxide + carbon_monoxide)
