"""Questions become items: places and tags are given out by chance that knows nothing of what is right."""

import random
from collections.abc import Sequence

from courseware.quiz.bank import Blueprint, Template
from courseware.quiz.base32 import draw_words
from courseware.quiz.form import Form, Gate, Item, Key, KeyEntry, Option, form_sha256
from courseware.quiz.kinds.base import Drawn, DrawnGate

Question = tuple[Template, Drawn]


def lay_out(
    blueprint: Blueprint, form_id: str, course_version: str, questions: Sequence[Question], rng: random.Random
) -> tuple[Form, Key]:
    """Return the form of some questions, and its key.

    Parameters
    ----------
    blueprint : Blueprint
        Title, instructions and pass rule.
    form_id, course_version : str
        Printed on the form.
    questions : sequence of (Template, Drawn)
        In the order of the form.
    rng : random.Random
        Draws the places and the tags of all options; it is asked for as much whatever is right.
    """
    tags = iter(draw_words(sum(len(drawn.options) for _, drawn in questions), rng))
    items, entries = [], []
    for number, (template, drawn) in enumerate(questions, start=1):
        places = list(range(len(drawn.options)))
        if not drawn.in_order:
            rng.shuffle(places)
        tag_of = {place: next(tags) for place in places}
        options = tuple(Option(tag_of[place], drawn.options[place].text) for place in places)
        items.append(
            Item(
                number=number,
                kind=template.behaviour.answered,
                objective=template.objective,
                stem=drawn.stem,
                exhibit=drawn.exhibit,
                options=options,
                unit=drawn.unit,
                minutes=template.minutes,
            )
        )
        entries.append(_entry(number, template, drawn, [tag_of[place] for place in range(len(drawn.options))]))
    form = Form(form_id, blueprint.id, blueprint.title, course_version, tuple(items), blueprint.instructions)
    return form, Key(form_id, form_sha256(form), blueprint.rule, tuple(entries))


def _entry(number: int, template: Template, drawn: Drawn, tags: Sequence[str]) -> KeyEntry:
    if drawn.number is not None:
        right: tuple[str, ...] = (drawn.number.value, drawn.number.tolerance)
        feedback, beliefs = dict(drawn.number.slips), dict(drawn.number.beliefs)
    else:
        right = tuple(tags) if drawn.pairs else tuple(tags[place] for place in drawn.several or (drawn.right,))
        tagged = list(zip(tags, drawn.options, strict=True))
        feedback = {tag: option.feedback for tag, option in tagged if option.feedback}
        beliefs = {tag: option.belief for tag, option in tagged if option.belief is not None}
    gates = [
        _gate((tag,), option.gate) for tag, option in zip(tags, drawn.options, strict=True) if option.gate is not None
    ]
    gates += [_gate((tags[before], tags[after]), gate) for before, after, gate in drawn.order_gates]
    return KeyEntry(
        number=number,
        kind=template.behaviour.answered,
        objective=template.objective,
        template=template.id,
        points=template.points,
        right=right,
        because=drawn.because,
        lesson=drawn.lesson or template.lesson,
        feedback=feedback,
        pairs=tuple((tags[before], tags[after]) for before, after in drawn.pairs),
        gates=tuple(gates),
        misconceptions=beliefs,
    )


def _gate(tags: tuple[str, ...], gate: DrawnGate) -> Gate:
    return Gate(tags, gate.rule, gate.signal_word, gate.reason)
