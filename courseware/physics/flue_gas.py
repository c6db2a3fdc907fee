"""The dry flue gas of an oil that may burn badly: all three gases from one mole balance."""

from typing import Any

from courseware.physics.combustion import OXYGEN_IN_AIR
from courseware.physics.ranges import hold


def dry_flue_gas(excess: Any, monoxide_share: Any, dry_gas_ratio: Any, carbon_dioxide_max: Any) -> tuple[Any, Any, Any]:
    """Return oxygen, carbon dioxide and carbon monoxide of the dry flue gas of an oil that may burn badly.

    By volume of theoretical dry air: a = CO2max r carbon; CO = a x, CO2 = a (1 − x), O2 = 0.20946 e + a x / 2,
    all gas e + r + a x / 2.

    Parameters
    ----------
    excess : float or array
        Excess air e [-]; -0.6 to 20, below zero where air is short.
    monoxide_share : float or array
        Share x of the carbon that burns to monoxide [-]; 0 to 1.
    dry_gas_ratio : float or array
        Dry flue gas r of complete combustion at no excess air, per theoretical dry air by volume [-]; 0.85 to 1.
    carbon_dioxide_max : float or array
        Carbon dioxide CO2max at no excess air [-]; 0.1 to 0.21.

    Returns
    -------
    tuple of float or array
        O2, CO2 and CO in the dry flue gas [-]. O2 is 0 where more is missing than the monoxide leaves.

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    Mole balance of carbon and oxygen: each carbon that burns to CO leaves half an O2 over, which its gas is longer by.
    Hydrogen is taken to burn; soot is not counted. Where air is short, x is at least -2 · 0.20946 e / a.

    Examples
    --------
    A used-oil surrogate (CO2max 15.50 %) at 50 % excess air; its mole balance gives 7.29 % O2 and 10.10 % CO2:

    >>> tuple(round(100 * gas, 2) for gas in dry_flue_gas(0.5, 0.0, 0.9366, 0.155))
    (7.29, 10.11, 0.0)
    """
    hold("excess air", excess, -0.6, 20.0, "")
    hold("monoxide share", monoxide_share, 0.0, 1.0, "")
    hold("dry gas ratio", dry_gas_ratio, 0.85, 1.0, "")
    hold("greatest carbon dioxide", carbon_dioxide_max, 0.1, 0.21, "")
    carbon = carbon_dioxide_max * dry_gas_ratio
    left_over = carbon * monoxide_share / 2.0
    gas = excess + dry_gas_ratio + left_over
    oxygen = OXYGEN_IN_AIR * excess + left_over
    return (oxygen + abs(oxygen)) / 2.0 / gas, carbon * (1.0 - monoxide_share) / gas, carbon * monoxide_share / gas
