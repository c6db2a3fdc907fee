"""The heater's documents, loaded together."""

from pathlib import Path

import pytest

from courseware.heater.load import HEATER_KINDS, Trade
from tests.heater.bench import load
from tests.heater.sound import SOUND


def test_sound_documents_have_nothing_to_report(tmp_path: Path) -> None:
    trade, found = load(tmp_path, **SOUND)
    assert found == ""
    assert trade.units["bench"].limits == {"volts-low": 108.0, "odd": 10.5, "airy": pytest.approx(8 * 6894.757)}
    assert trade.units["bench"].features["cabinet"] == "steel"
    assert trade.faults["sag"].changes[0].at_worst == 96.0
    assert trade.checks["line"].needs == {"power": ("on",)}


def test_amounts_are_kept_in_si_and_places_with_them(tmp_path: Path) -> None:
    text = SOUND["unit"].replace("{volts: 120 V}", "{volts: 0.115 kV}")
    trade, found = load(tmp_path, **{**SOUND, "unit": text})
    assert found == ""
    supply = trade.units["bench"].parts[0]
    assert supply.settings["volts"] == 115.0
    assert str(supply.source) == "question_bank/unit.yaml:9"
    assert str(trade.checks["line"].provenance.source) == "question_bank/checks.yaml:3"


def test_all_faults_of_all_documents_are_told_in_one_run(tmp_path: Path) -> None:
    broken = {
        "unit": SOUND["unit"].replace("volts: 120 V", "volts: 240 V"),
        "faults": SOUND["faults"].replace("repair: fix", "repair: fixx"),
        "checks": SOUND["checks"].replace("low: 10,", "low: 12,"),
    }
    _, found = load(tmp_path, **{**SOUND, **broken})
    assert [line.split(": ")[0] for line in found.splitlines() if line.startswith("question_bank/")] == [
        "question_bank/checks.yaml:15", "question_bank/faults.yaml:5", "question_bank/unit.yaml:9",
    ]  # fmt: skip


def test_fault_that_fits_no_unit(tmp_path: Path) -> None:
    """One unit has the feature, another the part; none has both."""
    other = SOUND["unit"].replace("id: bench", "id: other").replace("cabinet: steel", "cabinet: brick")
    other = other.replace("  - {id: transformer, kind: transformer, wires: {volts: control.ignition}}\n", "")
    fault = SOUND["faults"].replace(
        "{part: supply, setting: volts, at_worst: 96 V}",
        "{part: transformer, setting: output, at_worst: 0, only_on: {cabinet: brick}}",
    )
    _, found = load(tmp_path, **{**SOUND, "faults": fault}, other=other)
    assert found == "question_bank/faults.yaml:6: fault 'sag': no unit has all that it moves"


def test_check_that_fits_no_unit(tmp_path: Path) -> None:
    """One unit has the signal, another what must hold for it; none has both."""
    other = SOUND["unit"].replace("id: bench", "id: other").replace("{id: transformer,", "{id: igniter,")
    check = SOUND["checks"].replace(
        "signal: control.line", "signal: transformer.primary\n    given: [{signal: igniter.primary, low: 1 V}]"
    )
    _, found = load(tmp_path, **{**SOUND, "checks": check}, other=other)
    assert found == "question_bank/checks.yaml:8: check 'line': no unit has all that it reads"


def test_same_unit_twice(tmp_path: Path) -> None:
    _, found = load(tmp_path, **SOUND, again=SOUND["unit"])
    assert found == (
        "question_bank/unit.yaml:1: unit 'bench': the id 'bench' is used twice; first at question_bank/again.yaml:1\n"
        "    try: give one of the two another id"
    )


def test_nothing_at_all_gives_an_empty_trade(tmp_path: Path) -> None:
    trade, found = load(tmp_path)
    assert isinstance(trade, Trade)
    assert not trade.units
    assert found.startswith("question_bank/:1: no content file was found")
    assert len(HEATER_KINDS) == 6
