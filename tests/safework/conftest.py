"""Units of every way to deliver oil, hold the spark and prove the air, wired here and belonging to no document."""

from collections.abc import Mapping, Sequence
from itertools import product
from pathlib import Path

import pytest

from courseware.content.documents import read_documents
from courseware.content.problems import Problems
from courseware.content.provenance import Provenance
from courseware.content.source import Source
from courseware.heater.faults import Change, FaultMode
from courseware.heater.job import check_job, load_job
from courseware.heater.load import Trade
from courseware.heater.parts import PART_KINDS
from courseware.heater.simulate import Case
from courseware.heater.unit import Part, Unit
from courseware.safework.load import SAFEWORK_KINDS, load_safework
from courseware.safework.model import SafeWork, State
from courseware.safework.site import Site, site_of

HERE = Source("tests/safework/conftest.py", 1)
COURSE = Path(__file__).parents[2]
PROVENANCE = Provenance("made for the tests", "", "", HERE)
OIL = 8e-7  # m3/s, about 0.8 gal/h


def part(name: str, kind: str, settings: Mapping[str, float] | None = None, **wires: str) -> Part:
    """Return a part in order: the defaults of its kind, and what is given."""
    defaults = {one.name: one.default for one in PART_KINDS[kind].settings}
    filled = {key: value for key, value in {**defaults, **(settings or {})}.items() if value is not None}
    assert filled.keys() == defaults.keys()
    return Part(name, kind, filled, wires, HERE)


def make_unit(delivery: str, ignition: str, air_switch: str) -> Unit:
    """Return a sound unit of one of the eight combinations."""
    metered, switch = delivery == "metered", air_switch == "fitted"
    air = {"air": "air_switch.closed"} if switch else {}
    parts = [
        part("supply", "ac-supply"),
        part("disconnect", "contact", volts="supply.volts"),
        part("limit", "contact", volts="disconnect.volts"),
        part("thermostat", "thermostat"),
        part(
            "control", "primary-control", {"trial": 15.0, "interrupted": float(ignition == "interrupted")},
            volts="limit.volts", call="thermostat.call", sensor="sensor.ohms", **air,
        ),
        part("transformer", "transformer", volts="control.ignition"),
        part("electrode", "electrode", {"gap": 0.0035, "rated_gap": 0.0035}, volts="transformer.secondary"),
        part("air_supply", "shop-air", {"pressure": 6e5}),
        part("air_regulator", "air-regulator", {"setpoint": 7e4}, pressure="air_supply.pressure"),
        part("air_line", "air-line", pressure="air_regulator.pressure"),
        part("tank", "tank", {"content": 0.2, "area": 0.5, "line_flow": 4 * OIL}, drawn="nozzle.oil"),
        part("strainer", "strainer", {"clean_flow": 4 * OIL}, oil="tank.oil"),
        part("oil_valve", "hand-valve", oil="strainer.oil"),
        part("oil_solenoid", "oil-solenoid", {"coil_ohms": 800.0}, volts="control.valve", oil="oil_valve.oil"),
        part("blower", "blower", {"flow": 0.012}, volts="control.motor"),
        part(
            "burner", "burner", {"oil_flow": OIL},
            oil="nozzle.oil", spray="nozzle.spray", air="flue.air", spark="electrode.spark",
        ),
        part("flue", "flue", {"rated_air": 0.012, "height": 5.5}, air="blower.air", net="exchanger.net"),
        part(
            "exchanger", "exchanger",
            {
                "rated_gas": 0.015, "gas_conductance": 40.0, "air_conductance": 490.0, "heat_capacity": 16e3,
                "fan_air": 0.56,
            },
            heat="burner.heat", gas="burner.gas", oxygen="burner.oxygen", carbon_dioxide="burner.carbon_dioxide",
            carbon_monoxide="burner.carbon_monoxide", over_fire="flue.over_fire", spill="flue.spill",
        ),
        part("sensor", "flame-sensor", flame="burner.flame", trial="control.ignition"),
    ]  # fmt: skip
    if metered:
        parts += [
            part("pump", "metering-pump", {"rate": OIL}, volts="control.motor", oil="oil_solenoid.oil", wet="tank.wet"),
            part("nozzle", "metered-nozzle", {"rated_air": 7e4}, air="air_line.pressure", oil="pump.flow"),
        ]
    else:
        parts.append(
            part(
                "nozzle",
                "siphon-nozzle",
                {"flow": OIL, "rated_air": 7e4},
                air="air_line.pressure",
                oil="oil_solenoid.oil",
            )
        )
    if switch:
        parts.append(part("air_switch", "pressure-switch", {"closes_at": 3e4}, pressure="air_line.pressure"))
    features = {"delivery": delivery, "ignition": ignition, "air_switch": air_switch}
    name = f"{delivery}-{ignition}-{'with' if switch else 'no'}-air-switch"
    return Unit(name, name.replace("-", " "), "", features, {}, tuple(parts), PROVENANCE)


UNITS = {
    unit.id: unit
    for unit in (
        make_unit(*kind) for kind in product(("siphon", "metered"), ("intermittent", "interrupted"), ("none", "fitted"))
    )
}


def make_fault(part_id: str, setting: str, worst: float) -> FaultMode:
    """Return a fault that puts one setting to a value."""
    changes = (Change(part_id, setting, None, worst),)
    return FaultMode(f"{part_id}-{setting}", "", "", changes, (1.0,), 0.01, "", "", PROVENANCE)


@pytest.fixture(scope="session")
def read() -> tuple[Trade, SafeWork]:
    problems, other_kinds = Problems(), Problems()
    documents = read_documents(COURSE, ("job", *SAFEWORK_KINDS), other_kinds)
    job = load_job(documents, problems)
    trade = Trade(UNITS, {}, {}, {}, (), job)
    check_job(job, UNITS, problems)
    safework = load_safework(documents, trade, problems)
    problems.raise_if_any()
    return trade, safework


@pytest.fixture(scope="session")
def trade(read: tuple[Trade, SafeWork]) -> Trade:
    return read[0]


@pytest.fixture(scope="session")
def safework(read: tuple[Trade, SafeWork]) -> SafeWork:
    return read[1]


class Sites:
    """The sites of the test units; each remembers what its starts have shown, so that no start is simulated twice."""

    def __init__(self, trade: Trade) -> None:
        self.trade = trade
        self.known: dict[tuple[str, ...], Site] = {}

    def at(self, unit_id: str, case: Case = ()) -> Site:
        key = (unit_id, *(fault.id for fault, _ in case))
        if key not in self.known:
            self.known[key] = self._remembering(site_of(self.trade, self.trade.units[unit_id], case))
        return self.known[key]

    def _remembering(self, site: Site) -> Site:
        moving = {name for name, variable in site.variables.items() if variable.changes}
        shown: dict[frozenset[tuple[str, str]], State] = {}

        def facts(states: Sequence[State]) -> list[State]:
            keys = [frozenset((name, value) for name, value in state.items() if name in moving) for state in states]
            new = list({key: None for key in keys if key not in shown})
            shown.update(zip(new, site.facts([dict(key) for key in new]), strict=True))
            return [shown[key] for key in keys]

        return Site(site.variables, site.titles, facts)


@pytest.fixture(scope="session")
def sites(trade: Trade) -> Sites:
    return Sites(trade)
