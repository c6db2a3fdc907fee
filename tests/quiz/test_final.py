"""The final quiz asks about every objective of the course, and a form of it can be drawn."""

import pytest

from courseware.quiz.draw import Stock, draw_form, draw_practice
from tests.quiz.making import SECRET


@pytest.mark.parametrize(("final", "pool"), [("final", "graded"), ("final-practice", "practice")])
def test_every_objective_may_be_asked_about(stock: Stock, final: str, pool: str) -> None:
    blueprint = stock.bank.blueprints[final]
    asked = {stock.bank.templates[name].objective for draw in blueprint.draws for name in draw.templates}
    assert blueprint.pool == pool
    assert asked == set(stock.bank.objectives)


def test_each_draw_asks_about_one_part_of_the_course(stock: Stock) -> None:
    """A form that is drawn twice has the same weight for each part, so that two people are marked alike."""
    forms = [draw_form(stock, "final", number, SECRET)[0] for number in ("3BTN-8PS5", "7RZC-8PS5")]
    assert [len(form.items) for form in forms] == [sum(draw.items for draw in stock.bank.blueprints["final"].draws)] * 2
    assert forms[0].items != forms[1].items
    for form in forms:
        assert len({item.objective for item in form.items}) >= 12


def test_an_unsafe_answer_fails_it_whatever_the_score(stock: Stock) -> None:
    assert stock.bank.blueprints["final"].rule.safety_gate
    _, key = draw_form(stock, "final", "3BTN-8PS5", SECRET)
    assert sum(entry.safety for entry in key.entries) >= 3


def test_the_practice_form_can_be_drawn(stock: Stock) -> None:
    form, key = draw_practice(stock, "final-practice", 1)
    assert len(form.items) == len(key.entries) >= 18
