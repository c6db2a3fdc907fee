"""How a wrong repair stands to the right one on a call: found from the model, so that it can be named.

The relations and their order of precedence are this program's own; the words for them stand in
:data:`courseware.quiz.misconceptions.RELATIONS`.
"""

from collections.abc import Mapping
from itertools import takewhile
from typing import Final

import numpy as np

from courseware.diagnosis.posterior import posterior
from courseware.diagnosis.proof import Proof
from courseware.diagnosis.signatures import COMPLAINT, Signatures
from courseware.diagnosis.space import Floats
from courseware.heater.unit import Unit

UNLIKELY: Final = 0.02
"""A reading with at most this probability [-] under a repair's faults rules the repair out by itself."""
NEAR: Final = 3
"""A part feeds another if the wiring leads to it in at most this many steps [-]."""


def relation_of(signatures: Signatures, complaint: str, evidence: Mapping[str, str], proof: Proof, repair: str) -> str:
    """Return the relation of a wrong repair to the right one.

    Parameters
    ----------
    signatures, complaint, evidence
        The call, as for :func:`~courseware.diagnosis.posterior.posterior`.
    proof : Proof
        The proof of the right repair.
    repair : str
        Id of the wrong one.
    """
    alone = _alone(signatures, repair)
    if _chance(signatures, COMPLAINT, complaint, alone) <= UNLIKELY:
        return "complaint-ignored"
    if _feeds(signatures, proof.key[0], repair):
        return "feed-not-checked"
    first = posterior(signatures, complaint, {}, proof.premise).repairs
    if first[repair] == max(first.values()):
        return "symptom-alone"
    for check, outcome in evidence.items():
        if outcome == sound_outcome(signatures, check) and _chance(signatures, check, outcome, alone) <= UNLIKELY:
            return "cleared-part-changed"
    return "reading-overlooked"


def sound_outcome(signatures: Signatures, check: str) -> str:
    """Return what a check finds on the unit with nothing wrong."""
    return signatures.outcomes[check][int(np.argmax(signatures.tables[check][0]))]


def _alone(signatures: Signatures, repair: str) -> Floats:
    """Return the atoms' probabilities [-], (a,), if one fault that the repair mends is all that is wrong."""
    space = signatures.space
    mended = (space.size == 1) & space.needs[:, list(space.repairs).index(repair)]
    weights = np.where(mended[space.atom_hypothesis], space.atom_weight, 0.0)
    return np.asarray(weights / weights.sum())


def _chance(signatures: Signatures, check: str, outcome: str, atoms: Floats) -> float:
    return float(signatures.rows[signatures.row_of[check, outcome]] @ atoms)


def _feeds(signatures: Signatures, key: str, repair: str) -> bool:
    """Say whether a part that the key mends feeds a part that the repair would mend, rather than the other way."""
    unit = signatures.space.unit
    pairs = [(one, other) for one in _parts(signatures, key) for other in _parts(signatures, repair) if one != other]
    return any(_steps(unit, one, other) < _steps(unit, other, one) for one, other in pairs)


def _parts(signatures: Signatures, repair: str) -> frozenset[str]:
    """Return the parts whose settings the faults of a repair move on the unit."""
    unit = signatures.space.unit
    return frozenset(
        change.part
        for case in takewhile(lambda case: len(case) <= 1, signatures.space.atoms)  # none, then singles, then pairs
        for fault, _ in case
        if fault.repair == repair
        for change in fault.changes
        if change.applies_to(unit)
    )


def _steps(unit: Unit, start: str, end: str) -> int:
    """Return the least number of wires from one part to another [-]; above ``NEAR`` if it is far or there is none."""
    reached = {start}
    for steps in range(1, NEAR + 1):
        reached = {part.id for part in unit.parts for wire in part.wires.values() if wire.partition(".")[0] in reached}
        if end in reached:
            return steps
    return NEAR + 1
