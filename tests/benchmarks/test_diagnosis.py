"""How fast the inference is, as a ratio to pgmpy's variable elimination in the same run.

80 faults and no fault, 60 checks of 2 to 5 outcomes, 10 readings. Run with
``pytest -o addopts="" --import-mode=importlib tests/benchmarks``; times vary from machine to machine, the
ratios are held. pgmpy can eliminate variable by variable (its classical orders, here MinFill), or
contract all factors at once by opt_einsum, its default since 1.0: both are measured.
"""

import statistics
import time
import warnings
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from courseware.content.documents import read_documents
from courseware.content.folders import shipped_course
from courseware.content.problems import Problems
from courseware.diagnosis.gain import gain_bits
from courseware.diagnosis.posterior import posterior
from courseware.diagnosis.proof import prove_what_is_wrong
from courseware.diagnosis.signatures import Signatures, build_signatures
from courseware.heater.load import HEATER_KINDS, load_trade
from tests.diagnosis.arrays import random_evidence, signatures

with warnings.catch_warnings():
    warnings.simplefilter("ignore", FutureWarning)  # pgmpy 1.1 warns about a module of its own that it imports
    from pgmpy.factors.discrete import TabularCPD
    from pgmpy.inference import VariableElimination
    from pgmpy.models import DiscreteBayesianNetwork


@pytest.fixture(scope="module")
def singles() -> Signatures:
    rng = np.random.default_rng(20261125)
    sets = [(), *((f"fault-{one:02}",) for one in range(80))]
    sizes = rng.integers(2, 6, 60).tolist()
    tables = {f"check-{one:02}": rng.dirichlet(np.ones(size), len(sets)) for one, size in enumerate(sizes)}
    return signatures(sets, rng.uniform(0.5, 1.5, len(sets)), tables)


@pytest.fixture(scope="module")
def engine(singles: Signatures) -> VariableElimination:
    sets = len(singles.space.hypotheses)
    network = DiscreteBayesianNetwork([("fault", check.id) for check in singles.checks])
    network.add_cpds(
        TabularCPD("fault", sets, singles.space.prior[:, None]),
        *(TabularCPD(c, t.shape[1], t.T, evidence=["fault"], evidence_card=[sets]) for c, t in singles.tables.items()),
    )
    return VariableElimination(network)


def seconds(work: Callable[[], Any], rounds: int) -> float:
    """Return the median time [s] of some work."""
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return statistics.median(times)


EVIDENCE = {f"check-{one:02}": one % 2 for one in range(10)}


def seen(model: Signatures) -> dict[str, str]:
    return {check: model.outcomes[check][place] for check, place in EVIDENCE.items()}


def queries(engine: VariableElimination, variables: list[str], order: str) -> Any:
    return engine.query(variables, evidence=EVIDENCE, elimination_order=order, show_progress=False)


@pytest.mark.parametrize(("order", "ratio"), [("MinFill", 150), ("greedy", 30)])
def test_posterior_of_all_singles(
    benchmark: Any, singles: Signatures, engine: VariableElimination, order: str, ratio: int
) -> None:
    evidence = seen(singles)
    belief = benchmark(posterior, singles, None, evidence)
    assert belief.hypotheses == pytest.approx(queries(engine, ["fault"], order).values, abs=1e-9)
    assert seconds(lambda: queries(engine, ["fault"], order), 21) / benchmark.stats.stats.median >= ratio


@pytest.mark.parametrize(("order", "ratio"), [("MinFill", 10_000), ("greedy", 2_500)])
def test_gains_of_all_checks(
    benchmark: Any, singles: Signatures, engine: VariableElimination, order: str, ratio: int
) -> None:
    belief = posterior(singles, None, seen(singles))
    bits = benchmark(gain_bits, singles, belief.atoms)
    left = [check.id for check in singles.checks if check.id not in EVIDENCE]

    def by_pgmpy() -> list[float]:
        joints = [queries(engine, ["fault", one], order) for one in left]
        return [information(one.values if one.variables[0] == "fault" else one.values.T) for one in joints]

    expected = dict(zip(left, by_pgmpy(), strict=True))
    told = {check.id: float(one) for check, one in zip(singles.checks, bits, strict=True) if check.id in expected}
    assert told == pytest.approx(expected, abs=1e-9)
    assert seconds(by_pgmpy, 5) / benchmark.stats.stats.median >= ratio


def information(joint: np.ndarray) -> float:
    """Return the mutual information [bit] of the two axes of a joint distribution."""
    product = joint.sum(axis=1, keepdims=True) * joint.sum(axis=0, keepdims=True)
    some = joint > 0
    return float((joint[some] * np.log2(joint[some] / product[some])).sum())


def test_proofs_of_the_bank(benchmark: Any) -> None:
    """Draw what a call shows and prove what is wrong: at least 100 a second and core."""
    problems = Problems()
    trade = load_trade(read_documents(shipped_course(), HEATER_KINDS, Problems()), problems)
    problems.raise_if_any()
    model = build_signatures(next(iter(trade.units.values())), trade)
    calls = [random_evidence(model, seed, 5) for seed in range(100)]
    proofs = benchmark(lambda: [prove_what_is_wrong(model, *call) for call in calls])
    assert any(proof.holds for proof in proofs)
    assert len(calls) / benchmark.stats.stats.median >= 100
