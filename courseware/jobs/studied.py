"""Answers of an invented trainee who has studied: worked out from the quiz page alone, by what the course teaches.

For the demonstration. It reads the page that a trainee gets and reasons as the lessons teach: readings to a repair,
given values to a number, a rule to its danger, steps to their order. It never sees a key. Anybody with the program
can do the same; that is answering a question, and the supervised sitting is the guard against help.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from typing import Final

from courseware.content.words import say
from courseware.diagnosis.posterior import posterior
from courseware.heater.checks import Check
from courseware.heater.readings import band_of
from courseware.heater.unit import Unit
from courseware.physics.quantities import QUANTITIES, evaluate
from courseware.physics.units import from_si, parse, to_si
from courseware.quiz.form import Form, Item, form_from_bytes
from courseware.quiz.kinds.base import Materials
from courseware.safework.work import steps_on

_FORM: Final = re.compile(r'<script[^>]* type="application/json"[^>]* id="form"[^>]*>(.*?)</script>', re.DOTALL)
Answers = dict[str, tuple[str, ...]]


def form_on_page(html: str) -> Form:
    """Return the form that a quiz page carries."""
    found = _FORM.search(html)
    assert found is not None, "a quiz page carries its form"
    return form_from_bytes(found.group(1).replace("\\u003c", "<").encode("utf-8"))


def studied_answers(form: Form, made_from: Materials) -> Answers:
    """Return the answer to each item of a form, worked out from what the form shows."""
    return {str(item.number): _WAYS[item.kind](item, made_from) for item in form.items}


def careless_answers(form: Form, made_from: Materials) -> Answers:
    """Return the same answers, but with the steps of every ordering item the wrong way round."""
    answers = studied_answers(form, made_from)
    backwards = {str(item.number) for item in form.items if item.kind == "ordering"}
    return {number: given[::-1] if number in backwards else given for number, given in answers.items()}


def _scenario(item: Item, made_from: Materials) -> tuple[str, ...]:
    """Take the offered repair that the readings make the most likely."""
    trade, unit = made_from.trade, _unit(item, made_from)
    said = [one.id for one in trade.complaints if say("quiz.scenario-says", says=one.says) in item.stem]
    found = posterior(made_from.signatures(unit.id), said[0], dict(_evidence(item, unit, made_from))).repairs
    titles = {trade.repairs[repair].title: weight for repair, weight in found.items()}
    return (max(item.options, key=lambda option: titles.get(option.text, 0.0)).tag,)


def _numeric(item: Item, _made_from: Materials) -> tuple[str, ...]:
    """Put the given values into the formula that has these letters."""
    assert item.exhibit is not None
    given = {label.rpartition(", ")[2]: to_si(*parse(value)) for label, value in item.exhibit.rows}
    for quantity in QUANTITIES.values():
        if {parameter.symbol for parameter in quantity.parameters} == set(given):
            values = {parameter.name: given[parameter.symbol] for parameter in quantity.parameters}
            return (f"{from_si(evaluate(quantity.id, values), item.unit):.6g}",)
    raise LookupError(f"no formula has the letters {sorted(given)}")


def _choice(item: Item, made_from: Materials) -> tuple[str, ...]:
    """Take the danger of the rule in the question, or the meaning of the reading shown."""
    hazards = {rule.hazard for rule in made_from.safework.rules.values() if any(rule.title in one for one in item.stem)}
    if item.exhibit is not None:
        hazards = {band for _, band in _meanings(item, _unit(item, made_from), made_from)}
    return tuple(option.tag for option in item.options if option.text in hazards)


def _ordering(item: Item, made_from: Materials) -> tuple[str, ...]:
    """Put the steps into the order in which the lesson has them."""
    unit, safework = _unit(item, made_from), made_from.safework
    for procedure in safework.procedures.values():
        titles = [safework.actions[step.action].title for step in steps_on(procedure, unit)]
        if any(procedure.title in one for one in item.stem) and {one.text for one in item.options} <= set(titles):
            return tuple(one.tag for one in sorted(item.options, key=lambda option: titles.index(option.text)))
    raise LookupError(f"question {item.number} is about no procedure")


_WAYS: Final[Mapping[str, Callable[[Item, Materials], tuple[str, ...]]]] = {
    "scenario": _scenario,
    "numeric": _numeric,
    "choice": _choice,
    "ordering": _ordering,
}


def _unit(item: Item, made_from: Materials) -> Unit:
    return next(unit for unit in made_from.trade.units.values() if any(unit.title in one for one in item.stem))


def _evidence(item: Item, unit: Unit, made_from: Materials) -> Iterator[tuple[str, str]]:
    """Yield each check with the outcome that its reading means."""
    for check, reading in _readings(item, unit, made_from):
        if reading == check.cannot:
            yield check.id, "cannot"
        else:
            yield check.id, next(band.id for band in check.bands if band.says == _says(check, unit, reading))


def _meanings(item: Item, unit: Unit, made_from: Materials) -> Iterator[tuple[str, str]]:
    for check, reading in _readings(item, unit, made_from):
        yield check.id, _says(check, unit, reading)


def _readings(item: Item, unit: Unit, made_from: Materials) -> Iterator[tuple[Check, str]]:
    assert item.exhibit is not None
    checks = {check.title: check for check in made_from.trade.checks.values() if check.applies_to(unit)}
    for label, reading in item.exhibit.rows:
        yield checks[label], reading


def _says(check: Check, unit: Unit, reading: str) -> str:
    """Return what a reading means, in the words of its band."""
    if not check.unit:
        return reading
    if check.top is not None and not reading[0].isdigit() and reading[0] not in "-\u2212":
        value = check.top  # the instrument shows that it is over its range
    else:
        value = parse(reading)[0]
    return band_of(unit, check, round(value / check.resolution)).says
