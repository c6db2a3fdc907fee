"""A service call worked check by check: what is still possible after each reading, and what each next check would tell.

The readings are those of the model with the faults of the call on the unit, the shares those of the diagnosis. Blocks,
figures and numbers of a lesson take theirs from here, so that a lesson says of a call what the program would say.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.diagnosis.gain import Gain, gains_after
from courseware.diagnosis.posterior import ImpossibleEvidence, Posterior, posterior
from courseware.diagnosis.proof import prove_what_is_wrong
from courseware.diagnosis.reasons import LEAST_BITS
from courseware.diagnosis.signatures import Signatures, surprise
from courseware.diagnosis.space import Premise
from courseware.heater.checks import Check
from courseware.heater.load import Trade
from courseware.heater.readings import complaint_of, outcomes, shown, true_values, verdict_probabilities
from courseware.heater.simulate import Case, simulate

PREMISES: Final[Mapping[str, Premise]] = {"one": Premise.ONE, "one-or-two": Premise.ONE_OR_TWO}
SHOWN: Final = 0.01
"""A repair that never reaches this share [-] is counted with the others."""
OUT: Final = 1e-6
"""A share below this [-] is told as none."""


@dataclass(frozen=True, slots=True)
class Stage:
    """Where a call stands: at the customer's words, or after one more check.

    Attributes
    ----------
    check : str
        Title of the check just made; empty at the start.
    reading : str
        What it read, as the sheet shows it; at the start the customer's words.
    minutes, total : float
        Time of this check, and of all so far [min].
    shares : mapping of str to float
        Probability [-] that each repair is needed, by id.
    doubt : float
        What is still unknown about the repairs needed [bit].
    gains : tuple of Gain
        What each check not yet made would tell, the most for a minute first.
    settled : bool
        Whether the readings prove the repair.
    """

    check: str
    reading: str
    minutes: float
    total: float
    shares: Mapping[str, float]
    doubt: float
    gains: tuple[Gain, ...]
    settled: bool

    @property
    def best(self) -> Gain | None:
        """Return the next check to make; None if the call is settled, or if no check would tell anything."""
        told = self.gains and self.gains[0].bits >= LEAST_BITS
        return self.gains[0] if told and not self.settled else None


@dataclass(frozen=True, slots=True)
class Call:
    """A call with its stages.

    Attributes
    ----------
    signatures : Signatures
        Of its unit.
    premise : Premise
        What is taken for granted about the number of faults.
    checks : tuple of Check
        The checks made, in order.
    stages : tuple of Stage
        The customer's words first, then one after each check.
    """

    signatures: Signatures
    premise: Premise
    checks: tuple[Check, ...]
    stages: tuple[Stage, ...]

    @property
    def repairs(self) -> tuple[str, ...]:
        """Return the repairs worth a row: those with a share at some stage, the likeliest at the start first."""
        first = self.stages[0].shares
        wanted = [repair for repair in first if max(stage.shares[repair] for stage in self.stages) >= SHOWN]
        return tuple(sorted(wanted, key=lambda repair: (-first[repair], repair)))

    def repair_title(self, repair: str) -> str:
        """Return a repair in words."""
        return self.signatures.space.repairs[repair].title

    def others(self, stage: Stage) -> float:
        """Return the share [-] of all repairs that have no row."""
        kept = set(self.repairs)
        return sum(share for repair, share in stage.shares.items() if repair not in kept)


def of_hundred(share: float) -> str:
    """Return a share [-] as a count among a hundred calls.

    Examples
    --------
    >>> of_hundred(0.288), of_hundred(0.003), of_hundred(0.0)
    ('29', 'under 1', 'none')
    """
    if share < OUT:
        return say("publish.share-none")
    count = round(100 * share)
    return str(count) if count else say("publish.share-tiny")


def read_call(
    fields: Fields, trade: Trade, signatures: Callable[[str], Signatures], case: Case | None, *, sound: bool
) -> Call | None:
    """Read ``unit``, ``checks`` and the optional ``premise``, and work the call; None, with a problem, if that fails.

    Parameters
    ----------
    fields : Fields
        Where the call is written; its faults have been read as ``case``.
    trade : Trade
        The units and checks.
    signatures : callable
        From a unit's id to its signatures.
    case : Case or None
        What is wrong with the unit; None if it was not sound.
    sound : bool
        False if the bank has faults: then nothing is simulated.
    """
    unit = trade.units.get(fields.reference("unit", "unit", trade.units))
    names = fields.references("checks", "check", trade.checks, required=False)
    premise = PREMISES.get(fields.choice("premise", PREMISES, "one"), Premise.ONE)
    checks = [trade.checks[name] for name in names if name in trade.checks]
    if unit is None or case is None or len(checks) < len(names) or not sound:
        return None
    for check in checks:
        if not check.applies_to(unit):
            fields.fault(fields.source_of("checks"), say("publish.check-not-on-unit", check=check.id, unit=unit.id))
            return None
    try:
        return work_call(signatures(unit.id), case, checks, premise)
    except ImpossibleEvidence as error:
        fields.fault(fields.source_of("checks"), str(error))
        return None


def work_call(signatures: Signatures, case: Case, checks: Sequence[Check], premise: Premise) -> Call:
    """Work a call: the complaint and the readings are the likeliest that the unit with these faults gives.

    Raises
    ------
    ImpossibleEvidence
        If no hypothesis under the premise gives them together.
    """
    unit = signatures.space.unit
    (complaint,) = complaint_of(unit, tuple(signatures.said.values()), simulate(unit, [case]))
    evidence: dict[str, str] = {}
    told = [("", signatures.said[complaint].says, 0.0)]
    views = [_view(signatures, premise, complaint, evidence)]
    for check in checks:
        run = simulate(unit, [case], check.changes)
        value = float(true_values(unit, check, run)[0])
        place = int(np.argmax(verdict_probabilities(unit, check, run)[0]))
        evidence[check.id] = outcomes(unit, check)[place]
        told.append((check.title, shown(unit, check, None if np.isnan(value) else value), check.minutes))
        views.append(_view(signatures, premise, complaint, evidence))
    totals = np.cumsum([minutes for _, _, minutes in told]).tolist()
    stages = (
        Stage(title, reading, minutes, total, *view)
        for (title, reading, minutes), total, view in zip(told, totals, views, strict=True)
    )
    return Call(signatures, premise, tuple(checks), tuple(stages))


def _view(
    signatures: Signatures, premise: Premise, complaint: str, evidence: Mapping[str, str]
) -> tuple[Mapping[str, float], float, tuple[Gain, ...], bool]:
    """Return the last four attributes of a stage."""
    belief = posterior(signatures, complaint, evidence, premise)
    settled = prove_what_is_wrong(signatures, complaint, evidence, premise).holds
    return belief.repairs, _doubt(belief), gains_after(signatures, belief, evidence), settled


def _doubt(belief: Posterior) -> float:
    """Return the entropy [bit] of the set of repairs needed."""
    sums: dict[frozenset[str], float] = {}
    for hypothesis, chance in zip(belief.space.hypotheses, belief.hypotheses.tolist(), strict=True):
        sums[hypothesis.repairs] = sums.get(hypothesis.repairs, 0.0) + chance
    return float(surprise(np.array(list(sums.values()))).sum())
