"""The order in which the parts of a unit are stepped: each after the parts that feed it."""

from collections.abc import Iterable
from graphlib import CycleError, TopologicalSorter

from courseware.heater.unit import Part


class LoopError(ValueError):
    """Parts feed each other in a circle without a late input in it; ``parts`` names them."""

    def __init__(self, parts: tuple[str, ...]) -> None:
        super().__init__(" -> ".join(parts))
        self.parts = parts


def stepping_order(parts: Iterable[Part]) -> tuple[Part, ...]:
    """Return the parts so that each stands after those whose present outputs it reads.

    Late inputs bring the value of the step before, so they ask for no order.

    Raises
    ------
    LoopError
        If there is no such order.
    """
    by_id = {part.id: part for part in parts}
    feeds = {part.id: _fed_by(part) & by_id.keys() for part in by_id.values()}
    try:
        order = tuple(TopologicalSorter(feeds).static_order())
    except CycleError as error:
        raise LoopError(tuple(error.args[1])) from None
    return tuple(by_id[one] for one in order)


def _fed_by(part: Part) -> set[str]:
    present = {port.name for port in part.behaviour.inputs if not port.late}
    return {ref.partition(".")[0] for name, ref in part.wires.items() if name in present}
