"""Faults that would show a finding: every key found again by running the heater with each fault, grade by grade."""

from itertools import islice

import pytest

from courseware.heater.readings import complaint_of
from courseware.heater.readings import draw as draw_reading
from courseware.heater.simulate import simulate
from courseware.quiz.chance import open_chance
from courseware.quiz.draw import Stock
from courseware.quiz.kinds.base import Drawn
from courseware.quiz.kinds.faults_behind import KIND
from tests.quiz.making import NO_TRADE, RULES, any_question, fields_of, report

TEMPLATES = ("faults-behind-a-complaint", "faults-behind-a-reading", "faults-behind-a-reading-practice")
DRAWS = 60
FEW = 6


def findings(stock: Stock, unit_id: str, check_id: str, fault_id: str) -> set[str]:
    """Return everything that a check, or the customer, can report of a fault alone, over its grades."""
    trade = stock.materials.trade
    unit, fault = trade.units[unit_id], trade.faults[fault_id]
    found: set[str] = set()
    for severity in fault.severities:
        case = ((fault, severity),)
        if not check_id:
            found |= set(complaint_of(unit, trade.complaints, simulate(unit, [case])))
            continue
        check = trade.checks[check_id]
        run = simulate(unit, [case], check.changes)
        rng = open_chance("readings", unit_id, check_id, fault_id, str(severity))
        found |= {draw_reading(unit, check, run, 0, rng)[1] for _ in range(12)}
    return found


def questions(stock: Stock, name: str) -> list[Drawn]:
    body = stock.bank.templates[name].body
    drawn = (KIND.draw(body, stock.materials, open_chance(name, str(seed)), any_question) for seed in range(DRAWS))
    return list(islice((question for question in drawn if question is not None), FEW))


@pytest.mark.parametrize("name", TEMPLATES)
def test_the_key_is_what_the_heater_does(name: str, stock: Stock) -> None:
    body = stock.bank.templates[name].body
    titles = {fault.title: fault.id for fault in stock.materials.trade.faults.values()}
    drawn = questions(stock, name)
    assert len(drawn) == FEW
    for question in drawn:
        _, unit, check, outcome, *faults = question.identity.split("|")
        assert {titles[option.text] for option in question.options} == set(faults)
        assert 2 <= len(question.several) < len(question.options) == body.options
        for place, option in enumerate(question.options):
            found = findings(stock, unit, check, titles[option.text])
            assert (found == {outcome}) if place in question.several else (outcome not in found)


def test_it_says_what_is_found(stock: Stock) -> None:
    for name in TEMPLATES:
        question = questions(stock, name)[0]
        asked = " ".join(question.stem)
        assert "Choose every one that would." in asked
        assert (question.exhibit is None) == ("The customer says" in asked)
        assert all(option.feedback.startswith("With this fault") and option.belief for option in question.options)


def test_faults_are_told_whole() -> None:
    fields, problems = fields_of("units: [bay]\nfaults: [gone]\nchecks: [spark]\noptions: 7\n")
    KIND.load(fields, NO_TRADE, RULES)
    assert (
        report(problems)
        == """\
items.yaml:1: item 'x': 'units' names the unit 'bay', which does not exist
items.yaml:2: item 'x': 'faults' names the fault 'gone', which does not exist
items.yaml:3: item 'x': 'checks' names the check 'spark', which does not exist
items.yaml:4: item 'x': 'options' is 7
    allowed: from 4 to 6"""
    )
