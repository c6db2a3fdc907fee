"""The catalogue: every fault of it told whole; what a wrong answer shows reaches the key and the mark."""

import pytest

from courseware.content.documents import Document
from courseware.content.problems import Problems
from courseware.content.tree import Mapping, parse_yaml
from courseware.grading.mark import grade
from courseware.quiz.bank import QuizBank
from courseware.quiz.chance import open_chance
from courseware.quiz.draw import Stock, draw_form, draw_question
from courseware.quiz.load import load_quiz
from courseware.quiz.misconceptions import RELATIONS
from courseware.quiz.response import make_response
from tests.quiz.making import NO_TRADE, RULES, SECRET, report

CATALOGUE = """\
format: courseware/misconceptions/1
misconceptions:
  - id: off-is-dead
    believes: Off is dead.
    instead: Off can be switched on.
    lesson: lockout#off
    origin: common practice
  - {id: near, relation: symptom-alone, believes: a, instead: b, lesson: l, origin: o}
"""

ITEMS = """\
format: courseware/items/1
items:
  - id: why
    kind: choice
    pool: graded
    objective: know-why
    minutes: 2
    lesson: safe-work#why
    stem: [What do you do first?]
    right: {text: Lock it, because: It stays off.}
    wrong:
      - {text: Turn it off, because: It can be turned on., misconception: off-is-dead}
      - {text: Pull a fuse, because: It can be put back., misconception: off-is-dead}
    origin: common practice
"""

OBJECTIVES = """\
format: courseware/objectives/1
objectives: [{id: know-why, title: Say why, lesson: safe-work#why, origin: common practice}]
"""


def loaded(catalogue: str = CATALOGUE, items: str = ITEMS) -> tuple[QuizBank, str]:
    problems = Problems()
    documents = []
    for kind, text in (("misconceptions", catalogue), ("items", items), ("objectives", OBJECTIVES)):
        node = parse_yaml(text, f"{kind}.yaml", problems)
        assert isinstance(node, Mapping)
        documents.append(Document(kind, 1, node, f"{kind}.yaml"))
    return load_quiz(documents, NO_TRADE, RULES, problems), report(problems)


def test_a_sound_catalogue_is_read() -> None:
    bank, problems = loaded()
    assert problems == ""
    assert set(bank.misconceptions) == {"off-is-dead", "near"}
    assert bank.misconceptions["off-is-dead"].belief.instead == "Off can be switched on."
    assert ("lockout#off", bank.misconceptions["off-is-dead"].provenance.source) in set(bank.lesson_links())


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            "    believes: Off is dead.\n",
            "    relation: symptom\n",
            """\
misconceptions.yaml:3: misconception 'off-is-dead': the key 'believes' is missing
    try: add a line 'believes: ...'
misconceptions.yaml:4: misconception 'off-is-dead': 'relation' is 'symptom'
    allowed: {relations}
    try: did you mean 'symptom-alone'?""",
        ),
        (
            "    believes: Off is dead.\n",
            "    believes: Off is dead.\n    relation: symptom-alone\n",
            """\
misconceptions.yaml:9: misconception 'near': the relation 'symptom-alone' is that of 'off-is-dead' at \
misconceptions.yaml:3 too
    try: give each relation to one misconception""",
        ),
        (
            "{id: near, relation",
            "{id: off-is-dead, relation",
            """\
misconceptions.yaml:8: misconception 'off-is-dead': the id 'off-is-dead' is used twice; first at misconceptions.yaml:3
    try: give one of the two another id""",
        ),
    ],
)
def test_faults_of_the_catalogue_are_told_whole(old: str, new: str, message: str) -> None:
    _, problems = loaded(catalogue=CATALOGUE.replace(old, new))
    assert problems == message.format(relations=", ".join(sorted(RELATIONS)))


def test_an_item_names_what_the_catalogue_has() -> None:
    _, problems = loaded(items=ITEMS.replace("on., misconception: off-is-dead", "on., misconception: off-is-ded"))
    assert (
        problems
        == """\
items.yaml:12: item 'why': 'misconception' names the misconception 'off-is-ded', which does not exist
    allowed: near, off-is-dead
    try: did you mean 'off-is-dead'?"""
    )


def test_an_item_names_all_or_none() -> None:
    assert loaded(items=ITEMS.replace(", misconception: off-is-dead", ""))[1] == ""
    _, problems = loaded(items=ITEMS.replace("on., misconception: off-is-dead", "on."))
    assert (
        problems
        == """\
items.yaml:3: item 'why': 1 of 2 wrong answers name no misconception
    try: name the misconception behind each of them, or behind none"""
    )


def test_what_a_wrong_answer_shows_is_in_the_key_and_in_the_mark_and_not_in_the_form(stock: Stock) -> None:
    form, key = draw_form(stock, "ignition", "M-1", SECRET)
    assert not any(one.believes in repr(form) or one.id in repr(form) for one in stock.bank.misconceptions.values())
    entry = next(entry for entry in key.entries if entry.kind == "scenario")
    wrong = next(iter(entry.misconceptions))
    answers = {str(item.number): (wrong,) if item.number == entry.number else () for item in form.items}
    mark = grade(form, key, make_response(form.id, answers)).marks[entry.number - 1]
    assert mark.beliefs == (entry.misconceptions[wrong],)
    right = {**answers, str(entry.number): entry.right}
    assert grade(form, key, make_response(form.id, right)).marks[entry.number - 1].beliefs == ()


def test_every_wrong_option_of_the_shipped_bank_shows_a_misconception(stock: Stock) -> None:
    """A number may have no known slip; an option to choose always has a belief behind it."""
    for template in stock.bank.templates.values():
        drawn = draw_question(template, stock.materials, open_chance("beliefs", template.id), set())
        right = drawn.several or (drawn.right,)
        if drawn.options and not drawn.pairs:
            unnamed = [one.text for place, one in enumerate(drawn.options) if place not in right and not one.belief]
            assert (template.id, unnamed) == (template.id, [])
        if drawn.number is not None:
            assert set(drawn.number.beliefs) == set(drawn.number.slips)


def test_the_catalogue_has_every_relation_and_nothing_that_nobody_shows(stock: Stock) -> None:
    catalogue = stock.bank.misconceptions.values()
    assert {one.relation for one in catalogue} - {""} == set(RELATIONS)
    named = {
        one.id
        for template in stock.bank.templates.values()
        if template.behaviour.named is not None
        for one in template.behaviour.named(template.body)
    }
    assert {one.id for one in catalogue if not one.relation} <= named
