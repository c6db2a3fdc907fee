"""Which check tells most: expected information about the needed repairs, for each minute it takes.

The gain of a check is the mutual information of its outcome O and the set of needed repairs R,

    I(R; O) = H(O) - H(O | R),

in bits. It is zero for a check whose outcome all standing hypotheses share, and no check can be
expected to leave us less certain. H(O | R) takes two parts. A repair set that is one atom has an
outcome entropy known beforehand, so that all of those are one matrix product. A repair set of
several atoms (grades, or several faults with one repair) mixes their outcomes first.
"""

from collections.abc import Container, Mapping
from dataclasses import dataclass

import numpy as np

from courseware.diagnosis.posterior import Posterior, posterior
from courseware.diagnosis.signatures import Signatures, surprise
from courseware.diagnosis.space import Floats, Premise


@dataclass(frozen=True, slots=True)
class Gain:
    """What a check is expected to tell.

    Attributes
    ----------
    check : str
        Its id.
    bits : float
        Expected information about the repairs needed [bit].
    minutes : float
        The time it takes [min].
    """

    check: str
    bits: float
    minutes: float

    @property
    def per_minute(self) -> float:
        """Return the information for each minute [bit/min]."""
        return self.bits / self.minutes


def gain_bits(signatures: Signatures, atoms: Floats) -> Floats:
    """Return the expected information of every check about the repairs needed.

    Parameters
    ----------
    signatures : Signatures
        The unit's predictions.
    atoms : array, (a,)
        Present probability [-] of each atom, as :class:`~courseware.diagnosis.posterior.Posterior` gives it.

    Returns
    -------
    array, (checks,)
        Information [bit], in the order of ``signatures.checks``, never negative.
    """
    needs, starts = signatures.needs, signatures.starts
    product = needs.stacked @ atoms
    outcome, given_alone = product[: -len(starts)], product[-len(starts) :]
    bits = np.add.reduceat(surprise(outcome), starts) - given_alone
    weights = atoms[needs.mixed]
    live = np.flatnonzero(weights)
    if live.size:
        weights, group = weights[live], needs.group[live]
        first = np.flatnonzero(np.diff(group, prepend=-1))
        joint = np.add.reduceat(needs.columns[live] * weights[:, None], first)
        of_group = np.add.reduceat(weights, first)
        bits -= np.add.reduceat(surprise(joint).sum(axis=0), starts) - surprise(of_group).sum()
    return np.maximum(bits, 0.0)  # rounding may leave -1e-17 of a check that tells nothing


def gains(
    signatures: Signatures, complaint: str | None, evidence: Mapping[str, str], premise: Premise = Premise.ANY
) -> tuple[Gain, ...]:
    """Return the gain of every check not yet made, the most information for a minute first.

    Parameters and errors are those of :func:`~courseware.diagnosis.posterior.posterior`.
    """
    return gains_after(signatures, posterior(signatures, complaint, evidence, premise), evidence)


def gains_after(signatures: Signatures, belief: Posterior, made: Container[str]) -> tuple[Gain, ...]:
    """Return the same from a posterior at hand; ``made`` holds the ids of the checks already made."""
    bits = gain_bits(signatures, belief.atoms).tolist()
    found = [Gain(check.id, one, check.minutes) for check, one in zip(signatures.checks, bits, strict=True)]
    left = (gain for gain in found if gain.check not in made)
    return tuple(sorted(left, key=lambda gain: (-gain.per_minute, gain.check)))
