"""What item statistics say where there is nothing, or too little, to tell from."""

import math

import pytest

from courseware.grading.item_statistics import (
    FEWEST,
    Discrimination,
    alpha,
    correlation,
    discrimination,
    error_of_score,
    facility,
    interval,
)

TEN = (0.0, 1.0, 1.0, 0.0, 1.0, 0.0, 1.0, 1.0, 0.5, 0.0)


def test_no_marks_have_no_facility() -> None:
    with pytest.raises(ValueError, match=r"^no marks, no facility$"):
        facility([])


def test_marks_that_do_not_vary_correlate_with_nothing() -> None:
    assert correlation([1, 1, 1], [1, 2, 3]) is None
    assert correlation([1, 2, 3], [0.1, 0.1, 0.1]) is None
    assert discrimination([1.0] * FEWEST, TEN) is None


def test_too_few_forms_tell_nothing_and_one_more_does() -> None:
    assert len(TEN) == FEWEST
    assert discrimination(TEN[1:], TEN[1:]) is None
    found = discrimination(TEN, TEN)
    assert found
    assert [found.r, found.low, found.high, found.count] == pytest.approx([1, 1, 1, 10])


def test_the_interval_narrows_with_the_count_and_says_when_chance_may_be_behind_it() -> None:
    wide, narrow = interval(0.3, 12), interval(0.3, 200)
    assert wide[0] < narrow[0] < 0.3 < narrow[1] < wide[1]
    assert Discrimination(0.3, *wide, 12).chance
    assert not Discrimination(0.3, *narrow, 200).chance
    assert not Discrimination(-0.3, *interval(-0.3, 200), 200).chance


def test_three_pairs_give_no_interval() -> None:
    with pytest.raises(ValueError, match=r"^3 pairs give no interval; it takes 4$"):
        interval(0.5, 3)


def test_alpha_needs_two_parts_and_totals_that_vary() -> None:
    assert alpha([[1], [0], [1]]) is None
    assert alpha([[1, 0], [0, 1]]) is None
    assert alpha([[1, 1], [0, 0]]) == pytest.approx(1.0)


def test_a_score_at_either_end_has_no_error_and_one_in_the_middle_the_largest() -> None:
    assert error_of_score(0.0, 8) == error_of_score(1.0, 8) == 0
    assert error_of_score(0.5, 8) == pytest.approx(0.5 / math.sqrt(7))
