"""What can be said from some readings: each key confirmed by sampling the simulator, and by counting every case out."""

from collections import Counter

import numpy as np
import pytest

from courseware.quiz.chance import open_chance
from courseware.quiz.draw import Stock
from courseware.quiz.kinds.base import Drawn
from courseware.quiz.kinds.not_enough import KIND, Judged, NotEnough, draw_judged
from tests.diagnosis.second_path import Bench, doubts_not_enough, doubts_what_is_wrong
from tests.quiz.kinds.enumeration import count_out
from tests.quiz.making import NO_TRADE, RULES, any_question, fields_of, report

CALLS = 40


@pytest.fixture(scope="module")
def body(stock: Stock) -> NotEnough:
    """Return a template that asks about everything."""
    trade = stock.materials.trade
    return NotEnough(tuple(trade.units), tuple(trade.faults), tuple(trade.checks), 3, 6)


@pytest.fixture(scope="module")
def calls(stock: Stock, body: NotEnough) -> list[Judged]:
    draws = (draw_judged(body, stock.materials, open_chance("open", str(seed)), any_question) for seed in range(120))
    found = [one for one in draws if one is not None]
    assert len(found) >= CALLS
    return found[:CALLS]


def test_both_answers_come_up(calls: list[Judged]) -> None:
    still_open = sum(call.is_open for call in calls)
    assert CALLS / 4 < still_open < 3 * CALLS / 4


def test_sampling_the_simulator_confirms_every_answer(stock: Stock, calls: list[Judged]) -> None:
    """The second path shares nothing with the proof but what is read from files and how a heater behaves."""
    trade = stock.materials.trade
    for unit in trade.units:
        bench = Bench(trade.units[unit], trade, 30_000, np.random.default_rng(7), [1])
        for call in calls:
            if call.unit == unit:
                doubts = doubts_not_enough if call.is_open else doubts_what_is_wrong
                assert doubts(bench, call.complaint, call.evidence, call.proof.key) == []


def test_counting_every_case_out_gives_the_shares_that_are_told(stock: Stock, calls: list[Judged]) -> None:
    trade = stock.materials.trade
    counted = {name: count_out(unit, trade) for name, unit in trade.units.items()}
    for call in calls:
        bench = counted[call.unit]
        shares = bench.shares(bench.after(call.complaint, call.evidence))
        for repair in call.proof.key:
            assert shares[repair] == pytest.approx(call.proof.posterior[repair], abs=1e-9)
        assert sum(shares[repair] for repair in call.proof.key) > 0.9
        for repair in call.refuted:
            assert shares[repair] <= 0.02


@pytest.fixture(scope="module")
def questions(stock: Stock, body: NotEnough) -> list[Drawn]:
    draws = (KIND.draw(body, stock.materials, open_chance("drawn", str(seed)), any_question) for seed in range(60))
    found = [one for one in draws if one is not None]
    assert len(found) > 20
    return found


def test_the_shape_of_the_options_tells_nothing(questions: list[Drawn], stock: Stock) -> None:
    """Two settled, two open, every repair named as often as the others: by shape any of the four could be right."""
    titles = [repair.title for repair in stock.materials.trade.repairs.values()]
    for question in questions:
        texts = [option.text for option in question.options]
        assert Counter(text.partition(":")[0] for text in texts) == {"Settled": 2, "Still open": 2}
        named = Counter(title for title in titles for text in texts if f"“{title}”" in text)
        assert sorted(named.values()) == [2, 2, 2]
        assert len(set(texts)) == 4


def test_every_wrong_answer_is_told_what_speaks_against_it(questions: list[Drawn], stock: Stock) -> None:
    for question in questions:
        assert question.exhibit is not None
        right, *wrong = question.options
        assert right.feedback == ""
        early = [option for option in wrong if "is still possible too" in option.feedback]
        assert len(early) == (1 if right.text.startswith("Still open") else 0)
        for option in wrong:
            assert option.belief is not None
            if option in early:
                assert option.belief == stock.materials.by_relation["settled-too-early"]
            elif option.text.startswith("Still open"):
                assert option.belief == stock.materials.by_relation["held-open"]
            if option not in early:
                assert any(label in option.feedback for label, _ in question.exhibit.rows) or (
                    option.feedback.startswith("The customer says")
                )
        assert question.because.startswith("Of 100 calls" if right.text.startswith("Still open") else "Only the repair")


def test_only_wanted_questions_are_drawn(stock: Stock, body: NotEnough) -> None:
    assert draw_judged(body, stock.materials, open_chance("x"), lambda _: False) is None


def test_faults_are_told_whole() -> None:
    fields, problems = fields_of("units: [bay]\nfaults: [spark-gone]\nchecks: [spark]\nshow: {from: 3, to: 2}\n")
    KIND.load(fields, NO_TRADE, RULES)
    assert (
        report(problems)
        == """\
items.yaml:1: item 'x': 'units' names the unit 'bay', which does not exist
items.yaml:2: item 'x': 'faults' names the fault 'spark-gone', which does not exist
items.yaml:3: item 'x': 'checks' names the check 'spark', which does not exist
items.yaml:3: item 'x': 1 checks cannot give 2 readings
items.yaml:4: item 'x', show: 'to' is 2
    allowed: from 3 to 9"""
    )
