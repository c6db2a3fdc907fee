"""Orders of work against textbook combinatorics and Kendall's own coefficient.

Sources: numbers of linear extensions of fences (Euler's zigzag numbers), of two-row grids (Catalan numbers), of
trees (hook formula) and the Mahonian numbers of inversions: R. P. Stanley, Enumerative Combinatorics, vol. 1,
chapters 1 and 3, and D. E. Knuth, The Art of Computer Programming, vol. 3, section 5.1, all named from memory
and recomputed by enumeration; M. G. Kendall, "A new measure of rank correlation", Biometrika 30 (1938), through scipy.
"""

from collections.abc import Sequence
from itertools import permutations, product

import pytest
from scipy import stats

from courseware.safework.order import PartialOrder, count_orders, kendall, partial_order


def tau_b(answer: Sequence[str]) -> float:
    return float(stats.kendalltau(range(len(answer)), [int(one) for one in answer]).statistic)


def chain(count: int) -> PartialOrder:
    """1 before 2 before 3 ..."""
    return partial_order({str(item): [str(item - 1)] if item > 1 else [] for item in range(1, count + 1)})


def fence(count: int) -> PartialOrder:
    """0 < 1 > 2 < 3 > ...: the zigzag."""
    after: dict[str, list[str]] = {}
    for item in range(count):
        lower = [item - 1, item + 1] if item % 2 else []
        after[str(item)] = [str(one) for one in lower if 0 <= one < count]
    return partial_order(after)


def grid(rows: int, columns: int) -> PartialOrder:
    """The product of two chains."""
    places = list(product(range(rows), range(columns)))
    return partial_order(
        {f"{row},{column}": [f"{r},{c}" for r, c in ((row - 1, column), (row, column - 1)) if (r, c) in places]
         for row, column in places}
    )  # fmt: skip


def boolean_lattice(size: int) -> PartialOrder:
    """All subsets of a set, ordered by inclusion."""
    subsets = range(2**size)
    return partial_order(
        {str(one): [str(one & ~(1 << bit)) for bit in range(size) if one >> bit & 1] for one in subsets}
    )


class TestLinearExtensions:
    def test_antichain_of_four(self) -> None:
        assert count_orders(partial_order({name: [] for name in "abcd"})) == 24

    def test_letter_n(self) -> None:
        assert count_orders(partial_order({"a": [], "b": [], "c": ["a", "b"], "d": ["b"]})) == 5

    @pytest.mark.parametrize(("count", "orders"), [(2, 1), (3, 2), (4, 5), (5, 16), (6, 61), (7, 272)])
    def test_fences_give_the_euler_numbers(self, count: int, orders: int) -> None:
        assert count_orders(fence(count)) == orders

    @pytest.mark.parametrize(("columns", "orders"), [(1, 1), (2, 2), (3, 5), (4, 14), (5, 42), (6, 132)])
    def test_two_rows_give_the_catalan_numbers(self, columns: int, orders: int) -> None:
        assert count_orders(grid(2, columns)) == orders

    @pytest.mark.parametrize(("size", "orders"), [(1, 1), (2, 2), (3, 48)])
    def test_boolean_lattices(self, size: int, orders: int) -> None:
        assert count_orders(boolean_lattice(size)) == orders

    def test_two_chains_of_three(self) -> None:
        two = {"a1": [], "a2": ["a1"], "a3": ["a2"], "b1": [], "b2": ["b1"], "b3": ["b2"]}
        assert count_orders(partial_order(two)) == 20

    def test_tree_by_the_hook_formula(self) -> None:
        assert count_orders(partial_order({"0": [], "1": ["0"], "2": ["0"], "3": ["1"], "4": ["1"]})) == 8

    def test_nothing_can_be_done_in_one_way(self) -> None:
        assert count_orders(partial_order({})) == 1


class TestKendall:
    @pytest.mark.parametrize(
        ("answer", "tau"), [("12345", 1.0), ("21345", 0.8), ("23451", 0.2), ("52341", -0.4), ("54321", -1.0)]
    )
    def test_chain_of_five(self, answer: str, tau: float) -> None:
        assert kendall(chain(5), tuple(answer)) == pytest.approx(tau, abs=1e-12)

    def test_three_of_six_pairs_right(self) -> None:
        # key ABCD, answer BCDA: 3 of the 6 pairs are right (a published classroom example of order scoring)
        assert kendall(chain(4), tuple("2341")) == pytest.approx((3 - 3) / 6)

    def test_distances_over_all_orders_of_four(self) -> None:
        # 1, 3, 5, 6, 5, 3, 1 orders at 0 to 6 inversions: the Mahonian numbers
        taus = [kendall(chain(4), answer) for answer in permutations("1234")]
        assert [taus.count((6 - 2 * wrong) / 6) for wrong in range(7)] == [1, 3, 5, 6, 5, 3, 1]

    def test_equals_scipy_on_chains(self) -> None:
        for answer in permutations("1234"):
            assert kendall(chain(4), answer) == pytest.approx(tau_b(answer))
