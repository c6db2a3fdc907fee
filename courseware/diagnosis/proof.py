"""Proofs that a question has one right answer, by the kind of question.

A proof is made from the exact posterior; what it claims, and how far, is said at each function.
The figures that decide are few and stand here. 0.02 and 0.95 bound what "stands" and what is
"settled". The Bayes factors follow R. E. Kass and A. E. Raftery, "Bayes factors", J. Am. Stat.
Assoc. 90 (1995) 773-795, section 3.2 (from memory): up to 3 is "not worth more than a bare mention",
above 20 is "strong".
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from courseware.content.words import say
from courseware.diagnosis.gain import Gain, gains_after
from courseware.diagnosis.posterior import ImpossibleEvidence, Posterior, posterior
from courseware.diagnosis.ruled_out import RuledOut, called_for, ruled_out
from courseware.diagnosis.signatures import Signatures
from courseware.diagnosis.space import Flags, Floats, Premise
from courseware.diagnosis.wording import quoted, repair_titles

WHAT_IS_WRONG: Final = "what-is-wrong"
NEXT_CHECK: Final = "next-check"
NOT_ENOUGH: Final = "not-enough"

STANDING: Final = 0.02
"""A hypothesis or repair above this probability [-] still stands."""
SETTLED: Final = 0.95
"""A repair at or above this probability [-] is settled."""
NEAR_BEST: Final = 0.10
"""A check within this share [-] of the best gain per minute is as good an answer as the best."""
LEAST_BITS: Final = 0.10
"""A best check that tells less than this [bit] is not worth asking for."""
FEWEST_RIVALS: Final = 2


@dataclass(frozen=True, slots=True)
class Proof:
    """What was claimed about a question, and whether it holds.

    Attributes
    ----------
    kind : str
        ``what-is-wrong``, ``next-check`` or ``not-enough``.
    premise : Premise
        What the question must say about the number of faults.
    holds : bool
        Whether the question has the key as its right answer.
    key : tuple of str
        Repairs, the likeliest first; for ``next-check`` checks, the best first.
    posterior : mapping of str to float
        Probability [-] that each repair is needed; empty where the evidence is impossible.
    lines : tuple of RuledOut
        Reading by reading, the complaint first, what it rules out; empty where the proof does not hold.
    why_not : str
        Why it does not hold, in words; empty where it does.
    gains : tuple of Gain
        For ``next-check``: all checks not yet made, the best first.
    """

    kind: str
    premise: Premise
    holds: bool
    key: tuple[str, ...]
    posterior: Mapping[str, float]
    lines: tuple[RuledOut, ...]
    why_not: str
    gains: tuple[Gain, ...] = ()

    @property
    def refuted(self) -> frozenset[str]:
        """Return the repairs that the readings rule out: fair wrong answers."""
        return frozenset(repair for line in self.lines for repair in line.repairs)


def prove_what_is_wrong(
    signatures: Signatures, complaint: str | None, evidence: Mapping[str, str], premise: Premise | None = None
) -> Proof:
    """Prove which repair explains the complaint and the readings shown.

    The key is what is common to the repairs of every hypothesis above 0.02. It holds if the key's
    posterior is at least 0.95; if the key is called for, that is, what is shown would not be seen
    without its fault; and if nothing else is called for. A second fault that changes nothing shown
    may be there or not: it is outside the question.

    Parameters
    ----------
    signatures, complaint, evidence
        As for :func:`~courseware.diagnosis.posterior.posterior`; impossible evidence is no proof.
    premise : Premise, optional
        What the question says about the number of faults. None: "one or two" if it can be proved,
        else "one"; the proof says which.
    """
    if premise is None:
        wide = prove_what_is_wrong(signatures, complaint, evidence, Premise.ONE_OR_TWO)
        return wide if wide.holds else prove_what_is_wrong(signatures, complaint, evidence, Premise.ONE)
    try:
        belief = posterior(signatures, complaint, evidence, premise)
    except ImpossibleEvidence as error:
        return _no_proof(WHAT_IS_WRONG, premise, str(error))
    needs = signatures.space.needs
    common: Flags = np.all(needs[belief.hypotheses > STANDING], axis=0)
    called = called_for(signatures, complaint, evidence, belief.hypotheses)
    why_not = _why_not_settled(signatures, belief, common, called)
    if why_not:
        return _no_proof(WHAT_IS_WRONG, premise, why_not, belief)
    lines = ruled_out(signatures, complaint, evidence, np.all(needs[:, common], axis=1), premise)
    return Proof(WHAT_IS_WRONG, premise, True, _likeliest(signatures, belief, common), belief.repairs, lines, "")


def _why_not_settled(signatures: Signatures, belief: Posterior, common: Flags, called: Floats) -> str:
    """Return why the common repairs are not the one right answer; empty if they are."""
    space, names = signatures.space, list(signatures.space.repairs)
    if not common.any():
        healthy = float(belief.hypotheses[space.size == 0].sum())
        standing = [repair for repair in names if belief.repairs[repair] > STANDING]
        key = "diagnosis.no-proof-nothing-wrong" if healthy > STANDING else "diagnosis.no-proof-no-common"
        return say(key, repairs=repair_titles(signatures, standing))
    joint = float(belief.hypotheses @ space.needs[:, common].all(axis=1))
    if joint < SETTLED:
        key = repair_titles(signatures, _likeliest(signatures, belief, common))
        return say("diagnosis.no-proof-unsure", repairs=key, percent=_percent(joint), least=_percent(SETTLED))
    weakest = int(np.argmin(np.where(common, called, np.inf)))
    if called[weakest] < SETTLED:
        return say("diagnosis.no-proof-not-called-for", repair=quoted(signatures, names[weakest]))
    strongest = int(np.argmax(np.where(common, -np.inf, called)))
    if not common[strongest] and called[strongest] > 1 - SETTLED:
        repair = quoted(signatures, names[strongest])
        return say("diagnosis.no-proof-open", repair=repair, percent=_percent(called[strongest]))
    return ""


def prove_next_check(
    signatures: Signatures, complaint: str | None, evidence: Mapping[str, str], premise: Premise = Premise.ONE
) -> Proof:
    """Prove which checks are right to make next.

    The key is every check within 10 % of the best expected gain per minute about the repairs
    needed. It holds if no repair is settled yet, if the best check tells at least 0.1 bit, and if
    at least one check falls short, so that there is something to choose.

    Parameters
    ----------
    signatures, complaint, evidence, premise
        As for :func:`~courseware.diagnosis.posterior.posterior`; impossible evidence is no proof.
    """
    try:
        belief = posterior(signatures, complaint, evidence, premise)
    except ImpossibleEvidence as error:
        return _no_proof(NEXT_CHECK, premise, str(error))
    found = gains_after(signatures, belief, evidence)
    best = found[0] if found else Gain("", 0.0, 1.0)
    near = tuple(gain.check for gain in found if gain.per_minute >= (1 - NEAR_BEST) * best.per_minute)
    settled = [repair for repair, probability in belief.repairs.items() if probability >= SETTLED]
    if settled:
        why_not = say("diagnosis.no-proof-settled", repair=repair_titles(signatures, settled))
    elif best.bits < LEAST_BITS:
        why_not = say("diagnosis.no-proof-tells-nothing", bits=f"{best.bits:.2f}")
    elif len(near) == len(found):
        why_not = say("diagnosis.no-proof-all-good")
    else:
        standing = np.array([probability > STANDING for probability in belief.repairs.values()])
        lines = ruled_out(signatures, complaint, evidence, np.any(signatures.space.needs[:, standing], axis=1), premise)
        return Proof(NEXT_CHECK, premise, True, near, belief.repairs, lines, "", found)
    return _no_proof(NEXT_CHECK, premise, why_not, belief, found)


def prove_not_enough(
    signatures: Signatures, complaint: str | None, evidence: Mapping[str, str], premise: Premise = Premise.ONE
) -> Proof:
    """Prove that the readings do not say which repair is needed, and between which they leave the choice.

    A repair is a rival if the probability that it is called for lies between 0.05 and 0.95. It holds
    if there are at least two, and every other repair is settled or below 0.02: nothing is half out.

    Parameters
    ----------
    signatures, complaint, evidence, premise
        As for :func:`~courseware.diagnosis.posterior.posterior`; impossible evidence is no proof.
    """
    try:
        belief = posterior(signatures, complaint, evidence, premise)
    except ImpossibleEvidence as error:
        return _no_proof(NOT_ENOUGH, premise, str(error))
    names = list(signatures.space.repairs)
    called = called_for(signatures, complaint, evidence, belief.hypotheses)
    rivals: Flags = (called >= 1 - SETTLED) & (called < SETTLED)
    half_out = (called > STANDING) & (called < 1 - SETTLED)
    key = _likeliest(signatures, belief, rivals)
    if len(key) < FEWEST_RIVALS:
        repairs = repair_titles(signatures, key) or say("diagnosis.nobody")
        return _no_proof(NOT_ENOUGH, premise, say("diagnosis.no-proof-too-few-rivals", repairs=repairs), belief)
    if half_out.any():
        worst = int(np.argmax(half_out))
        repair, percent = quoted(signatures, names[worst]), _percent(called[worst])
        why_not = say("diagnosis.no-proof-half-out", repair=repair, percent=percent)
        return _no_proof(NOT_ENOUGH, premise, why_not, belief)
    lines = ruled_out(signatures, complaint, evidence, np.any(signatures.space.needs[:, rivals], axis=1), premise)
    return Proof(NOT_ENOUGH, premise, True, key, belief.repairs, lines, "")


def _likeliest(signatures: Signatures, belief: Posterior, chosen: Flags) -> tuple[str, ...]:
    """Return the chosen repairs, the likeliest first."""
    names = [repair for repair, one in zip(signatures.space.repairs, chosen, strict=True) if one]
    return tuple(sorted(names, key=lambda repair: (-belief.repairs[repair], repair)))


def _no_proof(
    kind: str, premise: Premise, why_not: str, belief: Posterior | None = None, found: tuple[Gain, ...] = ()
) -> Proof:
    return Proof(kind, premise, False, (), belief.repairs if belief else {}, (), why_not, found)


def _percent(probability: float) -> str:
    return f"{100 * probability:.0f} %"
