"""Draws forms: blueprint, form number and the company's secret give the same form, byte for byte.

Each question has a chance of its own, named by its place, so that a change in one template does not move
the draws of the others.
"""

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final

from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.quiz.bank import Blueprint, Draw, QuizBank, Template
from courseware.quiz.chance import chance, open_chance
from courseware.quiz.form import FORM_FORMAT, Form, Key
from courseware.quiz.kinds.base import Drawn, Materials
from courseware.quiz.layout import Question, lay_out
from courseware.quiz.pools import GRADED, PRACTICE, pool_of
from courseware.quiz.shown import NOTHING, Shown

TRIES: Final = 500
REPEATS: Final = 50
"""After this many new questions whose answer the form has already, it is asked for twice."""

Chance = Callable[[str], random.Random]
"""From the name of a draw to its generator."""


@dataclass(frozen=True, slots=True)
class Stock:
    """What forms are drawn from: the bank, what its questions are made of, and the course's version."""

    bank: QuizBank
    materials: Materials
    course_version: str


def draw_form(stock: Stock, blueprint_id: str, form_id: str, secret: bytes, shown: Shown = NOTHING) -> tuple[Form, Key]:
    """Draw a graded form and its key.

    Parameters
    ----------
    stock : Stock
        What the form is drawn from.
    blueprint_id, form_id : str
        What is drawn, and its number.
    secret : bytes
        The company's secret, at least 32 bytes; without it nobody can draw the form again.
    shown : Shown
        What is known outside; it is asked only where the bank has nothing else.

    Raises
    ------
    Refusal
        If there is no such graded blueprint, a template has no new question left, or the secret is no secret.
    """
    blueprint = _blueprint(stock.bank, blueprint_id, GRADED)

    def chance_of(name: str) -> random.Random:
        return chance(secret, FORM_FORMAT, blueprint.id, form_id, name)

    return _draw(stock, blueprint, form_id, chance_of, shown)


def draw_practice(stock: Stock, blueprint_id: str, number: int) -> tuple[Form, Key]:
    """Draw a practice form, from practice questions alone; anybody can draw it again, so its key is no secret.

    Raises
    ------
    Refusal
        If there is no such practice blueprint, or a template has no new question left.
    """
    blueprint = _blueprint(stock.bank, blueprint_id, PRACTICE)
    form_id = say("quiz.practice-number", number=number)
    return _draw(stock, blueprint, form_id, lambda name: open_chance(FORM_FORMAT, blueprint.id, form_id, name))


def _blueprint(bank: QuizBank, blueprint_id: str, pool: str) -> Blueprint:
    known = sorted(one.id for one in bank.blueprints.values() if one.pool == pool)
    if blueprint_id not in known:
        raise Refusal(
            say("quiz.no-blueprint", blueprint=blueprint_id, pool=pool),
            say("quiz.no-blueprint-try", known=", ".join(known)),
        )
    return bank.blueprints[blueprint_id]


def _draw(
    stock: Stock, blueprint: Blueprint, form_id: str, chance_of: Chance, shown: Shown = NOTHING
) -> tuple[Form, Key]:
    questions = draw_questions(stock, blueprint, chance_of, shown)
    return lay_out(blueprint, form_id, stock.course_version, questions, chance_of("places and tags"))


def draw_questions(stock: Stock, blueprint: Blueprint, chance_of: Chance, shown: Shown = NOTHING) -> list[Question]:
    """Draw the questions of a form, in order; whoever has the chance, and knows what was shown, can draw them again.

    Raises
    ------
    Refusal
        If a template has no new question left.
    """
    templates = [one for draw in blueprint.draws for one in _in_turn(stock.bank, draw, chance_of, shown)]
    questions: list[Question] = []
    asked: set[str] = set()
    for place, template in enumerate(templates, start=1):
        drawn = draw_question(template, stock.materials, chance_of(f"question {place}"), asked, shown)
        asked |= {drawn.identity, *_answers(drawn)}
        questions.append((template, drawn))
    return questions


def _in_turn(bank: QuizBank, draw: Draw, chance_of: Chance, shown: Shown) -> Iterator[Template]:
    """Yield as many templates as there are items: in a drawn order, and each again only after all others.

    Those that a shown form was drawn from come last.
    """
    order = list(draw.templates)
    chance_of("templates " + " ".join(draw.templates)).shuffle(order)
    order.sort(key=lambda name: name in shown.templates)
    for place in range(draw.items):
        yield bank.templates[order[place % len(order)]]


def draw_question(
    template: Template, made_from: Materials, rng: random.Random, asked: set[str], shown: Shown = NOTHING
) -> Drawn:
    """Draw a question of the template's pool that the form does not ask yet, and whose answer it does not ask for yet.

    A form that has more questions than there are answers asks for one twice. What was shown comes last of all.

    Raises
    ------
    Refusal
        If many attempts gave none.
    """
    kind = template.behaviour

    def wanted(identity: str) -> bool:
        return identity not in asked and (kind.claims is not None or pool_of(identity) == template.pool)

    repeats: list[Drawn] = []
    known: list[Drawn] = []
    for _ in range(TRIES):
        drawn = kind.draw(template.body, made_from, rng, wanted)
        if drawn is None or not wanted(drawn.identity):
            continue
        if shown.has(drawn):
            known.append(drawn)
        elif asked.isdisjoint(_answers(drawn)):
            return drawn
        else:
            repeats.append(drawn)
        if REPEATS in (len(repeats), len(known)):
            break
    if repeats or known:
        return (repeats or known)[0]
    raise Refusal(
        say("quiz.no-question-left", template=template.id, at=template.provenance.source),
        say("quiz.no-question-left-try"),
    )


def _answers(drawn: Drawn) -> frozenset[str]:
    """Return what a single choice asks for, told apart from identities; nothing for a number, an order or several."""
    if drawn.number is not None or drawn.pairs or drawn.several:
        return frozenset()
    return frozenset({f"answer|{drawn.options[drawn.right].text}"})
