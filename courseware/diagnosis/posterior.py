"""Exact Bayesian inference: what the complaint and the readings say about the hypotheses.

Given an atom the readings are independent, so the posterior of an atom is its prior times the
probability of each reading; hypotheses and repairs are sums of atoms. The products are taken as
sums of logarithms, so that sixty readings cannot underflow, in an order that does not depend on
the order of the evidence, so that neither does the last bit of the answer.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from courseware.content.words import say
from courseware.diagnosis.signatures import COMPLAINT, Signatures
from courseware.diagnosis.space import Floats, Premise, Space
from courseware.diagnosis.wording import outcome_words, reading_words


class ImpossibleEvidence(ValueError):  # noqa: N818  # it is what the evidence is, and who made it up decides whether that is an error
    """Readings that no hypothesis can give together; its text names a smallest set that clashes.

    Attributes
    ----------
    clash : tuple of (check id, outcome)
        Readings that cannot stand together, while any one fewer could; empty if the premise alone is impossible.
    """

    def __init__(self, text: str, clash: tuple[tuple[str, str], ...]) -> None:
        super().__init__(text)
        self.clash = clash


@dataclass(frozen=True, slots=True, eq=False)
class Posterior:
    """Beliefs after the evidence; ``atoms`` and ``hypotheses`` sum to 1.

    Attributes
    ----------
    atoms : array, (a,)
        Probability [-] of each atom.
    hypotheses : array, (h,)
        Probability [-] of each hypothesis.
    needed : array, (r,)
        Probability [-] that the unit needs each repair of ``space.repairs``; these need not sum to 1.
    log_evidence : float
        Natural logarithm of the evidence's probability under the premise.
    space : Space
        The hypotheses, atoms and repairs meant.
    """

    atoms: Floats
    hypotheses: Floats
    needed: Floats
    log_evidence: float
    space: Space

    @property
    def repairs(self) -> dict[str, float]:
        """Return the probability [-] that the unit needs each repair, by id."""
        return dict(zip(self.space.repairs, self.needed.tolist(), strict=True))


def posterior(
    signatures: Signatures, complaint: str | None, evidence: Mapping[str, str], premise: Premise = Premise.ANY
) -> Posterior:
    """Return the exact posterior given what the customer says and the outcomes of checks.

    Parameters
    ----------
    signatures : Signatures
        The unit's predictions.
    complaint : str or None
        Id of the complaint; None if nobody said anything.
    evidence : mapping of check id to outcome
        What was read.
    premise : Premise
        What is taken for granted about the number of faults.

    Raises
    ------
    ImpossibleEvidence
        If no hypothesis under the premise can give the evidence; names the readings that clash.
    UnknownEvidenceError
        If the unit has no such complaint, check or outcome.
    """
    rows = sorted(signatures.rows_of(complaint, evidence))
    logs = np.add.reduce(signatures.log_rows.take(rows, axis=0)) + signatures.log_prior[premise]
    top = float(logs.max())
    if top == -math.inf:
        raise _impossible(signatures, complaint, evidence, premise)
    weights = np.exp(logs - top)
    total = float(weights.sum())
    atoms = weights / total
    space = signatures.space
    hypotheses = space.by_hypothesis(atoms)
    return Posterior(atoms, hypotheses, hypotheses @ space.counts, top + math.log(total), space)


def _impossible(
    signatures: Signatures, complaint: str | None, evidence: Mapping[str, str], premise: Premise
) -> ImpossibleEvidence:
    """Return the error that names a smallest set of readings that clash."""
    names = ([] if complaint is None else [(COMPLAINT, complaint)]) + list(evidence.items())
    possible = signatures.log_rows[signatures.rows_of(complaint, evidence)] > -np.inf
    alive = signatures.log_prior[premise] > -np.inf
    kept = list(range(len(names)))
    for index in range(len(names)):
        fewer = [other for other in kept if other != index]
        if not (alive & possible[fewer].all(axis=0)).any():
            kept = fewer
    clash = tuple(names[index] for index in kept)
    said = [
        say("diagnosis.customer-says", says=outcome_words(signatures, *one)) for one in clash if one[0] == COMPLAINT
    ]
    read = [reading_words(signatures, *one) for one in clash if one[0] != COMPLAINT]
    readings = say("diagnosis.clash-joint").join(said + read)
    key = ("diagnosis.impossible-premise", "diagnosis.impossible-one", "diagnosis.impossible-together")[
        min(len(clash), 2)
    ]
    return ImpossibleEvidence(say(key, readings=readings, premise=premise.words()), clash)
