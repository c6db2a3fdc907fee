"""Which of these faults would show this? Every one that applies, by what the model predicts of each fault alone.

A fault is offered only if it is certain: at every grade it shows what is found, or at no grade does it. The key is
those that do.
"""

import random
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import takewhile
from typing import Final

import numpy as np

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.diagnosis.signatures import COMPLAINT, Signatures
from courseware.diagnosis.wording import lowered, outcome_words
from courseware.heater.load import Trade
from courseware.heater.readings import CANNOT
from courseware.quiz.fit import SEVERAL
from courseware.quiz.form import Exhibit
from courseware.quiz.item_writing import FEWEST_SEVERAL, MOST_SEVERAL
from courseware.quiz.kinds.base import Drawn, DrawnOption, ItemKind, Materials, Wanted, draw_right_count
from courseware.quiz.relations import sound_outcome
from courseware.safework.model import SafeWork

SURE: Final = 0.99
"""A fault shows what is found if at each grade the chance [-] is at least this; it does not if at most the rest."""


@dataclass(frozen=True, slots=True)
class FaultsBehind:
    """What to ask about: what a check finds, or, without checks, what the customer says.

    Attributes
    ----------
    units, faults : tuple of str
        The units, and the faults that may be offered.
    checks : tuple of str
        The checks to ask about; empty: the complaints.
    options : int
        How many faults are offered [-].
    """

    units: tuple[str, ...]
    faults: tuple[str, ...]
    checks: tuple[str, ...]
    options: int


def load(fields: Fields, trade: Trade, _safework: SafeWork) -> FaultsBehind:
    """Read ``units``, ``faults``, ``checks`` (may be left out) and ``options``."""
    return FaultsBehind(
        fields.references("units", say("quiz.a-unit"), trade.units),
        fields.references("faults", say("quiz.a-fault"), trade.faults),
        fields.references("checks", say("quiz.a-check"), trade.checks, required=False),
        fields.integer("options", low=FEWEST_SEVERAL, high=MOST_SEVERAL),
    )


def draw(body: FaultsBehind, made_from: Materials, rng: random.Random, wanted: Wanted) -> Drawn | None:
    """Draw a unit, a finding, and faults; none if too few are certain to show it, or not to."""
    unit = made_from.trade.units[rng.choice(body.units)]
    signatures = made_from.signatures(unit.id)
    check, outcome = _finding(body, signatures, rng)
    if not outcome:
        return None
    shows = {fault: shown for fault in body.faults if (shown := _shows(signatures, fault, check, outcome)) is not None}
    right, wrong = (sorted(fault for fault, shown in shows.items() if shown is kind) for kind in (True, False))
    count = draw_right_count(len(right), len(wrong), body.options, rng)
    if count is None:
        return None
    chosen = [*rng.sample(right, count), *rng.sample(wrong, body.options - count)]
    identity = "|".join(["faults-behind", unit.id, check, outcome, *sorted(chosen)])
    if not wanted(identity):
        return None
    words = outcome_words(signatures, check, outcome)
    found = say("quiz.scenario-says", says=f"{words}.") if check == COMPLAINT else ""
    return Drawn(
        identity=identity,
        stem=(
            say("quiz.the-unit", unit=unit.title, summary=unit.summary),
            *((found,) if found else ()),
            say("quiz.faults-behind-ask-said" if found else "quiz.faults-behind-ask"),
        ),
        because=say("quiz.several-because", count=count),
        lesson="" if found else made_from.trade.checks[check].lesson,
        exhibit=None if found else Exhibit(say("quiz.readings"), ((signatures.check(check).title, words),)),
        options=tuple(_option(made_from, signatures, fault, check, shown=shows[fault]) for fault in chosen),
        several=tuple(range(count)),
    )


def _finding(body: FaultsBehind, signatures: Signatures, rng: random.Random) -> tuple[str, str]:
    """Draw a check and something wrong that it can find, or a complaint; no outcome if the unit has no such check."""
    if not body.checks:
        return COMPLAINT, rng.choice(sorted(set(signatures.complaints)))
    check = rng.choice(body.checks)
    sound = sound_outcome(signatures, check) if check in signatures.outcomes else ""
    found = [one for one in signatures.outcomes.get(check, ()) if one not in (sound, CANNOT)]
    return check, rng.choice(found) if found else ""


def _chances(signatures: Signatures, fault: str, check: str) -> Mapping[str, tuple[float, float]]:
    """Return for each outcome its least and its greatest probability [-] over the grades of a fault alone."""
    singles = takewhile(lambda case: len(case) <= 1, signatures.space.atoms)  # none, then singles, then pairs
    atoms = [place for place, case in enumerate(singles) if [one.id for one, _ in case] == [fault]]
    outcomes = signatures.outcomes[check] if check else tuple(signatures.said)
    rows = {one: signatures.rows[signatures.row_of[check, one]][atoms] for one in outcomes}
    return {one: (float(np.min(row)), float(np.max(row))) for one, row in rows.items() if atoms}


def _shows(signatures: Signatures, fault: str, check: str, outcome: str) -> bool | None:
    """Say whether a fault is certain to show an outcome, or not to; None if neither, or if the unit cannot have it."""
    chances = _chances(signatures, fault, check)
    if not chances:
        return None
    least, greatest = chances[outcome]
    return True if least >= SURE else (False if greatest <= 1 - SURE else None)


def _option(made_from: Materials, signatures: Signatures, fault: str, check: str, *, shown: bool) -> DrawnOption:
    chances = _chances(signatures, fault, check)
    likely = [outcome for outcome, (_, greatest) in chances.items() if greatest > 1 - SURE]
    words = [outcome_words(signatures, check, one) for one in likely]
    said = say("quiz.or-joint").join(f"“{one}.”" if check == COMPLAINT else lowered(one) for one in words)
    return DrawnOption(
        made_from.trade.faults[fault].title,
        say("quiz.faults-behind-said" if check == COMPLAINT else "quiz.faults-behind-found", found=said),
        belief=made_from.by_relation.get("would-show-too" if shown else "would-not-show"),
    )


KIND: Final = ItemKind(SEVERAL, load, draw)
