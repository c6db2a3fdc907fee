"""The combustion test: safe in every allowed order on every kind of unit, and what is said of the wrong orders."""

from itertools import pairwise

import pytest

from courseware.heater.load import Trade
from courseware.safework.gates import precedences
from courseware.safework.judge import judge_all
from courseware.safework.model import SafeWork
from courseware.safework.prove import prove_work
from courseware.safework.work import Work, steps_on, work_at
from tests.safework.conftest import UNITS, Sites
from tests.safework.making import chain_of
from tests.safework.second_engine import Slow

SIPHON = "siphon-intermittent-no-air-switch"
METERED = "metered-interrupted-with-air-switch"


def work(sites: Sites, safework: SafeWork, unit_id: str) -> Work:
    return work_at(safework, sites.at(unit_id), UNITS[unit_id], safework.procedures["combustion-test"])


def without(one: Work, left_out: str) -> list[str]:
    return [name for name in one.steps if name not in left_out.split()]


@pytest.mark.parametrize("unit_id", UNITS)
def test_every_allowed_order_is_safe_on_units_of_every_kind(sites: Sites, safework: SafeWork, unit_id: str) -> None:
    proof = prove_work(work(sites, safework, unit_id))
    assert proof.breach is None
    assert proof.orders > 100  # what is made ready before the fire may be made ready in many orders


@pytest.mark.parametrize("unit_id", [SIPHON, METERED])
def test_the_second_engine_finds_the_authors_order_fine(trade: Trade, safework: SafeWork, unit_id: str) -> None:
    procedure = safework.procedures["combustion-test"]
    names = [step.id for step in steps_on(procedure, UNITS[unit_id])]
    assert Slow(safework, trade.job, UNITS[unit_id]).judge(procedure, names) == ("fine", "", 0)


# The whole words that a trainee is shown, by the rule that is broken.
REASON = {
    "no-co-monitor": (
        "Most flues pull, but a cold, blocked or short one pushes, and then the hole blows flue gas at you. You cannot "
        "smell carbon monoxide. The monitor on your collar notices it while you can still walk."
    ),
    "bare-at-hot-flue": (
        "The unit has to run for this test, so nothing near the pipe is cool. The probe comes out as hot as the gas. "
        "Gloves for your hands, glasses for the soot that falls out of the hole."
    ),
    "test-hole-left-open": (
        "On a day with bad draft the hole becomes a vent into the shop, and on a good day it draws in room air and "
        "spoils the draft. Plug it with something made for the heat of the pipe; tape burns off."
    ),
    "not-as-found": (
        "Every cover, line, plug and setting goes back as found or as the manual says, and you watch one full normal "
        "start. Only then is the job done."
    ),
}
# What is left out, the step that breaks a rule for it, and the rule.
WRONG = {
    "monitor": ("draft", "no-co-monitor"),
    "protect": ("draft", "bare-at-hot-flue"),
    "plug": ("hand-back", "test-hole-left-open"),
    "down warn-again start-again full-start": ("hand-back", "not-as-found"),
}


@pytest.mark.parametrize("left_out", WRONG)
def test_a_step_left_out_is_told_by_the_rule_that_it_breaks(sites: Sites, safework: SafeWork, left_out: str) -> None:
    step, rule_id = WRONG[left_out]
    one = work(sites, safework, METERED)
    breach = judge_all(one, [without(one, left_out)])[0].breach
    assert breach is not None
    assert (breach.step_id, breach.rule, breach.reason) == (step, safework.rules[rule_id], REASON[rule_id])


# What is done too early, behind which step, and what it lacks then, in the words that a trainee is shown.
EARLY = {
    ("smoke", "warm"): "Combustion test: wanted draft found, found warm.",
    ("gas", "draft"): "Combustion test: wanted smoke found, found draft found.",
    ("set-draft", "draft"): "Combustion test: wanted stack found, found draft found.",
    ("set-oxygen", "stack"): "Combustion test: wanted smoke clear, found stack found.",
    ("holes", "first-start"): "Burner: wanted standby or locked out, found running.",
}


@pytest.mark.parametrize(("step", "behind"), EARLY)
def test_a_step_out_of_its_order_is_told_by_what_it_lacks(
    sites: Sites, safework: SafeWork, step: str, behind: str
) -> None:
    one = work(sites, safework, SIPHON)
    names = without(one, step)
    place = names.index(behind) + 1
    breach = judge_all(one, [[*names[:place], step, *names[place:]]])[0].breach
    assert breach is not None
    assert (breach.rule, breach.step_id) == (None, step)
    assert breach.reason == (
        f"'{one.action(step).title}' cannot be done here, or does not come out as it must. {EARLY[step, behind]}"
    )


def test_air_set_by_eye_and_a_cracked_or_smelling_heater_end_the_work(sites: Sites, safework: SafeWork) -> None:
    start = {"burner": "standby", "thermostat": "down"}
    unfit = (
        ({"exchanger": "cracked"}, "cracked-exchanger"),
        ({"flue": "blocked"}, "blocked-flue"),
        ({"room-co": "above-35-ppm"}, "co-above-35"),
        ({"oil-sample": "smells-of-solvent"}, "solvent-burned"),
    )
    for found, rule_id in unfit:
        one = work_at(safework, sites.at(METERED), UNITS[METERED], chain_of(("call-for-heat",), {**start, **found}))
        breach = judge_all(one, [["call-for-heat"]])[0].breach
        assert breach is not None
        assert breach.rule is safework.rules[rule_id]
    running = chain_of(("set-air-by-eye",), {"burner": "running"})
    breach = judge_all(work_at(safework, sites.at(SIPHON), UNITS[SIPHON], running), [["set-air-by-eye"]])[0].breach
    assert breach is not None
    assert breach.rule is safework.rules["air-set-by-eye"]


ORDER = (
    "draft",
    "smoke",
    "gas",
    "stack",
    "set-draft",
    "clear-smoke",
    "set-oxygen",
    "left",
    "plug",
    "room",
    "full-start",
)


def test_draft_smoke_oxygen_and_stack_are_read_before_any_is_set_and_set_in_this_order(
    trade: Trade, safework: SafeWork
) -> None:
    # The order of the trade: common practice, no source.
    found = precedences(safework, trade, UNITS[SIPHON], safework.procedures["combustion-test"])
    pairs = {(one.before, one.after) for one in found}
    assert set(pairwise(ORDER)) <= pairs
    assert not {("protect", "monitor"), ("monitor", "protect"), ("zero", "read"), ("read", "zero")} & pairs
    gates = {(one.before, one.after) for one in found if one.critical}
    assert {("monitor", "draft"), ("protect", "smoke"), ("plug", "hand-back"), ("full-start", "hand-back")} <= gates
