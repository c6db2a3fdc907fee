"""Credit for orders against published numbers, and against a count by brute force."""

import itertools
from fractions import Fraction

import pytest

from courseware.grading.markers.ordering import mark
from courseware.quiz.form import Gate
from tests.grading.making import order_of


def chain(tags: str) -> list[tuple[str, str]]:
    return list(itertools.combinations(tags, 2))


@pytest.mark.parametrize(
    ("key", "answer", "tau"),
    [
        # Kendall's tau of total orders, 1 - 4 inversions / (n (n - 1)).
        ("12345", "12345", "1"),
        ("12345", "21345", "8/10"),  # neighbours swapped
        ("12345", "23451", "2/10"),  # first step moved last
        ("12345", "52341", "0"),  # ends swapped: tau -0.4, and credit is never below nothing
        ("12345", "54321", "0"),
        ("ABCD", "BCDA", "0"),  # 3 of 6 pairs right (mrhonner.com, "Partial credit on ordering questions"): tau 0
    ],
)
def test_total_orders(key: str, answer: str, tau: str) -> None:
    item, entry = order_of(1, key, chain(key))
    assert mark(item, entry, tuple(answer)).share == Fraction(tau)


def test_all_orders_of_four_have_the_published_number_of_inversions() -> None:
    """Kendall distances over all 24 orders of 4: 1, 3, 5, 6, 5, 3, 1 (Mahonian numbers, OEIS A008302)."""
    item, entry = order_of(1, "ABCD", chain("ABCD"))
    shares = [mark(item, entry, answer).share for answer in itertools.permutations("ABCD")]
    assert [shares.count(Fraction(6 - 2 * distance, 6)) for distance in range(3)] == [1, 3, 5]
    assert shares.count(Fraction(0)) == 6 + 5 + 3 + 1


def test_every_allowed_order_of_a_partial_order_has_all_points() -> None:
    """All orders tried: full points if and only if no fixed pair is turned round."""
    pairs = [("A", "C"), ("B", "C"), ("B", "D")]  # the N of four items: 5 linear extensions
    item, entry = order_of(1, "ABCD", pairs)
    full = ["".join(answer) for answer in itertools.permutations("ABCD") if mark(item, entry, answer).share == 1]
    assert sorted(full) == ["ABCD", "ABDC", "BACD", "BADC", "BDAC"]


def test_no_fixed_pair_means_any_order() -> None:
    item, entry = order_of(1, "ABC", [])
    assert all(mark(item, entry, answer).share == 1 for answer in itertools.permutations("ABC"))


def test_a_gate_is_broken_exactly_when_its_pair_is_turned_round() -> None:
    first, second = (Gate(tags, f"Rule {tags[0]}", "DANGER", "Because.") for tags in (("A", "B"), ("C", "D")))
    item, entry = order_of(1, "ABCD", chain("ABCD"), gates=(first, second))
    for answer in itertools.permutations("ABCD"):
        broken = mark(item, entry, answer).broken
        turned = {tags[0] for tags in ("AB", "CD") if answer.index(tags[0]) > answer.index(tags[1])}
        assert (broken is None) == (not turned)
        if broken is not None:
            earliest = min((tags for tags in ("AB", "CD") if tags[0] in turned), key=lambda tags: answer.index(tags[1]))
            assert broken.rule == f"Rule {earliest[0]}"


def test_the_step_that_came_too_early_is_named() -> None:
    item, entry = order_of(1, "ABC", chain("ABC"))
    assert mark(item, entry, ("B", "C", "A")).against == ('You put "Do B" before "Do A".',)
    assert mark(item, entry, ("A", "B", "C")).against == ()
