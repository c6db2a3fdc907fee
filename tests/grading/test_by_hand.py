"""Points given by hand: score, gate, pass and objectives follow by the same rule, here by sums on paper."""

from fractions import Fraction

import pytest

from courseware.grading.by_hand import with_points
from courseware.grading.mark import grade
from courseware.grading.result import Result
from courseware.quiz.response import make_response
from tests.grading.making import whole

RIGHT = {"1": ("9G4",), "2": ("8.33",), "3": ("9G4",), "4": ("C", "D", "F")}


def graded(**changed: tuple[str, ...]) -> Result:
    """Grade the room's form (2 + 1 + 1 + 2 points, 80 % to pass) with some answers changed (``item2=()``)."""
    form, key = whole()
    answers = {**RIGHT, **{name.removeprefix("item"): given for name, given in changed.items()}}
    return grade(form, key, make_response(form.id, answers))


def unsafe() -> Result:
    """The choice breaks its rule, and the number is blank."""
    return graded(item2=(), item3=("B31",))


def test_without_points_nothing_changes() -> None:
    assert with_points(unsafe(), {}) == unsafe()


def test_full_points_say_that_the_answer_was_right_and_broke_nothing() -> None:
    """4 of 6 points and a broken gate; with the choice's 1 point 5 of 6 = 83.3 %, and no gate."""
    before = unsafe()
    assert (before.points, before.percent, before.gate_broken, before.passed) == (4.0, 66.7, (3,), False)
    after = with_points(before, {3: Fraction(1)})
    assert (after.points, after.percent, after.gate_broken, after.passed) == (5.0, 83.3, (), True)
    mark = after.marks[2]
    assert (mark.points, mark.right, mark.gate_broken) == (1.0, True, None)
    assert mark.feedback == ("Oil lights all at once.",)
    assert (after.by_objective["know-why"].points, after.by_objective["know-why"].of) == (3.0, 3)
    assert after.marks[:2] + after.marks[3:] == before.marks[:2] + before.marks[3:]


def test_fewer_points_leave_a_broken_gate_broken() -> None:
    """4 + 0.5 + 1 = 5.5 of 6 points is 91.7 %, and still not passed."""
    after = with_points(unsafe(), {2: Fraction(1), 3: Fraction(1, 2)})
    assert (after.points, after.percent, after.gate_broken, after.passed) == (5.5, 91.7, (3,), False)


def test_the_pass_mark_is_held_exactly() -> None:
    """80 % of 6 points are 4.8: 4.79 is too few, though 79.8 % is what people read."""
    assert with_points(graded(), {1: Fraction("0.8")}).passed
    below = with_points(graded(), {1: Fraction("0.79")})
    assert (below.percent, below.passed) == (79.8, False)


def test_thirds_of_points_do_not_add_up_to_an_error() -> None:
    """One of three pairs turned round is worth (2 - 1) / 3 of 2 points; 2/3 + 2 + 1 + 0.13 is 3.797."""
    after = with_points(graded(item4=("C", "F", "D")), {3: Fraction("0.13")})
    assert after.points == pytest.approx(2 + 1 + 0.13 + 2 / 3)
    assert after.percent == 63.3
