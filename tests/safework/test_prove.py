"""All allowed orders: counted, tried, and held against the slow engine that tries every permutation."""

from itertools import permutations, product

import pytest

from courseware.heater.load import Trade
from courseware.heater.simulate import Case
from courseware.safework.judge import Judgement, judge_all
from courseware.safework.model import SafeWork
from courseware.safework.prove import prove, prove_work
from courseware.safework.work import steps_on, work_at
from tests.safework.conftest import UNITS, Sites, make_fault
from tests.safework.making import free
from tests.safework.second_engine import Slow, Verdict, allowed_orders

UNLOCKED = {"power": "off", "protection": "worn"}
SPARKING = {
    "burner": "standby", "flame-lead": "fitted", "flame-lead-on-list": "yes", "oil-proof": "yes", "protection": "worn",
}  # fmt: skip
FINISHED = {"cover": "open", "burner": "running", "full-start": "watched"}
SMALL = {
    "locking out": free(
        {
            "lock-out": [], "try-controls": [], "prove-meter": [], "open-cover": ["lock-out"],
            "test-dead": ["open-cover"], "prove-meter-again": ["test-dead"],
        },
        UNLOCKED,
    ),
    "locking out, in order": free(
        {
            "lock-out": [], "try-controls": ["lock-out"], "prove-meter": [], "open-cover": ["try-controls"],
            "test-dead": ["open-cover", "prove-meter"], "prove-meter-again": ["test-dead"],
        },
        UNLOCKED,
    ),
    "simulating flame": free(
        {
            "set-air-to-zero": [], "shut-oil-valve": [], "call-for-heat": [], "switch-flame-lead-on": ["call-for-heat"],
            "look-at-held-spark": ["switch-flame-lead-on"], "leave-the-heater": [],
        },
        SPARKING,
    ),
    "simulating flame, in order": free(
        {
            "set-air-to-zero": [], "shut-oil-valve": [], "call-for-heat": [],
            "switch-flame-lead-on": ["call-for-heat", "set-air-to-zero", "shut-oil-valve"],
            "look-at-held-spark": ["switch-flame-lead-on"], "read-up": [],
        },
        SPARKING,
        {"spark": ("judged",)},
    ),
    "putting back": free(
        {
            "close-cover": [], "shut-oil-valve": [], "open-oil-valve": [], "write-record": [],
            "hand-back": ["write-record"],
        },
        {**FINISHED, "power": "off"},
        {"oil-can-flow": ("yes",)},
    ),
}  # fmt: skip
CASES: dict[str, Case] = {
    "sound": (),
    "leaking solenoid": ((make_fault("oil_solenoid", "leak", 0.3), 1.0),),
    "disconnect that does not open": ((make_fault("disconnect", "bridged", 1.0), 1.0),),
}
SOME_UNITS = ("siphon-intermittent-no-air-switch", "metered-intermittent-with-air-switch")


def kind_of(judged: Judgement) -> Verdict:
    if judged.breach is None:
        return "fine", "", 0
    name, place = judged.breach.step_id, judged.breach.position
    if judged.breach.rule:
        return f"rule {judged.breach.rule.id}", name, place
    kinds = {"cannot be done": "cannot", "must come first": "order", "is left undone": "undone"}
    return next(kind for words, kind in kinds.items() if words in judged.breach.reason), name, place


@pytest.fixture(scope="module")
def slow(trade: Trade, safework: SafeWork) -> dict[tuple[str, str], Slow]:
    """Give the second engine for each unit and case; it too simulates no start twice."""
    return {(unit, case): Slow(safework, trade.job, UNITS[unit], CASES[case]) for unit in SOME_UNITS for case in CASES}


@pytest.mark.parametrize("case_name", ["sound", "leaking solenoid"])
@pytest.mark.parametrize("name", SMALL)
def test_both_engines_say_the_same_of_every_permutation(
    sites: Sites, safework: SafeWork, slow: dict[tuple[str, str], Slow], name: str, case_name: str
) -> None:
    procedure, unit_id = SMALL[name], SOME_UNITS[0]
    orders = list(permutations(step.id for step in procedure.steps))
    work = work_at(safework, sites.at(unit_id, CASES[case_name]), UNITS[unit_id], procedure)
    verdicts = [slow[unit_id, case_name].judge(procedure, order) for order in orders]
    assert len(orders) in {120, 720}
    assert [kind_of(one) for one in judge_all(work, orders)] == verdicts


@pytest.mark.parametrize("unit_and_case", list(product(SOME_UNITS, CASES)), ids="-".join)
@pytest.mark.parametrize("name", SMALL)
def test_the_proof_agrees_with_trying_every_permutation(
    sites: Sites, safework: SafeWork, slow: dict[tuple[str, str], Slow], name: str, unit_and_case: tuple[str, str]
) -> None:
    procedure, (unit_id, case_name) = SMALL[name], unit_and_case
    orders = list(allowed_orders(procedure))
    verdicts = {order: slow[unit_and_case].judge(procedure, order) for order in orders}
    proof = prove_work(work_at(safework, sites.at(unit_id, CASES[case_name]), UNITS[unit_id], procedure))
    assert proof.orders == len(orders)
    assert (proof.breach is None) == all(kind == "fine" for kind, _, _ in verdicts.values())
    if proof.breach is not None:
        # some allowed order begins with the example, and the slow engine stops it at that very step
        order = next(order for order in orders if order[: len(proof.example)] == proof.example)
        kind, step, position = verdicts[order]
        assert (step, position) == (proof.breach.step_id, proof.breach.position)
        assert kind.removeprefix("rule ") == (proof.breach.rule.id if proof.breach.rule else kind)
        assert position == min(place for _, _, place in verdicts.values() if place)


def test_the_small_procedures_cover_both_outcomes(sites: Sites, safework: SafeWork) -> None:
    unit = UNITS[SOME_UNITS[0]]
    found = [prove_work(work_at(safework, sites.at(unit.id), unit, procedure)).breach for procedure in SMALL.values()]
    assert [breach is None for breach in found] == [False, True, False, True, False]


@pytest.mark.parametrize("unit_id", UNITS)
@pytest.mark.parametrize("procedure_id", ["ignition-test", "lockout"])
def test_every_allowed_order_is_safe_on_every_unit(
    sites: Sites, safework: SafeWork, unit_id: str, procedure_id: str
) -> None:
    procedure = safework.procedures[procedure_id]
    proof = prove_work(work_at(safework, sites.at(unit_id), UNITS[unit_id], procedure))
    assert proof.breach is None
    assert proof.example == tuple(step.id for step in steps_on(procedure, UNITS[unit_id]))
    assert proof.orders > 1000
    assert proof.states > len(proof.example)


# What no shipped fault is: those are tried in test_shipped.py.
FAULTS = (
    ("sensor", "short", 1.0),
    ("disconnect", "bridged", 1.0),
    ("limit", "closed", 0.0),
    ("oil_solenoid", "leak", 1.0),
)


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: f"{fault[0]}-{fault[1]}")
def test_no_fault_makes_the_test_with_most_bridges_break_a_rule(
    trade: Trade, safework: SafeWork, fault: tuple[str, str, float]
) -> None:
    # With a fault some step may not come out; the work stops there. But nobody has been put in danger.
    unit, procedure = UNITS["siphon-intermittent-with-air-switch"], safework.procedures["ignition-test"]
    proof = prove(safework, trade, unit, procedure, ((make_fault(*fault), 1.0),))
    assert proof.breach is None or proof.breach.rule is None
