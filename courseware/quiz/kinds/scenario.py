"""What is wrong with this unit? A service call drawn from the model, kept only if the readings prove the answer."""

import math
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
from courseware.heater.checks import Check
from courseware.heater.load import Trade
from courseware.heater.readings import draw as draw_reading
from courseware.heater.readings import edge, shown
from courseware.heater.simulate import Case, Run
from courseware.heater.unit import Unit
from courseware.quiz.form import Exhibit
from courseware.quiz.item_writing import FEWEST_OPTIONS, MOST_OPTIONS
from courseware.quiz.kinds.base import Drawn, DrawnOption, ItemKind, Materials, Wanted
from courseware.quiz.relations import relation_of
from courseware.safework.model import SafeWork

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
    show = fields.child("show")
    fewest = most = FEWEST_READINGS
    if show is not None:
        fewest = show.integer("from", low=FEWEST_READINGS, high=MOST_READINGS)
        most = show.integer("to", low=fewest, high=MOST_READINGS)
        show.finish()
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
    unit, repairs = made_from.trade.units[call.unit], made_from.trade.repairs
    checks = made_from.trade.checks
    return Drawn(
        identity=identity_of(call.unit, call.complaint, call.evidence),
        stem=(
            say("quiz.the-unit", unit=unit.title, summary=unit.summary),
            say("quiz.scenario-says", says=signatures.said[call.complaint].says),
            say("quiz.scenario-ask", premise=_sentence(body.premise.words())),
        ),
        because=_because(signatures, call),
        lesson=repairs[call.key].lesson,
        exhibit=Exhibit(say("quiz.readings"), tuple((checks[one].title, call.values[one]) for one in call.evidence)),
        options=(
            DrawnOption(repairs[call.key].title),
            *(_wrong_option(made_from, signatures, call, *one) for one in wrong),
        ),
    )


def _wrong_option(made_from: Materials, signatures: Signatures, call: Call, repair: str, sentence: str) -> DrawnOption:
    relation = relation_of(signatures, call.complaint, call.evidence, call.proof, repair)
    return DrawnOption(made_from.trade.repairs[repair].title, sentence, belief=made_from.by_relation.get(relation))


def identity_of(unit: str, complaint: str, evidence: Mapping[str, str]) -> str:
    """Return what makes a call this question and no other: the unit, the complaint and each reading's outcome."""
    return "|".join(["scenario", unit, complaint, *sorted(f"{check}={outcome}" for check, outcome in evidence.items())])


def _sentence(clause: str) -> str:
    return clause[:1].upper() + clause[1:] + "."


def draw_call(body: Scenario, made_from: Materials, rng: random.Random, wanted: Wanted) -> Call | None:
    """Draw a unit with something wrong, and readings that prove what; none if none of many sets of readings do."""
    unit = rng.choice(body.units)
    signatures = made_from.signatures(unit)
    atoms = _atoms(signatures, body)
    if not atoms:
        return None
    atom = rng.choice(atoms)
    case, complaint = signatures.space.atoms[atom], signatures.complaints[atom]
    needed = {fault.repair for fault, _ in case}
    usable = [check for check in body.checks if check in signatures.outcomes]
    for _ in range(_TRIES):
        count = min(rng.randint(body.fewest, body.most), len(usable))
        chosen = set(rng.sample(usable, count))
        evidence = {check: draw_outcome(signatures, check, atom, rng) for check in usable if check in chosen}
        if not wanted(identity_of(unit, complaint, evidence)):
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


def _atoms(signatures: Signatures, body: Scenario) -> list[int]:
    """Return the atoms made of the template's faults alone, as many as the premise allows, that bring a complaint."""
    sizes = body.premise.value
    wanted = set(body.faults)
    return [
        place
        for place, case in enumerate(signatures.space.atoms)
        if len(case) in sizes and {fault.id for fault, _ in case} <= wanted
    ]


def draw_outcome(signatures: Signatures, check: str, atom: int, rng: random.Random) -> str:
    """Draw the outcome of a check by the model's own probabilities."""
    return rng.choices(signatures.outcomes[check], signatures.tables[check][atom].tolist())[0]


def draw_values(
    signatures: Signatures, runs: Mapping[str, Run], atom: int, evidence: Mapping[str, str], rng: random.Random
) -> dict[str, str] | None:
    """Draw readings with these outcomes as the sheet shows them; None if one would lie on the edge of its band."""
    unit = signatures.space.unit
    values: dict[str, str] = {}
    for check_id, outcome in evidence.items():
        check = signatures.check(check_id)
        for _ in range(_TRIES):
            value, found = draw_reading(unit, check, runs[check_id], atom, rng)
            if found == outcome and _is_clear(unit, check, value):
                values[check_id] = shown(unit, check, value)
                break
        else:
            return None
    return values


def _is_clear(unit: Unit, check: Check, value: float | None) -> bool:
    """Say whether a number lies off the edges of the bands, so that nobody need ask on which side an edge counts."""
    if value is None or not check.unit or (check.top is not None and value >= check.top):
        return True
    edges = (edge(unit, check, band.low, missing=math.inf) for band in check.bands)
    return all(round(value / check.resolution) != one for one in edges)


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
