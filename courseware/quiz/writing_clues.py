"""Clues by which a question gives its answer away to somebody who knows nothing of the trade.

Rule 28 of Haladyna, Downing and Rodriguez (2002), see :mod:`courseware.quiz.item_writing`: specific determiners such as
"always", clang associations (a word of the stem that comes back in the right option alone), and a stem whose grammar
fits some options only. The lists of words are this program's own.
"""

import re
from collections.abc import Iterator, Sequence
from typing import Final

from courseware.content.words import say

_ABSOLUTE: Final = re.compile(
    r"\b(always|never|only|completely|entirely|totally|absolutely|certainly)\b", re.IGNORECASE
)
_OPEN_ARTICLE: Final = re.compile(r"\b(an?)[\s:.]*$", re.IGNORECASE)
_WORD: Final = re.compile(r"[a-z]{5,}")
_ENDING: Final = re.compile(r"(?:ings?|ed|es|s|er|ers)$")
_COMMON: Final = frozenset(
    re.findall(
        r"\w+",
        "about after again against another answer before below between could every first following found heater "
        "heaters might other right shall should since still their there these thing things those three under until "
        "using which while whose would wrong where yours",
    )
)


def clues(right: str, wrong: Sequence[str], stem: Sequence[str] = ()) -> Iterator[str]:
    """Yield what gives the right option of a question away.

    Parameters
    ----------
    right : str
        The right option.
    wrong : sequence of str
        The others.
    stem : sequence of str
        Paragraphs of the stem; the last one asks.
    """
    yield from _absolutes(right, wrong)
    article = _OPEN_ARTICLE.search(stem[-1]) if stem else None
    if article:
        yield say("quiz.writing-open-article", found=article[1])
    asked = _words(" ".join(stem))
    echoes = [_words(option) & asked for option in wrong]
    clang = (_words(right) & asked).difference(*echoes)
    if clang and not any(echoes):
        yield say("quiz.writing-clang", word=min(clang))


def _absolutes(right: str, wrong: Sequence[str]) -> Iterator[str]:
    """Yield an absolute word that the right option and the wrong ones do not share: few things are always so."""
    in_right = _ABSOLUTE.search(right)
    in_wrong = [match for option in wrong if (match := _ABSOLUTE.search(option))]
    if in_right and not in_wrong:
        yield say("quiz.writing-absolute-key", word=in_right[0])
    if in_wrong and not in_right:
        yield say("quiz.writing-absolute", word=in_wrong[0][0])


def _words(text: str) -> frozenset[str]:
    """Return the longer words of a text without their endings, less those that stand in any question."""
    return frozenset(_ENDING.sub("", word) for word in _WORD.findall(text.casefold()) if word not in _COMMON)
