"""Marks every answer that applies, chosen from a list: a share of the points for a part of it.

The share is the part of the right options that was chosen, less the part of the wrong ones that was, and never below
nothing. That is Peirce's skill score (C. S. Peirce, "The numerical measure of the success of predictions", Science 4,
1884), the same as Youden's index (W. J. Youden, Cancer 3, 1950). Like Kendall's tau for an order, before it is cut
off at nothing it is 0 on the average for any way of choosing that knows nothing: one option, some by chance, or all
of them. All or nothing would mark one slip in six like no knowledge at all. An unsafe choice is no matter of credit:
it breaks its gate.
"""

from fractions import Fraction

from courseware.content.words import say
from courseware.grading.markers.base import Verdict, broken, texts
from courseware.quiz.form import Gate, Item, KeyEntry


def mark(item: Item, entry: KeyEntry, given: tuple[str, ...]) -> Verdict:
    """Mark the chosen tags, in any order; left blank, the answer breaks no gate."""
    right, chosen = set(entry.right), set(given)
    tags = [option.tag for option in item.options]
    right_answer = texts(item, tuple(tag for tag in tags if tag in right))
    if not given:
        return Verdict(Fraction(0), (), right_answer)
    wrong_at = tuple(tag for tag in tags if (tag in right) != (tag in chosen))
    gates = [gate for gate in entry.gates if _breaks(gate, wrong_at)]
    return Verdict(
        share=credit(len(right & chosen), len(right), len(chosen - right), len(tags) - len(right)),
        chosen=texts(item, tuple(tag for tag in tags if tag in chosen)),
        right_answer=right_answer,
        against=tuple(_told(item, entry, tag) for tag in wrong_at if tag in entry.feedback),
        broken=broken(gates[0]) if gates else None,
        shown=wrong_at,
    )


def _breaks(gate: Gate, wrong_at: tuple[str, ...]) -> bool:
    """Say whether an answer goes wrong where a gate stands: an unsafe option chosen, or a needed one left out."""
    return gate.tags[0] in wrong_at


def _told(item: Item, entry: KeyEntry, tag: str) -> str:
    """Return why an option belongs to the answer, or does not, with its text in front."""
    (option,) = texts(item, (tag,))
    key = "grading.applies-too" if tag in entry.right else "grading.applies-not"
    return say(key, option=option.removesuffix("."), reason=entry.feedback[tag])


def credit(hits: int, right: int, false: int, wrong: int) -> Fraction:
    """Return the share of the points [-].

    Parameters
    ----------
    hits, right : int
        Right options chosen, and right options in all [-].
    false, wrong : int
        Wrong options chosen, and wrong options in all [-].

    Examples
    --------
    >>> credit(2, 3, 0, 2), credit(3, 3, 2, 2)
    (Fraction(2, 3), Fraction(0, 1))
    """
    return max(Fraction(hits, right) - Fraction(false, wrong), Fraction(0))
