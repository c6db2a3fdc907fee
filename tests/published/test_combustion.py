"""Combustion formulas against published values. [SGU] is Steam, Its Generation and Use, 35th ed."""

import pytest

from courseware.physics.combustion import (
    OXYGEN_IN_AIR,
    carbon_dioxide_from_oxygen,
    carbon_monoxide_air_free,
    excess_air,
    flue_gas_oxygen,
    theoretical_air,
)


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
