"""Explanations in the trade's words: which shown readings speak against a wrong answer, and what each rules out."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from courseware.content.words import say
from courseware.diagnosis.posterior import posterior
from courseware.diagnosis.proof import Proof
from courseware.diagnosis.signatures import COMPLAINT, Signatures
from courseware.diagnosis.space import Floats
from courseware.diagnosis.wording import lowered, outcome_words, quoted, reading_words, repair_titles

WORTH_SAYING: Final = 2.0
"""A reading half as likely under the wrong answer [-] is worth a sentence; two of them may refute it together."""
LIKELY: Final = 0.1
"""Outcomes above this probability [-] are named as what the wrong answer would have shown."""

DULL: Final = 0.02
"""A check that tells less than this [bit] is said to tell nothing new."""


@dataclass(frozen=True, slots=True)
class Against:
    """One shown reading that speaks against a repair.

    Attributes
    ----------
    check, outcome : str
        The reading; the check is ``COMPLAINT`` for what the customer says.
    likelihood_ratio : float
        How many times [-] likelier the reading is by all that is shown than if the repair's fault were the
        whole trouble; infinite if that fault never gives it.
    sentence : str
        The same for a trainee.
    """

    check: str
    outcome: str
    likelihood_ratio: float
    sentence: str


def against(
    signatures: Signatures,
    complaint: str | None,
    evidence: Mapping[str, str],
    repair: str,
    values: Mapping[str, str] | None = None,
) -> tuple[Against, ...]:
    """Return the shown readings that speak against a repair as the answer, the strongest first.

    Each is weighed by itself against the repair's faults alone, one at a time, that would bring the
    complaint (or, if none would, all of them: then the complaint itself speaks against it).

    Parameters
    ----------
    signatures, complaint, evidence
        As for :func:`~courseware.diagnosis.posterior.posterior`, with its errors.
    repair : str
        Id of the repair that is not the answer.
    values : mapping of check id to str, optional
        Values read, as shown to the trainee.

    Returns
    -------
    tuple of Against
        Empty if no reading shown makes the repair at least twice less likely.
    """
    belief = posterior(signatures, complaint, evidence).atoms
    supposed = _supposed(signatures, complaint, repair)
    names = ([] if complaint is None else [(COMPLAINT, complaint)]) + list(evidence.items())
    found = []
    for check, outcome in names:
        row = signatures.rows[signatures.row_of[check, outcome]]
        seen, expected = float(row @ belief), float(row @ supposed)
        ratio = seen / expected if expected else np.inf
        if ratio >= WORTH_SAYING:
            reading = reading_words(signatures, check, outcome, values)
            instead = _expected(signatures, check, outcome, supposed)
            key = "diagnosis.against" if check else "diagnosis.against-complaint"
            words = say(key, reading=reading, repair=quoted(signatures, repair), expected=instead)
            found.append(Against(check, outcome, ratio, words))
    return tuple(sorted(found, key=lambda one: -one.likelihood_ratio))


def _supposed(signatures: Signatures, complaint: str | None, repair: str) -> Floats:
    """Return the atoms' probabilities [-] if a fault that the repair mends is the whole trouble."""
    space = signatures.space
    alone = (space.size == 1) & space.needs[:, list(space.repairs).index(repair)]
    weights = np.where(alone[space.atom_hypothesis], space.atom_weight, 0.0)
    if complaint is not None:
        complaining = weights * signatures.rows[signatures.row_of[COMPLAINT, complaint]]
        weights = complaining if complaining.any() else weights
    return np.asarray(weights / weights.sum())


def _expected(signatures: Signatures, check: str, outcome: str, supposed: Floats) -> str:
    """Return what would have been found instead, the likeliest first."""
    options = signatures.outcomes[check] if check else tuple(signatures.said)
    chances = [(float(signatures.rows[signatures.row_of[check, one]] @ supposed), one) for one in options]
    likely = [one for chance, one in sorted(chances, key=lambda pair: -pair[0]) if chance > LIKELY and one != outcome]
    words = (outcome_words(signatures, check, one) for one in likely)
    return say("diagnosis.or-joint" if check else "diagnosis.or-joint-said").join(
        map(lowered, words) if check else words
    )


def about_check(
    signatures: Signatures, complaint: str | None, evidence: Mapping[str, str], proof: Proof, check_id: str
) -> str:
    """Return why a check is, or is not, the one to make next.

    Parameters
    ----------
    signatures, complaint, evidence
        As the proof was made from.
    proof : Proof
        A proof about the next check that holds.
    check_id : str
        One of the checks in its ``gains``.
    """
    gain, best = next(one for one in proof.gains if one.check == check_id), proof.gains[0]
    title, minutes = signatures.check(check_id).title, f"{gain.minutes:g}"
    if check_id in proof.key:
        return say("diagnosis.check-best", title=title, minutes=minutes)
    if gain.bits < DULL:
        belief = posterior(signatures, complaint, evidence, proof.premise).atoms
        return say("diagnosis.check-dull", title=title, expected=_expected(signatures, check_id, "", belief))
    times = f"{best.per_minute / gain.per_minute:.2g}"
    best_title = signatures.check(best.check).title
    return say("diagnosis.check-slow", title=title, minutes=minutes, best=best_title, times=times)


def proof_in_words(signatures: Signatures, proof: Proof, values: Mapping[str, str] | None = None) -> tuple[str, ...]:
    """Return the lines of a proof as sentences: each reading, and what it rules out."""
    return tuple(
        say(
            f"diagnosis.ruled-out{'' if line.repairs else '-nothing'}{'' if line.check else '-complaint'}",
            reading=reading_words(signatures, line.check, line.outcome, values),
            repairs=repair_titles(signatures, line.repairs),
        )
        for line in proof.lines
    )
