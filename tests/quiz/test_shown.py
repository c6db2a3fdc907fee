"""A form in the place of a leaked one asks other questions where the bank has them, and says where it had none."""

import json
from dataclasses import replace
from typing import Any

import pytest

from courseware.quiz.bank import Draw
from courseware.quiz.draw import Stock, draw_form
from courseware.quiz.form import Form, form_bytes
from courseware.quiz.shown import NOTHING, repeated, shown_by
from tests.quiz.making import SECRET

JUDGED = ("ordering", "multiple-choice")  # each step or option is judged by itself


def seen(form: Form) -> dict[int, str]:
    """Return each item as a reader sees it, its options in order of the alphabet; from the form's bytes alone."""
    items: list[dict[str, Any]] = json.loads(form_bytes(form))["items"]
    return {
        one["number"]: json.dumps([
            one["stem"], one["exhibit"], sorted(o["text"] for o in one["options"]) if one["kind"] in JUDGED else "",
        ])
        for one in items
    }  # fmt: skip


@pytest.mark.parametrize("number", range(3))
def test_no_question_of_the_leaked_form_is_asked_again(stock: Stock, number: int) -> None:
    leaked = draw_form(stock, "ignition", f"L-{number}", SECRET)
    own = draw_form(stock, "ignition", f"O-{number}", SECRET)
    form, _ = draw_form(stock, "ignition", f"R-{number}", SECRET, shown_by([leaked, own]))
    known = {*seen(leaked[0]).values(), *seen(own[0]).values()}
    assert not known & set(seen(form).values())
    assert repeated(form, shown_by([leaked, own])) == ()


def test_the_very_draw_that_leaked_is_drawn_otherwise(stock: Stock) -> None:
    """The same number draws the same questions, unless they were shown."""
    leaked = draw_form(stock, "ignition", "L-1", SECRET)
    assert draw_form(stock, "ignition", "L-1", SECRET, NOTHING) == leaked
    form, _ = draw_form(stock, "ignition", "L-1", SECRET, shown_by([leaked]))
    assert not set(seen(form).values()) & set(seen(leaked[0]).values())
    assert draw_form(stock, "ignition", "L-1", SECRET, shown_by([leaked]))[0] == form


def test_where_the_bank_has_nothing_else_the_items_are_named(stock: Stock) -> None:
    """The quiz on lockout asks three single questions, each with a template of its own."""
    leaked = draw_form(stock, "lockout", "L-1", SECRET)
    form, _ = draw_form(stock, "lockout", "R-1", SECRET, shown_by([leaked]))
    again = tuple(number for number, text in seen(form).items() if text in seen(leaked[0]).values())
    assert repeated(form, shown_by([leaked])) == again != ()


def test_templates_that_the_leaked_form_did_not_use_come_first(stock: Stock) -> None:
    listed = [one.id for one in stock.bank.templates.values() if one.kind == "choice" and one.pool == "graded"][:4]
    blueprint = replace(stock.bank.blueprints["lockout"], draws=(Draw(tuple(listed), 2),))
    small = replace(stock, bank=replace(stock.bank, blueprints={"lockout": blueprint}))
    for number in range(6):
        leaked = draw_form(small, "lockout", f"L-{number}", SECRET)
        _, key = draw_form(small, "lockout", f"R-{number}", SECRET, shown_by([leaked]))
        assert {entry.template for entry in key.entries} == set(listed) - {one.template for one in leaked[1].entries}
