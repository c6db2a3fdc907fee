"""Calls drawn from the model: each answer confirmed by sampling the simulator, each reading by its bands."""

import numpy as np
import pytest

from courseware.diagnosis.posterior import posterior
from courseware.quiz.chance import open_chance
from courseware.quiz.draw import Stock
from courseware.quiz.kinds.base import Drawn
from courseware.quiz.kinds.scenario import KIND, Call, Scenario, draw_call
from tests.diagnosis.second_path import Bench, doubts_what_is_wrong
from tests.quiz.making import NO_TRADE, RULES, any_question, fields_of, report

CALLS = 10
Found = list[tuple[Scenario, Call]]


@pytest.fixture(scope="module")
def templates(stock: Stock) -> dict[str, Scenario]:
    return {name: one.body for name, one in stock.bank.templates.items() if isinstance(one.body, Scenario)}


@pytest.fixture(scope="module")
def calls(stock: Stock, templates: dict[str, Scenario]) -> Found:
    found: Found = []
    for name, body in templates.items():
        tries = (draw_call(body, stock.materials, open_chance(name, str(seed)), any_question) for seed in range(80))
        kept = [(body, call) for call in tries if call is not None]
        assert len(kept) >= CALLS
        found += kept[:CALLS]
    return found


def test_sampling_the_simulator_confirms_every_answer(stock: Stock, calls: Found) -> None:
    """The second path shares nothing with the proof but what is read from files and how a heater behaves."""
    trade = stock.materials.trade
    for unit, sizes in {(call.unit, body.premise.value) for body, call in calls}:
        bench = Bench(trade.units[unit], trade, 60_000 * len(sizes), np.random.default_rng(11), sizes)
        for body, call in calls:
            if (call.unit, body.premise.value) == (unit, sizes):
                assert doubts_what_is_wrong(bench, call.complaint, call.evidence, [call.key]) == []


def test_the_answer_repairs_what_was_made_to_fail(calls: Found) -> None:
    for body, call in calls:
        assert call.key in {fault.repair for fault, _ in call.case}
        assert {fault.id for fault, _ in call.case} <= set(body.faults)
        assert len(call.case) in body.premise.value


def test_no_reading_in_words_names_the_answer_by_itself(stock: Stock, calls: Found) -> None:
    for body, call in calls:
        signatures = stock.materials.signatures(call.unit)
        for check, outcome in call.evidence.items():
            if not signatures.check(check).unit:
                belief = posterior(signatures, None, {check: outcome}, body.premise)
                hypotheses = belief.hypotheses[belief.hypotheses > 0.02]
                standing = [signatures.space.hypotheses[i] for i in np.flatnonzero(belief.hypotheses > 0.02)]
                settled = all(call.key in one.repairs for one in standing) and belief.repairs[call.key] >= 0.95
                assert not (settled and len(hypotheses))


def test_what_the_sheet_shows_lies_in_the_band_of_the_evidence(stock: Stock, calls: Found) -> None:
    """The number is read back from the sheet and held against the bands as they are written."""
    trade = stock.materials.trade
    numbers = 0
    for _, call in calls:
        for check_id, value in call.values.items():
            check = trade.checks[check_id]
            outcome = call.evidence[check_id]
            if outcome == "cannot":
                assert value == check.cannot
            elif not check.unit:
                assert value == next(band.says for band in check.bands if band.id == outcome)
            elif not value.startswith("OL"):
                band = next(band for band in check.bands if band.id == outcome)
                number = float(value.split()[0].rstrip("%").replace(",", "").replace("\u2212", "-"))
                for edge, inside in ((band.low, number.__ge__), (band.high, number.__lt__)):
                    if isinstance(edge, int | float):
                        assert inside(edge)
                numbers += 1
    assert numbers > 20


@pytest.fixture(scope="module")
def drawn(stock: Stock, templates: dict[str, Scenario]) -> dict[str, list[Drawn]]:
    return {
        name: [
            question
            for seed in range(30)
            if (question := KIND.draw(body, stock.materials, open_chance(name, str(seed)), any_question)) is not None
        ]
        for name, body in templates.items()
    }


def test_a_call_is_asked_as_a_call(stock: Stock, templates: dict[str, Scenario], drawn: dict[str, list[Drawn]]) -> None:
    units = {f"The unit: {unit.title}. {unit.summary}" for unit in stock.materials.trade.units.values()}
    says = {f"The customer says: “{one.says}”" for one in stock.materials.trade.complaints}
    asks = {
        "ONE": "One thing is wrong. These readings were taken. Which repair do they call for?",
        "ONE_OR_TWO": "One or two things are wrong. These readings were taken. Which repair do they call for?",
    }
    for name, questions in drawn.items():
        assert len(questions) > 10
        for question in questions:
            assert question.stem[0] in units
            assert question.stem[1] in says
            assert question.stem[2] == asks[templates[name].premise.name]
            assert question.exhibit is not None
            assert question.exhibit.title == "Readings"
            assert templates[name].fewest <= len(question.exhibit.rows) <= templates[name].most


def test_every_wrong_repair_is_ruled_out_by_a_reading_on_the_sheet(drawn: dict[str, list[Drawn]]) -> None:
    for questions in drawn.values():
        for question in questions:
            assert question.exhibit is not None
            right, *wrong = question.options
            assert right.feedback == ""
            assert len({option.text for option in question.options}) == len(question.options)
            for option in wrong:
                assert any(label in option.feedback for label, _ in question.exhibit.rows) or (
                    option.feedback.startswith("The customer says")
                )
                assert f"“{option.text}”" in option.feedback
            assert f"“{right.text}”" in question.because
            assert any(label in question.because for label, _ in question.exhibit.rows)


def test_the_answers_vary(drawn: dict[str, list[Drawn]]) -> None:
    for questions in drawn.values():
        assert len({question.options[0].text for question in questions}) >= 4
        assert len({question.identity for question in questions}) > len(questions) / 2


def test_only_wanted_questions_are_drawn(stock: Stock, templates: dict[str, Scenario]) -> None:
    body = next(iter(templates.values()))
    assert draw_call(body, stock.materials, open_chance("x"), lambda _: False) is None


def test_faults_are_told_whole() -> None:
    fields, problems = fields_of(
        "units: [bay]\npremise: two\nfaults: [spark-gone]\nchecks: [spark]\nshow: {from: 3, to: 2}\noptions: 2\n"
    )
    KIND.load(fields, NO_TRADE, RULES)
    assert (
        report(problems)
        == """\
items.yaml:1: item 'x': 'units' names the unit 'bay', which does not exist
items.yaml:2: item 'x': 'premise' is 'two'
    allowed: one, one-or-two
items.yaml:3: item 'x': 'faults' names the fault 'spark-gone', which does not exist
items.yaml:4: item 'x': 'checks' names the check 'spark', which does not exist
items.yaml:4: item 'x': 1 checks cannot give 2 readings
items.yaml:5: item 'x', show: 'to' is 2
    allowed: from 3 to 9
items.yaml:6: item 'x': 'options' is 2
    allowed: from 3 to 5"""
    )
