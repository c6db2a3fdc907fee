"""What the readings say for and against repairs: which are called for, and which reading rules a repair out.

The Bayes factors follow R. E. Kass and A. E. Raftery, "Bayes factors", J. Am. Stat. Assoc. 90 (1995)
773-795, section 3.2 (from memory): up to 3 is "not worth more than a bare mention", above 20 is "strong".
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from courseware.diagnosis.signatures import COMPLAINT, Signatures
from courseware.diagnosis.space import Flags, Floats, Premise

BARE_MENTION: Final = 3.0
"""Bayes factor [-] up to which evidence is "not worth more than a bare mention"."""
STRONG: Final = 20.0
"""Bayes factor [-] above which evidence is "strong"."""


@dataclass(frozen=True, slots=True)
class RuledOut:
    """What one reading rules out.

    Attributes
    ----------
    check, outcome : str
        The reading; the check is ``COMPLAINT`` for what the customer says.
    repairs : tuple of str
        The repairs that fall with this reading and stay down to the end.
    """

    check: str
    outcome: str
    repairs: tuple[str, ...]


def called_for(
    signatures: Signatures, complaint: str | None, evidence: Mapping[str, str], hypotheses: Floats
) -> Floats:
    """Return the probability that a repair is needed *and* what is shown calls for it.

    A hypothesis calls for a repair if without it, its other faults still there, what is shown would
    be at least three times less likely. So a fault that changes nothing shown calls for nothing.

    Parameters
    ----------
    signatures, complaint, evidence
        As for :func:`~courseware.diagnosis.posterior.posterior`.
    hypotheses : array, (h,)
        Their posterior [-].

    Returns
    -------
    array, (r,)
        Probability [-], in the order of ``space.repairs``.
    """
    space = signatures.space
    logs = signatures.log_rows[signatures.rows_of(complaint, evidence)].sum(axis=0)
    weights = np.exp(logs - logs.max()) * space.atom_weight
    likelihood = space.by_hypothesis(weights) / space.prior
    without = np.where(space.without >= 0, likelihood[space.without], 0.0)
    return np.asarray(hypotheses @ (space.needs & (likelihood[:, None] > BARE_MENTION * without)))


def ruled_out(
    signatures: Signatures, complaint: str | None, evidence: Mapping[str, str], answers: Flags, premise: Premise
) -> tuple[RuledOut, ...]:
    """Return, reading by reading in the order shown, the repairs that cannot stand in the answer's place.

    A repair is out when the hypotheses that need it, and are no answer, explain what has been shown so
    far at least twenty times worse than the answers do. How likely the repair was beforehand plays
    no part: what is told here is what the readings say.

    Parameters
    ----------
    signatures, complaint, evidence, premise
        As for :func:`~courseware.diagnosis.posterior.posterior`; the evidence must be possible.
    answers : array of bool, (h,)
        The hypotheses that agree with the answer.
    """
    space = signatures.space
    names = ([] if complaint is None else [(COMPLAINT, complaint)]) + list(evidence.items())
    if not names:
        return ()
    rows, prior = signatures.rows_of(complaint, evidence), signatures.log_prior[premise]
    logs = np.cumsum(signatures.log_rows[rows], axis=0) + prior
    joint = space.by_hypothesis(np.exp(logs - logs.max(axis=1, keepdims=True)))
    before = space.by_hypothesis(np.exp(prior))
    rivals, right = space.counts * ~answers[:, None], answers.astype(float)
    # Both sides of P(shown | rivals) * 20 <= P(shown | answers), multiplied out: a prior may be 0.
    against = (joint @ rivals) * (before @ right) * STRONG <= (joint @ right)[:, None] * (before @ rivals)
    against &= before @ rivals > 0
    fell = np.where(against[-1], len(names) - np.argmin(against[::-1], axis=0), -1)
    fell[against.all(axis=0)] = 0
    repairs = np.array(list(space.repairs))
    return tuple(RuledOut(*name, tuple(repairs[fell == step].tolist())) for step, name in enumerate(names))
