"""Rules for writing questions that a program can hold.

From the 31 rules of Haladyna, Downing and Rodriguez (2002), "A review of multiple-choice item-writing guidelines
for classroom assessment", Applied Measurement in Education 15(3), 309-334. The rules' numbers are theirs, and each
message names its rule; all but 20 and 23 are quoted from memory, and every limit in figures is this program's own. What
the rest of the rules ask is held elsewhere or by nobody:

* 1, 2: an item names its objective, and an objective its lesson (:mod:`courseware.quiz.load`);
* 4 and, over a whole bank, 24: :mod:`courseware.quiz.whole_bank`;
* 10: the pages set one option below the other;
* 19: kinds that draw from the model keep a question only with its proof; an author's question has one ``right``;
* 20: places are drawn by chance that knows nothing of what is right (:mod:`courseware.quiz.layout`);
* 29, 30: wrong options name their misconception (:mod:`courseware.quiz.misconceptions`);
* 3, 5 to 7, 31: a reader's judgment.
"""

import re
from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import Final

from courseware.content.readability import count
from courseware.content.words import say
from courseware.quiz.writing_clues import clues

FEWEST_OPTIONS: Final = 3
MOST_OPTIONS: Final = 5
FEWEST_SEVERAL: Final = 4
MOST_SEVERAL: Final = 6
FEWEST_RIGHT: Final = 2
LONGEST_KEY: Final = 1.6
"""The right option is at most this many times [-] as long as the longest other, or as short as the shortest."""
LONGEST_OPTION: Final = 3.0
"""The longest option is at most this many times [-] as long as the shortest, where it fills more than a line."""
A_LINE: Final = 60
"""Characters [-] of a line on a phone."""
LONGEST_STEM: Final = 120
"""Words [-] of a stem."""
HIGHEST_GRADE: Final = 9.0
"""School grade [-], Flesch-Kincaid, at which stem and options read at most."""

_ALL_OR_NONE: Final = re.compile(
    r"\b(all|none|both|neither|any) of (the|these|them)\b|\b[A-E] (and|or) [A-E]\b|\ball (the )?others\b", re.IGNORECASE
)
_NEGATIVE: Final = re.compile(r"\b(not|except|never|least|cannot|can't|don't|doesn't|isn't)\b")
_NUMBER: Final = re.compile(r"[-\u2212]?[0-9][0-9,]*(?:\.[0-9]+)?")
_RANGE: Final = re.compile(r"(?:from )?([0-9][0-9,.]*)(?: [^ ]+)? (?:to|and|-|\u2013) (?:below )?([0-9][0-9,.]*)")
_DOUBLED: Final = re.compile(r"\b([A-Za-z]+) \1\b", re.IGNORECASE)
_ARTICLE: Final = re.compile(r"\b(?:a [aeio][a-z]+|an [bcdfgjkpqtvwz][a-z]*)\b")
_SOUNDS_LIKE_YOU: Final = re.compile(r"\ba (?:one|once)\b", re.IGNORECASE)
_ASKING: Final = ("?", ".", ":")
_OPENERS: Final = (
    re.compile(r"(?:because|since)\b", re.IGNORECASE),
    re.compile(r"to [a-z]+", re.IGNORECASE),
    re.compile(r"(?:yes|no|not yet)[,.;]", re.IGNORECASE),
    re.compile(r"[a-z]{3,}ing (?:the|an?|your|it|up|to|no)\b", re.IGNORECASE),
)
"""Ways to open an option that all options of a question share or none (23)."""
_APPLIES: Final = re.compile(r"\b(?:every|each)\b")


def faults_of_stem(stem: Sequence[str]) -> tuple[str, ...]:
    """Return what is wrong with a stem.

    It asks or instructs (14, 15), a negative word that it turns on stands out (17), it is short (16) and clean (12).
    """
    asks = stem[-1] if stem else ""
    found = []
    if not asks.endswith(_ASKING):
        found.append(say("quiz.writing-no-question", found=asks))
    negative = _NEGATIVE.search(asks)
    if negative and asks.endswith("?"):
        found.append(say("quiz.writing-negative", word=negative[0]))
    words = sum(len(paragraph.split()) for paragraph in stem)
    if words > LONGEST_STEM:
        found.append(say("quiz.writing-long-stem", words=words, limit=LONGEST_STEM))
    return (*found, *_slips_of_the_pen(stem))


def faults_of_options(options: Sequence[str]) -> tuple[str, ...]:
    """Return what is wrong with a set of options.

    Three to five of them (18), none twice or inside another (22), none that speaks of the others (9, 25, 26), numbers
    smallest first (21), all of one form (23) and about one length (24), clean (11, 12).
    """
    found = []
    if not FEWEST_OPTIONS <= len(options) <= MOST_OPTIONS:
        found.append(say("quiz.writing-count", count=len(options), least=FEWEST_OPTIONS, most=MOST_OPTIONS))
    numbers = numbers_of(options)
    if numbers and sorted(numbers) != numbers:
        found.append(say("quiz.writing-numbers", found=", ".join(options)))
    return (*found, *_faults_of_any(options))


def faults_of_drawn(options: Sequence[str], *, several: bool) -> tuple[str, ...]:
    """Return what is wrong with options that are titles out of the model: their number (18), and whether they meet.

    Their length and form are the model's, and the same title is right in one draw and wrong in the next.
    """
    least, most = (FEWEST_SEVERAL, MOST_SEVERAL) if several else (FEWEST_OPTIONS, MOST_OPTIONS)
    count_right = least <= len(options) <= most
    found = () if count_right else (say("quiz.writing-count", count=len(options), least=least, most=most),)
    return (*found, *_meet(options))


def _meet(options: Sequence[str]) -> Iterator[str]:
    """Yield options that are one another, stand in one another, or speak of one another (9, 22, 25, 26)."""
    plain = [" ".join(option.casefold().rstrip(".").split()) for option in options]
    yield from (say("quiz.writing-twice", found=one) for i, one in enumerate(options) if plain[i] in plain[:i])
    yield from (say("quiz.writing-all-or-none", found=one) for one in options if _ALL_OR_NONE.search(one))
    yield from _overlaps(options, plain)


def _faults_of_any(options: Sequence[str]) -> Iterator[str]:
    yield from _meet(options)
    yield from _not_parallel(options)
    lengths = sorted(map(len, options))
    if lengths and lengths[-1] > max(LONGEST_OPTION * lengths[0], A_LINE):
        longest, shortest = max(options, key=len), min(options, key=len)
        yield say("quiz.writing-lengths", longest=longest, shortest=shortest)
    yield from _slips_of_the_pen(options)


def faults_of_key(right: str, wrong: Sequence[str], stem: Sequence[str] = ()) -> tuple[str, ...]:
    """Return what gives the right option away: its length (24), or a word that it has and the others lack (28)."""
    found = []
    lengths = [len(one) for one in wrong]
    if lengths and len(right) > LONGEST_KEY * max(lengths):
        found.append(say("quiz.writing-long-key", found=right))
    if lengths and len(right) * LONGEST_KEY < min(lengths):
        found.append(say("quiz.writing-short-key", found=right))
    return (*found, *clues(right, wrong, stem))


def faults_of_several(stem: Sequence[str], right: Sequence[str], wrong: Sequence[str]) -> tuple[str, ...]:
    """Return what is wrong with a question that takes every option that applies.

    Four to six options (18), two or more right and one or more wrong, the question says that every one counts (14);
    the rest as for other options. That the right ones are longer on the whole is a clue as well (24).
    """
    found = []
    options = (*right, *wrong)
    if not FEWEST_SEVERAL <= len(options) <= MOST_SEVERAL:
        found.append(say("quiz.writing-count", count=len(options), least=FEWEST_SEVERAL, most=MOST_SEVERAL))
    if len(right) < FEWEST_RIGHT or not wrong:
        found.append(say("quiz.writing-right", right=len(right), wrong=len(wrong), least=FEWEST_RIGHT))
    if stem and not _APPLIES.search(stem[-1].casefold()):
        found.append(say("quiz.writing-every", found=stem[-1]))
    if right and wrong and min(map(len, right)) > LONGEST_KEY * max(map(len, wrong)):
        found.append(say("quiz.writing-long-key", found=min(right, key=len)))
    return (*found, *_faults_of_any(options))


def faults_of_reading(texts: Sequence[str]) -> tuple[str, ...]:
    """Return a fault if stem and options together read above grade 9 (8, 13)."""
    grade = count("\n".join(texts)).grade
    return (say("quiz.writing-grade", grade=f"{grade:.1f}", limit=f"{HIGHEST_GRADE:g}"),) * (grade > HIGHEST_GRADE)


def numbers_of(options: Sequence[str]) -> list[float]:
    """Return the numbers that the options are, if each of them starts with one; else nothing."""
    matches = [_NUMBER.match(option) for option in options]
    if not all(matches):
        return []
    return [_float(match[0]) for match in matches if match]


def _float(text: str) -> float:
    return float(text.rstrip(".,").replace(",", "").replace("\u2212", "-"))


def _overlaps(options: Sequence[str], plain: Sequence[str]) -> Iterator[str]:
    """Yield options that stand inside another one, and ranges that share more than an edge (22)."""
    for one, other in combinations(range(len(options)), 2):
        short, long = sorted((one, other), key=lambda place: len(plain[place]))
        if plain[short] != plain[long] and re.search(rf"(?<!\w){re.escape(plain[short])}(?!\w)", plain[long]):
            yield say("quiz.writing-inside", short=options[short], long=options[long])
        first, second = _RANGE.match(options[one]), _RANGE.match(options[other])
        if first and second:
            low, high = max(_float(first[1]), _float(second[1])), min(_float(first[2]), _float(second[2]))
            if low < high:
                yield say("quiz.writing-ranges", one=options[one], other=options[other])


def _not_parallel(options: Sequence[str]) -> Iterator[str]:
    """Yield differences of form among the options: units, end of the sentence, opening words (23)."""
    if numbers_of(options) and len({_NUMBER.sub("", option).strip() for option in options}) > 1:
        yield say("quiz.writing-units", found=", ".join(options))
    if len({option.endswith(".") for option in options}) > 1:
        yield say("quiz.writing-stops", found=next(option for option in options if not option.endswith(".")))
    for opener in _OPENERS:
        opened = [option for option in options if opener.match(option)]
        if opened and len(opened) < len(options):
            yield say("quiz.writing-openers", found=opened[0])


def _slips_of_the_pen(texts: Sequence[str]) -> Iterator[str]:
    """Yield doubled words, and articles that do not go with their word (11, 12)."""
    for text in texts:
        doubled = _DOUBLED.search(text)
        if doubled:
            yield say("quiz.writing-doubled", found=doubled[0])
        article = _ARTICLE.search(text)
        if article and not _SOUNDS_LIKE_YOU.match(article[0]):
            yield say("quiz.writing-article", found=article[0])
