"""Which check next? A call with some readings taken; the key is the check that tells most for its minutes.

The key is proved on all checks of the unit (:func:`~courseware.diagnosis.proof.prove_next_check`). Offered beside it
are only checks that fall well short of it, and, where the template has some, one short cut that breaks a safety rule.
"""

import random
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.diagnosis.explain import DULL
from courseware.diagnosis.gain import Gain
from courseware.diagnosis.posterior import Posterior, posterior
from courseware.diagnosis.proof import Proof, prove_next_check
from courseware.diagnosis.signatures import Signatures
from courseware.diagnosis.space import Premise
from courseware.diagnosis.splits import repairs_left, split_in_words
from courseware.heater.load import Trade
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
from courseware.quiz.kinds.choice import WrittenOption, named_by, read_option
from courseware.quiz.misconceptions import Named, hold_all_or_none
from courseware.safework.model import SafeWork

KIND_NAME: Final = "next-check"
PREMISE: Final = Premise.ONE
"""What the question says about the number of faults."""
MARGIN: Final = 1.5
"""The right check tells at least this many times as much for a minute as any other that is offered [-]."""
MOST_READINGS: Final = 6
_TRIES: Final = 60


@dataclass(frozen=True, slots=True)
class NextCheck:
    """Calls to draw.

    Attributes
    ----------
    units, faults : tuple of str
        The units to ask about, and what may be wrong with them.
    checks : tuple of str
        The checks that may have been made, and may be offered, in the order of the sheet.
    fewest, most : int
        How many readings are shown [-].
    options : int
        How many checks are offered [-], the short cut included.
    short_cuts : tuple of WrittenOption
        Unsafe options, of which one is offered; may be empty.
    """

    units: tuple[str, ...]
    faults: tuple[str, ...]
    checks: tuple[str, ...]
    fewest: int
    most: int
    options: int
    short_cuts: tuple[WrittenOption, ...]


@dataclass(frozen=True, slots=True)
class Asked:
    """One call at the point where the next check is chosen; ``wrong`` are the gains of the checks offered beside it."""

    unit: str
    complaint: str
    evidence: Mapping[str, str]
    values: Mapping[str, str]
    proof: Proof
    belief: Posterior
    wrong: tuple[Gain, ...]

    @property
    def right(self) -> Gain:
        """Return the gain of the right check."""
        return self.proof.gains[0]


def load(fields: Fields, trade: Trade, safework: SafeWork) -> NextCheck:
    """Read ``units``, ``faults``, ``checks``, ``show``, ``options`` and the optional ``short_cuts``."""
    fewest, most = read_show(fields, 0, MOST_READINGS)
    short_cuts = tuple(
        read_option(child, safework, may_name=True, unsafe=True)
        for child in fields.children("short_cuts", say("quiz.a-short-cut"), required=False)
    )
    hold_all_or_none(fields, [one.misconception for one in short_cuts])
    body = NextCheck(
        fields.references("units", say("quiz.a-unit"), trade.units),
        fields.references("faults", say("quiz.a-fault"), trade.faults),
        fields.references("checks", say("quiz.a-check"), trade.checks),
        fewest,
        most,
        fields.integer("options", low=FEWEST_OPTIONS, high=MOST_OPTIONS),
        short_cuts,
    )
    if len(body.checks) < most + body.options:
        fields.fault(
            fields.source_of("checks"),
            say("quiz.too-few-next", count=len(body.checks), most=most, options=body.options),
        )
    return body


def draw(body: NextCheck, made_from: Materials, rng: random.Random, wanted: Wanted) -> Drawn | None:
    """Draw a call and the checks to choose from."""
    asked = draw_asked(body, made_from, rng, wanted)
    if asked is None:
        return None
    signatures = made_from.signatures(asked.unit)
    made = say("quiz.next-check-made" if asked.evidence else "quiz.next-check-none")
    unsafe = [rng.choice(body.short_cuts)] if body.short_cuts else []
    wrong = asked.wrong[: body.options - 1 - len(unsafe)]
    return Drawn(
        identity=identity_of(KIND_NAME, asked.unit, asked.complaint, asked.evidence),
        stem=stem_of(made_from, asked.unit, asked.complaint, made, say("quiz.next-check-ask")),
        because=_because(signatures, asked),
        exhibit=readings_of(made_from, asked.evidence, asked.values) if asked.evidence else None,
        options=(
            DrawnOption(_with_minutes(signatures, asked.right)),
            *(_wrong(made_from, signatures, asked, gain) for gain in wrong),
            *(one.drawn(made_from) for one in unsafe),
        ),
    )


def draw_asked(body: NextCheck, made_from: Materials, rng: random.Random, wanted: Wanted) -> Asked | None:
    """Draw a unit with something wrong, and readings after which one check is clearly the best."""
    unit = rng.choice(body.units)
    signatures = made_from.signatures(unit)
    atoms = atoms_of(signatures, body.faults, PREMISE)
    usable = [check for check in body.checks if check in signatures.outcomes]
    if not atoms:
        return None
    atom = rng.choice(atoms)
    complaint = signatures.complaints[atom]
    for _ in range(_TRIES):
        evidence = draw_evidence(signatures, usable, (body.fewest, body.most), atom, rng)
        if not wanted(identity_of(KIND_NAME, unit, complaint, evidence)):
            continue
        proof = prove_next_check(signatures, complaint, evidence, PREMISE)
        wrong = _short_of_it(proof, set(usable)) if proof.holds and proof.gains[0].check in usable else []
        if len(wrong) < body.options - 1:
            continue
        values = draw_values(signatures, made_from.runs(unit), atom, evidence, rng)
        if values is not None:
            rng.shuffle(wrong)
            belief = posterior(signatures, complaint, evidence, PREMISE)
            return Asked(unit, complaint, evidence, values, proof, belief, _mixed(wrong))
    return None


def _short_of_it(proof: Proof, offered: set[str]) -> list[Gain]:
    """Return the checks that may stand beside the right one: well short of it, minute for minute."""
    return [
        gain
        for gain in proof.gains[1:]
        if gain.check in offered and proof.gains[0].per_minute >= MARGIN * gain.per_minute
    ]


def _mixed(wrong: list[Gain]) -> tuple[Gain, ...]:
    """Return wrong checks in an order that takes those that tell something before those that tell nothing, in turn."""
    telling = [gain for gain in wrong if gain.bits > 0]
    silent = [gain for gain in wrong if gain.bits == 0]
    return (*telling[:2], *silent[:1], *telling[2:], *silent[1:])


def _wrong(made_from: Materials, signatures: Signatures, asked: Asked, gain: Gain) -> DrawnOption:
    relation = "known-already" if gain.bits < DULL else "minutes-not-counted"
    belief = made_from.by_relation.get(relation)
    return DrawnOption(_with_minutes(signatures, gain), _against(signatures, asked, gain), belief=belief)


def _with_minutes(signatures: Signatures, gain: Gain) -> str:
    return say("quiz.next-check-option", title=signatures.check(gain.check).title, minutes=f"{gain.minutes:g}")


def _against(signatures: Signatures, asked: Asked, gain: Gain) -> str:
    """Return what the check could tell, what it costs, and how far it falls short."""
    title, minutes = signatures.check(gain.check).title, f"{gain.minutes:g}"
    told = say(
        "quiz.next-check-tells",
        title=title,
        minutes=minutes,
        split=split_in_words(signatures, asked.belief, gain.check),
    )
    if gain.bits < DULL:
        return told
    best, times = signatures.check(asked.right.check).title, f"{asked.right.per_minute / gain.per_minute:.2g}"
    return say("quiz.next-check-less", told=told, best=best, times=times)


def _because(signatures: Signatures, asked: Asked) -> str:
    return say(
        "quiz.next-check-because",
        count=len(repairs_left(asked.belief)),
        title=signatures.check(asked.right.check).title,
        minutes=f"{asked.right.minutes:g}",
        split=split_in_words(signatures, asked.belief, asked.right.check),
    )


def names(body: NextCheck) -> tuple[Named, ...]:
    """Return the misconceptions that the short cuts name."""
    return named_by(body.short_cuts)


KIND: Final = ItemKind("choice", load, draw, named=names)
