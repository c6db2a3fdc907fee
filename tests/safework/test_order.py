"""Partial orders of any shape against trying every permutation, and what is out of the ordinary."""

from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courseware.safework.order import TooFreeError, count_orders, kendall, partial_order


def brute_force(after: dict[str, list[str]]) -> list[tuple[str, ...]]:
    """All allowed orders, by trying every permutation against the direct precedences."""
    return [
        order for order in permutations(after)
        if all(order.index(earlier) < order.index(later) for later, before in after.items() for earlier in before)
    ]  # fmt: skip


@st.composite
def small_orders(draw: st.DrawFn) -> dict[str, list[str]]:
    names = "abcdef"[: draw(st.integers(1, 6))]
    return {name: [one for one in names[:place] if draw(st.booleans())] for place, name in enumerate(names)}


@settings(deadline=None, derandomize=True, max_examples=60)  # a busy machine is no failure
@given(small_orders())
def test_count_and_credit_agree_with_trying_every_permutation(after: dict[str, list[str]]) -> None:
    allowed = brute_force(after)
    order = partial_order(after)
    assert count_orders(order) == len(allowed)
    full = {answer for answer in permutations(after) if kendall(order, answer) == 1.0}
    assert full == set(allowed)


def test_a_step_left_out_still_keeps_its_neighbours_in_order() -> None:
    order = partial_order({"a": [], "b": ["a"], "c": ["b"], "d": []}, keep=["d", "a", "c"])
    assert order.items == ("d", "a", "c")
    assert order.pairs() == (("a", "c"),)


def test_refuses_what_it_cannot_finish() -> None:
    with pytest.raises(TooFreeError):
        count_orders(partial_order({str(item): [] for item in range(25)}))


def test_a_missing_step_costs_its_pairs_and_no_more() -> None:
    chain = partial_order({"1": [], "2": ["1"], "3": ["2"], "4": ["3"]})
    assert kendall(chain, ("1", "2", "4")) == pytest.approx(3 / 6)


def test_an_order_that_fixes_nothing_is_right_when_complete() -> None:
    free = partial_order({"a": [], "b": []})
    assert (kendall(free, "ba"), kendall(free, "a")) == (1.0, 0.0)
