"""The second path for the next check: every single fault in every grade, run on the simulator and counted out.

It shares with the first path only what is read from files and how a heater behaves (``courseware.content`` and
``courseware.heater``). Everything is plain Python over a list of cases: Bayes' rule by multiplying, and the information
of a check as the mean fall of the entropy of the repair, outcome by outcome (the first path takes H(O) - H(O|R)).
"""

import math
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from courseware.heater.load import Trade
from courseware.heater.readings import complaint_of, outcomes, verdict_probabilities
from courseware.heater.simulate import simulate
from courseware.heater.unit import Unit


@dataclass(frozen=True)
class Counted:
    """Every single fault of a unit in every grade: its repair, its weight [-], its complaint, and its readings."""

    unit: Unit
    trade: Trade
    repairs: list[str]
    weights: list[float]
    complaints: list[str]
    readings: dict[str, list[dict[str, float]]]

    def after(self, complaint: str, evidence: Mapping[str, str]) -> list[float]:
        """Return the probability [-] of each case when the complaint was heard and the readings were taken."""
        kept = [
            weight
            * (told == complaint)
            * math.prod(self.readings[check][place][found] for check, found in evidence.items())
            for place, (weight, told) in enumerate(zip(self.weights, self.complaints, strict=True))
        ]
        return [one / sum(kept) for one in kept]

    def shares(self, chances: list[float]) -> dict[str, float]:
        """Return the probability [-] of each repair."""
        found: dict[str, float] = defaultdict(float)
        for repair, chance in zip(self.repairs, chances, strict=True):
            found[repair] += chance
        return found

    def rates(self, complaint: str, evidence: Mapping[str, str]) -> dict[str, float]:
        """Return what each check not yet made is expected to tell of the repair, for a minute [bit/min]."""
        chances = self.after(complaint, evidence)
        before = entropy(self.shares(chances))
        found = {}
        for check, rows in self.readings.items():
            if check in evidence:
                continue
            left = 0.0
            for outcome in rows[0]:
                joint = [chance * row[outcome] for chance, row in zip(chances, rows, strict=True)]
                total = sum(joint)
                if total > 0:
                    left += total * entropy(self.shares([one / total for one in joint]))
            found[check] = (before - left) / self.trade.checks[check].minutes
        return found


def entropy(shares: Mapping[str, float]) -> float:
    """Return the entropy [bit] of a distribution."""
    return -sum(share * math.log2(share) for share in shares.values() if share > 0)


def count_out(unit: Unit, trade: Trade) -> Counted:
    """Run every single fault of a unit in every grade, alone, with every check."""
    faults = [fault for fault in trade.faults.values() if fault.applies_to(unit)]
    graded = [(fault, grade) for fault in faults for grade in fault.severities]
    cases = [((fault, grade),) for fault, grade in graded]
    as_it_is = simulate(unit, cases)
    readings = {}
    for check in trade.checks.values():
        if check.applies_to(unit):
            run = simulate(unit, cases, check.changes) if check.changes else as_it_is
            table = verdict_probabilities(unit, check, run).tolist()
            readings[check.id] = [dict(zip(outcomes(unit, check), row, strict=True)) for row in table]
    return Counted(
        unit,
        trade,
        [fault.repair for fault, _ in graded],
        [fault.odds / len(fault.severities) for fault, _ in graded],
        list(complaint_of(unit, trade.complaints, as_it_is)),
        readings,
    )
