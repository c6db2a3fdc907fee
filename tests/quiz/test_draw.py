"""Forms drawn from the shipped bank: the same from the same, never twice the same question, graded for ever."""

import dataclasses
import itertools
from collections import Counter

import pytest

from courseware.content.refusal import Refusal
from courseware.grading.mark import grade
from courseware.jobs.trainees import right_answers
from courseware.quiz.answer_code import make_answer_code, parse_answer_code
from courseware.quiz.base32 import checks
from courseware.quiz.chance import open_chance
from courseware.quiz.draw import Stock, draw_form, draw_practice, draw_question
from courseware.quiz.form import Form, Key, form_bytes, form_from_bytes, key_bytes, key_from_bytes
from courseware.quiz.item_writing import faults_of_drawn, faults_of_stem
from courseware.quiz.kinds.choice import WrittenChoice
from courseware.quiz.pools import GRADED, PRACTICE, pool_of
from courseware.quiz.response import make_response
from courseware.quiz.seal import open_sealed, seal
from tests.quiz.making import SECRET

FORMS = 12


@pytest.fixture(scope="session")
def forms(stock: Stock) -> list[tuple[Form, Key]]:
    return [draw_form(stock, "ignition", f"F-{number}", SECRET) for number in range(FORMS)]


def test_the_same_blueprint_number_and_secret_give_the_same_bytes(stock: Stock, forms: list[tuple[Form, Key]]) -> None:
    again = Stock(stock.bank, dataclasses.replace(stock.materials), stock.course_version)
    form, key = draw_form(again, "ignition", "F-3", bytes(bytearray(SECRET)))
    assert form_bytes(form) == form_bytes(forms[3][0])
    assert key_bytes(key) == key_bytes(forms[3][1])
    assert seal(key_bytes(key), SECRET, "F-3") == seal(key_bytes(forms[3][1]), SECRET, "F-3")


def test_another_number_or_secret_gives_another_form(stock: Stock, forms: list[tuple[Form, Key]]) -> None:
    assert len({form_bytes(dataclasses.replace(form, id="")) for form, _ in forms}) == FORMS
    other, _ = draw_form(stock, "ignition", "F-0", SECRET[::-1])
    assert other.items != forms[0][0].items


def test_a_form_is_as_its_blueprint_says(forms: list[tuple[Form, Key]]) -> None:
    for form, key in forms:
        kinds = Counter(item.kind for item in form.items)
        chosen = kinds["choice"] + kinds["multiple-choice"]  # one of them is either
        assert (kinds["scenario"], kinds["numeric"], chosen, kinds["ordering"]) == (3, 2, 6, 1)
        assert [item.number for item in form.items] == [entry.number for entry in key.entries] == list(range(1, 13))
        assert (form.title, form.course_version, form.blueprint) == ("Quiz: ignition test", "0.1", "ignition")
        assert (key.rule.percent, key.rule.safety_gate) == (80, True)
        assert form.instructions


def test_all_tags_of_a_form_check_themselves_and_differ(forms: list[tuple[Form, Key]]) -> None:
    for form, _ in forms:
        tags = [option.tag for item in form.items for option in item.options]
        assert all(map(checks, tags))
        assert all(sum(a != b for a, b in zip(*two, strict=True)) >= 2 for two in itertools.combinations(tags, 2))


def test_no_form_asks_a_question_twice(forms: list[tuple[Form, Key]]) -> None:
    for form, _ in forms:
        asked = [(item.stem, item.exhibit, frozenset(option.text for option in item.options)) for item in form.items]
        assert len(set(asked)) == len(asked)


def test_every_item_keeps_the_rules_of_writing(forms: list[tuple[Form, Key]]) -> None:
    for form, key in forms:
        for item, entry in zip(form.items, key.entries, strict=True):
            assert faults_of_stem(item.stem) == ()
            assert entry.because
            assert entry.lesson.startswith("ignition-test#")
            if item.kind in ("scenario", "choice"):
                texts = [option.text for option in item.options]
                assert faults_of_drawn(texts, several=False) == ()
                assert set(entry.feedback) == {option.tag for option in item.options} - set(entry.right)
                assert all(entry.feedback.values())


def test_the_right_answers_have_all_points_and_pass(forms: list[tuple[Form, Key]]) -> None:
    for form, key in forms:
        result = grade(form, key, make_response(form.id, right_answers(key)))
        assert (result.percent, result.passed, result.gate_broken) == (100.0, True, ())
        code = make_answer_code(form, right_answers(key))
        assert grade(form, key, parse_answer_code(code, form)) == result


def test_turning_a_gate_round_fails_the_form(forms: list[tuple[Form, Key]]) -> None:
    for form, key in forms:
        entry = key.entries[-1]
        assert entry.kind == "ordering"
        for gate in entry.gates:
            first, later = (entry.right.index(tag) for tag in gate.tags)
            order = [*entry.right[:first], entry.right[later], *entry.right[first:later], *entry.right[later + 1 :]]
            response = make_response(form.id, {**right_answers(key), str(entry.number): tuple(order)})
            result = grade(form, key, response)
            assert not result.passed
            assert result.gate_broken == (entry.number,)
            broken = result.marks[-1].gate_broken
            assert broken is not None
            assert broken.reason
            assert broken.signal_word in ("DANGER", "WARNING", "CAUTION")


def test_an_old_form_is_graded_rightly_after_the_bank_has_changed(stock: Stock, forms: list[tuple[Form, Key]]) -> None:
    """Archived as bytes; then every template is gone and the blueprint asks for more."""
    form, key = forms[5]
    archived, sealed = form_bytes(form), seal(key_bytes(key), SECRET, form.id)
    wrong = {
        **right_answers(key),
        "1": (next(o.tag for o in form.items[0].options if o.tag not in key.entries[0].right),),
    }
    before = grade(form, key, make_response(form.id, wrong))
    blueprint = stock.bank.blueprints["ignition"]
    harder = dataclasses.replace(blueprint, rule=dataclasses.replace(blueprint.rule, percent=100), draws=())
    changed = Stock(
        dataclasses.replace(stock.bank, templates={}, blueprints={"ignition": harder}), stock.materials, "0.2"
    )
    assert draw_form(changed, "ignition", form.id, SECRET)[0].items == ()
    old_form = form_from_bytes(archived)
    old_key = key_from_bytes(open_sealed(sealed, SECRET, old_form.id))
    after = grade(old_form, old_key, make_response(old_form.id, wrong))
    assert after == before
    assert (after.needed, after.passed) == (80, True)
    assert after.marks[0].feedback[0] in key.entries[0].feedback.values()


def test_practice_and_graded_questions_never_meet(stock: Stock, forms: list[tuple[Form, Key]]) -> None:
    """Every template drawn many times: no identity in both pools; and no exhibit or stem with options either."""
    drawn: dict[str, set[str]] = {PRACTICE: set(), GRADED: set()}
    for template in stock.bank.templates.values():
        for seed in range(15):
            question = draw_question(template, stock.materials, open_chance(template.id, str(seed)), set())
            drawn[template.pool].add(question.identity)
            if template.behaviour.claims is None:
                assert pool_of(question.identity) == template.pool
    assert len(drawn[GRADED]) > 40
    assert len(drawn[PRACTICE]) > 20
    assert not drawn[PRACTICE] & drawn[GRADED]
    practice = [draw_practice(stock, "ignition-practice", number)[0] for number in range(4)]

    def seen(form: Form) -> set[object]:
        return {(item.stem, item.exhibit, frozenset(option.text for option in item.options)) for item in form.items}

    assert not set().union(*map(seen, practice)) & set().union(*(seen(form) for form, _ in forms))


def test_there_is_a_practice_item_of_every_kind_on_a_graded_form(stock: Stock) -> None:
    pools = {
        pool: {t.behaviour.answered for t in stock.bank.templates.values() if t.pool == pool}
        for pool in (PRACTICE, GRADED)
    }
    assert pools[GRADED] == pools[PRACTICE] == {"scenario", "numeric", "choice", "multiple-choice", "ordering"}
    assert any(isinstance(template.body, WrittenChoice) for template in stock.bank.templates.values())


def test_practice_needs_no_secret_and_is_drawn_again_by_anybody(stock: Stock) -> None:
    form, key = draw_practice(stock, "ignition-practice", 7)
    assert form.id == "PRACTICE-7"
    assert draw_practice(stock, "ignition-practice", 7) == (form, key)
    assert draw_practice(stock, "ignition-practice", 8)[0].items != form.items


@pytest.mark.parametrize("blueprint", ["ignitions", "ignition-practice"])
def test_only_a_graded_blueprint_gives_a_graded_form(blueprint: str, stock: Stock) -> None:
    known = ", ".join(sorted(one.id for one in stock.bank.blueprints.values() if one.pool == GRADED))
    assert all(name in known for name in ("ignition", "lockout", "sequence"))
    with pytest.raises(Refusal) as refusal:
        draw_form(stock, blueprint, "F-1", SECRET)
    assert str(refusal.value) == (f"there is no graded blueprint '{blueprint}'; try: name one of: {known}")


def test_graded_questions_are_not_given_away_for_practice(stock: Stock) -> None:
    known = ", ".join(sorted(one.id for one in stock.bank.blueprints.values() if one.pool == PRACTICE))
    assert all(name in known for name in ("ignition-practice", "lockout-practice", "sequence-practice"))
    with pytest.raises(Refusal) as refusal:
        draw_practice(stock, "ignition", 1)
    assert str(refusal.value) == (f"there is no practice blueprint 'ignition'; try: name one of: {known}")


def test_a_template_that_runs_dry_is_named(stock: Stock) -> None:
    template = stock.bank.templates["bridge-and-telephone"]
    asked = {draw_question(template, stock.materials, open_chance("a"), set()).identity}
    with pytest.raises(Refusal) as refusal:
        draw_question(template, stock.materials, open_chance("b"), asked)
    assert str(refusal.value) == (
        f"the item 'bridge-and-telephone' ({template.provenance.source}) gave no new question; "
        "try: let it draw from more faults, checks, values or steps, or ask for fewer items of it"
    )
