"""Combustion formulas against published values. [SGU] is Steam, Its Generation and Use, 35th ed."""

import numpy as np
import pytest

from courseware.physics.combustion import (
    OXYGEN_IN_AIR,
    carbon_dioxide_from_excess_air,
    carbon_dioxide_from_oxygen,
    carbon_monoxide_air_free,
    excess_air,
    excess_air_from_carbon_dioxide,
    excess_air_from_oxygen,
    flue_gas_oxygen,
    fuel_factor,
    theoretical_air,
)
from courseware.physics.ranges import RangeError


@pytest.mark.parametrize(
    ("fuel", "printed", "places"),
    [
        ((0.821, 0.0425, 0.026, 0.016), 10.88, 0.03),  # [SGU] after Table 33, by its equation 11 (10.884)
        ((0.94, 0.0, 0.0, 0.0), 10.8, 0.05),  # [SGU] Table 32: coke
        ((0.915, 0.035, 0.026, 0.0), 11.7, 0.07),  # [SGU] Table 32: anthracite; the formula gives 11.64
        ((0.70, 0.05, 0.20, 0.0), 8.9, 0.05),  # [SGU] Table 32: lignite
        ((0.85, 0.13, 0.01, 0.0), 14.3, 0.07),  # [SGU] Table 32: oil; the formula gives 14.24
    ],
)
def test_theoretical_air(fuel: tuple[float, float, float, float], printed: float, places: float) -> None:
    assert theoretical_air(*fuel) == pytest.approx(printed, abs=places)


def test_coal_example_before_equation_10_is_a_slip_of_the_book() -> None:
    """[SGU] prints 10.165; its own formula gives 10.200 (8 x .0498 - .0642 is .3342, printed .3262)."""
    air = theoretical_air(0.7479, 0.0498, 0.0642, 0.0324)
    assert air == pytest.approx(10.200, abs=5e-4)
    assert air != pytest.approx(10.165, abs=0.01)


@pytest.mark.parametrize(
    ("fuel", "exact"),
    [
        # carbon, hydrogen, oxygen, sulfur; air by mole balance, equal to cantera 3.2.0 complete combustion
        ((0.866, 0.128, 0.0, 0.005), 14.38),
        ((0.871, 0.106, 0.0, 0.021), 13.75),
        ((0.855, 0.128, 0.01, 0.005), 14.21),
    ],
)
def test_theoretical_air_of_real_oils(fuel: tuple[float, float, float, float], exact: float) -> None:
    """The rounded constants of equation 10 differ from atomic masses by up to 1 %."""
    assert theoretical_air(*fuel) == pytest.approx(exact, rel=0.01)


def test_excess_air_of_the_boiler_test() -> None:
    """[SGU] Table 48, oil-fired boiler: CO2 14.3, O2 3.8, CO 0; 21.3 % by Method 3B."""
    assert excess_air(0.038, 0.143, 0.0) == pytest.approx(0.213, abs=5e-4)


def test_excess_air_is_equation_14_less_one() -> None:
    """[SGU] after Table 33: CO2 10.7, O2 9.0, N2 80.3. Equation 14 gives 1.736, Method 3B 1.738; printed 1.73."""
    assert 1 + excess_air(0.09, 0.107, 0.0) == pytest.approx(0.803 / (0.803 - 3.782 * 0.09), abs=3e-3)
    assert 1 + excess_air(0.09, 0.107, 0.0) == pytest.approx(1.73, abs=0.01)


@pytest.mark.parametrize(
    ("excess", "carbon_dioxide", "oxygen"),
    [(0.2, 0.1278, 0.0369), (0.5, 0.1011, 0.0729)],  # No. 2 oil, mole balance, equal to cantera 3.2.0
)
def test_excess_air_and_oxygen_are_inverse(excess: float, carbon_dioxide: float, oxygen: float) -> None:
    assert excess_air(oxygen, carbon_dioxide, 0.0) == pytest.approx(excess, abs=0.005)
    ratio = 10.42 / 14.38 * 1.293  # dry flue gas over air at no excess, both Nm3/kg, same calculation
    assert flue_gas_oxygen(excess, ratio) == pytest.approx(oxygen, abs=1e-4)


@pytest.mark.parametrize(
    ("percent", "excess"),
    [(1, 4.70), (2, 9.89), (3, 15.66), (4, 22.12), (5, 29.38), (6, 37.62), (7, 47.03), (8, 57.9), (10, 85.6)],
)
def test_oxygen_of_oil(percent: float, excess: float) -> None:
    """Oil of 87.3 % carbon: excess air that gives 1 to 10 % oxygen, exact mole balance."""
    assert flue_gas_oxygen(excess / 100, 0.9375) * 100 == pytest.approx(percent, abs=0.01)


def test_oxygen_of_pure_carbon() -> None:
    """[SGU]: pure carbon with 50 % excess air, printed O2 7.00 (rounded cubic feet); 6.97 with 20.91 % in air."""
    assert flue_gas_oxygen(0.5, 1.0) == pytest.approx(0.0700, abs=5e-4)
    assert flue_gas_oxygen(0.5, 1.0) * 0.2091 / OXYGEN_IN_AIR == pytest.approx(0.0697, abs=5e-5)


def test_shop_rule_for_excess_air_is_not_followed() -> None:
    """The shop rule 100 O2 / (21 - O2) reads 6 % high for oil: 31.25 % at 5 % oxygen, exact 29.38 %."""
    assert flue_gas_oxygen(0.2938, 0.9375) == pytest.approx(0.05, abs=1e-4)
    assert flue_gas_oxygen(0.3125, 0.9375) > 0.052


@pytest.mark.parametrize(
    ("maximum", "oxygen", "carbon_dioxide"),
    [
        # mole balances, equal to cantera 3.2.0: No. 2 oil 15.51, C87.3 H12.6 oil 15.63, used-oil surrogate 15.50
        (0.1551, 0.0369, 0.1278),
        (0.1551, 0.0729, 0.1011),
        (0.1563, 0.1081, 0.0756),
        (0.1550, 0.0369, 0.1277),
    ],
)
def test_carbon_dioxide(maximum: float, oxygen: float, carbon_dioxide: float) -> None:
    assert carbon_dioxide_from_oxygen(oxygen, maximum) == pytest.approx(carbon_dioxide, abs=3e-4)


def test_carbon_dioxide_of_a_textbook_problem() -> None:
    """A solved textbook problem: No. 2 oil, CO2 11 %, about 6 % O2."""
    assert carbon_dioxide_from_oxygen(0.06, 0.154) == pytest.approx(0.11, abs=2e-3)


def test_carbon_monoxide_air_free() -> None:
    """A trade web page: 87 ppm at 5 % O2 is 114 ppm air-free (exact 114.36)."""
    assert carbon_monoxide_air_free(87e-6, 0.05) * 1e6 == pytest.approx(114, abs=0.5)
    assert carbon_monoxide_air_free(87e-6, 0.0) * 1e6 == pytest.approx(87)


def test_excess_air_of_natural_gas() -> None:
    """Handbook of Energy Engineering Calculations, page 56: natural gas, 3 % O2 dry, 15 %, with k of 90."""
    assert excess_air_from_oxygen(0.03, 0.90) == pytest.approx(0.150, abs=1e-3)


@pytest.mark.parametrize(
    ("oxygen", "printed"),
    [(2.0, 9.5), (3.0, 15.0), (7.0, 44.9), (10.0, 81.6)],
)
def test_excess_air_of_the_doe_table(oxygen: float, printed: float) -> None:
    """DOE Steam Tip Sheet 4 (January 2006), natural gas: oxygen against excess air, printed to 0.1 point.

    r of methane: 8.571 volumes of dry flue gas (CO2 and N2) to 9.571 of air, by its mole balance.
    """
    assert excess_air_from_oxygen(oxygen / 100, 8.548 / 9.548) * 100 == pytest.approx(printed, abs=0.4)


@pytest.mark.parametrize(
    ("percent", "excess"),
    [(1, 4.70), (2, 9.89), (3, 15.66), (4, 22.12), (5, 29.38), (6, 37.62), (7, 47.03), (8, 57.9), (10, 85.6)],
)
def test_excess_air_of_oil(percent: float, excess: float) -> None:
    """Oil of 87.3 % carbon, exact mole balance, equal to cantera 3.2.0."""
    assert excess_air_from_oxygen(percent / 100, 0.9375) * 100 == pytest.approx(excess, abs=0.1)


def test_excess_air_of_fuel_oil_by_the_rule_of_94() -> None:
    """94.5 O2 / (21 - O2), from memory, is held to be within 0.3 point of the exact value up to 10 % O2."""
    for percent in (1, 3, 5, 8, 10):
        assert excess_air_from_oxygen(percent / 100, 0.9375) * 100 == pytest.approx(
            94.5 * percent / (21 - percent), abs=0.3
        )


@pytest.mark.parametrize(
    ("maximum", "carbon_dioxide", "excess"),
    [
        # mole balances, equal to cantera 3.2.0: DOE No. 2, C87.3 H12.6 oil, used-oil surrogate
        (0.1551, 0.1278, 0.2), (0.1551, 0.1011, 0.5), (0.1563, 0.1288, 0.2), (0.1563, 0.1019, 0.5),
        (0.1563, 0.0756, 1.0), (0.1550, 0.1277, 0.2), (0.1550, 0.1010, 0.5),
    ],
)  # fmt: skip
def test_excess_air_from_carbon_dioxide(maximum: float, carbon_dioxide: float, excess: float) -> None:
    assert excess_air_from_carbon_dioxide(carbon_dioxide, maximum, 0.937) == pytest.approx(excess, abs=0.003)


def test_excess_air_of_a_textbook_problem() -> None:
    """A solved textbook problem: No. 2 oil, CO2 11 %: excess air 38 %, O2 6 % (exact 39.4 and 6.20)."""
    assert excess_air_from_carbon_dioxide(0.11, 0.1563, 0.9375) == pytest.approx(0.38, abs=0.02)
    assert excess_air_from_carbon_dioxide(0.11, 0.1563, 0.9375) == pytest.approx(0.394, abs=1e-3)


def test_carbon_dioxide_above_the_greatest_is_refused() -> None:
    with pytest.raises(RangeError) as found:
        excess_air_from_carbon_dioxide(0.14, 0.12, 0.937)
    assert str(found.value) == "carbon dioxide over the greatest of the fuel is 1.16667; the formula holds from 0 to 1"


@pytest.mark.parametrize(
    ("maximum", "excess", "carbon_dioxide"),
    [
        # mole balances, equal to cantera 3.2.0: DOE No. 2, DOE No. 6, C87.3 H12.6 oil, used-oil surrogate
        (0.1551, 0.2, 0.1278), (0.1551, 0.5, 0.1011), (0.1617, 0.2, 0.1334), (0.1617, 0.5, 0.1057),
        (0.1563, 0.3, 0.1184), (0.1563, 1.0, 0.0756), (0.1550, 0.5, 0.1010),
    ],
)  # fmt: skip
def test_carbon_dioxide_with_air_to_spare(maximum: float, excess: float, carbon_dioxide: float) -> None:
    assert carbon_dioxide_from_excess_air(excess, maximum) == pytest.approx(carbon_dioxide, abs=2e-4)


def test_carbon_dioxide_of_pure_carbon() -> None:
    """[SGU]: pure carbon with 50 % excess air, printed CO2 13.91 from rounded cubic feet; 13.94 with 20.91 % in air."""
    assert carbon_dioxide_from_excess_air(0.5, 0.2091) == pytest.approx(0.1394, abs=2e-4)
    assert carbon_dioxide_from_excess_air(0.5, 0.2091) == pytest.approx(0.1391, abs=5e-4)


@pytest.mark.parametrize("excess", [-0.2, -0.1, -0.05])
@pytest.mark.parametrize("hydrogen", [0.0, 1.78, 4.0])
def test_carbon_dioxide_short_of_air_by_its_atoms(excess: float, hydrogen: float) -> None:
    """No published example was at hand: the balance of C, H and O of CH_x is solved as linear equations.

    Unknown are CO2, CO and H2O; the nitrogen comes with the oxygen of dry air.
    """
    oxygen = (1 + excess) * (1 + hydrogen / 4)  # O2 to one atom of carbon
    dioxide, monoxide, _ = np.linalg.solve(
        np.array([[1.0, 1.0, 0.0], [0.0, 0.0, 2.0], [2.0, 1.0, 1.0]]), np.array([1.0, hydrogen, 2 * oxygen])
    )
    nitrogen = oxygen * (1 - OXYGEN_IN_AIR) / OXYGEN_IN_AIR
    at_best = 1 / (1 + (1 + hydrogen / 4) * (1 - OXYGEN_IN_AIR) / OXYGEN_IN_AIR)
    assert carbon_dioxide_from_excess_air(excess, at_best) == pytest.approx(
        dioxide / (dioxide + monoxide + nitrogen), rel=1e-9
    )


def test_one_reading_of_carbon_dioxide_has_two_sides() -> None:
    """The same 12 % with a quarter more air than the oil needs, and with a tenth less."""
    assert carbon_dioxide_from_excess_air(0.273, 0.155) == pytest.approx(0.12, abs=1e-3)
    assert carbon_dioxide_from_excess_air(-0.1, 0.155) == pytest.approx(0.12, abs=1e-3)


def test_fuel_factor_of_published_f_factors() -> None:
    """EPA Method 19, oil: Fd 9190 dscf and Fc 1420 scf per 10^6 Btu (second hand): 0.209 Fd/Fc = 1.353."""
    greatest = 1420 / 9190
    for oxygen in (0.0, 0.05, 0.12):  # air in the sample does not move it
        carbon_dioxide = carbon_dioxide_from_oxygen(oxygen, greatest)
        assert fuel_factor(oxygen, carbon_dioxide, 0.0) == pytest.approx(1.353, abs=1e-3)


def test_fuel_factor_with_carbon_monoxide() -> None:
    """Method 3: CO counts with CO2, and half of it comes off O2; pure carbon, 5 % of it burned to CO, stays near 1."""
    gases = np.array([0.95, 0.05, 0.025])  # CO2, CO, and the O2 that the CO left over, of 1 mole of carbon
    dry = gases.sum() + (1 - 0.209) / 0.209
    dioxide, monoxide, oxygen = gases / dry
    assert fuel_factor(oxygen, dioxide, monoxide) == pytest.approx(1.0, abs=0.006)


def test_fuel_factor_of_the_boiler_test_is_below_today_s_range() -> None:
    """[SGU] Table 48: CO2 14.3, O2 3.8: 1.196, below EPA's range for residual oil from 1.210 (from memory)."""
    assert fuel_factor(0.038, 0.143, 0.0) == pytest.approx(1.196, abs=5e-4)
