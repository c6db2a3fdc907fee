"""The shipped bank's signatures: as the simulator gives them, and inferred from as other programs infer."""

import math
from collections.abc import Sequence
from itertools import combinations, product

import numpy as np
import pytest

import courseware.diagnosis.signatures as signatures_module
from courseware.diagnosis.posterior import posterior
from courseware.diagnosis.signatures import Signatures, build_signatures
from courseware.heater.faults import Change
from courseware.heater.load import Trade
from courseware.heater.readings import complaint_of, verdict_probabilities
from courseware.heater.simulate import Case, Run, simulate
from courseware.heater.unit import Unit
from tests.diagnosis.arrays import random_evidence
from tests.diagnosis.network import hypotheses_by_pgmpy, variable_elimination


def test_tables_are_whole(bank: dict[str, Signatures]) -> None:
    assert len(bank) >= 2
    for model in bank.values():
        assert len(model.checks) >= 10
        for table in model.tables.values():
            assert table.min() >= 0
            assert table.sum(axis=1) == pytest.approx(1, abs=1e-12)
            assert table[table > 0].min() >= 1e-15  # less is rounding noise, and would hide a clash
        assert set(model.complaints) <= set(model.said)


def test_an_atom_simulated_alone_gives_its_row(bank: dict[str, Signatures], trade: Trade) -> None:
    for name, model in bank.items():
        unit = trade.units[name]
        atom = int(np.random.default_rng(3).integers(len(model.space.atoms)))
        runs = Runs(unit, [model.space.atoms[atom]])
        assert complaint_of(unit, trade.complaints, runs.arranged(())) == (model.complaints[atom],)
        for check in model.checks:
            alone = verdict_probabilities(unit, check, runs.arranged(check.changes))[0]
            assert model.tables[check.id][atom] == pytest.approx(alone, abs=1e-12)


class Runs:
    """The runs of some cases, one for each arrangement asked for."""

    def __init__(self, unit: Unit, cases: Sequence[Case]) -> None:
        self.unit, self.cases = unit, cases
        self.known: list[tuple[tuple[Change, ...], Run]] = []

    def arranged(self, changes: tuple[Change, ...]) -> Run:
        for known, run in self.known:
            if known == changes:
                return run
        self.known.append((changes, simulate(self.unit, self.cases, changes)))
        return self.known[-1][1]


def test_one_simulation_for_each_arrangement(trade: Trade, monkeypatch: pytest.MonkeyPatch) -> None:
    calls = []

    def counted(unit: object, cases: object, changes: object = ()) -> object:
        calls.append(changes)
        return simulate(unit, cases, changes)  # type: ignore[arg-type]  # handed on as it came

    monkeypatch.setattr(signatures_module, "simulate", counted)
    unit = next(iter(trade.units.values()))
    model = build_signatures(unit, trade)
    wanted = [(), *(check.changes for check in model.checks)]
    batches = math.ceil(len(model.space.atoms) / signatures_module.BATCH)
    assert len(calls) == batches * len([one for place, one in enumerate(wanted) if one not in wanted[:place]])


def test_batches_make_no_difference(bank: dict[str, Signatures], trade: Trade, monkeypatch: pytest.MonkeyPatch) -> None:
    name, unit = next(iter(trade.units.items()))
    monkeypatch.setattr(signatures_module, "BATCH", 300)
    model = build_signatures(unit, trade)
    assert model.complaints == bank[name].complaints
    for check, table in bank[name].tables.items():
        assert model.tables[check] == pytest.approx(table, abs=1e-12)


def test_equal_to_pgmpy_on_random_evidence(bank: dict[str, Signatures]) -> None:
    for model in bank.values():
        engine = variable_elimination(model)
        for seed in range(25):
            complaint, evidence = random_evidence(model, seed, seed % 9)
            expected = hypotheses_by_pgmpy(engine, model, complaint, evidence)
            assert posterior(model, complaint, evidence).hypotheses == pytest.approx(expected, abs=1e-9)


def enumerated(name: str, trade: Trade) -> list[tuple[tuple[str, ...], float, Case]]:
    """Return every set of at most two faults with every combination of grades, and its weight, by plain loops."""
    unit = trade.units[name]
    faults = sorted((one for one in trade.faults.values() if one.applies_to(unit)), key=lambda one: one.id)
    found = []
    for some in [(), *((one,) for one in faults), *combinations(faults, 2)]:
        grades = list(product(*(one.severities for one in some)))
        weight = 1.0
        for one in some:
            weight *= one.odds
        found += [
            (tuple(one.id for one in some), weight / len(grades), tuple(zip(some, each, strict=True)))
            for each in grades
        ]
    return found


def test_equal_to_brute_force_over_pairs_on_random_evidence(bank: dict[str, Signatures], trade: Trade) -> None:
    for name, model in bank.items():
        unit, cases = trade.units[name], enumerated(name, trade)
        runs = Runs(unit, [case for _, _, case in cases])
        said = complaint_of(unit, trade.complaints, runs.arranged(()))
        chances = {
            check.id: verdict_probabilities(unit, check, runs.arranged(check.changes)).tolist()
            for check in model.checks
        }
        for seed in range(60):
            complaint, evidence = random_evidence(model, 1000 + seed, seed % 9)
            sums: dict[tuple[str, ...], float] = {}
            for place, (faults, weight, _) in enumerate(cases):
                chance = weight if said[place] == complaint else 0.0
                for check, outcome in evidence.items():
                    chance *= chances[check][place][model.outcomes[check].index(outcome)]
                sums[faults] = sums.get(faults, 0.0) + chance
            total = sum(sums.values())
            expected = [sums[one.faults] / total for one in model.space.hypotheses]
            assert posterior(model, complaint, evidence).hypotheses == pytest.approx(expected, abs=1e-9)
