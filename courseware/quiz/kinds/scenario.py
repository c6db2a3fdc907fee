"""What is wrong with this unit? A service call drawn from the model, kept only if the readings prove the answer."""

import random
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.diagnosis.explain import against
from courseware.diagnosis.posterior import posterior
from courseware.diagnosis.proof import Proof, prove_what_is_wrong
from courseware.diagnosis.signatures import COMPLAINT, Signatures
from courseware.diagnosis.space import Premise
from courseware.diagnosis.wording import reading_words
from courseware.heater.load import Trade
from courseware.heater.simulate import Case
from courseware.quiz.item_writing import FEWEST_OPTIONS, MOST_OPTIONS
from courseware.quiz.kinds.base import Drawn, DrawnOption, ItemKind, Materials, Wanted
from courseware.quiz.kinds.calls import (
    atoms_of,
    draw_evidence,
    draw_values,
    identity_of,
    read_show,
    readings_of,
    stem_of,
)
from courseware.quiz.relations import relation_of
from courseware.safework.model import SafeWork

KIND_NAME: Final = "scenario"
"""How its questions are told from those of other kinds about the same call."""
PREMISES: Final[Mapping[str, Premise]] = {"one": Premise.ONE, "one-or-two": Premise.ONE_OR_TWO}
FEWEST_READINGS: Final = 2
MOST_READINGS: Final = 9
_TRIES: Final = 100
_FAR_MISS: Final = 0.05  # weight of a repair of the template's faults that no single reading left out would bring back
_OFF_TOPIC: Final = 0.001  # and of any other repair: a new hire would not think of it on this call


@dataclass(frozen=True, slots=True)
class Scenario:
    """Calls to draw.

    Attributes
    ----------
    units : tuple of str
        The units to ask about.
    premise : Premise
        What the question says about the number of faults.
    faults : tuple of str
        What may be wrong; a unit that cannot have a fault is not drawn with it.
    checks : tuple of str
        The readings that may be shown, in the order in which they stand on the sheet.
    fewest, most : int
        How many of them are shown [-].
    options : int
        How many repairs are offered [-].
    """

    units: tuple[str, ...]
    premise: Premise
    faults: tuple[str, ...]
    checks: tuple[str, ...]
    fewest: int
    most: int
    options: int


@dataclass(frozen=True, slots=True)
class Call:
    """One service call: what is wrong, what the customer says, what was read, and the proof of the answer.

    ``evidence`` holds the outcome of each check, ``values`` the reading as the sheet shows it, by check id.
    """

    unit: str
    case: Case
    complaint: str
    evidence: Mapping[str, str]
    values: Mapping[str, str]
    proof: Proof

    @property
    def key(self) -> str:
        """Return the id of the repair that is the answer."""
        return self.proof.key[0]


def load(fields: Fields, trade: Trade, _safework: SafeWork) -> Scenario:
    """Read ``units``, ``premise``, ``faults``, ``checks``, ``show`` and ``options``."""
    fewest, most = read_show(fields, FEWEST_READINGS, MOST_READINGS)
    body = Scenario(
        fields.references("units", say("quiz.a-unit"), trade.units),
        PREMISES.get(fields.choice("premise", PREMISES), Premise.ONE),
        fields.references("faults", say("quiz.a-fault"), trade.faults),
        fields.references("checks", say("quiz.a-check"), trade.checks),
        fewest,
        most,
        fields.integer("options", low=FEWEST_OPTIONS, high=MOST_OPTIONS),
    )
    if len(body.checks) < most:
        fields.fault(fields.source_of("checks"), say("quiz.too-few-checks", count=len(body.checks), most=most))
    return body


def draw(body: Scenario, made_from: Materials, rng: random.Random, wanted: Wanted) -> Drawn | None:
    """Draw a call and the wrong repairs to offer beside the right one."""
    call = draw_call(body, made_from, rng, wanted)
    if call is None:
        return None
    signatures = made_from.signatures(call.unit)
    asked_about = {made_from.trade.faults[fault].repair for fault in body.faults}
    wrong = _wrong_repairs(signatures, call, (body.options - 1, asked_about), rng)
    if len(wrong) < body.options - 1:
        return None
    repairs, asks = made_from.trade.repairs, say("quiz.scenario-ask", premise=_sentence(body.premise.words()))
    return Drawn(
        identity=identity_of(KIND_NAME, call.unit, call.complaint, call.evidence),
        stem=stem_of(made_from, call.unit, call.complaint, asks),
        because=_because(signatures, call),
        lesson=repairs[call.key].lesson,
        exhibit=readings_of(made_from, call.evidence, call.values),
        options=(
            DrawnOption(repairs[call.key].title),
            *(_wrong_option(made_from, signatures, call, *one) for one in wrong),
        ),
    )


def _wrong_option(made_from: Materials, signatures: Signatures, call: Call, repair: str, sentence: str) -> DrawnOption:
    relation = relation_of(signatures, call.complaint, call.evidence, call.proof, repair)
    return DrawnOption(made_from.trade.repairs[repair].title, sentence, belief=made_from.by_relation.get(relation))


def _sentence(clause: str) -> str:
    return clause[:1].upper() + clause[1:] + "."


def draw_call(body: Scenario, made_from: Materials, rng: random.Random, wanted: Wanted) -> Call | None:
    """Draw a unit with something wrong, and readings that prove what; none if none of many sets of readings do."""
    unit = rng.choice(body.units)
    signatures = made_from.signatures(unit)
    atoms = atoms_of(signatures, body.faults, body.premise)
    if not atoms:
        return None
    atom = rng.choice(atoms)
    case, complaint = signatures.space.atoms[atom], signatures.complaints[atom]
    needed = {fault.repair for fault, _ in case}
    usable = [check for check in body.checks if check in signatures.outcomes]
    for _ in range(_TRIES):
        evidence = draw_evidence(signatures, usable, (body.fewest, body.most), atom, rng)
        if not wanted(identity_of(KIND_NAME, unit, complaint, evidence)):
            continue
        proof = prove_what_is_wrong(signatures, complaint, evidence, body.premise)
        if proof.holds and len(proof.key) == 1 and proof.key[0] in needed and _is_work(signatures, evidence, proof):
            values = draw_values(signatures, made_from.runs(unit), atom, evidence, rng)
            if values is not None:
                return Call(unit, case, complaint, evidence, values, proof)
    return None


def _is_work(signatures: Signatures, evidence: Mapping[str, str], proof: Proof) -> bool:
    """Say whether there is something to work out: the readings count, and none in words names the answer by itself."""
    if not any(line.repairs for line in proof.lines if line.check != COMPLAINT):
        return False
    seen = [check for check in evidence if not signatures.check(check).unit]
    alone = (prove_what_is_wrong(signatures, None, {check: evidence[check]}, proof.premise) for check in seen)
    return not any(one.holds for one in alone)


def _wrong_repairs(
    signatures: Signatures, call: Call, wanted: tuple[int, Collection[str]], rng: random.Random
) -> Sequence[tuple[str, str]]:
    """Draw repairs that a reading rules out, near misses the sooner; each with the reading that rules it out.

    A near miss would be likely if one of the readings had not been taken. ``wanted`` says how many there shall be, and
    the repairs that the template is about.
    """
    count, asked_about = wanted
    left_out = [{check: call.evidence[check] for check in call.evidence if check != one} for one in call.evidence]
    beliefs = [posterior(signatures, call.complaint, evidence, call.proof.premise).repairs for evidence in left_out]
    weights = {
        repair: max(belief[repair] for belief in beliefs) + (_FAR_MISS if repair in asked_about else _OFF_TOPIC)
        for repair in sorted(call.proof.refuted)
    }
    found: list[tuple[str, str]] = []
    while weights and len(found) < count:
        repair = rng.choices(list(weights), list(weights.values()))[0]
        del weights[repair]
        reasons = against(signatures, call.complaint, call.evidence, repair, call.values)
        if reasons:
            found.append((repair, reasons[0].sentence))
    return found


def _because(signatures: Signatures, call: Call) -> str:
    """Return the answer and the readings that settle it; a reading that rules out nothing is left out."""
    readings = [
        reading_words(signatures, line.check, line.outcome, call.values)
        for line in call.proof.lines
        if line.repairs and line.check != COMPLAINT
    ]
    return say("quiz.scenario-because", repair=signatures.space.repairs[call.key].title, readings="; ".join(readings))


KIND: Final = ItemKind("scenario", load, draw)
