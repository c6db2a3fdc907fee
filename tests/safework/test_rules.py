"""Each rule is needed: with it a named sequence is refused, without it the same sequence passes."""

from collections.abc import Mapping
from dataclasses import replace

import pytest

from courseware.safework.judge import Judgement, judge_all
from courseware.safework.model import Procedure, SafeWork
from courseware.safework.work import work_at
from tests.safework.conftest import UNITS, Sites
from tests.safework.making import chain_of

SIPHON = "siphon-intermittent-no-air-switch"
METERED = "metered-interrupted-with-air-switch"
LOCKED = {"power": "locked", "controls-tried": "yes", "dead-test": "proved"}
AT_FLUE = {"burner": "running", "test-holes": "open", "combustion-test": "warm"}
READY = {"prepared": "yes", "people-told": "yes", "burner": "locked-out"}
RUN_AND_READ = {"full-start": "watched", "room-co": "at-most-9-ppm"}

# rule: (unit, how the job is found, what is done; the last deed breaks the rule)
UNSAFE: dict[str, tuple[str, Mapping[str, str], tuple[str, ...]]] = {
    "hands-in-live-unit": (METERED, {}, ("unplug-pump",)),
    "switched-off-not-locked": (METERED, {"power": "off"}, ("shut-oil-valve", "unplug-pump")),
    "controls-not-tried": (METERED, {"power": "off", "dead-test": "proved"}, ("lock-out", "unplug-pump")),
    "not-proved-dead": (METERED, {"power": "off"}, ("lock-out", "try-controls", "unplug-pump")),
    "meter-not-proved": (
        SIPHON,
        {"power": "off"},
        ("protect-yourself", "lock-out", "try-controls", "open-cover", "test-dead"),
    ),
    "live-parts-bare": (SIPHON, {}, ("open-cover",)),
    "no-eye-protection": (SIPHON, {}, ("prove-meter",)),
    "ohms-on-live-circuit": (SIPHON, {}, ("measure-resistance",)),
    "meter-on-secondary": (SIPHON, LOCKED, ("meter-the-posts",)),
    "tester-handled-live": (
        SIPHON,
        {"power": "off", "people-warned": "yes", "electrode": "drawn", "spark-tester": "fitted"},
        ("close-disconnect", "hold-tester-lead"),
    ),
    "arc-drawn-at-posts": (SIPHON, {}, ("draw-arc",)),
    "removes-others-lock": (SIPHON, LOCKED, ("take-off-others-lock",)),
    "not-prepared": (SIPHON, {"burner": "locked-out"}, ("tell-people", "open-disconnect")),
    "people-not-told": (SIPHON, {"burner": "locked-out"}, ("read-up", "open-disconnect")),
    "shut-down-first": (SIPHON, {"burner": "running"}, ("read-up", "tell-people", "open-disconnect")),
    "stored-energy-left": (SIPHON, LOCKED, ("let-cool", "shut-oil-valve", "open-cover", "do-the-work")),
    "air-line-under-pressure": (SIPHON, LOCKED, ("take-air-line-off",)),
    "hot-oil-opened": (METERED, LOCKED, ("protect-yourself", "shut-oil-valve", "relieve-oil-pressure")),
    "hot-head-touched": (SIPHON, LOCKED, ("open-cover", "draw-electrode")),
    "oil-on-skin": (METERED, LOCKED, ("let-cool", "shut-oil-valve", "relieve-oil-pressure")),
    "not-clear": (SIPHON, LOCKED, ("take-lock-off",)),
    "not-warned": (SIPHON, LOCKED, ("clear-away", "take-lock-off", "close-disconnect")),
    "oil-with-simulated-flame": (
        SIPHON,
        {"flame-lead": "fitted", "flame-lead-on-list": "yes", "burner": "standby"},
        ("call-for-heat", "switch-flame-lead-on"),
    ),
    "oil-in-spark-test": (
        SIPHON,
        {"burner": "standby", "protection": "worn"},
        ("call-for-heat", "look-at-spark-in-trial"),
    ),
    "no-oil-not-proved": (
        SIPHON,
        {"burner": "standby", "protection": "worn"},
        ("set-air-to-zero", "call-for-heat", "look-at-spark-in-trial"),
    ),
    "reset-without-looking": (SIPHON, {"burner": "locked-out", "thermostat": "down"}, ("reset",)),
    "start-in-oil": (SIPHON, {"burner": "standby", "chamber": "oily"}, ("call-for-heat",)),
    "oil-past-drawn-electrode": (
        "metered-interrupted-no-air-switch",  # no air, and the oil comes all the same
        {"burner": "standby", "electrode": "drawn"},
        ("set-air-to-zero", "call-for-heat"),
    ),
    "solvent-burned": (SIPHON, {"burner": "standby", "oil-sample": "smells-of-solvent"}, ("call-for-heat",)),
    "bridge-not-listed": (SIPHON, LOCKED, ("fit-flame-lead",)),
    "bridge-unattended": (SIPHON, LOCKED, ("list-flame-lead", "fit-flame-lead", "leave-the-heater")),
    "limit-defeated": (
        SIPHON,
        {"burner": "standby", "limit-lead": "on", "limit-lead-on-list": "yes"},
        ("call-for-heat",),
    ),
    "bridge-left-on": (
        SIPHON,
        {**LOCKED, **RUN_AND_READ},
        ("list-flame-lead", "fit-flame-lead", "hand-back"),
    ),
    "not-as-found": (METERED, RUN_AND_READ, ("shut-oil-valve", "hand-back")),
    "cracked-exchanger": (SIPHON, {"burner": "standby", "exchanger": "cracked"}, ("call-for-heat",)),
    "blocked-flue": (SIPHON, {"burner": "standby", "flue": "blocked"}, ("call-for-heat",)),
    "co-above-35": (SIPHON, {"burner": "standby", "room-co": "above-35-ppm"}, ("call-for-heat",)),
    "co-above-9": (SIPHON, {"burner": "standby", "room-co": "above-9-ppm"}, ("call-for-heat",)),
    "co-not-read": (SIPHON, {"full-start": "watched"}, ("write-record", "hand-back")),
    "ash-hot": (SIPHON, LOCKED, ("wear-respirator", "open-cover", "vacuum-ash")),
    "ash-blown": (SIPHON, LOCKED, ("let-cool", "wear-respirator", "blow-ash-out")),
    "ash-without-respirator": (SIPHON, LOCKED, ("let-cool", "open-cover", "vacuum-ash")),
    "no-co-monitor": (SIPHON, {**AT_FLUE, "protection": "worn"}, ("read-draft",)),
    "bare-at-hot-flue": (SIPHON, {**AT_FLUE, "co-monitor": "worn"}, ("read-draft",)),
    "air-set-by-eye": (SIPHON, {"burner": "running"}, ("set-air-by-eye",)),
    "test-hole-left-open": (
        SIPHON,
        {"full-start": "watched", "room-co": "at-most-9-ppm", "test-holes": "open"},
        ("hand-back",),
    ),
}


def judge(safework: SafeWork, sites: Sites, unit_id: str, procedure: Procedure) -> Judgement:
    """Judge the steps as they are written."""
    work = work_at(safework, sites.at(unit_id), UNITS[unit_id], procedure)
    return judge_all(work, [[step.id for step in procedure.steps]])[0]


def test_every_rule_has_its_sequence(safework: SafeWork) -> None:
    assert UNSAFE.keys() == safework.rules.keys()


@pytest.mark.parametrize("rule_id", UNSAFE)
def test_only_the_rule_stands_between_the_sequence_and_harm(sites: Sites, safework: SafeWork, rule_id: str) -> None:
    unit_id, start, actions = UNSAFE[rule_id]
    procedure = chain_of(actions, start)
    names = [step.id for step in procedure.steps]
    held = judge(safework, sites, unit_id, procedure)
    assert held.breach is not None
    assert held.breach.rule is safework.rules[rule_id]
    assert (held.breach.step_id, held.breach.position) == (names[-1], len(names))
    assert held.breach.reason == safework.rules[rule_id].reason
    assert not held.allowed
    without = replace(safework, rules={name: rule for name, rule in safework.rules.items() if name != rule_id})
    freed = judge(without, sites, unit_id, procedure)
    assert (freed.breach, freed.allowed) == (None, True)


@pytest.mark.parametrize("lead", ["flame-lead", "air-switch-lead", "limit-lead"])
def test_every_bridge_is_listed_attended_and_taken_off(sites: Sites, safework: SafeWork, lead: str) -> None:
    found = {**LOCKED, "burner": "standby"}
    listed = {**found, f"{lead}-on-list": "yes"}
    for start, actions, rule in (
        (found, (f"fit-{lead}",), "bridge-not-listed"),
        (listed, (f"fit-{lead}", "leave-the-heater"), "bridge-unattended"),
        ({**listed, **RUN_AND_READ}, (f"fit-{lead}", "hand-back"), "bridge-left-on"),
        ({**listed, **RUN_AND_READ}, ("hand-back",), "bridge-left-on"),
    ):
        procedure = chain_of(actions, start)
        judged = judge(safework, sites, "siphon-intermittent-with-air-switch", procedure)
        assert judged.breach is not None
        assert judged.breach.rule is safework.rules[rule]


def test_signal_words_and_sources(safework: SafeWork) -> None:
    for rule in safework.rules.values():
        assert rule.signal_word in {"DANGER", "WARNING", "CAUTION"}  # ANSI Z535.4
        assert rule.hazard
        assert rule.provenance.origin
        assert not rule.provenance.reviewed
