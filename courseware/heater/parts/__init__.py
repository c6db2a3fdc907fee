"""The part kinds. A new kind is one file here, one entry below, and a test file of the same name."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from courseware.heater.parts import (
    ac_supply,
    air_line,
    air_regulator,
    air_solenoid,
    blower,
    burner,
    compressor,
    contact,
    electrode,
    exchanger,
    flame_sensor,
    flue,
    hand_valve,
    limit,
    metered_nozzle,
    metering_pump,
    oil_solenoid,
    preheater,
    pressure_switch,
    primary_control,
    shop_air,
    siphon_nozzle,
    strainer,
    suction_line,
    tank,
    thermostat,
    transformer,
)
from courseware.heater.parts.base import PartKind

_KINDS: Final[tuple[PartKind, ...]] = (
    ac_supply.KIND,
    air_line.KIND,
    air_regulator.KIND,
    air_solenoid.KIND,
    blower.KIND,
    burner.KIND,
    compressor.KIND,
    contact.KIND,
    electrode.KIND,
    exchanger.KIND,
    flame_sensor.KIND,
    flue.KIND,
    hand_valve.KIND,
    limit.KIND,
    metered_nozzle.KIND,
    metering_pump.KIND,
    oil_solenoid.KIND,
    preheater.KIND,
    pressure_switch.KIND,
    primary_control.KIND,
    shop_air.KIND,
    siphon_nozzle.KIND,
    strainer.KIND,
    suction_line.KIND,
    tank.KIND,
    thermostat.KIND,
    transformer.KIND,
)

PART_KINDS: Final[Mapping[str, PartKind]] = MappingProxyType({kind.name: kind for kind in _KINDS})

# Features that a unit has when none of its parts says otherwise.
WITHOUT: Final[Mapping[str, str]] = MappingProxyType({"air_switch": "none", "oil_pump": "none"})
