"""Every fault in objectives, items and blueprints gives its whole message."""

from courseware.content.documents import Document
from courseware.content.problems import Problems
from courseware.content.tree import Mapping, parse_yaml
from courseware.quiz.bank import QuizBank
from courseware.quiz.kinds import ITEM_KINDS
from courseware.quiz.load import load_quiz
from tests.quiz.making import NO_TRADE, RULES, report

OBJECTIVES = """\
format: courseware/objectives/1
objectives:
  - {id: know-why, title: Say why, lesson: safe-work#why, origin: common practice}
"""

ITEM = """\
format: courseware/items/1
items:
  - id: why
    kind: rule-hazard
    pool: graded
    objective: know-why
    minutes: 2
    lesson: safe-work#why
    rules: [lock, meter, oil]
    options: 3
    origin: common practice
"""

BLUEPRINT = """\
format: courseware/blueprint/1
id: safe
title: Safe work
pool: graded
instructions: [Answer all.]
pass: {percent: 80, safety_gate: true}
draws: [{templates: [why], items: 1}]
origin: common practice
"""


def loaded(objectives: str = OBJECTIVES, items: str = ITEM, blueprint: str = BLUEPRINT) -> tuple[QuizBank, str]:
    problems = Problems()
    documents = []
    for kind, text in (("objectives", objectives), ("items", items), ("blueprint", blueprint)):
        node = parse_yaml(text, f"{kind}.yaml", problems)
        assert isinstance(node, Mapping)
        documents.append(Document(kind, 1, node, f"{kind}.yaml"))
    bank = load_quiz(documents, NO_TRADE, RULES, problems)
    return bank, report(problems)


def test_a_sound_bank_loads_whole() -> None:
    bank, problems = loaded()
    assert problems == ""
    template = bank.templates["why"]
    assert (template.points, template.minutes, template.pool, template.objective) == (1, 2, "graded", "know-why")
    blueprint = bank.blueprints["safe"]
    assert (blueprint.rule.percent, blueprint.rule.safety_gate) == (80, True)
    assert [(draw.templates, draw.items) for draw in blueprint.draws] == [(("why",), 1)]
    assert {link for link, _ in bank.lesson_links()} == {"safe-work#why"}
    assert template.provenance.status() == "not reviewed by a licensed technician"


def test_documents_of_other_rooms_are_passed_over() -> None:
    problems = Problems()
    node = parse_yaml("format: courseware/unit/1\n", "unit.yaml", problems)
    assert isinstance(node, Mapping)
    assert load_quiz([Document("unit", 1, node, "unit.yaml")], NO_TRADE, RULES, problems) == QuizBank({}, {}, {})
    assert report(problems) == ""


def test_faults_of_an_item() -> None:
    _, problems = loaded(
        items=ITEM.replace("graded", "exam").replace("know-why", "know-how").replace("minutes: 2", "points: 0")
    )
    assert (
        problems
        == """\
blueprint.yaml:7: blueprint 'safe', draw 1: the item 'why' is in the pool 'exam', the blueprint in 'graded'
    try: name items of the blueprint's own pool; practice and graded questions are kept apart
items.yaml:3: item 'why': the key 'minutes' is missing
    try: add a line 'minutes: ...'
items.yaml:5: item 'why': 'pool' is 'exam'
    allowed: graded, practice
items.yaml:6: item 'why': 'objective' names the objective 'know-how', which does not exist
    allowed: know-why
    try: did you mean 'know-why'?
items.yaml:7: item 'why': 'points' is 0
    allowed: 1 or more"""
    )


def test_an_unknown_kind_is_told_with_all_that_there_are() -> None:
    bank, problems = loaded(items=ITEM.replace("rule-hazard", "orderings"))
    assert bank.templates == {}
    assert problems.startswith(
        f"""\
blueprint.yaml:7: blueprint 'safe', draw 1: 'templates' names the item 'why', which does not exist
items.yaml:4: item 'why': 'kind' is 'orderings'
    allowed: {", ".join(sorted(ITEM_KINDS))}
    try: did you mean 'ordering'?"""
    )


def test_a_blueprint_draws_from_its_own_pool() -> None:
    _, problems = loaded(blueprint=BLUEPRINT.replace("pool: graded", "pool: practice"))
    assert (
        problems
        == """\
blueprint.yaml:7: blueprint 'safe', draw 1: the item 'why' is in the pool 'graded', the blueprint in 'practice'
    try: name items of the blueprint's own pool; practice and graded questions are kept apart"""
    )


def test_a_question_is_in_one_pool() -> None:
    second = ITEM.split("items:\n")[1].replace("id: why", "id: why-again").replace("graded", "practice")
    _, problems = loaded(items=ITEM + second.replace("[lock, meter, oil]", "[spark, air, oil]"))
    assert (
        problems
        == """\
items.yaml:12: item 'why-again': 'oil' is asked by 'why' at items.yaml:3 too, which is in the other pool
    try: give the question to one of the two pools"""
    )


def test_ids_are_used_once() -> None:
    _, problems = loaded(
        objectives=OBJECTIVES + "  - {id: know-why, title: Say why, lesson: safe-work#why, origin: common practice}\n",
        items=ITEM + ITEM.split("items:\n")[1],
    )
    assert (
        problems
        == """\
items.yaml:12: item 'why': the id 'why' is used twice; first at items.yaml:3
    try: give one of the two another id
objectives.yaml:4: objective 'know-why': the id 'know-why' is used twice; first at objectives.yaml:3
    try: give one of the two another id"""
    )


def test_faults_of_a_blueprint() -> None:
    _, problems = loaded(
        blueprint=BLUEPRINT.replace("percent: 80, safety_gate: true", "percent: 0, gate: true")
        .replace("items: 1", "items: 0")
        .replace("origin: common practice\n", "")
    )
    assert (
        problems
        == """\
blueprint.yaml:1: blueprint 'safe': the key 'origin' is missing
    try: add a line 'origin: ...'
blueprint.yaml:6: blueprint 'safe', pass: 'percent' is 0
    allowed: from 1 to 100
blueprint.yaml:6: blueprint 'safe', pass: the key 'safety_gate' is missing
    try: add a line 'safety_gate: ...'
blueprint.yaml:6: blueprint 'safe', pass: unknown key 'gate'
    allowed: percent, safety_gate
blueprint.yaml:7: blueprint 'safe', draw 1: 'items' is 0
    allowed: 1 or more"""
    )


def test_a_blueprint_asks_for_no_more_than_there_is() -> None:
    _, problems = loaded(blueprint=BLUEPRINT.replace("items: 1", "items: 4"))
    assert (
        problems
        == """\
blueprint.yaml:7: blueprint 'safe', draw 1: 4 items are asked for, but the named ones hold 3 questions
    try: name more items, or ask for fewer"""
    )


def test_faults_of_an_objective() -> None:
    _, problems = loaded(objectives=OBJECTIVES.replace("title: Say why", "titel: Say why").replace("know-why", "Why"))
    assert (
        problems
        == """\
items.yaml:6: item 'why': 'objective' names the objective 'know-why', which does not exist
    allowed: Why
objectives.yaml:3: objective 'Why': 'id' is 'Why'
    allowed: lower-case letters, digits and single hyphens, starting with a letter
objectives.yaml:3: objective 'Why': the key 'title' is missing
    try: add a line 'title: ...'
objectives.yaml:3: objective 'Why': unknown key 'titel'
    allowed: id, lesson, origin, reviewed, title
    try: did you mean 'title'?"""
    )
