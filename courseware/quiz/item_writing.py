"""Rules for writing questions that a program can hold.

From the 31 rules of Haladyna, Downing and Rodriguez (2002), "A review of multiple-choice item-writing guidelines
for classroom assessment", Applied Measurement in Education 15(3), 309-334. The rules' numbers are theirs; all but
20 and 23 are quoted from memory.
"""

import re
from collections.abc import Sequence
from typing import Final

from courseware.content.words import say

FEWEST_OPTIONS: Final = 3
MOST_OPTIONS: Final = 5
LONGEST_KEY: Final = 1.6

_ALL_OR_NONE: Final = re.compile(r"\b(all|none|both|neither) of (the|these)\b|\b[A-E] (and|or) [A-E]\b", re.IGNORECASE)
_NEGATIVE: Final = re.compile(r"\b(not|except|never|least)\b")
_NUMBER: Final = re.compile(r"[-\u2212]?[0-9][0-9,]*(?:\.[0-9]+)?")
_ASKING: Final = ("?", ".", ":")


def faults_of_stem(stem: Sequence[str]) -> tuple[str, ...]:
    """Return what is wrong with a stem: it must ask or instruct (15), a negative word in it must stand out (17)."""
    asks = stem[-1] if stem else ""
    found = []
    if not asks.endswith(_ASKING):
        found.append(say("quiz.writing-no-question", found=asks))
    negative = _NEGATIVE.search(asks)
    if negative and asks.endswith("?"):
        found.append(say("quiz.writing-negative", word=negative[0]))
    return tuple(found)


def faults_of_options(options: Sequence[str]) -> tuple[str, ...]:
    """Return what is wrong with a set of options.

    Three to five of them (18), none twice (22), none that speaks of the others (9, 25, 26), numbers
    smallest first (21).
    """
    found = []
    if not FEWEST_OPTIONS <= len(options) <= MOST_OPTIONS:
        found.append(say("quiz.writing-count", count=len(options), least=FEWEST_OPTIONS, most=MOST_OPTIONS))
    plain = [" ".join(option.casefold().rstrip(".").split()) for option in options]
    found += [say("quiz.writing-twice", found=one) for i, one in enumerate(options) if plain[i] in plain[:i]]
    found += [say("quiz.writing-all-or-none", found=one) for one in options if _ALL_OR_NONE.search(one)]
    numbers = numbers_of(options)
    if numbers and sorted(numbers) != numbers:
        found.append(say("quiz.writing-numbers", found=", ".join(options)))
    return tuple(found)


def faults_of_key(right: str, wrong: Sequence[str]) -> tuple[str, ...]:
    """Return what gives the right option away: being much longer than every other (24)."""
    longest = max((len(one) for one in wrong), default=0)
    return (say("quiz.writing-long-key", found=right),) if len(right) > LONGEST_KEY * longest else ()


def numbers_of(options: Sequence[str]) -> list[float]:
    """Return the numbers that the options are, if each of them starts with one; else nothing."""
    matches = [_NUMBER.match(option) for option in options]
    if not all(matches):
        return []
    return [float(match[0].replace(",", "").replace("\u2212", "-")) for match in matches if match]
