"""Proofs made by exact inference, confirmed by sampling the simulator; and the second path itself."""

import ast
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from courseware.diagnosis.posterior import posterior
from courseware.diagnosis.proof import Proof, prove_next_check, prove_not_enough, prove_what_is_wrong
from courseware.diagnosis.signatures import Signatures
from courseware.diagnosis.space import Premise
from courseware.heater.load import Trade
from tests.diagnosis import second_path
from tests.diagnosis.second_path import Bench, doubts_next_check, doubts_not_enough, doubts_what_is_wrong

ALLOWED = ("courseware.content", "courseware.heater")
Scenario = tuple[str, dict[str, str]]


def test_the_second_path_shares_only_content_and_heater_with_the_first() -> None:
    tree = ast.parse(Path(second_path.__file__).read_text(encoding="utf-8"))
    names = {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
    names |= {node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    ours = {name for name in names if name.split(".")[0] in {"courseware", "tests"}}
    assert ours
    assert all(name.startswith(ALLOWED) for name in ours), ours
    calls = {node.func.id for node in ast.walk(tree) if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)}
    assert not calls & {"__import__", "import_module", "eval", "exec", "verdict_probabilities"}
    assert not any(isinstance(node, ast.ImportFrom) and node.level for node in ast.walk(tree))


def scenarios(model: Signatures, seed: int, readings: tuple[int, int], sizes: tuple[int, ...]) -> Iterator[Scenario]:
    """Yield the complaint and some readings of units drawn from the prior, without end."""
    rng = np.random.default_rng(seed)
    chosen = np.isin(model.space.size, sizes)[model.space.atom_hypothesis]
    weights = np.where(chosen, model.space.atom_weight, 0.0)
    names = [check.id for check in model.checks]
    while True:
        atom = int(rng.choice(len(weights), p=weights / weights.sum()))
        some = rng.permutation(names)[: int(rng.integers(*readings))].tolist()
        yield (
            model.complaints[atom],
            {name: str(rng.choice(model.outcomes[name], p=model.tables[name][atom])) for name in some},
        )


def proofs(found: Iterator[tuple[Scenario, Proof]], count: int) -> list[tuple[Scenario, Proof]]:
    """Return the first proofs that hold; that there are some among 300 is part of the test."""
    held = [pair for pair, _ in zip(found, range(300), strict=False) if pair[1].holds]
    assert len(held) >= count
    return held[:count]


@pytest.fixture(scope="module", params=["one", "other"])
def unit(request: pytest.FixtureRequest, trade: Trade) -> str:
    """Return each unit of the bank in turn."""
    return sorted(trade.units)[["one", "other"].index(request.param)]


@pytest.fixture(scope="module")
def bench_of_one(unit: str, trade: Trade) -> Bench:
    return Bench(trade.units[unit], trade, 20_000, np.random.default_rng(7), (1,))


@pytest.fixture(scope="module")
def bench_of_two(unit: str, trade: Trade) -> Bench:
    return Bench(trade.units[unit], trade, 200_000, np.random.default_rng(8), (1, 2))


def test_one_thing_is_wrong(unit: str, bank: dict[str, Signatures], bench_of_one: Bench) -> None:
    model = bank[unit]
    made = ((one, prove_what_is_wrong(model, *one, Premise.ONE)) for one in scenarios(model, 1, (2, 7), (1,)))
    for (complaint, evidence), proof in proofs(made, 20):
        assert doubts_what_is_wrong(bench_of_one, complaint, evidence, proof.key) == []


def test_one_or_two_things_are_wrong(unit: str, bank: dict[str, Signatures], bench_of_two: Bench) -> None:
    model = bank[unit]
    made = ((one, prove_what_is_wrong(model, *one, Premise.ONE_OR_TWO)) for one in scenarios(model, 2, (3, 8), (1, 2)))
    for (complaint, evidence), proof in proofs(made, 15):
        assert doubts_what_is_wrong(bench_of_two, complaint, evidence, proof.key) == []


def test_next_check(unit: str, bank: dict[str, Signatures], bench_of_one: Bench) -> None:
    model = bank[unit]
    made = ((one, prove_next_check(model, *one)) for one in scenarios(model, 3, (0, 4), (1,)))
    for (complaint, evidence), proof in proofs(made, 8):
        assert doubts_next_check(bench_of_one, complaint, evidence, proof.key, slack=0.1) == []


def test_not_enough(unit: str, bank: dict[str, Signatures], bench_of_one: Bench) -> None:
    model = bank[unit]
    made = ((one, prove_not_enough(model, *one)) for one in scenarios(model, 4, (0, 4), (1,)))
    for (complaint, evidence), proof in proofs(made, 10):
        assert doubts_not_enough(bench_of_one, complaint, evidence, proof.key) == []


def test_sampled_shares_are_the_posterior(unit: str, bank: dict[str, Signatures], bench_of_two: Bench) -> None:
    model = bank[unit]
    for (complaint, evidence), _ in zip(scenarios(model, 5, (1, 4), (1,)), range(8), strict=False):
        witnesses = bench_of_two.witnesses(complaint, evidence)
        for repair, exact in posterior(model, complaint, evidence, Premise.ONE_OR_TWO).repairs.items():
            mean, error = witnesses.share([repair])
            assert mean == pytest.approx(exact, abs=5 * error + 0.01)


def test_a_wrong_key_is_doubted(unit: str, bank: dict[str, Signatures], bench_of_one: Bench) -> None:
    model = bank[unit]
    made = ((one, prove_what_is_wrong(model, *one, Premise.ONE)) for one in scenarios(model, 1, (2, 7), (1,)))
    (complaint, evidence), proof = proofs(made, 1)[0]
    for wrong in set(model.space.repairs) - set(proof.key):
        assert doubts_what_is_wrong(bench_of_one, complaint, evidence, [wrong])
    made = ((one, prove_not_enough(model, *one)) for one in scenarios(model, 4, (0, 4), (1,)))
    (complaint, evidence), proof = proofs(made, 1)[0]
    assert doubts_not_enough(bench_of_one, complaint, evidence, proof.key[1:])
    made = ((one, prove_next_check(model, *one)) for one in scenarios(model, 3, (0, 4), (1,)))
    (complaint, evidence), proof = proofs(made, 1)[0]
    assert doubts_next_check(bench_of_one, complaint, evidence, [proof.gains[-1].check], slack=0.1)
