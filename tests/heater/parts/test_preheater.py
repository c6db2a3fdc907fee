"""Warm oil is thin enough to spray."""

import pytest

from courseware.heater.parts.preheater import KIND
from tests.heater.bench import settle

HEATED = {"volts": 120.0}


def test_holds_its_setpoint_and_never_cools() -> None:
    assert settle(KIND, HEATED, setpoint=344.0)["temperature"] == 344.0
    assert settle(KIND, HEATED, setpoint=280.0, tank_temperature=288.0)["temperature"] == 288.0


@pytest.mark.parametrize("cold", [{"volts": 0.0}, {"volts": 70.0}])
def test_without_voltage_or_element_the_oil_stays_as_cold_as_the_tank(cold: dict[str, float]) -> None:
    assert settle(KIND, cold, tank_temperature=285.0)["temperature"] == 285.0
    assert settle(KIND, HEATED, tank_temperature=285.0, element=0.0)["temperature"] == 285.0


def test_oil_at_its_setpoint_sprays_in_full_and_colder_oil_never_better() -> None:
    """140 to 200 F at the nozzle, common practice, no source."""
    thin = [float(settle(KIND, HEATED, setpoint=kelvin)["thin"]) for kelvin in (280, 290, 300, 320, 340, 344, 366)]
    assert thin == sorted(thin)
    assert thin[-2] == thin[-1] == 1.0
    assert thin[0] < 0.5
