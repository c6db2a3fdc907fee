import dataclasses

from courseware.content.problems import Problems
from courseware.quiz.check import bank_problems
from courseware.quiz.draw import Stock
from courseware.quiz.kinds.choice import WrittenChoice
from tests.quiz.making import report


def with_template(stock: Stock, name: str, body: object) -> Stock:
    template = dataclasses.replace(stock.bank.templates[name], body=body)
    bank = dataclasses.replace(stock.bank, templates={**stock.bank.templates, name: template})
    return dataclasses.replace(stock, bank=bank)


def test_the_shipped_bank_gives_fair_questions(stock: Stock) -> None:
    problems = Problems()
    bank_problems(stock, problems)
    assert report(problems) == ""


def test_an_unfair_question_is_told_at_its_template(stock: Stock) -> None:
    template = stock.bank.templates["bridge-and-telephone"]
    body = template.body
    assert isinstance(body, WrittenChoice)
    twice = dataclasses.replace(body, options=(*body.options[:2], dataclasses.replace(body.options[1])))
    problems = Problems()
    bank_problems(with_template(stock, "bridge-and-telephone", twice), problems)
    assert report(problems) == (
        f"{template.provenance.source}: item 'bridge-and-telephone': "
        "rule 22: the option 'Answer at once, since the fuel has been made safe already.' stands there twice\n"
        "    try: ask one thing in plain words, with options of one kind, form and length; write a negative word in "
        "capitals"
    )


def test_a_blueprint_that_runs_dry_is_told_at_its_place(stock: Stock) -> None:
    template = stock.bank.templates["line-that-the-spark-needs"]
    body = template.body
    single = dataclasses.replace(
        body, given=tuple(dataclasses.replace(one, values=one.values[:1]) for one in body.given)
    )
    blueprint = stock.bank.blueprints["ignition"]
    draws = (dataclasses.replace(blueprint.draws[1], templates=(template.id,)),)
    bank = dataclasses.replace(stock.bank, blueprints={"ignition": dataclasses.replace(blueprint, draws=draws)})
    problems = Problems()
    bank_problems(with_template(dataclasses.replace(stock, bank=bank), template.id, single), problems)
    assert report(problems) == (
        f"{blueprint.provenance.source}: blueprint 'ignition': the item 'line-that-the-spark-needs' "
        f"({template.provenance.source}) gave no new question\n"
        "    try: let it draw from more faults, checks, values or steps, or ask for fewer items of it"
    )
