"""The shipped units, faults, checks and complaints: what a technician may expect of them."""

import itertools
import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import pytest

from courseware.heater.checks import Check
from courseware.heater.faults import FaultMode
from courseware.heater.load import Trade
from courseware.heater.parts.base import Array
from courseware.heater.readings import complaint_of, outcomes, shown, true_values, verdict_probabilities
from courseware.heater.simulate import Case, simulate
from courseware.heater.unit import Unit

SEEN = 0.5  # probability from which we say that a check shows something


def checks_on(trade: Trade, unit: Unit) -> list[Check]:
    return [check for check in trade.checks.values() if check.applies_to(unit)]


def faults_on(trade: Trade, unit: Unit) -> list[FaultMode]:
    return [fault for fault in trade.faults.values() if fault.applies_to(unit)]


@dataclass(frozen=True)
class Sheet:
    """Healthy and every single fault at every grade, on one unit: what is told, read and concluded."""

    cases: list[Case]
    told: tuple[str, ...]
    values: Mapping[str, Array]
    rows: Mapping[str, Array]

    def of(self, fault: FaultMode, severity: float) -> int:
        return self.cases.index(((fault, severity),))

    def verdicts(self, unit: Unit, check: Check) -> list[str]:
        return [outcomes(unit, check)[index] for index in self.rows[check.id].argmax(axis=1)]


@pytest.fixture(scope="module")
def sheets(trade: Trade) -> Mapping[str, Sheet]:
    return {unit.id: make_sheet(trade, unit) for unit in trade.units.values()}


def make_sheet(trade: Trade, unit: Unit) -> Sheet:
    cases: list[Case] = [(), *(((fault, grade),) for fault in faults_on(trade, unit) for grade in fault.severities)]
    checks = checks_on(trade, unit)
    arrangements = {str(check.changes): check.changes for check in checks}
    runs = {name: simulate(unit, cases, changes) for name, changes in arrangements.items()}
    return Sheet(
        cases=cases,
        told=complaint_of(unit, trade.complaints, simulate(unit, cases)),
        values={check.id: true_values(unit, check, runs[str(check.changes)]) for check in checks},
        rows={check.id: verdict_probabilities(unit, check, runs[str(check.changes)]) for check in checks},
    )


def test_two_units_that_differ_where_the_lesson_needs_it(siphon: Unit, metered: Unit) -> None:
    words = {"delivery", "ignition", "air_switch", "air_source", "oil_pump"}
    assert {name: siphon.features[name] for name in words} == {
        "delivery": "siphon", "ignition": "intermittent", "air_switch": "none", "air_source": "shop",
        "oil_pump": "none",
    }  # fmt: skip
    assert {name: metered.features[name] for name in words} == {
        "delivery": "metered", "ignition": "interrupted", "air_switch": "fitted", "air_source": "own",
        "oil_pump": "fitted",
    }  # fmt: skip


def test_a_healthy_unit_passes_every_check_it_can_be_given(
    trade: Trade, unit: Unit, sheets: Mapping[str, Sheet]
) -> None:
    """Nothing wrong: every check reads in one band with near certainty, and none of its words alarm."""
    alarming = {
        "none", "low", "high", "weak", "open", "wide", "narrow", "apart", "cracked", "still", "lit", "leaks", "empty",
        "plugged", "dirty", "cannot", "raised", "danger", "smoky", "black", "pressure", "refuses", "bridge", "rises",
        "suction", "narrowed", "blocked", "packed", "thick", "stuck-shut", "stuck-open", "shut", "bubbles", "foam",
        "cold", "cool", "hot", "worn", "light", "opened",
    }  # fmt: skip
    fine = {  # none or little is what should come there
        "oil-before-trial": {"none"}, "flue-monoxide": {"low"}, "monoxide-air-free": {"low"}, "room-monoxide": {"none"},
    }  # fmt: skip
    for check in checks_on(trade, unit):
        row = sheets[unit.id].rows[check.id][0]
        outcome = outcomes(unit, check)[int(row.argmax())]
        assert row.max() > 0.95, check.id
        assert outcome not in alarming - fine.get(check.id, set()), check.id


def test_a_healthy_unit_has_no_complaint(trade: Trade, unit: Unit, sheets: Mapping[str, Sheet]) -> None:
    assert sheets[unit.id].told[0] == trade.complaints[-1].id


def test_healthy_readings_are_common_practice(trade: Trade, unit: Unit, sheets: Mapping[str, Sheet]) -> None:
    """Common practice, no source, as the units' limits have it; the oxygen by the mole balance.

    Draft over the fire of -0.02 and at the breech of -0.04 to -0.06 inWC, oxygen of 3 to 12 %, less than 100 ppm of
    carbon monoxide, a stack of 325 to 600 F, no smoke: two instrument makers' charts. Carbon dioxide on the line of an
    oil of 15.5 % at most.
    """
    values = {check.signal: sheets[unit.id].values[check.id][0] for check in checks_on(trade, unit)}
    assert values["transformer.secondary"] == pytest.approx(10.0)
    assert 8 <= values["nozzle.air"] <= 15
    assert 5 <= values["exchanger.oxygen"] <= 8
    assert 0.125 <= values["electrode.gap"] <= 0.157
    assert values["flue.over_fire"] == pytest.approx(-0.02, abs=0.005)
    assert -0.06 <= values["flue.breech"] <= -0.04
    assert values["exchanger.carbon_dioxide"] == pytest.approx(
        15.5 * (20.946 - values["exchanger.oxygen"]) / 20.946, abs=0.1
    )
    assert values["exchanger.carbon_monoxide"] < 100
    assert values["burner.smoke"] <= 1
    assert 325 <= values["exchanger.net"] + 68 <= 600
    assert values["exchanger.room_monoxide"] == 0
    assert 140 <= values["preheater.temperature"] <= 200
    assert values.get("pump.vacuum", 0.0) < 10


def test_every_fault_shows_or_is_marked_latent(trade: Trade, unit: Unit, sheets: Mapping[str, Sheet]) -> None:
    """At its worst each fault brings a complaint or changes a verdict; if not, its document says why."""
    faults, sheet = faults_on(trade, unit), sheets[unit.id]
    assert len(faults) >= 28
    found = {check.id: sheet.verdicts(unit, check) for check in checks_on(trade, unit)}
    for fault in faults:
        index = sheet.of(fault, max(fault.severities))
        shows = [name for name, outcome in found.items() if outcome[index] != outcome[0]]
        if sheet.told[index] != sheet.told[0]:
            shows.append("complaint")
        assert shows or fault.latent, fault.id


def test_fault_modes_and_checks_are_many_and_distinct(trade: Trade, unit: Unit, sheets: Mapping[str, Sheet]) -> None:
    """At least 28 modes that differ in their repair or in what the checks show, and 32 checks, on each unit."""
    faults, sheet = faults_on(trade, unit), sheets[unit.id]
    rows = np.hstack(list(sheet.rows.values()))
    kept: list[int] = []
    for number, fault in enumerate(faults):
        mine = rows[sheet.of(fault, max(fault.severities))]
        others = [
            rows[sheet.of(faults[one], max(faults[one].severities))]
            for one in kept
            if faults[one].repair == fault.repair
        ]
        if all(np.abs(mine - other).max() >= SEEN for other in others):
            kept.append(number)
    assert len(kept) >= 28
    assert len(checks_on(trade, unit)) >= 32


def test_faults_lie_all_along_the_chain(trade: Trade) -> None:
    """From the supply to the chimney, each part of the chain fails somehow."""
    moved = {change.part for fault in trade.faults.values() for change in fault.changes}
    chain = {
        "supply", "limit", "thermostat", "control", "transformer", "electrode", "air_supply", "air_regulator", "tank",
        "strainer", "suction_line", "pump", "oil_solenoid", "preheater", "nozzle", "blower", "sensor", "flue",
        "exchanger",
    }  # fmt: skip
    assert chain <= moved


def test_what_is_marked_latent_is_latent_somewhere_and_dangerous(trade: Trade, sheets: Mapping[str, Sheet]) -> None:
    latent = [fault for fault in trade.faults.values() if fault.latent]
    assert latent
    for fault in latent:
        assert fault.danger
        silent = [
            unit.id
            for unit in trade.units.values()
            if fault.applies_to(unit)
            and all(
                outcome[sheets[unit.id].of(fault, max(fault.severities))] == outcome[0]
                for outcome in (sheets[unit.id].verdicts(unit, check) for check in checks_on(trade, unit))
            )
        ]
        assert silent, f"{fault.id} shows on every unit, so it is not latent"


def test_more_severe_is_never_less_visible(trade: Trade, unit: Unit, sheets: Mapping[str, Sheet]) -> None:
    """The best chance that some check leaves its healthy verdict never falls as a fault gets worse."""
    sheet = sheets[unit.id]
    for fault in faults_on(trade, unit):
        indices = [0, *(sheet.of(fault, grade) for grade in sorted(fault.severities))]
        most = np.max([1.0 - rows[indices, int(rows[0].argmax())] for rows in sheet.rows.values()], axis=0)
        assert np.all(np.diff(most) >= -1e-9), (fault.id, most)


def test_no_two_faults_with_different_repairs_are_alike_at_their_worst(
    trade: Trade, unit: Unit, sheets: Mapping[str, Sheet]
) -> None:
    """Some check tells them apart, or the two are one repair."""
    faults, sheet = faults_on(trade, unit), sheets[unit.id]
    signature = np.hstack(list(sheet.rows.values()))[[sheet.of(fault, max(fault.severities)) for fault in faults]]
    alike = {
        (one.id, two.id)
        for (i, one), (j, two) in itertools.combinations(enumerate(faults), 2)
        if one.repair != two.repair and np.abs(signature[i] - signature[j]).max() < SEEN
    }
    assert alike == set()


def test_every_complaint_is_told_by_someone(trade: Trade, sheets: Mapping[str, Sheet]) -> None:
    told = {name for sheet in sheets.values() for name in sheet.told}
    assert told == {complaint.id for complaint in trade.complaints}


def test_every_repair_ends_some_fault(trade: Trade) -> None:
    assert {fault.repair for fault in trade.faults.values()} == set(trade.repairs)


def test_every_inner_band_of_every_check_is_reached(trade: Trade, sheets: Mapping[str, Sheet]) -> None:
    """A band that nothing reaches must be an end of the line, such as "too high": a meter can read there."""
    reached: dict[str, set[str]] = {check.id: set() for check in trade.checks.values()}
    for unit in trade.units.values():
        for check in checks_on(trade, unit):
            reached[check.id] |= set(sheets[unit.id].verdicts(unit, check))
    for check in trade.checks.values():
        assert {band.id for band in check.bands[1:-1]} - reached[check.id] == set(), check.id


def test_displays_read_like_a_service_sheet(trade: Trade, unit: Unit, sheets: Mapping[str, Sheet]) -> None:
    for check in checks_on(trade, unit):
        value = float(sheets[unit.id].values[check.id][0])
        text = shown(unit, check, None if math.isnan(value) else value)
        assert text[0].isdigit() or text[0] == "−" or text[0].isupper() or text == check.cannot


def test_a_fault_needs_every_part_it_moves(trade: Trade, siphon: Unit, metered: Unit) -> None:
    own = [fault.id for fault in trade.faults.values() if not fault.applies_to(siphon)]
    shop = [fault.id for fault in trade.faults.values() if not fault.applies_to(metered)]
    assert len(own) == 4  # compressor, air switch, and two of the pump
    assert len(shop) == 2  # shop air and the air valve


def test_words_are_for_a_grade_nine_reader(trade: Trade) -> None:
    """Short sentences: no sentence of a check, fault or complaint is longer than 25 words."""
    texts = [check.asks for check in trade.checks.values()]
    texts += [hazard for check in trade.checks.values() for hazard in check.hazards]
    texts += [text for fault in trade.faults.values() for text in (fault.danger, fault.latent)]
    texts += [complaint.says for complaint in trade.complaints]
    for text in texts:
        for sentence in text.replace("?", ".").replace(":", ".").split("."):
            assert len(sentence.split()) <= 25, sentence
