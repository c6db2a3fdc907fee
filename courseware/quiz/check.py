"""Tries a sound bank out: every blueprint is drawn, and what comes is held to the rules of writing questions.

What only shows in a drawn question (a template that runs dry, options that read alike) is told at the template's place,
so that the author hears of it before a trainee does.
"""

from collections.abc import Iterator
from typing import Final

from courseware.content.problems import Problems
from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.quiz.bank import Blueprint, Template
from courseware.quiz.chance import open_chance
from courseware.quiz.draw import Stock, draw_questions
from courseware.quiz.fit import NUMERIC, ORDERING, SEVERAL
from courseware.quiz.item_writing import faults_of_drawn, faults_of_reading, faults_of_stem
from courseware.quiz.kinds.base import Drawn
from courseware.quiz.kinds.choice import WrittenChoice
from courseware.quiz.whole_bank import key_by_length, told_by_another

TRIALS: Final = 2
"""Forms drawn of each blueprint [-]."""


def bank_problems(stock: Stock, problems: Problems) -> None:
    """Draw every blueprint a few times, and record what is wrong with what comes.

    Parameters
    ----------
    stock : Stock
        A bank that loaded without problems.
    problems : Problems
        Receives the faults, each at the place of its template or blueprint.
    """
    for blueprint in stock.bank.blueprints.values():
        for trial in range(TRIALS):
            _try(stock, blueprint, str(trial), problems)
    bodies = [(template, template.body) for template in stock.bank.templates.values()]
    written = [
        (template, [option.text for option in body.options])
        for template, body in bodies
        if isinstance(body, WrittenChoice)
    ]
    for template, fault in key_by_length(written):
        _tell(template, fault, problems)


def _try(stock: Stock, blueprint: Blueprint, trial: str, problems: Problems) -> None:
    try:
        questions = draw_questions(stock, blueprint, lambda name: open_chance("check", blueprint.id, trial, name))
    except Refusal as refusal:
        where = f"{say('quiz.a-blueprint')} '{blueprint.id}'"
        problems.add(blueprint.provenance.source, where, refusal.found, advice=refusal.advice)
        return
    for template, drawn in questions:
        for fault in _faults(template, drawn):
            _tell(template, fault, problems)
    for template, fault in told_by_another(questions):
        _tell(template, fault, problems)


def _tell(template: Template, fault: str, problems: Problems) -> None:
    where = f"{say('quiz.a-template')} '{template.id}'"
    problems.add(template.provenance.source, where, fault, advice=say("quiz.writing-try"))


def _faults(template: Template, drawn: Drawn) -> Iterator[str]:
    """Yield what is wrong with a drawn question; the options of a written one were held when it was read."""
    texts = [option.text for option in drawn.options]
    answered = template.behaviour.answered
    yield from faults_of_stem(drawn.stem)
    yield from faults_of_reading([*drawn.stem, *(texts if answered != ORDERING else [])])
    if answered not in (NUMERIC, ORDERING):
        yield from faults_of_drawn(texts, several=answered == SEVERAL)
