"""Practice calls: proved again by sampling the simulator, of the practice pool alone, the same whoever draws them."""

import numpy as np
import pytest

from courseware.diagnosis.proof import prove_what_is_wrong
from courseware.diagnosis.signatures import COMPLAINT
from courseware.quiz.chance import chance
from courseware.quiz.draw import Stock, draw_question
from courseware.quiz.kinds.base import materials
from courseware.quiz.pools import GRADED, PRACTICE, pool_of
from courseware.quiz.practice import CALLS, PREMISE, PracticeCall, practice_calls
from tests.diagnosis.second_path import Bench, doubts_what_is_wrong, information
from tests.quiz.making import NO_TRADE, RULES, SECRET

pytestmark = pytest.mark.xdist_group("practice")

DRAWN = 60_000


@pytest.fixture(scope="module")
def calls(stock: Stock) -> tuple[PracticeCall, ...]:
    return practice_calls(stock.materials)


@pytest.fixture(scope="module")
def benches(stock: Stock) -> dict[str, Bench]:
    trade, rng = stock.materials.trade, np.random.default_rng(20261125)
    return {unit: Bench(one, trade, DRAWN, rng, {1}) for unit, one in trade.units.items()}


def test_there_are_as_many_as_a_page_holds_and_no_two_alike(calls: tuple[PracticeCall, ...]) -> None:
    assert len(calls) == CALLS
    assert len({(call.identity, *call.values.values()) for call in calls}) == CALLS


def test_they_range_over_units_and_repairs(stock: Stock, calls: tuple[PracticeCall, ...]) -> None:
    assert {call.unit for call in calls} == set(stock.materials.trade.units)
    keys = [call.key for call in calls]
    assert len(set(keys)) >= 15
    assert max(map(keys.count, keys)) < CALLS / 5


def test_none_of_them_can_be_drawn_for_a_graded_form(stock: Stock, calls: tuple[PracticeCall, ...]) -> None:
    practice = {call.identity for call in calls}
    assert {pool_of(one) for one in practice} == {PRACTICE}
    graded = [one for one in stock.bank.templates.values() if one.kind == "scenario" and one.pool == GRADED]
    asked: set[str] = set()
    for template in graded:
        for number in range(10):
            rng = chance(SECRET, template.id, str(number))
            asked.add(draw_question(template, stock.materials, rng, asked).identity)
    assert {pool_of(one) for one in asked} == {GRADED}
    assert len(asked) == 10 * len(graded) > 0
    assert asked.isdisjoint(practice)


def test_sampling_confirms_the_repair_by_all_readings_and_by_the_path_alone(
    calls: tuple[PracticeCall, ...], benches: dict[str, Bench]
) -> None:
    sample = calls[::8]
    for call in sample:
        bench, path = benches[call.unit], {check: call.evidence[check] for check in call.path}
        assert doubts_what_is_wrong(bench, call.complaint, path, [call.key]) == [], call
        doubts = doubts_what_is_wrong(bench, call.complaint, call.evidence, [call.key])
        assert [one for one in doubts if not one.startswith("only")] == [], call


def test_a_path_starts_with_what_tells_most_for_a_minute_and_ends_with_the_proof(
    stock: Stock, calls: tuple[PracticeCall, ...], benches: dict[str, Bench]
) -> None:
    checks = stock.materials.trade.checks
    for call in calls[::40]:
        bench = benches[call.unit]
        start = bench.witnesses(call.complaint, {})
        rates = {check: information(bench, start, check) / checks[check].minutes for check in call.evidence}
        assert rates[call.path[0]] > 0.97 * max(rates.values()), call
    for call in calls:
        short = {check: call.evidence[check] for check in call.path[:-1]}
        proof = prove_what_is_wrong(stock.materials.signatures(call.unit), call.complaint, short, PREMISE)
        assert proof.key != (call.key,), "the last check of the path is needed"


def test_what_speaks_against_a_repair_is_rare_where_that_repair_is_needed(
    calls: tuple[PracticeCall, ...], benches: dict[str, Bench]
) -> None:
    """At least twice as rare as certain, counted among sampled cases that need the repair and bring the complaint."""
    told = 0
    for call in calls[::20]:
        bench = benches[call.unit]
        for repair, reasons in call.against.items():
            needs = np.array([repair in one for one in bench.repairs])[bench.draws]
            complaining = needs & (bench.complaints[bench.draws] == call.complaint)
            cases = bench.draws[complaining if complaining.any() else needs]
            for reason in reasons:
                told += 1
                if reason.check == COMPLAINT:
                    assert not complaining.any()
                else:
                    share = np.mean(bench.read(reason.check, cases) == reason.outcome)
                    assert share < 0.5 + 4 * 0.5 / np.sqrt(len(cases)), (call, reason)
    assert told > 500


def test_every_other_repair_of_the_unit_is_spoken_against(stock: Stock, calls: tuple[PracticeCall, ...]) -> None:
    for call in calls:
        space = stock.materials.signatures(call.unit).space
        assert set(call.against) | {call.key} == set(space.repairs)
        assert all(one.check in (*call.evidence, COMPLAINT) for some in call.against.values() for one in some)


def test_anybody_draws_the_same_calls(stock: Stock) -> None:
    again = materials(stock.materials.trade, stock.materials.safework)
    assert practice_calls(stock.materials, 15) == practice_calls(again, 15)


def test_a_course_without_units_gives_none() -> None:
    assert practice_calls(materials(NO_TRADE, RULES)) == ()
