"""Viscosity against a worked example of ASTM D341 and against a reference library's conversion."""

import math

import pytest

from courseware.physics.viscosity import oil_viscosity


@pytest.mark.parametrize(("celsius", "printed"), [(40.0, 32.0), (80.0, 8.533), (100.0, 5.4)])
def test_worked_example(celsius: float, printed: float) -> None:
    """A published worked example of D341: 32 cSt at 40 and 5.4 at 100 degC give 8.5 at 80 (8.533 with more digits)."""
    assert oil_viscosity(celsius + 273.15, 32.0, 5.4) == pytest.approx(printed, rel=2e-4)


def test_constants_of_the_worked_example() -> None:
    """The same example prints A 9.5308 and B 3.7466 for kelvins of 273.15: log log (v + 0.7) = A - B log T."""
    for celsius in (0.0, 20.0, 60.0, 120.0):
        kelvin = celsius + 273.15
        by_constants = 10**10 ** (9.5308 - 3.7466 * math.log10(kelvin)) - 0.7
        assert oil_viscosity(kelvin, 32.0, 5.4) == pytest.approx(by_constants, rel=2e-3)


@pytest.mark.parametrize(("celsius", "cst"), [(0.0, 1861.0), (20.0, 344.0), (78.9, 20.0), (93.3, 13.1)])
def test_an_oil_like_sae_30(celsius: float, cst: float) -> None:
    """100 cSt at 40, 11 at 100 degC (from memory); the others with the reference library chemicals 1.5.2."""
    assert oil_viscosity(celsius + 273.15, 100.0, 11.0) == pytest.approx(cst, rel=5e-3)
