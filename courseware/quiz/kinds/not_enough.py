"""What can you say from these readings? One repair is settled, or two are still open; a trainee is not to decide early.

A settled call is proved by :func:`~courseware.diagnosis.proof.prove_what_is_wrong`, an open one by
:func:`~courseware.diagnosis.proof.prove_not_enough`. The four options have one shape whichever it is: two repairs as
settled, and each of them held open beside a third; so the shape tells nothing, and each repair is named twice.
"""

import random
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.diagnosis.explain import against
from courseware.diagnosis.gain import gains_after
from courseware.diagnosis.posterior import posterior
from courseware.diagnosis.proof import Proof, prove_not_enough, prove_what_is_wrong
from courseware.diagnosis.reasons import LEAST_BITS
from courseware.diagnosis.signatures import COMPLAINT, Signatures
from courseware.diagnosis.space import Premise
from courseware.diagnosis.wording import quoted, reading_words
from courseware.heater.load import Trade
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
from courseware.quiz.kinds.scenario import FEWEST_READINGS, MOST_READINGS
from courseware.quiz.relations import relation_of
from courseware.safework.model import SafeWork

KIND_NAME: Final = "not-enough"
PREMISE: Final = Premise.ONE
"""What the question says about the number of faults."""
RIVALS: Final = 2
"""Repairs that an open call leaves [-]: with more, the right option would be the longest."""
OPEN_OF: Final = (3, 5)
"""Three in five calls are looked for among those that stay open."""
_TRIES: Final = 100


@dataclass(frozen=True, slots=True)
class NotEnough:
    """Calls to draw: units, faults, the checks whose readings may be shown, and how many of them [-]."""

    units: tuple[str, ...]
    faults: tuple[str, ...]
    checks: tuple[str, ...]
    fewest: int
    most: int


@dataclass(frozen=True, slots=True)
class Judged:
    """One call with its readings and the proof of what they say; ``refuted`` gives the reason by refuted repair."""

    unit: str
    complaint: str
    evidence: Mapping[str, str]
    values: Mapping[str, str]
    proof: Proof
    refuted: Mapping[str, str]

    @property
    def is_open(self) -> bool:
        """Say whether the readings leave more than one repair."""
        return len(self.proof.key) > 1


def load(fields: Fields, trade: Trade, _safework: SafeWork) -> NotEnough:
    """Read ``units``, ``faults``, ``checks`` and ``show``."""
    fewest, most = read_show(fields, FEWEST_READINGS, MOST_READINGS)
    body = NotEnough(
        fields.references("units", say("quiz.a-unit"), trade.units),
        fields.references("faults", say("quiz.a-fault"), trade.faults),
        fields.references("checks", say("quiz.a-check"), trade.checks),
        fewest,
        most,
    )
    if len(body.checks) < most:
        fields.fault(fields.source_of("checks"), say("quiz.too-few-checks", count=len(body.checks), most=most))
    return body


def draw(body: NotEnough, made_from: Materials, rng: random.Random, wanted: Wanted) -> Drawn | None:
    """Draw a call and four things to say about it."""
    judged = draw_judged(body, made_from, rng, wanted)
    if judged is None:
        return None
    signatures = made_from.signatures(judged.unit)
    return Drawn(
        identity=identity_of(KIND_NAME, judged.unit, judged.complaint, judged.evidence),
        stem=stem_of(made_from, judged.unit, judged.complaint, say("quiz.not-enough-ask")),
        because=_because(signatures, judged),
        exhibit=readings_of(made_from, judged.evidence, judged.values),
        options=(_open_options if judged.is_open else _settled_options)(made_from, signatures, judged, rng),
    )


def draw_judged(body: NotEnough, made_from: Materials, rng: random.Random, wanted: Wanted) -> Judged | None:
    """Draw a unit with something wrong, and readings that settle one repair, or provably leave two."""
    unit = rng.choice(body.units)
    signatures = made_from.signatures(unit)
    atoms = atoms_of(signatures, body.faults, PREMISE)
    usable = [check for check in body.checks if check in signatures.outcomes]
    if not atoms:
        return None
    stays_open = rng.randrange(OPEN_OF[1]) < OPEN_OF[0]
    prove, keys, fewest_refuted = (prove_not_enough, RIVALS, 1) if stays_open else (prove_what_is_wrong, 1, 2)
    atom = rng.choice(atoms)
    complaint = signatures.complaints[atom]
    for _ in range(_TRIES):
        evidence = draw_evidence(signatures, usable, (body.fewest, body.most), atom, rng)
        if not wanted(identity_of(KIND_NAME, unit, complaint, evidence)):
            continue
        proof = prove(signatures, complaint, evidence, PREMISE)
        if not proof.holds or len(proof.key) != keys or not _by_readings(proof):
            continue
        values = draw_values(signatures, made_from.runs(unit), atom, evidence, rng)
        refuted = {} if values is None else _reasons(signatures, complaint, evidence, values, proof)
        if values is not None and len(refuted) >= fewest_refuted:
            return Judged(unit, complaint, evidence, values, proof, refuted)
    return None


def _by_readings(proof: Proof) -> bool:
    """Say whether some reading, and not the complaint alone, ruled anything out."""
    return any(line.repairs for line in proof.lines if line.check != COMPLAINT)


def _reasons(
    signatures: Signatures, complaint: str, evidence: Mapping[str, str], values: Mapping[str, str], proof: Proof
) -> dict[str, str]:
    """Return the repairs that a reading rules out, by the order of the reading, with the sentence that says so."""
    fallen = [repair for line in reversed(proof.lines) if line.check != COMPLAINT for repair in line.repairs]
    found = {}
    for repair in fallen:
        reasons = against(signatures, complaint, evidence, repair, values)
        if reasons:
            found[repair] = reasons[0].sentence
    return found


def _settled(signatures: Signatures, repair: str) -> str:
    return say("quiz.not-enough-settled", repair=quoted(signatures, repair))


def _open(signatures: Signatures, first: str, second: str) -> str:
    return say("quiz.not-enough-open", first=quoted(signatures, first), second=quoted(signatures, second))


def _open_options(
    made_from: Materials, signatures: Signatures, judged: Judged, rng: random.Random
) -> tuple[DrawnOption, ...]:
    """Return both rivals open, one of them settled too early, and both mistakes with a repair that is out."""
    kept, other = rng.sample(judged.proof.key, RIVALS)
    out = next(iter(judged.refuted))
    early = made_from.by_relation.get("settled-too-early")
    return (
        DrawnOption(_open(signatures, *judged.proof.key)),
        DrawnOption(_settled(signatures, kept), _early(signatures, judged, other), belief=early),
        _wrongly_settled(made_from, signatures, judged, out),
        _wrongly_open(made_from, signatures, judged, other, out),
    )


def _settled_options(
    made_from: Materials, signatures: Signatures, judged: Judged, rng: random.Random
) -> tuple[DrawnOption, ...]:
    """Return the repair settled, another settled, and each of the two held open beside a third."""
    (key,) = judged.proof.key
    out, third = rng.sample(list(judged.refuted), 2)
    return (
        DrawnOption(_settled(signatures, key)),
        _wrongly_settled(made_from, signatures, judged, out),
        _wrongly_open(made_from, signatures, judged, key, third),
        _wrongly_open(made_from, signatures, judged, third, out),
    )


def _wrongly_settled(made_from: Materials, signatures: Signatures, judged: Judged, out: str) -> DrawnOption:
    relation = relation_of(signatures, judged.complaint, judged.evidence, judged.proof, out)
    return DrawnOption(_settled(signatures, out), judged.refuted[out], belief=made_from.by_relation.get(relation))


def _wrongly_open(made_from: Materials, signatures: Signatures, judged: Judged, first: str, out: str) -> DrawnOption:
    belief = made_from.by_relation.get("held-open")
    return DrawnOption(_open(signatures, first, out), judged.refuted[out], belief=belief)


def _share(judged: Judged, repair: str) -> str:
    return f"{100 * judged.proof.posterior[repair]:.0f}"


def _next(signatures: Signatures, judged: Judged) -> str:
    """Return the check that parts the rivals best for its minutes, in words."""
    belief = posterior(signatures, judged.complaint, judged.evidence, PREMISE)
    best = next((gain for gain in gains_after(signatures, belief, judged.evidence) if gain.bits >= LEAST_BITS), None)
    if best is None:
        return say("quiz.not-enough-no-next")
    title = signatures.check(best.check).title
    return say("quiz.not-enough-next", check=title, minutes=f"{best.minutes:g}")


def _early(signatures: Signatures, judged: Judged, left: str) -> str:
    """Return why it is too early to settle: what else is left, how often, and what would part the two."""
    share, following = _share(judged, left), _next(signatures, judged)
    return say("quiz.not-enough-early", repair=quoted(signatures, left), share=share, next=following)


def _because(signatures: Signatures, judged: Judged) -> str:
    first, *others = judged.proof.key
    if others:
        shares = _share(judged, first), _share(judged, others[0])
        return say(
            "quiz.not-enough-because",
            share=shares[0],
            first=quoted(signatures, first),
            other=shares[1],
            second=quoted(signatures, others[0]),
            next=_next(signatures, judged),
        )
    readings = [
        reading_words(signatures, line.check, line.outcome, judged.values)
        for line in judged.proof.lines
        if line.repairs and line.check != COMPLAINT
    ]
    title = signatures.space.repairs[first].title
    return say("quiz.scenario-because", repair=title, readings="; ".join(readings))


KIND: Final = ItemKind("choice", load, draw)
