"""Rules of writing questions that no question breaks by itself: between the questions of a form, and over a whole bank.

Rules 4 and 24 of Haladyna, Downing and Rodriguez (2002), see :mod:`courseware.quiz.item_writing`.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from courseware.content.words import say
from courseware.quiz.bank import Template
from courseware.quiz.kinds.base import Drawn
from courseware.quiz.layout import Question

FEWEST_WORDS: Final = 3
"""An answer of fewer words [-] may stand in another stem by chance."""
FAR: Final = 2.0
"""A count this many standard deviations [-] above what chance would make it is no chance."""


def told_by_another(questions: Sequence[Question]) -> Iterator[tuple[Template, str]]:
    """Yield the templates of a form whose stem holds the answer to another question of the form (4)."""
    for template, drawn in questions:
        shown = _plain(" ".join(drawn.stem))
        for other, asked in questions:
            if other is not template:
                for answer in _answers(asked):
                    if len(answer.split()) >= FEWEST_WORDS and _plain(answer) in shown:
                        yield template, say("quiz.writing-tells", found=answer, other=other.id)


def _plain(text: str) -> str:
    return " ".join(text.casefold().rstrip(".").split())


def _answers(drawn: Drawn) -> list[str]:
    if drawn.number is not None or drawn.pairs:
        return []
    return [drawn.options[place].text for place in drawn.several or (drawn.right,)]


def key_by_length(written: Iterable[tuple[Template, Sequence[str]]]) -> Iterator[tuple[Template, str]]:
    """Yield the template where the right option stands out most, if it is the longest or the shortest too often (24).

    Parameters
    ----------
    written : iterable of (Template, sequence of str)
        Each written question of a single choice with its options, the right one first.
    """
    questions = [(template, [len(option) for option in options]) for template, options in written]
    chances = [1 / len(lengths) for _, lengths in questions]
    expected, spread = sum(chances), math.sqrt(sum(chance * (1 - chance) for chance in chances))
    longest = {place: key / max(rest) for place, (_, (key, *rest)) in enumerate(questions) if key > max(rest)}
    shortest = {place: min(rest) / key for place, (_, (key, *rest)) in enumerate(questions) if key < min(rest)}
    for key, found in (("longest", longest), ("shortest", shortest)):
        if len(found) > expected + FAR * spread:
            template = questions[max(found, key=lambda place: found[place])][0]
            counts = {key: len(found), "all": len(questions), "expected": f"{expected:.0f}"}
            yield template, say(f"quiz.writing-key-{key}", **counts)
