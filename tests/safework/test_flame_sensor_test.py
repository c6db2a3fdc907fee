"""The flame sensor's test, dead from end to end: every order of it tried one by one, and what wrong ones come to."""

from collections.abc import Iterator, Mapping

import pytest

from courseware.heater.load import Trade
from courseware.safework.judge import judge_all
from courseware.safework.model import SafeWork
from courseware.safework.prove import prove_work
from courseware.safework.work import Work, work_at
from tests.safework.conftest import UNITS, Sites
from tests.safework.second_engine import Slow, waits_for

SIPHON = "siphon-intermittent-no-air-switch"
METERED = "metered-interrupted-with-air-switch"
ORDERS = 2508
"""Orders [-] that the procedure allows; counted here by writing every one of them down."""


def work(sites: Sites, safework: SafeWork, unit_id: str) -> Work:
    return work_at(safework, sites.at(unit_id), UNITS[unit_id], safework.procedures["flame-sensor-test"])


def written_out(before: Mapping[str, set[str]], done: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """Every order, step by step: whatever may come next comes next."""
    if len(done) == len(before):
        yield done
    for name in before:
        if name not in done and before[name] <= set(done):
            yield from written_out(before, (*done, name))


@pytest.mark.parametrize("unit_id", UNITS)
def test_every_allowed_order_is_safe(sites: Sites, safework: SafeWork, unit_id: str) -> None:
    proof = prove_work(work(sites, safework, unit_id))
    assert (proof.breach, proof.orders) == (None, ORDERS)


def test_the_second_engine_walks_every_order_and_finds_each_fine(trade: Trade, safework: SafeWork) -> None:
    procedure = safework.procedures["flame-sensor-test"]
    slow = Slow(safework, trade.job, UNITS[METERED])
    orders = list(written_out({step.id: waits_for(step.id, procedure) for step in procedure.steps}))
    assert len(orders) == len(set(orders)) == ORDERS
    assert {slow.judge(procedure, order) for order in orders[::50]} == {("fine", "", 0)}


def test_leads_are_not_taken_off_a_heater_that_is_not_proved_dead(sites: Sites, safework: SafeWork) -> None:
    one = work(sites, safework, SIPHON)
    names = [name for name in one.steps if name != "leads-off"]
    names.insert(names.index("dead") + 1, "leads-off")
    breach = judge_all(one, [names])[0].breach
    assert breach is not None
    assert breach.rule is safework.rules["not-proved-dead"]
    assert breach.reason == (
        "A disconnect can fail with one pole closed, and a second circuit can feed the control. Only a test of every "
        "line, with the meter proved before and again after, shows that the line is dead and the meter works."
    )


def test_a_sensor_left_without_its_leads_shows_in_the_full_start(sites: Sites, safework: SafeWork) -> None:
    one = work(sites, safework, SIPHON)
    breach = judge_all(one, [[name for name in one.steps if name != "leads-on"]])[0].breach
    assert breach is not None
    assert (breach.rule, breach.step_id) == (None, "full-start")
    assert breach.reason == (
        "'Watch one full normal start, from the call for heat to a steady flame, and read the carbon monoxide in the "
        "room' cannot be done here, or does not come out as it must. "
        "A start ends in a steady flame: wanted yes, found no."
    )


def test_a_wiped_lens_is_measured_again(sites: Sites, safework: SafeWork) -> None:
    one = work(sites, safework, SIPHON)
    judged = judge_all(one, [[name for name in one.steps if name != "lit-left"]])[0]
    assert judged.breach is None  # nothing is unsafe about leaving it out
    assert (judged.allowed, judged.missing) == (False, ("lit-left",))
    assert judged.state["sensor-lit"] == "not-measured"  # what was read as found says nothing of the wiped lens
