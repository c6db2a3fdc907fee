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
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from courseware.heater.faults import Change, FaultMode
from courseware.heater.load import Trade
from courseware.heater.readings import CANNOT, complaint_of, edge, true_values
from courseware.heater.simulate import Run, simulate
from courseware.heater.unit import Unit

Draw = tuple[tuple[FaultMode, float], ...]
FEWEST = 30


@dataclass(frozen=True)
class Witnesses:
    """The drawn cases that show what a question shows.

    Attributes
    ----------
    kinds : array of int, (w,)
        The distinct case [-] each is.
    weights : array, (w,)
        What each counts [-]; they sum to 1.
    faults : tuple of tuple of str
        Ids of the faults of every distinct case, sorted.
    repairs : tuple of frozenset of str
        What every distinct case needs.
    """

    kinds: NDArray[np.int64]
    weights: NDArray[np.float64]
    faults: tuple[tuple[str, ...], ...]
    repairs: tuple[frozenset[str], ...]

    def share(self, repairs: Iterable[str]) -> tuple[float, float]:
        """Return the share [-] of the witnesses that need all of some repairs, and its standard error [-]."""
        wanted = frozenset(repairs)
        has = np.array([wanted <= needed for needed in self.repairs], dtype=float)[self.kinds]
        mean = float(self.weights @ has)
        return mean, float(np.sqrt(((self.weights * (has - mean)) ** 2).sum()))

    def shares(self) -> dict[tuple[str, ...], float]:
        """Return the share [-] of each set of faults."""
        sums: dict[tuple[str, ...], float] = defaultdict(float)
        for kind, weight in enumerate(np.bincount(self.kinds, self.weights, len(self.faults)).tolist()):
            sums[self.faults[kind]] += weight
        return sums


class Bench:
    """A unit on which cases are drawn and read; every distinct case is simulated once per arrangement."""

    def __init__(self, unit: Unit, trade: Trade, count: int, rng: np.random.Generator, sizes: Collection[int]) -> None:
        """Draw ``count`` cases with as many faults as ``sizes`` allows."""
        self.unit, self.trade, self.rng = unit, trade, rng
        faults = [fault for fault in trade.faults.values() if fault.applies_to(unit)]
        sets = [some for size in sizes for some in combinations(faults, size)]
        seen: dict[tuple[int, tuple[float, ...]], int] = {}
        self.cases: list[Draw] = []
        draws = []
        for index, luck in zip(
            rng.integers(len(sets), size=count).tolist(), rng.random((count, 2)).tolist(), strict=True
        ):
            grades = tuple(f.severities[int(x * len(f.severities))] for f, x in zip(sets[index], luck, strict=False))
            if (index, grades) not in seen:
                seen[index, grades] = len(self.cases)
                self.cases.append(tuple(zip(sets[index], grades, strict=True)))
            draws.append(seen[index, grades])
        self.draws = np.array(draws)
        self.faults = tuple(tuple(sorted(fault.id for fault, _ in case)) for case in self.cases)
        self.repairs = tuple(frozenset(fault.repair for fault, _ in case) for case in self.cases)
        self.odds = np.array([math.prod(fault.odds for fault, _ in case) for case in self.cases])
        self._runs: list[tuple[tuple[Change, ...], Run]] = []
        self._values: dict[str, NDArray[np.float64]] = {}
        self.complaints = np.array(complaint_of(unit, trade.complaints, self._run(())))

    def _run(self, changes: tuple[Change, ...]) -> Run:
        """Return the run of all distinct cases in an arrangement."""
        for known, run in self._runs:
            if known == changes:
                return run
        self._runs.append((changes, simulate(self.unit, self.cases, changes)))
        return self._runs[-1][1]

    def read(self, check_id: str, kinds: NDArray[np.int64]) -> NDArray[np.str_]:
        """Return the outcome of a check on each case, read by an instrument with its error."""
        check = self.trade.checks[check_id]
        if check_id not in self._values:
            self._values[check_id] = true_values(self.unit, check, self._run(check.changes))
        true = self._values[check_id][kinds]
        read = true + check.error * self.rng.standard_normal(len(true))
        read = np.where(true >= 0, np.maximum(read, 0.0), read)
        steps = np.floor(read / check.resolution + 0.5 + 1e-9)
        highs = [edge(self.unit, check, band.high, missing=math.inf) for band in check.bands]
        names = np.array([*(band.id for band in check.bands), CANNOT])
        place = np.searchsorted(highs, steps, side="right")
        return np.asarray(names[np.where(np.isnan(true), len(highs), place)])

    def witnesses(self, complaint: str | None, evidence: Mapping[str, str]) -> Witnesses:
        """Return the drawn cases that show the complaint and every reading."""
        left = self.draws if complaint is None else self.draws[self.complaints[self.draws] == complaint]
        for check, outcome in evidence.items():
            left = left[self.read(check, left) == outcome]
        weights = self.odds[left]
        return Witnesses(left, weights / weights.sum(), self.faults, self.repairs)


def information(bench: Bench, witnesses: Witnesses, check_id: str) -> float:
    """Return the mutual information [bit] of a check's outcome and the repairs needed, by counting.

    Each witness is read many times over, so that the instrument adds little noise of its own.
    """
    often = 10
    kinds, weights = np.tile(witnesses.kinds, often), np.tile(witnesses.weights, often) / often
    sets = {needed: number for number, needed in enumerate(dict.fromkeys(witnesses.repairs))}
    needs = np.array([sets[needed] for needed in witnesses.repairs])[kinds]
    outcomes, shows = np.unique(bench.read(check_id, kinds), return_inverse=True)
    joint = np.bincount(needs * len(outcomes) + shows, weights, len(sets) * len(outcomes)).reshape(len(sets), -1)
    product = joint.sum(axis=1, keepdims=True) * joint.sum(axis=0, keepdims=True)
    some = joint > 0
    return float((joint[some] * np.log2(joint[some] / product[some])).sum())


def doubts_what_is_wrong(
    bench: Bench, complaint: str | None, evidence: Mapping[str, str], key: Collection[str]
) -> list[str]:
    """Return what speaks against a key: empty if sampling confirms it."""
    witnesses = bench.witnesses(complaint, evidence)
    if len(witnesses.kinds) < FEWEST:
        return [f"only {len(witnesses.kinds)} cases show this"]
    mean, error = witnesses.share(key)
    doubts = [] if mean + 4 * error >= 0.95 else [f"the key's share is {mean:.3f} +- {error:.3f}"]
    repair_of = {fault.id: fault.repair for fault in bench.trade.faults.values()}
    for faults, chance in witnesses.shares().items():
        missing = set(key) - {repair_of[fault] for fault in faults}
        if missing and chance > 0.02 + 4 * math.sqrt(chance / len(witnesses.kinds)):
            doubts.append(f"{faults} has a share of {chance:.3f}, and does not need {sorted(missing)}")
    return doubts


def doubts_next_check(
    bench: Bench, complaint: str | None, evidence: Mapping[str, str], key: Collection[str], *, slack: float
) -> list[str]:
    """Return what speaks against the best next checks: empty if sampling confirms them.

    ``slack`` [-] is the relative error allowed to the counted gains.
    """
    witnesses = bench.witnesses(complaint, evidence)
    if len(witnesses.kinds) < FEWEST:
        return [f"only {len(witnesses.kinds)} cases show this"]
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
    if len(witnesses.kinds) < FEWEST:
        return [f"only {len(witnesses.kinds)} cases show this"]
    doubts = []
    for repair in bench.trade.repairs:
        mean, error = witnesses.share([repair])
        if repair in key and not 0.05 - 4 * error <= mean <= 0.95 + 4 * error:
            doubts.append(f"rival {repair} has a share of {mean:.3f}")
        if repair not in key and mean > 0.02 + 4 * error:
            doubts.append(f"{repair} has a share of {mean:.3f}, and is not named")
    return doubts
