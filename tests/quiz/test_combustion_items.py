"""The questions on combustion: every sum done again from what the sheet shows, by formulas written here."""

import re
from collections.abc import Callable

import pytest

from courseware.quiz.chance import open_chance
from courseware.quiz.draw import Stock, draw_question, draw_questions
from courseware.quiz.kinds.base import Drawn


def excess_air(oxygen: float, ratio: float) -> float:
    """By volumes: of 100 parts of dry gas, the surplus air is what the oxygen left over came in."""
    surplus = oxygen / 0.20946
    return 100 * surplus * (ratio / 100) / (100 - surplus)


def air_free(monoxide: float, oxygen: float) -> float:
    """By volumes: take the air out of the sample, and spread the same CO over what remains."""
    return monoxide / (1 - oxygen / 20.9)


def net(stack: float, air: float) -> float:
    return stack - air


def efficiency(net_fahrenheit: float, oxygen: float) -> float:
    """Siegert with A2 0.68 and B 0.007 (1. BImSchV, light heating oil)."""
    celsius = net_fahrenheit * 5 / 9
    return 100 - celsius * (0.68 / (21 - oxygen) + 0.007)


SUMS: dict[str, Callable[[float, float], float]] = {
    "excess-air-of-a-reading": excess_air,
    "excess-air-of-a-reading-practice": excess_air,
    "monoxide-without-the-air": air_free,
    "monoxide-without-the-air-practice": air_free,
    "net-of-the-stack": net,
    "what-the-stack-leaves": efficiency,
    "what-the-stack-leaves-practice": efficiency,
}


def drawn(stock: Stock, name: str, trial: int) -> Drawn:
    return draw_question(stock.bank.templates[name], stock.materials, open_chance("sums", name, str(trial)), set())


@pytest.mark.parametrize("name", SUMS)
def test_every_sum_comes_out_the_same_by_another_formula(stock: Stock, name: str) -> None:
    for trial in range(25):
        question = drawn(stock, name, trial)
        assert question.exhibit is not None
        assert question.number is not None
        given = [float(re.findall(r"[\d.]+", value)[0]) for _, value in question.exhibit.rows]
        right, within = float(question.number.value), float(question.number.tolerance)
        assert SUMS[name](*given) == pytest.approx(right, abs=0.05 + 1e-3 * abs(right))
        # what the lesson teaches to do by hand, with 94 and 20.9, is near enough as well
        if SUMS[name] is excess_air:
            assert 94 * given[0] / (20.9 - given[0]) == pytest.approx(right, abs=within)
        assert all(abs(float(slip) - right) > 2 * within for slip in question.number.slips)


def test_a_slip_of_the_shop_rule_is_known_by_its_number(stock: Stock) -> None:
    """O2 / (21 - O2) reads 6 % high for oil; whoever writes that down hears of the ratio of flue gas to air."""
    named = set()
    for trial in range(25):
        question = drawn(stock, "excess-air-of-a-reading", trial)
        assert question.number is not None
        named |= {belief.id for belief in question.number.beliefs.values()}
        assert all(float(slip) > 1.06 * float(question.number.value) for slip in question.number.slips)
    assert named == {"one-rule-for-all-fuels"}


def test_the_quiz_and_its_practice_ask_for_each_objective(stock: Stock) -> None:
    wanted = {"read-combustion", "work-out-combustion", "order-combustion-test"}
    for name in ("combustion", "combustion-practice"):
        blueprint = stock.bank.blueprints[name]
        asked = draw_questions(stock, blueprint, lambda place: open_chance("combustion", place))
        assert {template.objective for template, _ in asked} == wanted
        assert {template.pool for template, _ in asked} == {blueprint.pool}
        assert len({question.identity for _, question in asked}) == sum(draw.items for draw in blueprint.draws)
    ours = [template for template in stock.bank.templates.values() if template.objective in wanted]
    assert {template.pool for template in ours} == {"graded", "practice"}
    assert len(ours) >= 20
