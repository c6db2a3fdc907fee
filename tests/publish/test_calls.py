"""A call worked for a lesson: its shares and its doubt counted out by a second path, its readings held to the unit."""

import math

import pytest

from courseware.diagnosis.space import Premise
from courseware.publish.calls import OUT, Call, of_hundred, work_call
from tests.publish.conftest import Shipped
from tests.quiz.kinds.enumeration import count_out, entropy

CHECKS = ("blower-turns", "tank-level", "spark-at-electrode")
FAULT = "strainer-plugged"


@pytest.fixture(scope="module")
def call(shipped: Shipped) -> Call:
    trade = shipped.teaching.trade
    signatures = shipped.teaching.signatures("bay-metered")
    return work_call(signatures, ((trade.faults[FAULT], 1.0),), [trade.checks[one] for one in CHECKS], Premise.ONE)


def test_counting_every_case_out_gives_the_same_shares(shipped: Shipped, call: Call) -> None:
    """The second path knows nothing of the diagnosis: it multiplies over all single faults."""
    trade = shipped.teaching.trade
    counted = count_out(trade.units["bay-metered"], trade)
    outcomes = dict(zip(CHECKS, ("turns", "enough", "strong"), strict=True))
    for made in range(len(CHECKS) + 1):
        evidence = {check: outcomes[check] for check in CHECKS[:made]}
        shares = counted.shares(counted.after("no-flame-red-light", evidence))
        stage = call.stages[made]
        assert {one: share for one, share in stage.shares.items() if share > OUT} == pytest.approx(
            {one: share for one, share in shares.items() if share > OUT}
        )
        assert stage.doubt == pytest.approx(entropy(shares))
        rates = counted.rates("no-flame-red-light", evidence)
        assert rates[stage.gains[0].check] == pytest.approx(max(rates.values()))


def test_the_minutes_add_up_and_the_sheet_is_the_unit_s(shipped: Shipped, call: Call) -> None:
    checks = shipped.teaching.trade.checks
    assert [stage.total for stage in call.stages] == [
        sum(checks[one].minutes for one in CHECKS[:made]) for made in range(len(CHECKS) + 1)
    ]
    assert [stage.check for stage in call.stages] == ["", *(checks[one].title for one in CHECKS)]
    assert call.stages[3].reading == "Steady blue spark across the tines"
    assert call.stages[0].reading.startswith("It starts up, but there's no fire.")


def test_a_settled_call_asks_for_no_further_check(shipped: Shipped, call: Call) -> None:
    assert call.stages[-1].best is not None
    trade = shipped.teaching.trade
    more = [trade.checks[one] for one in (*CHECKS, "oil-solenoid-coil", "suction-vacuum", "strainer-bowl")]
    settled = work_call(call.signatures, ((trade.faults[FAULT], 1.0),), more, Premise.ONE).stages[-1]
    assert settled.settled
    assert settled.best is None
    assert settled.shares["clean-strainer"] > 0.95


def test_every_repair_with_a_share_has_a_row_or_is_counted_with_the_others(call: Call) -> None:
    for stage in call.stages:
        assert math.isclose(sum(stage.shares[one] for one in call.repairs) + call.others(stage), 1.0)
    firsts = [call.stages[0].shares[one] for one in call.repairs]
    assert firsts == sorted(firsts, reverse=True)


@pytest.mark.parametrize(
    ("share", "words"), [(0.5, "50"), (0.0049, "under 1"), (0.0051, "1"), (1.0, "100"), (0, "none")]
)
def test_a_share_is_told_as_a_count(share: float, words: str) -> None:
    assert of_hundred(share) == words
