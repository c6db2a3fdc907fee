"""Marks an answer chosen from a list: all points or none."""

from fractions import Fraction

from courseware.grading.markers.base import Verdict, broken, texts
from courseware.quiz.form import Item, KeyEntry


def mark(item: Item, entry: KeyEntry, given: tuple[str, ...]) -> Verdict:
    """Mark one chosen tag; an unsafe one breaks its gate."""
    gates = [gate for gate in entry.gates if gate.tags == given]
    against = tuple(entry.feedback[tag] for tag in given if tag in entry.feedback)
    return Verdict(
        share=Fraction(given == entry.right),
        chosen=texts(item, given),
        right_answer=texts(item, entry.right),
        against=against,
        broken=broken(gates[0]) if gates else None,
        shown=() if given == entry.right else given,
    )
