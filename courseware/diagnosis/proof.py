"""Proofs that a question has one right answer, by the kind of question.

A proof is made from the exact posterior; what it claims, and how far, is said at each function. The
figures that decide stand in :mod:`courseware.diagnosis.reasons` and :mod:`courseware.diagnosis.ruled_out`.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from courseware.diagnosis.gain import Gain, gains_after
from courseware.diagnosis.posterior import ImpossibleEvidence, Posterior, posterior
from courseware.diagnosis.reasons import (
    NEAR_BEST,
    SETTLED,
    STANDING,
    likeliest,
    no_choice_of_checks,
    no_clear_rivals,
    not_settled,
    odd_reading,
)
from courseware.diagnosis.ruled_out import RuledOut, called_for, ruled_out
from courseware.diagnosis.signatures import Signatures
from courseware.diagnosis.space import Flags, Premise

WHAT_IS_WRONG: Final = "what-is-wrong"
NEXT_CHECK: Final = "next-check"
NOT_ENOUGH: Final = "not-enough"


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
        Repairs, the likeliest first; for ``next-check`` checks, the best first. Empty where it does not hold.
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
    without its fault; if nothing else is called for; and if every reading shown is explained, that is,
    has a probability of at least 0.05 by what is then believed. A second fault that changes nothing
    shown may be there or not: it is outside the question.

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
    belief, why_not = _believed(signatures, complaint, evidence, premise)
    if belief is None:
        return _no_proof(WHAT_IS_WRONG, premise, why_not)
    needs = signatures.space.needs
    standing = belief.hypotheses > STANDING
    common: Flags = np.all(needs[standing], axis=0) & standing.any()
    called = called_for(signatures, complaint, evidence, belief.hypotheses)
    why_not = why_not or not_settled(signatures, belief, common, called)
    if why_not:
        return _no_proof(WHAT_IS_WRONG, premise, why_not, belief)
    lines = ruled_out(signatures, complaint, evidence, np.all(needs[:, common], axis=1), premise)
    return Proof(WHAT_IS_WRONG, premise, True, likeliest(belief, common), belief.repairs, lines, "")


def prove_next_check(
    signatures: Signatures, complaint: str | None, evidence: Mapping[str, str], premise: Premise = Premise.ONE
) -> Proof:
    """Prove which checks are right to make next.

    The key is every check within 10 % of the best expected gain per minute about the repairs
    needed. It holds if every reading shown is explained (see :func:`prove_what_is_wrong`), if no repair
    is settled yet, if the best check tells at least 0.1 bit, and if at least one check falls short, so
    that there is something to choose.

    Parameters
    ----------
    signatures, complaint, evidence, premise
        As for :func:`~courseware.diagnosis.posterior.posterior`; impossible evidence is no proof.
    """
    belief, why_not = _believed(signatures, complaint, evidence, premise)
    if belief is None:
        return _no_proof(NEXT_CHECK, premise, why_not)
    found = gains_after(signatures, belief, evidence)
    bar = (1 - NEAR_BEST) * found[0].per_minute if found else 0.0
    near = tuple(gain.check for gain in found if gain.per_minute >= bar)
    why_not = why_not or no_choice_of_checks(signatures, belief, found, near)
    if why_not:
        return _no_proof(NEXT_CHECK, premise, why_not, belief, found)
    standing = np.any(signatures.space.needs[:, belief.needed > STANDING], axis=1)
    lines = ruled_out(signatures, complaint, evidence, standing, premise)
    return Proof(NEXT_CHECK, premise, True, near, belief.repairs, lines, "", found)


def prove_not_enough(
    signatures: Signatures, complaint: str | None, evidence: Mapping[str, str], premise: Premise = Premise.ONE
) -> Proof:
    """Prove that the readings do not say which repair is needed, and between which they leave the choice.

    A repair is a rival if the probability that it is called for lies between 0.05 and 0.95. It holds
    if every reading shown is explained (see :func:`prove_what_is_wrong`), if there are at least two
    rivals, and if every other repair is settled or at most at 0.02: nothing is half out.

    Parameters
    ----------
    signatures, complaint, evidence, premise
        As for :func:`~courseware.diagnosis.posterior.posterior`; impossible evidence is no proof.
    """
    belief, why_not = _believed(signatures, complaint, evidence, premise)
    if belief is None:
        return _no_proof(NOT_ENOUGH, premise, why_not)
    called = called_for(signatures, complaint, evidence, belief.hypotheses)
    rivals: Flags = (called >= 1 - SETTLED) & (called < SETTLED)
    key = likeliest(belief, rivals)
    why_not = why_not or no_clear_rivals(signatures, key, called)
    if why_not:
        return _no_proof(NOT_ENOUGH, premise, why_not, belief)
    lines = ruled_out(signatures, complaint, evidence, np.any(signatures.space.needs[:, rivals], axis=1), premise)
    return Proof(NOT_ENOUGH, premise, True, key, belief.repairs, lines, "")


def _believed(
    signatures: Signatures, complaint: str | None, evidence: Mapping[str, str], premise: Premise
) -> tuple[Posterior | None, str]:
    """Return the posterior, or None where the evidence is impossible; and what is wrong with the evidence."""
    try:
        belief = posterior(signatures, complaint, evidence, premise)
    except ImpossibleEvidence as error:
        return None, str(error)
    return belief, odd_reading(signatures, evidence, belief)


def _no_proof(
    kind: str, premise: Premise, why_not: str, belief: Posterior | None = None, found: tuple[Gain, ...] = ()
) -> Proof:
    return Proof(kind, premise, False, (), belief.repairs if belief else {}, (), why_not, found)
