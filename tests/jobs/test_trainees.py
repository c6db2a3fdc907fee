"""Invented trainees: one who knows all, one who knows nothing, one who is misled, one who learns."""

import random
from dataclasses import replace

import pytest

from courseware.grading.mark import grade
from courseware.jobs.trainees import Answers, Trainee, answers_of, right_answers
from courseware.quiz.form import Belief, Key
from courseware.quiz.response import Response, make_response
from tests.publish.sample_quiz import FORM, KEY

KNOWS_ALL = Trainee(2.0, frozenset())
KNOWS_NOTHING = Trainee(-1.0, frozenset())
CLINGS = Trainee(2.0, frozenset({"gap"}))
BELIEF = Belief("gap", "The gap is the cause.", "The gap is as it should be.", "ignition-test#isolate")


def luck(day: int) -> random.Random:
    return random.Random(day)  # noqa: S311 - no secret


def answered(answers: Answers) -> Response:
    return make_response(FORM.id, answers)


def misleading(number: int, name: str) -> Key:
    """Return the sample key with a misconception behind one wrong answer."""
    entries = list(KEY.entries)
    entries[number] = replace(entries[number], misconceptions={name: BELIEF})
    return replace(KEY, entries=tuple(entries))


def test_who_knows_all_answers_as_the_key_does() -> None:
    answers = answers_of(KNOWS_ALL, FORM, KEY, luck(1))
    assert answers == right_answers(KEY)
    assert grade(FORM, KEY, answered(answers)).percent == 100.0


@pytest.mark.parametrize("day", range(20))
def test_who_knows_nothing_gets_no_question_whole(day: int) -> None:
    result = grade(FORM, KEY, answered(answers_of(KNOWS_NOTHING, FORM, KEY, luck(day))))
    assert not any(mark.right for mark in result.marks)


@pytest.mark.parametrize(("number", "name"), [(0, next(iter(KEY.entries[0].feedback))), (1, "12.5")])
def test_who_is_misled_answers_by_the_misconception_most_of_the_time(number: int, name: str) -> None:
    key = misleading(number, name)
    days = [answers_of(CLINGS, FORM, key, luck(day))[str(number + 1)] for day in range(200)]
    assert set(days) == {(name,), right_answers(key)[str(number + 1)]}
    assert 120 < days.count((name,)) < 195  # 0.8 of 200, three standard deviations and more each way


def test_the_feedback_takes_away_what_it_sets_right_and_leaves_the_rest() -> None:
    key = misleading(1, "12.5")
    result = grade(FORM, key, answered({**right_answers(KEY), "2": ("12.5",)}))
    taught = Trainee(0.5, frozenset({"gap", "other"})).taught_by(result)
    assert taught == Trainee(0.5 + 0.6 * 0.5, frozenset({"other"}))
