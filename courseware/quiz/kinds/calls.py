"""What the kinds share that ask about a service call: the readings drawn on it, and how a question shows it."""

import math
import random
from collections.abc import Collection, Mapping, Sequence
from typing import Final

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.diagnosis.signatures import Signatures
from courseware.diagnosis.space import Premise
from courseware.heater.checks import Check
from courseware.heater.readings import draw as draw_reading
from courseware.heater.readings import edge, shown
from courseware.heater.simulate import Run
from courseware.heater.unit import Unit
from courseware.quiz.form import Exhibit
from courseware.quiz.kinds.base import Materials

_TRIES: Final = 100


def read_show(fields: Fields, fewest: int, most: int) -> tuple[int, int]:
    """Read ``show: {from, to}``: how many readings are shown [-]; the fewest stand in for what is not sound."""
    show = fields.child("show")
    if show is None:
        return fewest, fewest
    low = show.integer("from", low=fewest, high=most)
    high = show.integer("to", low=low, high=most)
    show.finish()
    return low, high


def atoms_of(signatures: Signatures, faults: Collection[str], premise: Premise) -> list[int]:
    """Return the places of the atoms that are made of some faults alone, of as many as the premise allows."""
    return [
        place
        for place, case in enumerate(signatures.space.atoms)
        if len(case) in premise.value and all(fault.id in faults for fault, _ in case)
    ]


def draw_outcome(signatures: Signatures, check: str, atom: int, rng: random.Random) -> str:
    """Draw the outcome of a check by the model's own probabilities."""
    return rng.choices(signatures.outcomes[check], signatures.tables[check][atom].tolist())[0]


def draw_evidence(
    signatures: Signatures, checks: Sequence[str], show: tuple[int, int], atom: int, rng: random.Random
) -> dict[str, str]:
    """Draw which of the checks are made, so many as are to be shown, and what each finds; in the order of the sheet."""
    chosen = set(rng.sample(checks, min(rng.randint(*show), len(checks))))
    return {check: draw_outcome(signatures, check, atom, rng) for check in checks if check in chosen}


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


def identity_of(kind: str, unit: str, complaint: str, evidence: Mapping[str, str]) -> str:
    """Return what makes a question this one and no other: the unit, the complaint and each reading's outcome."""
    return "|".join([kind, unit, complaint, *sorted(f"{check}={outcome}" for check, outcome in evidence.items())])


def stem_of(made_from: Materials, unit_id: str, complaint: str, *asks: str) -> tuple[str, ...]:
    """Return the unit, what the customer says of it, and what is asked."""
    unit, said = made_from.trade.units[unit_id], made_from.signatures(unit_id).said[complaint]
    return (
        say("quiz.the-unit", unit=unit.title, summary=unit.summary),
        say("quiz.scenario-says", says=said.says),
        *asks,
    )


def readings_of(made_from: Materials, evidence: Mapping[str, str], values: Mapping[str, str]) -> Exhibit:
    """Return the readings that were taken, as the sheet has them."""
    rows = tuple((made_from.trade.checks[check].title, values[check]) for check in evidence)
    return Exhibit(say("quiz.readings"), rows)
