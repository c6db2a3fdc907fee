"""Steps that must come first: every key found again by walking the procedure as it is written."""

import pytest

from courseware.quiz.chance import open_chance
from courseware.quiz.draw import Stock
from courseware.quiz.kinds.before_step import KIND
from courseware.safework.judge import judge
from tests.quiz.kinds.test_ordering import comes_before
from tests.quiz.making import NO_TRADE, RULES, any_question, fields_of, report


@pytest.mark.parametrize("name", ["before-a-step-of-the-lockout", "before-a-step-of-the-test"])
def test_the_key_is_the_procedures_own_order(name: str, stock: Stock) -> None:
    body = stock.bank.templates[name].body
    procedure = stock.materials.safework.procedures[body.procedure]
    actions = stock.materials.safework.actions
    drawn = [KIND.draw(body, stock.materials, open_chance(name, str(seed)), any_question) for seed in range(60)]
    questions = [one for one in drawn if one is not None]
    assert len(questions) > 10
    for question in questions:
        _, _, unit, asked, *names = question.identity.split("|")
        titles = {actions[step.action].title: step.id for step in procedure.steps if step.id in names}
        assert f"“{actions[next(s.action for s in procedure.steps if s.id == asked)].title}”" in question.stem[1]
        assert 2 <= len(question.several) < len(question.options)
        for place, option in enumerate(question.options):
            first, later = (titles[option.text], asked) if place in question.several else (asked, titles[option.text])
            assert comes_before(procedure, first, later), (unit, first, later)
            assert option.gate is None or place not in question.several


def test_a_gate_is_a_rule_that_the_whole_job_breaks(stock: Stock) -> None:
    """The later step done without the one asked about, the rest in order: the judge names the rule of the gate."""
    made_from = stock.materials
    body = stock.bank.templates["before-a-step-of-the-lockout"].body
    procedure = made_from.safework.procedures["lockout"]
    broken = 0
    for seed in range(60):
        question = KIND.draw(body, made_from, open_chance("gates", str(seed)), any_question)
        for option in question.options if question is not None else ():
            if question is None or option.gate is None:
                continue
            _, _, unit_id, asked, *names = question.identity.split("|")
            unit = made_from.trade.units[unit_id]
            steps = [step for step in procedure.steps if unit.fits(step.only_on)]
            later = next(
                s.id for s in steps if s.id in names and made_from.safework.actions[s.action].title == option.text
            )
            whole = [step.id for step in steps]
            order = [name for name in whole[: whole.index(later) + 1] if name != asked]
            breach = judge(made_from.safework, made_from.trade, unit, procedure, [*order, asked]).breach
            assert breach is not None
            if breach.step_id == later and breach.rule is not None:
                assert breach.rule.title == option.gate.rule
                broken += 1
    assert broken >= 3


def test_faults_are_told_whole() -> None:
    fields, problems = fields_of("procedure: lockout\nunits: [bay]\noptions: 3\n")
    KIND.load(fields, NO_TRADE, RULES)
    assert (
        report(problems)
        == """\
items.yaml:1: item 'x': 'procedure' names the procedure 'lockout', which does not exist
items.yaml:2: item 'x': 'units' names the unit 'bay', which does not exist
items.yaml:3: item 'x': 'options' is 3
    allowed: from 4 to 6"""
    )
