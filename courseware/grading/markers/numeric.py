"""Marks a number: right within the tolerance; a value that a known slip leads to is told which."""

from decimal import Decimal
from fractions import Fraction

from courseware.content.words import say
from courseware.grading.markers.base import Verdict
from courseware.quiz.form import Item, KeyEntry
from courseware.quiz.number import read_number


def mark(item: Item, entry: KeyEntry, given: tuple[str, ...]) -> Verdict:
    """Mark a written number."""
    value, tolerance = map(Decimal, entry.right)
    right_answer = (say("grading.with-unit", value=entry.right[0], unit=item.unit).strip(),)
    if not given:
        return Verdict(Fraction(0), (), right_answer)
    answer = Decimal(repr(read_number(given[0], item)))
    if abs(answer - value) <= tolerance:
        return Verdict(Fraction(1), given, right_answer)
    slips = [slip for slip in entry.feedback if abs(answer - Decimal(slip)) <= tolerance][:1]
    told = tuple(entry.feedback[slip] for slip in slips)
    return Verdict(Fraction(0), given, right_answer, told, shown=tuple(slips))
