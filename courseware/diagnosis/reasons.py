"""Why a question has no proof: each function says in words what is missing, or nothing if nothing is.

The figures that decide stand here. 0.02 and 0.95 bound what "stands" and what is "settled", and
0.10 what is "near the best": they are this course's rule for a fair question.
"""

from collections.abc import Mapping
from typing import Final

import numpy as np

from courseware.content.words import say
from courseware.diagnosis.gain import Gain
from courseware.diagnosis.posterior import Posterior
from courseware.diagnosis.signatures import Signatures
from courseware.diagnosis.space import Flags, Floats
from courseware.diagnosis.wording import quoted, reading_words, repair_titles

STANDING: Final = 0.02
"""A hypothesis or repair above this probability [-] still stands."""
SETTLED: Final = 0.95
"""A repair at or above this probability [-] is settled."""
EXPLAINED: Final = 0.05
"""A reading less likely than this [-] after all is a slip of the instrument that would only mislead."""
NEAR_BEST: Final = 0.10
"""A check within this share [-] of the best gain per minute is as good an answer as the best."""
LEAST_BITS: Final = 0.10
"""A best check that tells less than this [bit] is not worth asking for."""
FEWEST_RIVALS: Final = 2


def odd_reading(signatures: Signatures, evidence: Mapping[str, str], belief: Posterior) -> str:
    """Say which reading stays unexplained by all that is believed."""
    for reading in evidence.items():
        if float(signatures.rows[signatures.row_of[reading]] @ belief.atoms) < EXPLAINED:
            return say("diagnosis.no-proof-odd", reading=reading_words(signatures, *reading), least=percent(EXPLAINED))
    return ""


def not_settled(signatures: Signatures, belief: Posterior, common: Flags, called: Floats) -> str:
    """Say why the repairs common to all that stands are not the one right answer.

    Parameters
    ----------
    signatures, belief
        The predictions, and what is believed after the evidence.
    common : array of bool, (r,)
        The repairs that every standing hypothesis needs.
    called : array, (r,)
        Probability [-] that each repair is called for.
    """
    space, names = signatures.space, list(signatures.space.repairs)
    if not common.any():
        healthy = float(belief.hypotheses[space.size == 0].sum())
        standing = [repair for repair, chance in belief.repairs.items() if chance > STANDING]
        key = "diagnosis.no-proof-nothing-wrong" if healthy > STANDING else "diagnosis.no-proof-no-common"
        return say(key, repairs=repair_titles(signatures, standing) or say("diagnosis.nobody"))
    joint = float(belief.hypotheses @ space.needs[:, common].all(axis=1))
    if joint < SETTLED:
        key = repair_titles(signatures, likeliest(belief, common))
        return say("diagnosis.no-proof-unsure", repairs=key, percent=percent(joint), least=percent(SETTLED))
    weakest = int(np.argmin(np.where(common, called, np.inf)))
    if called[weakest] < SETTLED:
        return say("diagnosis.no-proof-not-called-for", repair=quoted(signatures, names[weakest]))
    strongest = int(np.argmax(np.where(common, -np.inf, called)))
    if not common[strongest] and called[strongest] > 1 - SETTLED:
        repair = quoted(signatures, names[strongest])
        return say("diagnosis.no-proof-open", repair=repair, percent=percent(called[strongest]))
    return ""


def no_choice_of_checks(
    signatures: Signatures, belief: Posterior, found: tuple[Gain, ...], near: tuple[str, ...]
) -> str:
    """Say why asking for the next check would be no fair question; ``found`` is sorted, ``near`` its best."""
    settled = [repair for repair, chance in belief.repairs.items() if chance >= SETTLED]
    if settled:
        return say("diagnosis.no-proof-settled", repair=repair_titles(signatures, settled))
    if not found or found[0].bits < LEAST_BITS:
        return say("diagnosis.no-proof-tells-nothing", bits=f"{found[0].bits if found else 0:.2f}")
    return say("diagnosis.no-proof-all-good") if len(near) == len(found) else ""


def no_clear_rivals(signatures: Signatures, key: tuple[str, ...], called: Floats) -> str:
    """Say why the rivals are too few, or which repair is neither a rival nor ruled out."""
    if len(key) < FEWEST_RIVALS:
        repairs = repair_titles(signatures, key) or say("diagnosis.nobody")
        return say("diagnosis.no-proof-too-few-rivals", repairs=repairs)
    half_out = (called > STANDING) & (called < 1 - SETTLED)
    if half_out.any():
        worst = int(np.argmax(np.where(half_out, called, 0.0)))
        repair = quoted(signatures, list(signatures.space.repairs)[worst])
        return say("diagnosis.no-proof-half-out", repair=repair, percent=percent(called[worst]))
    return ""


def likeliest(belief: Posterior, chosen: Flags) -> tuple[str, ...]:
    """Return the chosen repairs, (r,), by id, the likeliest first."""
    named = zip(belief.repairs.items(), chosen, strict=True)
    return tuple(
        repair for repair, _ in sorted((one for one, kept in named if kept), key=lambda one: (-one[1], one[0]))
    )


def percent(probability: float) -> str:
    """Return a probability [-] as a person reads it."""
    return f"{100 * probability:.0f} %"
