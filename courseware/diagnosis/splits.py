"""What a check would show for each repair that is left: how it would divide them, told in the trade's words."""

from collections.abc import Mapping
from typing import Final

import numpy as np

from courseware.content.words import say
from courseware.diagnosis.posterior import Posterior
from courseware.diagnosis.reasons import STANDING
from courseware.diagnosis.signatures import Signatures
from courseware.diagnosis.wording import lowered, outcome_words, repair_titles

MOST_NAMED: Final = 3
"""Repairs that a sentence names on one side of a split [-]; more are counted."""


def repairs_left(belief: Posterior) -> tuple[str, ...]:
    """Return the repairs that still stand, the likeliest first."""
    left = [(repair, chance) for repair, chance in belief.repairs.items() if chance > STANDING]
    return tuple(repair for repair, _ in sorted(left, key=lambda one: (-one[1], one[0])))


def split(signatures: Signatures, belief: Posterior, check_id: str) -> Mapping[str, tuple[str, ...]]:
    """Return the repairs left by the outcome that each makes likeliest.

    Parameters
    ----------
    signatures : Signatures
        The unit's predictions.
    belief : Posterior
        What is believed before the check is made.
    check_id : str
        The check.

    Returns
    -------
    mapping of outcome to tuple of str
        The outcome that stands for most repairs first. A repair whose grades read differently stands where the
        greater part of its probability lies.
    """
    table, outcomes = signatures.tables[check_id], signatures.outcomes[check_id]
    space, names = signatures.space, list(signatures.space.repairs)
    found: dict[str, list[str]] = {}
    for repair in repairs_left(belief):
        needs = space.needs[space.atom_hypothesis, names.index(repair)]
        chances = (belief.atoms * needs) @ table
        found.setdefault(outcomes[int(np.argmax(chances))], []).append(repair)
    return {outcome: tuple(some) for outcome, some in sorted(found.items(), key=lambda one: -len(one[1]))}


def split_in_words(signatures: Signatures, belief: Posterior, check_id: str) -> str:
    """Return the same as a clause: what it would show for whom, and for how many it would read the same."""
    (same, most), *others = split(signatures, belief, check_id).items()
    if not others:
        words = lowered(outcome_words(signatures, check_id, same))
        return say("diagnosis.split-none", count=len(most), words=words)
    parts = [
        say(
            "diagnosis.split-part",
            words=lowered(outcome_words(signatures, check_id, outcome)),
            repairs=repair_titles(signatures, some)
            if len(some) <= MOST_NAMED
            else say("diagnosis.split-count", count=len(some)),
        )
        for outcome, some in others
    ]
    rest = say("diagnosis.split-rest-one" if len(most) == 1 else "diagnosis.split-rest", count=len(most))
    return say("diagnosis.clash-joint").join([*parts, rest])
