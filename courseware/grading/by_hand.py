"""A result with points that a signer gave by hand: score, gate and pass are worked out anew, by the same rule."""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from courseware.grading.mark import tallies
from courseware.grading.result import ItemMark, Result


def with_points(result: Result, points: Mapping[int, Fraction]) -> Result:
    """Return a result in which some items have other points.

    An item that is given all its points is right: then nothing is said against the answer, and it breaks no gate. An
    item that is given fewer keeps its gate, since an answer that could hurt somebody does so whatever it is worth.

    Parameters
    ----------
    result : Result
        As graded.
    points : mapping of int to Fraction
        Points [-] by the number of the item, from 0 to what it can have.

    Returns
    -------
    Result
        The same form, passed or not by the rule of the day it was issued.
    """
    marks = tuple(_with(mark, points.get(mark.number)) for mark in result.marks)
    # Marks are kept as floats for people; the exact value has a small denominator, as every share of a point has.
    exact = [points.get(mark.number, Fraction(mark.points).limit_denominator(10_000)) for mark in marks]
    total = sum(exact, Fraction(0))
    gate_broken = tuple(mark.number for mark in marks if mark.gate_broken is not None)
    return replace(
        result,
        marks=marks,
        points=float(total),
        percent=round(float(100 * total / result.of), 1),
        gate_broken=gate_broken,
        passed=100 * total >= result.needed * result.of and not (result.gate_counts and gate_broken),
        by_objective=tallies(marks),
    )


def _with(mark: ItemMark, points: Fraction | None) -> ItemMark:
    if points is None:
        return mark
    if points < mark.of:
        return replace(mark, points=float(points), right=False)
    return replace(mark, points=float(points), right=True, gate_broken=None, feedback=mark.feedback[-1:], beliefs=())
