"""Practice: service calls to work from the complaint to the repair, each reading there for the asking.

A call holds a reading for every check on its list, drawn once, so that it can be worked in any order. It is kept
only if all its readings together prove one repair, and only if it belongs to the practice pool. Now and then a check is
left off the list, as a tool is left at the shop; that is also what gives one fault many calls.
"""

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from courseware.diagnosis.explain import Against, against
from courseware.diagnosis.gain import gains_after
from courseware.diagnosis.posterior import posterior
from courseware.diagnosis.proof import Proof, prove_what_is_wrong
from courseware.diagnosis.ruled_out import RuledOut
from courseware.diagnosis.signatures import Signatures
from courseware.diagnosis.space import Premise
from courseware.heater.readings import CANNOT
from courseware.quiz.chance import open_chance
from courseware.quiz.kinds.base import Materials
from courseware.quiz.kinds.calls import atoms_of, draw_outcome, draw_values, identity_of
from courseware.quiz.kinds.scenario import KIND_NAME
from courseware.quiz.pools import PRACTICE, pool_of

CALLS: Final = 300
"""Calls of a practice page [-], the worked one included."""

PREMISE: Final = Premise.ONE
"""What a call says about the number of faults."""

_TRIES: Final = 60
_MOST_LEFT_OFF: Final = 4
_VALUE: Final = "{value}"  # stands in a sentence for the value read, so that calls with other values share the sentence


@dataclass(frozen=True, slots=True)
class PracticeCall:
    """One call.

    Attributes
    ----------
    unit, complaint : str
        Ids of the unit and of what the customer says.
    evidence : mapping of str to str
        The outcome of every check on the list, by the check's id, in the order of the list.
    values : mapping of str to str
        The reading of each as the sheet shows it.
    key : str
        Id of the repair that all readings together prove.
    against : mapping of str to tuple of Against
        By the id of every other repair of the unit: the readings that speak against it, the strongest first. Where a
        reading is a number, ``{value}`` stands in the sentence for it.
    path : tuple of str
        Checks in the order of the best expected gain for a minute, up to the proof.
    settles : tuple of RuledOut
        What the complaint and each reading of the path rule out.
    """

    unit: str
    complaint: str
    evidence: Mapping[str, str]
    values: Mapping[str, str]
    key: str
    against: Mapping[str, tuple[Against, ...]]
    path: tuple[str, ...]
    settles: tuple[RuledOut, ...]

    @property
    def identity(self) -> str:
        """Return what places the call in its pool."""
        return identity_of(KIND_NAME, self.unit, self.complaint, self.evidence)


def practice_calls(made_from: Materials, count: int = CALLS) -> tuple[PracticeCall, ...]:
    """Draw the calls of a practice page; anybody can draw them again.

    Parameters
    ----------
    made_from : Materials
        Units, faults, checks, and what they predict.
    count : int
        How many calls to draw [-].

    Returns
    -------
    tuple of PracticeCall
        In a drawn order; fewer than asked for where the units do not give as many different ones.
    """
    calls: dict[tuple[str, ...], PracticeCall] = {}
    trade = made_from.trade
    turns = [
        (unit, atom) for unit in trade.units for atom in atoms_of(made_from.signatures(unit), trade.faults, PREMISE)
    ]
    open_chance("practice turns").shuffle(turns)
    for lap in range(count):
        before = len(calls)
        for unit, atom in turns:
            call = _draw(made_from, unit, atom, open_chance("practice call", unit, str(atom), str(lap)))
            if call is not None:
                calls.setdefault((call.identity, *call.values.values()), call)
            if len(calls) == count:
                break
        if len(calls) in (before, count):
            break
    drawn = list(calls.values())
    open_chance("practice order").shuffle(drawn)
    return tuple(drawn)


def _draw(made_from: Materials, unit: str, atom: int, rng: random.Random) -> PracticeCall | None:
    """Draw a call about what is wrong; None if no list of checks that was tried proves it in the practice pool."""
    signatures = made_from.signatures(unit)
    complaint = signatures.complaints[atom]
    needed = {fault.repair for fault, _ in signatures.space.atoms[atom]}
    for _ in range(_TRIES):
        evidence = _read_all(signatures, atom, rng)
        if pool_of(identity_of(KIND_NAME, unit, complaint, evidence)) != PRACTICE:
            continue
        proof = prove_what_is_wrong(signatures, complaint, evidence, PREMISE)
        if proof.holds and set(proof.key) == needed:
            values = draw_values(signatures, made_from.runs(unit), atom, evidence, rng)
            path = None if values is None else _good_path(signatures, complaint, evidence, proof.key)
            if values is not None and path is not None:
                reasons = _reasons(signatures, complaint, evidence, proof.key[0])
                checks, settled = path
                return PracticeCall(
                    unit, complaint, evidence, values, proof.key[0], reasons, checks, settled.lines
                )  # fmt: skip
    return None


def _read_all(signatures: Signatures, atom: int, rng: random.Random) -> dict[str, str]:
    """Draw the outcome of every check but a few that are left off the list."""
    names = [check.id for check in signatures.checks]
    left_off = set(rng.sample(names, min(rng.randint(1, _MOST_LEFT_OFF), len(names) - 1)))
    return {check: draw_outcome(signatures, check, atom, rng) for check in names if check not in left_off}


def _good_path(
    signatures: Signatures, complaint: str, evidence: Mapping[str, str], key: Sequence[str]
) -> tuple[tuple[str, ...], Proof] | None:
    """Return the checks that tell most for a minute, one after another, up to the proof; None if there is none to make.

    A call that the complaint alone settles is no practice.
    """
    made: dict[str, str] = {}
    while len(made) < len(evidence):
        belief = posterior(signatures, complaint, made, PREMISE)
        best = next(gain.check for gain in gains_after(signatures, belief, made) if gain.check in evidence)
        made[best] = evidence[best]
        proof = prove_what_is_wrong(signatures, complaint, made, PREMISE)
        if proof.holds and proof.key == tuple(key):
            alone = prove_what_is_wrong(signatures, complaint, {}, PREMISE)
            return None if alone.holds else (tuple(made), proof)
    return None


def _reasons(
    signatures: Signatures, complaint: str, evidence: Mapping[str, str], key: str
) -> dict[str, tuple[Against, ...]]:
    """Return what speaks against each other repair of the unit."""
    numbers = [one for one, outcome in evidence.items() if signatures.check(one).unit and outcome != CANNOT]
    values = dict.fromkeys(numbers, _VALUE)
    return {
        repair: against(signatures, complaint, evidence, repair, values)
        for repair in signatures.space.repairs
        if repair != key
    }
