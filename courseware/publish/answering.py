"""How each kind of question is answered on a page or a sheet.

The kinds are the quiz's; here stands only which of the few ways of answering each one uses, so that a new
kind with a known way of answering is one entry.
"""

from collections.abc import Mapping
from typing import Final

from courseware.quiz.form import Item

CHOOSE: Final = "choose"
WRITE: Final = "write"
ARRANGE: Final = "arrange"
SEVERAL: Final = "several"

#: One answer of a list, a number, all steps in an order, or every answer that applies.
WAYS: Final[Mapping[str, str]] = {
    "scenario": CHOOSE,
    "choice": CHOOSE,
    "multiple-choice": SEVERAL,
    "numeric": WRITE,
    "ordering": ARRANGE,
}


def way_of(item: Item) -> str:
    """Return how an item is answered: ``choose``, ``several``, ``write`` or ``arrange``.

    Raises
    ------
    KeyError
        If the kind has no entry: our fault, and a test holds the two lists together.
    """
    return WAYS[item.kind]
