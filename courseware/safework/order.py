"""Partial orders of steps: which orders are allowed, how many they are, how near an answer comes.

A set of steps that can have been done at some time is a *downset*: with a step, it holds every step
that comes before it. The allowed orders (linear extensions) are the paths through the downsets from
nothing done to all done; counting the paths counts the orders exactly (dynamic programming over the
lattice of downsets; Brightwell and Winkler 1991 show that there is no fast way for every partial order).
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from graphlib import TopologicalSorter
from typing import Final

LARGEST: Final = 200_000
"""Downsets [-] that one count may visit: some seconds of work."""


class TooFreeError(Exception):
    """The steps are so free that their orders cannot be counted: more downsets than :data:`LARGEST`."""


@dataclass(frozen=True, slots=True)
class PartialOrder:
    """Named items and, for each, all items that come before it.

    Attributes
    ----------
    items : tuple of str
        The items, in one allowed order where the maker gave one.
    before : tuple of int
        For each item, the items before it, as a set of bits: bit ``i`` is ``items[i]``. Transitively closed.
    """

    items: tuple[str, ...]
    before: tuple[int, ...]

    def pairs(self) -> tuple[tuple[str, str], ...]:
        """Return every (earlier, later) pair of items whose order is fixed."""
        return tuple(
            (earlier, later)
            for later, mask in zip(self.items, self.before, strict=True)
            for bit, earlier in enumerate(self.items)
            if mask >> bit & 1
        )


def partial_order(after: Mapping[str, Sequence[str]], keep: Sequence[str] | None = None) -> PartialOrder:
    """Return the partial order of some items.

    Parameters
    ----------
    after : mapping of item to items
        The items directly before each item.
    keep : sequence of str, optional
        Only these items, in this order; what lay between two of them still keeps them in order.

    Raises
    ------
    graphlib.CycleError
        If an item comes before itself.

    Examples
    --------
    >>> partial_order({"a": [], "b": ["a"], "c": ["b"]}, keep=["a", "c"]).pairs()
    (('a', 'c'),)
    """
    closed: dict[str, frozenset[str]] = {}
    for item in TopologicalSorter(after).static_order():
        direct = after.get(item, ())
        closed[item] = frozenset(direct).union(*(closed[earlier] for earlier in direct))
    items = tuple(after) if keep is None else tuple(keep)
    bit = {item: 1 << place for place, item in enumerate(items)}
    return PartialOrder(items, tuple(sum(bit[earlier] for earlier in closed[item] if earlier in bit) for item in items))


def ready(order: PartialOrder, done: int) -> Iterator[int]:
    """Yield the places of the items that may come next when the items of the downset ``done`` are done."""
    for place, mask in enumerate(order.before):
        if not done >> place & 1 and mask & done == mask:
            yield place


def count_orders(order: PartialOrder) -> int:
    """Return the exact number of allowed orders [-] (linear extensions).

    Raises
    ------
    TooFreeError
        If the order has more downsets than :data:`LARGEST`.

    Examples
    --------
    The N of four items has 5 linear extensions.

    >>> count_orders(partial_order({"a": [], "b": [], "c": ["a", "b"], "d": ["b"]}))
    5
    """
    level, visited = {0: 1}, 1
    for _ in order.items:
        following: dict[int, int] = {}
        for done, ways in level.items():
            for place in ready(order, done):
                larger = done | 1 << place
                following[larger] = following.get(larger, 0) + ways
        level = following
        visited += len(level)
        if visited > LARGEST:
            raise TooFreeError
    return sum(level.values())


def kendall(order: PartialOrder, answer: Sequence[str]) -> float:
    """Return the credit [-] of an answer against a partial order, from -1 to 1.

    (concordant - discordant) / pairs, over the pairs whose order is fixed (Kendall's tau restricted to
    them), so that every allowed order has 1. A pair with an item that the answer lacks counts as neither; an order that
    fixes nothing gives 1 to any complete answer.

    Parameters
    ----------
    order : PartialOrder
        The key.
    answer : sequence of str
        Items in the order given, each once; items that the key does not know are passed over.

    Examples
    --------
    First and second of five swapped: tau = 0.8.

    >>> chain = partial_order({"a": [], "b": ["a"], "c": ["b"], "d": ["c"], "e": ["d"]})
    >>> kendall(chain, ["b", "a", "c", "d", "e"])
    0.8
    """
    place = {item: number for number, item in enumerate(answer)}
    pairs = order.pairs()
    if not pairs:
        return 1.0 if place.keys() >= set(order.items) else 0.0
    given = [place[later] - place[earlier] for earlier, later in pairs if earlier in place and later in place]
    concordant = sum(1 for apart in given if apart > 0)
    return (2 * concordant - len(given)) / len(pairs)
