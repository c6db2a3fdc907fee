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
    flame_sensor,
    hand_valve,
    metered_nozzle,
    metering_pump,
    oil_solenoid,
    pressure_switch,
    primary_control,
    shop_air,
    siphon_nozzle,
    strainer,
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
    flame_sensor.KIND,
    hand_valve.KIND,
    metered_nozzle.KIND,
    metering_pump.KIND,
    oil_solenoid.KIND,
    pressure_switch.KIND,
    primary_control.KIND,
    shop_air.KIND,
    siphon_nozzle.KIND,
    strainer.KIND,
    tank.KIND,
    thermostat.KIND,
    transformer.KIND,
)

PART_KINDS: Final[Mapping[str, PartKind]] = MappingProxyType({kind.name: kind for kind in _KINDS})

# Features that a unit has when none of its parts says otherwise.
WITHOUT: Final[Mapping[str, str]] = MappingProxyType({"air_switch": "none", "oil_pump": "none"})
