"""Combustion efficiency and stack loss against published values; each name says on which heat content."""

import pytest

from courseware.physics.efficiency import heat_loss_efficiency, net_stack_temperature, siegert_efficiency
from courseware.physics.ranges import RangeError

BTU_PER_POUND = 2326.0  # J/kg, exact
NO_2 = (0.873, 0.126, 19_500 * BTU_PER_POUND)  # the oil of the table below; 19,500 Btu/lb from memory

TABLE = {
    # No. 2 oil, higher heat content, air of 70 °F: net stack temperature 200, 300 ... 700 °F by excess air.
    # Computed with cantera 3.2.0 (C 87.3, H 12.6, S 0.1 %, no CO, no jacket loss); no government oil table was found.
    0.0: (89.9, 87.8, 85.8, 83.6, 81.5, 79.3),
    0.2: (89.2, 86.8, 84.3, 81.8, 79.3, 76.8),
    0.3: (88.8, 86.2, 83.6, 80.9, 78.2, 75.5),
    0.5: (88.1, 85.2, 82.2, 79.1, 76.1, 72.9),
    1.0: (86.3, 82.5, 78.6, 74.6, 70.6, 66.6),
}


def fahrenheit(net: float) -> float:
    """Return a temperature difference [K] from one in °F."""
    return net / 1.8


@pytest.mark.parametrize("excess", TABLE)
def test_table_of_no_2_oil(excess: float) -> None:
    carbon, hydrogen, heat = NO_2
    for net, percent in zip(range(200, 800, 100), TABLE[excess], strict=True):
        found = heat_loss_efficiency(fahrenheit(net), excess, carbon, hydrogen, heat) * 100
        assert found == pytest.approx(percent, abs=0.3), net  # the table's own tolerance is 0.5 of a point


def test_textbook_problem() -> None:
    """A solved textbook problem: No. 2 oil, CO2 11 %, 650 °F, efficiency about 78 % (higher heat content)."""
    carbon, hydrogen, heat = NO_2
    net = net_stack_temperature((650 + 459.67) / 1.8, (70 + 459.67) / 1.8)
    assert net * 1.8 == pytest.approx(580.0)
    assert heat_loss_efficiency(net, 0.394, carbon, hydrogen, heat) * 100 == pytest.approx(78, abs=0.5)


@pytest.mark.parametrize(
    ("stack", "oxygen", "loss", "within"),
    [
        # Light heating oil, air of 20 °C, lower heat content. Loss in percent by cantera 3.2.0
        # (C 86.1, H 13.6, 42.8 MJ/kg); the constants of the 1. BImSchV drift low as the stack gets hot.
        (160.0, 3.0, 6.24, 0.05),
        (200.0, 5.0, 8.91, 0.05),
        (250.0, 5.0, 11.45, 0.1),
        (300.0, 7.0, 15.74, 0.2),
    ],
)
def test_siegert_against_first_principles(stack: float, oxygen: float, loss: float, within: float) -> None:
    found = 100 * (1 - siegert_efficiency(stack - 20.0, oxygen / 100))
    assert found == pytest.approx(loss, abs=within)


@pytest.mark.parametrize(
    ("stack", "oxygen", "loss"), [(160, 3, 6.37), (200, 5, 9.02), (250, 5, 11.53), (300, 7, 15.69)]
)
def test_another_law_has_other_constants(stack: float, oxygen: float, loss: float) -> None:
    """Austria's federal firing-plant regulation, oil extra light: 0.6642 and 0.0086; the two laws differ by 0.15."""
    austrian = (stack - 20) * (0.6642 / (21 - oxygen) + 0.0086)
    assert austrian == pytest.approx(loss, abs=0.01)
    assert 100 * (1 - siegert_efficiency(stack - 20.0, oxygen / 100)) == pytest.approx(austrian, abs=0.15)


def test_the_two_bases_are_six_points_apart_and_agree() -> None:
    """The heat that reaches the room is the same: efficiency times heat content agrees on either basis.

    45.7 and 42.8 MJ/kg, heating oil of 86.1 % carbon and 13.6 % hydrogen.
    """
    net, oxygen, excess = fahrenheit(400.0), 0.05, 0.2938
    lower = siegert_efficiency(net, oxygen)
    higher = heat_loss_efficiency(net, excess, 0.861, 0.136, 45.7e6)
    assert lower - higher == pytest.approx(0.06, abs=0.008)
    assert lower * 42.8 == pytest.approx(higher * 45.7, rel=0.005)


def test_out_of_range_says_what_and_how_far() -> None:
    with pytest.raises(RangeError) as found:
        siegert_efficiency(450.0, 0.05)
    assert str(found.value) == "net stack temperature is 450 K; the formula holds from 0 to 400 K"
    with pytest.raises(RangeError) as found:
        siegert_efficiency(200.0, 0.209)
    assert str(found.value) == "oxygen is 0.209; the formula holds from 0 to 0.19"
