"""Firing rate: what a nozzle passes, and the heat in it."""

from typing import Any

from courseware.physics.ranges import hold


def nozzle_flow(rated_flow: Any, rated_pressure: Any, pressure: Any) -> Any:
    """Return the flow of a pressure-atomizing nozzle away from its rated pressure.

    V = Vr √(p / pr).

    Parameters
    ----------
    rated_flow : float or array
        Rated flow Vr [m3/s]; 0 to 1e-4 m3/s (95 gal/h).
    rated_pressure : float or array
        Rated pressure pr [Pa], gauge; 1e5 to 2e6 Pa.
    pressure : float or array
        Oil pressure p at the nozzle [Pa], gauge; 1e5 to 3e6 Pa.

    Returns
    -------
    float or array
        Flow V [m3/s].

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    Square-root law of orifices, as in nozzle makers' charts; nozzles are rated at 100 psig. It does not hold
    for air-atomizing (siphon) nozzles: there oil follows suction and pump rate, not oil pressure.

    Examples
    --------
    An instrument maker's training page: 1.30 gph at 100 psig passes 1.54 gph at 140 psig (exact 1.538).

    >>> nozzle_flow(1.30e-6, 6.895e5, 9.653e5) * 1e6
    1.538
    """
    hold("rated flow", rated_flow, 0.0, 1e-4, "m3/s")
    hold("rated pressure", rated_pressure, 1e5, 2e6, "Pa")
    hold("oil pressure", pressure, 1e5, 3e6, "Pa")
    return rated_flow * (pressure / rated_pressure) ** 0.5


def firing_rate(flow: Any, heat_content: Any) -> Any:
    """Return the heat input of a burner.

    Q = V h.

    Parameters
    ----------
    flow : float or array
        Oil flow V [m3/s]; 0 to 1e-4 m3/s (95 gal/h).
    heat_content : float or array
        Heat content h of the oil [J/m3]; 2.5e10 to 4.5e10 J/m3.

    Returns
    -------
    float or array
        Heat input Q [W].

    Raises
    ------
    RangeError
        If a value is outside its range.

    Notes
    -----
    Definition. Published heat contents differ: 138,000 Btu/gal for used oil (40 CFR 98, Table C-1), 140,000
    for No. 2 oil (trade practice), 104,762 (EIA).

    Examples
    --------
    1 gph of oil of 140,000 Btu/gal:

    >>> firing_rate(1.05150e-6, 3.90199e10)
    41030.
    """
    hold("oil flow", flow, 0.0, 1e-4, "m3/s")
    hold("heat content", heat_content, 2.5e10, 4.5e10, "J/m3")
    return flow * heat_content
