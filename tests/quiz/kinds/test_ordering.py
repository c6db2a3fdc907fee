"""Orders drawn from a procedure: every permutation tried against the procedure as it is written."""

import itertools
from fractions import Fraction

import pytest

from courseware.grading.markers.ordering import mark
from courseware.quiz.chance import open_chance
from courseware.quiz.draw import Stock
from courseware.quiz.kinds.base import Drawn
from courseware.quiz.kinds.ordering import KIND, Ordering
from courseware.quiz.layout import lay_out
from courseware.safework.judge import judge
from courseware.safework.model import Procedure
from tests.quiz.making import NO_TRADE, RULES, any_question, fields_of, report


@pytest.fixture(scope="module")
def drawn(stock: Stock) -> list[Drawn]:
    body = stock.bank.templates["steps-of-the-ignition-test"].body
    found = (KIND.draw(body, stock.materials, open_chance(str(seed)), any_question) for seed in range(400))
    return [question for question in found if question is not None][:12]


def comes_before(procedure: Procedure, earlier: str, later: str) -> bool:
    """Say whether a step must come before another, by walking back along ``after``."""
    after = next(step.after for step in procedure.steps if step.id == later)
    return earlier in after or any(comes_before(procedure, earlier, one) for one in after)


def steps_of(question: Drawn, stock: Stock) -> list[str]:
    """Return the ids of the steps that the options are, found again by their titles."""
    _, procedure, _, *names = question.identity.split("|")
    actions = stock.materials.safework.actions
    steps = stock.materials.safework.procedures[procedure].steps
    titles = {actions[step.action].title: step.id for step in steps if step.id in names}
    return [titles[option.text] for option in question.options]


def test_exactly_the_allowed_permutations_have_all_points(stock: Stock, drawn: list[Drawn]) -> None:
    blueprint = stock.bank.blueprints["ignition"]
    template = stock.bank.templates["steps-of-the-ignition-test"]
    procedure = stock.materials.safework.procedures["ignition-test"]
    assert len(drawn) == 12
    for question in drawn[:6]:
        form, key = lay_out(blueprint, "F-1", "1", [(template, question)], open_chance("tags"))
        item, entry = form.items[0], key.entries[0]
        text_of = {option.tag: option.text for option in item.options}
        step_of = dict(zip((option.text for option in question.options), steps_of(question, stock), strict=True))
        assert 5 <= len(item.options) <= 6
        for order in itertools.permutations(text_of):
            steps = [step_of[text_of[tag]] for tag in order]
            pairs = itertools.combinations(steps, 2)
            allowed = not any(comes_before(procedure, later, first) for first, later in pairs)
            assert (mark(item, entry, order).share == 1) == allowed


def test_every_gate_turned_round_breaks_its_rule_in_the_whole_job(stock: Stock, drawn: list[Drawn]) -> None:
    """The earlier step left to the end, the rest in order: at the later step the judge names a rule, if it is reached.

    Something that cannot be done without the earlier step may stop the work before that.
    """
    safework, trade = stock.materials.safework, stock.materials.trade
    procedure = safework.procedures["ignition-test"]
    broken = 0
    for question in drawn:
        unit = trade.units[question.identity.split("|")[2]]
        steps = steps_of(question, stock)
        whole = [step.id for step in procedure.steps if all(unit.features[k] == v for k, v in step.only_on.items())]
        assert question.order_gates
        for before, after, gate in question.order_gates:
            order = [name for name in whole[: whole.index(steps[after]) + 1] if name != steps[before]]
            breach = judge(safework, trade, unit, procedure, [*order, steps[before]]).breach
            assert breach is not None
            if breach.step_id == steps[after]:
                assert breach.rule is not None
                assert breach.rule.title == gate.rule
                broken += 1
    assert broken >= 3


def test_the_first_written_order_is_allowed(drawn: list[Drawn]) -> None:
    for question in drawn:
        assert all(first < later for first, later in question.pairs)
        assert {(first, later) for first, later, _ in question.order_gates} <= set(question.pairs)
        for _, after, gate in question.order_gates:
            assert f'then "{question.options[after].text}": {gate.reason}' in question.because
            assert gate.reason


def test_no_step_is_shown_that_reads_like_another(stock: Stock, drawn: list[Drawn]) -> None:
    steps = stock.materials.safework.procedures["ignition-test"].steps
    actions = {step.id: step.action for step in steps}
    for question in drawn:
        unit = stock.materials.trade.units[question.identity.split("|")[2]]
        on_unit = [s.action for s in steps if all(unit.features[k] == v for k, v in s.only_on.items())]
        assert all(on_unit.count(actions[name]) == 1 for name in steps_of(question, stock))


def test_the_units_own_steps_are_asked(drawn: list[Drawn]) -> None:
    assert {question.identity.split("|")[2] for question in drawn} == {"bay-siphon", "bay-metered"}
    assert all(len(question.stem) == 2 for question in drawn)


def test_credit_is_a_fraction_of_the_pairs(stock: Stock, drawn: list[Drawn]) -> None:
    form, key = lay_out(
        stock.bank.blueprints["ignition"], "F-1", "1",
        [(stock.bank.templates["steps-of-the-ignition-test"], drawn[0])], open_chance("tags"),
    )  # fmt: skip
    entry = key.entries[0]
    assert mark(form.items[0], entry, entry.right[::-1]).share == Fraction(0)


def test_faults_are_told_whole() -> None:
    fields, problems = fields_of("procedure: ignition\nunits: [bay]\nsteps: {from: 2, to: 11}\n")
    assert KIND.load(fields, NO_TRADE, RULES) == Ordering("ignition", ("bay",), 2, 11)
    assert (
        report(problems)
        == """\
items.yaml:1: item 'x': 'procedure' names the procedure 'ignition', which does not exist
items.yaml:2: item 'x': 'units' names the unit 'bay', which does not exist
items.yaml:3: item 'x', steps: 'from' is 2
    allowed: from 3 to 10
items.yaml:3: item 'x', steps: 'to' is 11
    allowed: from 2 to 10"""
    )
