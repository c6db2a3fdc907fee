"""The proof that every allowed order of a procedure is safe: all of them, not a sample.

Two orders that have done the same steps and left the same state behave alike from there on. So it is
enough to visit each pair of a downset and a state once, and to try there each step that may
come next; the number of orders themselves may be astronomical.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from courseware.heater.load import Trade
from courseware.heater.simulate import Case
from courseware.heater.unit import Unit
from courseware.safework.model import Procedure, SafeWork, State
from courseware.safework.order import LARGEST, TooFreeError, count_orders, ready
from courseware.safework.site import start_of
from courseware.safework.work import Breach, Work, work_on

Node = tuple[int, tuple[str, ...]]
"""A downset (bit ``i``: step ``i`` is done) and the value of each variable then."""

Paths = Mapping[Node, tuple[Node, int] | None]
"""Every node with one way to it: the node before, and the place of the step taken there; None at the start."""

Moves = Callable[[Node], Iterator[tuple[int, Node]]]
Views = Mapping[tuple[str, ...], State]


@dataclass(frozen=True, slots=True)
class OrderProof:
    """What was found by trying every allowed order.

    Attributes
    ----------
    orders : int
        How many orders are allowed [-], exactly.
    states : int
        How many pairs of steps done and state left were visited [-].
    breach : Breach or None
        None: every allowed order is safe and leaves the job as it should be. Else the earliest thing wrong.
    example : tuple of str
        The author's order; if there is a breach, the steps of one allowed order up to it.
    """

    orders: int
    states: int
    breach: Breach | None
    example: tuple[str, ...]


def prove(safework: SafeWork, trade: Trade, unit: Unit, procedure: Procedure, case: Case = ()) -> OrderProof:
    """Carry a procedure out in every allowed order on a unit.

    Raises
    ------
    TooFreeError
        If there are more states to visit than :data:`courseware.safework.order.LARGEST`.
    """
    return prove_work(work_on(safework, trade, unit, procedure, case))


def prove_work(work: Work) -> OrderProof:
    """Carry a procedure out at a site in every allowed order; see :func:`prove`."""
    variables, start = tuple(work.site.variables), start_of(work.site, work.procedure)
    came_from = _explore(work, tuple(start.values()))
    values = tuple({node[1]: None for node in came_from})
    seen = work.site.see([dict(zip(variables, one, strict=True)) for one in values])
    breach, example = _first_breach(work, came_from, dict(zip(values, seen, strict=True)))
    return OrderProof(count_orders(work.order), len(came_from), breach, example)


def _moves(work: Work) -> Moves:
    """Return a function that yields each step that may come next at a node, by place, and the node it leads to."""
    names = tuple(work.site.variables)
    effects = [
        [(names.index(name), value) for name, value in work.action(step_id).effects.items()] for step_id in work.steps
    ]

    def follow(node: Node) -> Iterator[tuple[int, Node]]:
        done, values = node
        for place in ready(work.order, done):
            changed = list(values)
            for variable, value in effects[place]:
                changed[variable] = value
            yield place, (done | 1 << place, tuple(changed))

    return follow


def _explore(work: Work, start: tuple[str, ...]) -> Paths:
    """Visit every node that some allowed order passes, fewest steps first."""
    follow = _moves(work)
    came_from: dict[Node, tuple[Node, int] | None] = {(0, start): None}
    level: list[Node] = [(0, start)]
    while level:
        following: list[Node] = []
        for node in level:
            for place, reached in follow(node):
                if reached not in came_from:
                    came_from[reached] = (node, place)
                    following.append(reached)
        if len(came_from) > LARGEST:
            raise TooFreeError
        level = following
    return came_from


def _first_breach(work: Work, came_from: Paths, views: Views) -> tuple[Breach | None, tuple[str, ...]]:
    """Try every step at every node; return the first thing wrong and the order up to it, else the author's order."""
    names, follow = tuple(work.steps), _moves(work)
    for node in came_from:
        done, values = node
        position = done.bit_count()
        breach = work.found_so(views[values]) if position == 0 else None
        if breach is not None:
            return breach, ()
        for place, (_, after) in follow(node):
            breach = work.wrong_with(names[place], views[values], views[after], position + 1)
            if breach is not None:
                return breach, (*_order_to(work, came_from, node), names[place])
        if position == len(names):
            so_far = _order_to(work, came_from, node)
            breach = work.not_done(so_far[-1], position, views[values])
            if breach is not None:
                return breach, so_far
    return None, names


def _order_to(work: Work, came_from: Paths, node: Node) -> tuple[str, ...]:
    """Return one allowed order of steps that leads to a node."""
    names, places = tuple(work.steps), []
    came = came_from[node]
    while came is not None:
        node, place = came
        places.append(place)
        came = came_from[node]
    return tuple(names[place] for place in reversed(places))
