"""The second path: confirm a proof by sampling the simulator.

It shares with the first path only what is read from files and how a heater behaves (``courseware.content``
and ``courseware.heater``; a test holds that). Cases are drawn at random: which faults, how bad, what
error the instrument makes; those that do not show what the question shows are thrown away; what is left
is counted. No probability is multiplied and no band is integrated.

Drawn in proportion to their odds, nearly all cases would be healthy. So the set of faults is drawn
evenly, and each case counts by the product of its faults' odds (importance sampling).
"""

import math
from collections import defaultdict
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from courseware.heater.checks import Check
from courseware.heater.faults import Change, FaultMode
from courseware.heater.load import Trade
from courseware.heater.readings import CANNOT, complaint_of, edge, true_values
from courseware.heater.simulate import Run, simulate
from courseware.heater.unit import Unit

Draw = tuple[tuple[FaultMode, float], ...]


@dataclass(frozen=True)
class Witness:
    """One drawn case that shows what the question shows.

    Attributes
    ----------
    kind : int
        Number [-] of its draw among the distinct ones.
    faults : tuple of str
        Ids of its faults, sorted.
    repairs : frozenset of str
        What it needs.
    weight : float
        What it counts [-].
    """

    kind: int
    faults: tuple[str, ...]
    repairs: frozenset[str]
    weight: float


class Bench:
    """A unit on which cases are drawn and read; every distinct case is simulated once per arrangement."""

    def __init__(self, unit: Unit, trade: Trade, count: int, rng: np.random.Generator, sizes: Collection[int]) -> None:
        """Draw ``count`` cases with as many faults as ``sizes`` allows."""
        self.unit, self.trade, self.rng = unit, trade, rng
        faults = [fault for fault in trade.faults.values() if fault.applies_to(unit)]
        sets = [some for size in sizes for some in combinations(faults, size)]
        drawn: dict[tuple[tuple[str, float], ...], int] = {}
        self.kinds: list[Draw] = []
        self.draws: list[int] = []
        for index in rng.integers(len(sets), size=count).tolist():
            case = tuple((fault, float(rng.choice(fault.severities))) for fault in sets[index])
            name = tuple((fault.id, grade) for fault, grade in case)
            if name not in drawn:
                drawn[name] = len(self.kinds)
                self.kinds.append(case)
            self.draws.append(drawn[name])
        self._runs: list[tuple[tuple[Change, ...], Run]] = []
        self._values: dict[str, NDArray[np.float64]] = {}
        self.complaints = complaint_of(unit, trade.complaints, self.run(()))

    def run(self, changes: tuple[Change, ...]) -> Run:
        """Return the run of all distinct cases in an arrangement."""
        for known, run in self._runs:
            if known == changes:
                return run
        self._runs.append((changes, simulate(self.unit, self.kinds, changes)))
        return self._runs[-1][1]

    def read(self, check_id: str, kinds: Sequence[int]) -> list[str]:
        """Return the outcome of a check on each case, read by an instrument with its error."""
        check = self.trade.checks[check_id]
        if check_id not in self._values:
            self._values[check_id] = true_values(self.unit, check, self.run(check.changes))
        true = self._values[check_id][list(kinds)]
        read = true + check.error * self.rng.standard_normal(len(true))
        read = np.where(true >= 0, np.maximum(read, 0.0), read)
        return [self._band(check, value) for value in read.tolist()]

    def _band(self, check: Check, value: float) -> str:
        if math.isnan(value):
            return CANNOT
        steps = math.floor(value / check.resolution + 0.5 + 1e-9)
        for band in check.bands:
            low = edge(self.unit, check, band.low, missing=-math.inf)
            if low <= steps < edge(self.unit, check, band.high, missing=math.inf):
                return band.id
        raise AssertionError(f"{check.id}: no band holds {value}")

    def witnesses(self, complaint: str | None, evidence: Mapping[str, str]) -> list[Witness]:
        """Return the drawn cases that show the complaint and every reading."""
        left = [kind for kind in self.draws if complaint in (None, self.complaints[kind])]
        for check, outcome in evidence.items():
            left = [kind for kind, read in zip(left, self.read(check, left), strict=True) if read == outcome]
        return [self._witness(kind) for kind in left]

    def _witness(self, kind: int) -> Witness:
        case = self.kinds[kind]
        faults = tuple(sorted(fault.id for fault, _ in case))
        return Witness(kind, faults, frozenset(f.repair for f, _ in case), math.prod(f.odds for f, _ in case))


def share(witnesses: Sequence[Witness], repairs: Collection[str]) -> tuple[float, float]:
    """Return the share [-] of the witnesses that need all of some repairs, and its standard error [-]."""
    weights = np.array([one.weight for one in witnesses])
    has = np.array([one.repairs.issuperset(repairs) for one in witnesses], dtype=float)
    mean = float(weights @ has / weights.sum())
    spread = weights * (has - mean) / weights.sum()
    return mean, float(np.sqrt((spread**2).sum()))


def hypothesis_shares(witnesses: Sequence[Witness]) -> dict[tuple[str, ...], float]:
    """Return the share [-] of each set of faults."""
    sums: dict[tuple[str, ...], float] = defaultdict(float)
    for one in witnesses:
        sums[one.faults] += one.weight
    total = sum(sums.values())
    return {faults: weight / total for faults, weight in sums.items()}


def information(bench: Bench, witnesses: Sequence[Witness], check_id: str) -> float:
    """Return the mutual information [bit] of a check's outcome and the repairs needed, by counting.

    Each witness is read many times over, so that the instrument adds little noise of its own.
    """
    often = 20
    table: dict[tuple[frozenset[str], str], float] = defaultdict(float)
    for _ in range(often):
        read = bench.read(check_id, [one.kind for one in witnesses])
        for one, outcome in zip(witnesses, read, strict=True):
            table[one.repairs, outcome] += one.weight
    total = sum(table.values())
    needs: dict[frozenset[str], float] = defaultdict(float)
    shows: dict[str, float] = defaultdict(float)
    for (repairs, outcome), weight in table.items():
        needs[repairs] += weight / total
        shows[outcome] += weight / total
    joint = {pair: weight / total for pair, weight in table.items() if weight > 0}
    return sum(chance * math.log2(chance / (needs[r] * shows[o])) for (r, o), chance in joint.items())


def doubts_what_is_wrong(
    bench: Bench, complaint: str | None, evidence: Mapping[str, str], key: Collection[str]
) -> list[str]:
    """Return what speaks against a key: empty if sampling confirms it."""
    witnesses = bench.witnesses(complaint, evidence)
    if len(witnesses) < 30:
        return [f"only {len(witnesses)} cases show this"]
    mean, error = share(witnesses, key)
    doubts = [] if mean + 4 * error >= 0.95 else [f"the key's share is {mean:.3f} +- {error:.3f}"]
    repair_of = {fault.id: fault.repair for fault in bench.trade.faults.values()}
    for faults, chance in hypothesis_shares(witnesses).items():
        missing = set(key) - {repair_of[fault] for fault in faults}
        if missing and chance > 0.02 + 4 * math.sqrt(chance / len(witnesses)):
            doubts.append(f"{faults} has a share of {chance:.3f}, and does not need {sorted(missing)}")
    return doubts


def doubts_next_check(
    bench: Bench, complaint: str | None, evidence: Mapping[str, str], key: Collection[str], *, slack: float
) -> list[str]:
    """Return what speaks against the best next checks: empty if sampling confirms them.

    ``slack`` [-] is the relative error allowed to the counted gains.
    """
    witnesses = bench.witnesses(complaint, evidence)
    checks = [one for one in bench.trade.checks.values() if one.applies_to(bench.unit) and one.id not in evidence]
    rates = {one.id: information(bench, witnesses, one.id) / one.minutes for one in checks}
    bar = 0.9 * max(rates.values())
    doubts = [f"{name} gives too little" for name in key if rates[name] < bar * (1 - slack)]
    return doubts + [f"{name} is as good" for name in rates if name not in key and rates[name] > bar * (1 + slack)]


def doubts_not_enough(
    bench: Bench, complaint: str | None, evidence: Mapping[str, str], key: Collection[str]
) -> list[str]:
    """Return what speaks against the rivals: empty if sampling confirms that they, and no others, remain."""
    witnesses = bench.witnesses(complaint, evidence)
    doubts = []
    for repair in bench.trade.repairs:
        mean, error = share(witnesses, [repair])
        if repair in key and not 0.05 - 4 * error <= mean <= 0.95 + 4 * error:
            doubts.append(f"rival {repair} has a share of {mean:.3f}")
        if repair not in key and mean > 0.02 + 4 * error:
            doubts.append(f"{repair} has a share of {mean:.3f}, and is not named")
    return doubts
