"""Marks an order of steps: every allowed order has full points.

Credit is Kendall's tau over the pairs whose order is fixed, (concordant - discordant) / pairs, and never below nothing.
A pair that safety fixes is no matter of credit: turning it round breaks its gate.
"""

from fractions import Fraction

from courseware.content.words import say
from courseware.grading.markers.base import Verdict, broken, texts
from courseware.quiz.form import Item, KeyEntry


def mark(item: Item, entry: KeyEntry, given: tuple[str, ...]) -> Verdict:
    """Mark all tags in the order given."""
    right_answer = texts(item, entry.right)
    if not given:
        return Verdict(Fraction(0), (), right_answer)
    place = {tag: position for position, tag in enumerate(given)}
    turned = [(first, later) for first, later in entry.pairs if place[first] > place[later]]
    gates = sorted((gate for gate in entry.gates if gate.tags in turned), key=lambda gate: place[gate.tags[1]])
    credit = Fraction(len(entry.pairs) - 2 * len(turned), len(entry.pairs)) if entry.pairs else Fraction(1)
    worst = [gate.tags for gate in gates] or sorted(turned, key=lambda pair: place[pair[1]])
    words = dict(zip(given, texts(item, given), strict=True))
    against = tuple(say("grading.too-early", later=words[later], first=words[first]) for first, later in worst[:1])
    return Verdict(
        share=max(credit, Fraction(0)),
        chosen=texts(item, given),
        right_answer=right_answer,
        against=against,
        broken=broken(gates[0]) if gates else None,
    )
