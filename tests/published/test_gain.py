"""The expected information held against worked examples of the literature.

Sources: J. de Kleer and B. C. Williams, "Diagnosing multiple faults", Artificial Intelligence 32
(1987) 97-130: the polybox and the cascaded inverters; the devices are the paper's, the entropies were
recomputed for this course by exact enumeration, since the paper's own figures were not at hand.
K. R. Pattipati and M. G. Alexandridis, IEEE Trans. SMC 20 (1990) 872-887, and V. Raghavan,
M. Shakeri and K. Pattipati, IEEE Trans. SMC-A 29 (1999) 86-95: the test sequencing problem; examples E1 and
E2 are this course's own, their costs found by exact dynamic programming over subsets.
"""

from collections.abc import Sequence
from itertools import product

import numpy as np
import pytest

from courseware.diagnosis.gain import gains
from courseware.diagnosis.posterior import posterior
from courseware.diagnosis.signatures import Signatures, surprise
from tests.diagnosis.arrays import certain, signatures

COMPONENTS = ("a1", "a2", "m1", "m2", "m3")
INPUTS = (3, 2, 2, 3, 3)
UNPREDICTED = 2


def polybox_values(broken: frozenset[str], f: int, g: int) -> dict[str, int] | None:
    """Return what the working parts say about x, y and z, given the outputs seen; None if they cannot agree."""
    a, b, c, d, e = INPUTS
    known = {"f": f, "g": g} | {
        name: value for name, value, part in (("x", a * c, "m1"), ("y", b * d, "m2"), ("z", c * e, "m3"))
        if part not in broken
    }  # fmt: skip
    sums = [(("x", "y", "f"), "a1"), (("y", "z", "g"), "a2")]
    for (left, right, total), part in sums * 2:  # twice: what one adder tells may serve the other
        if part in broken:
            continue
        if left in known and right in known and known[left] + known[right] != known[total]:
            return None
        if left in known:
            known[right] = known[total] - known[left]
        elif right in known:
            known[left] = known[total] - known[right]
    for name, value, part in (("x", a * c, "m1"), ("y", b * d, "m2"), ("z", c * e, "m3")):
        if part not in broken and known[name] != value:
            return None
    return known


def polybox(p: float, f: int, g: int, *, only: Sequence[tuple[str, ...]] | None = None) -> Signatures:
    """Return the diagnoses of the polybox with what they predict at x, y and z."""
    sets = [tuple(c for c, bad in zip(COMPONENTS, bits, strict=True) if bad) for bits in product((0, 1), repeat=5)]
    found = [(some, polybox_values(frozenset(some), f, g)) for some in sets]
    standing = [(some, values) for some, values in found if values is not None and (only is None or some in only)]
    tables = {}
    for probe in ("x", "y", "z"):
        predicted = [values.get(probe) for _, values in standing]
        distinct = sorted({value for value in predicted if value is not None})
        places = [len(distinct) if value is None else distinct.index(value) for value in predicted]
        tables[probe] = certain(places, len(distinct) + 1)
    prior = [p ** len(some) * (1 - p) ** (5 - len(some)) for some, _ in standing]
    return signatures([some for some, _ in standing], prior, tables)


def entropy(model: Signatures) -> float:
    return float(surprise(posterior(model, None, {}).hypotheses).sum())


def expected_entropies(model: Signatures) -> list[float]:
    told = {gain.check: gain.bits for gain in gains(model, None, {})}
    return [entropy(model) - told[check.id] for check in model.checks]


@pytest.mark.parametrize(
    ("p", "single", "bits", "after"),
    [
        (0.01, 0.478026, 1.3594, (0.3186, 1.2779, 1.3120)),
        (0.05, 0.399661, 2.2252, (1.0754, 1.9260, 2.0269)),
        (0.10, 0.319441, 2.9305, (1.6773, 2.4208, 2.5605)),
    ],
)
def test_polybox_all_diagnoses(p: float, single: float, bits: float, after: tuple[float, float, float]) -> None:
    model = polybox(p, 10, 12)
    belief = posterior(model, None, {})
    names = [hypothesis.faults for hypothesis in model.space.hypotheses]
    assert len(names) == 27
    assert belief.hypotheses[names.index(("a1",))] == pytest.approx(single, abs=5e-7)
    assert belief.hypotheses[names.index(("m1",))] == pytest.approx(single, abs=5e-7)
    assert entropy(model) == pytest.approx(bits, abs=5e-5)
    assert expected_entropies(model) == pytest.approx(after, abs=5e-5)
    assert gains(model, None, {})[0].check == "x"


@pytest.mark.parametrize(
    ("p", "bits", "after"),
    [(0.01, 1.08079, (0.08087, 1.0, 1.03538)), (0.10, 1.469, (0.47622, 1.0, 1.1826))],
)
def test_polybox_minimal_diagnoses(p: float, bits: float, after: tuple[float, float, float]) -> None:
    model = polybox(p, 10, 12, only=[("a1",), ("m1",), ("a2", "m2"), ("m2", "m3")])
    assert entropy(model) == pytest.approx(bits, abs=5e-5)
    assert expected_entropies(model) == pytest.approx(after, abs=5e-5)


def test_polybox_both_outputs_low_probes_the_shared_value() -> None:
    assert gains(polybox(0.01, 10, 10), None, {})[0].check == "y"


@pytest.mark.parametrize(("n", "best"), [(4, 1.0), (6, 1.5850)])
def test_chain_of_equally_likely_faults(n: int, best: float) -> None:
    # E[H] after a probe behind stage k is (k/n) log2 k + ((n-k)/n) log2 (n-k); n=4: 1.1887, 1, 1.1887.
    stages = [(f"stage-{one}",) for one in range(n)]
    probes = {f"after-{k}": certain([int(stage < k) for stage in range(n)]) for k in range(1, n)}
    model = signatures(stages, [1.0] * n, probes)
    formula = [(k / n) * np.log2(k) + ((n - k) / n) * np.log2(n - k) for k in range(1, n)]
    assert expected_entropies(model) == pytest.approx(formula, abs=1e-12)
    assert min(formula) == pytest.approx(best, abs=5e-5)
    assert gains(model, None, {})[0].check == f"after-{n // 2}"


def test_four_cascaded_inverters_are_probed_in_the_middle() -> None:
    # A broken inverter passes its input. Input 0, output seen 1 where 0 is right; p = 0.01 each.
    sets = [some for some in product((0, 1), repeat=4) if sum(some) % 2 == 1]
    names = [tuple(f"i{place}" for place, bad in enumerate(some) if bad) for some in sets]
    prior = [0.01 ** sum(some) * 0.99 ** (4 - sum(some)) for some in sets]
    after = {
        probe: [(stages - sum(some[:stages])) % 2 for some in sets] for probe, stages in (("b", 1), ("c", 2), ("d", 3))
    }
    model = signatures(names, prior, {probe: certain(values, 2) for probe, values in after.items()})
    assert expected_entropies(model) == pytest.approx([1.19014, 1.00150, 1.19014], abs=5e-6)


def greedy_cost(model: Signatures, seen: dict[str, str]) -> float:
    """Return the expected minutes [min] to a single hypothesis if the best gain per minute is always taken."""
    belief = posterior(model, None, seen)
    if belief.hypotheses.max() > 1 - 1e-12:
        return 0.0
    best = gains(model, None, seen)[0]
    row = {
        outcome: model.rows[model.row_of[best.check, outcome]] @ belief.atoms for outcome in model.outcomes[best.check]
    }
    return best.minutes + sum(
        float(chance) * greedy_cost(model, seen | {best.check: outcome})
        for outcome, chance in row.items()
        if chance > 0
    )


def test_greedy_gain_on_five_states_is_2_71_where_the_best_tree_is_2_12() -> None:
    rows = ("00000", "01001", "00110", "10011", "11000")
    tables = {f"t{one + 1}": certain([int(row[one]) for row in rows], 2) for one in range(5)}
    model = signatures([(), ("s1",), ("s2",), ("s3",), ("s4",)], (0.70, 0.01, 0.02, 0.10, 0.17), tables)
    assert entropy(model) == pytest.approx(1.3063, abs=5e-5)
    assert greedy_cost(model, {}) == pytest.approx(2.71, abs=5e-3)


def test_greedy_gain_per_minute_on_a_heater_shaped_table_is_6_75() -> None:
    rows = ("01001", "00101", "00011", "00001", "11111")
    minutes = {"t1": 1.0, "t2": 2.0, "t3": 4.0, "t4": 3.0, "t5": 2.0}
    tables = {f"t{one + 1}": certain([int(row[one]) for row in rows], 2) for one in range(5)}
    faults = [("spark",), ("fuel",), ("air",), ("sensor",), ("power",)]
    model = signatures(faults, (0.25, 0.30, 0.15, 0.20, 0.10), tables, minutes=minutes)
    assert greedy_cost(model, {}) == pytest.approx(6.75, abs=5e-3)
    # t5 fails whatever is wrong, so it tells nothing.
    assert {gain.check: gain.bits for gain in gains(model, None, {})}["t5"] == 0.0


def test_four_steps_that_pin_one_fault_tell_the_bits_published_for_them() -> None:
    # Path t2 then t1 of the same table for the spark fault: .9341 + .8631 bit.
    rows = ("01001", "00101", "00011", "00001", "11111")
    tables = {f"t{one + 1}": certain([int(row[one]) for row in rows], 2) for one in range(5)}
    faults = [("spark",), ("fuel",), ("air",), ("sensor",), ("power",)]
    model = signatures(faults, (0.25, 0.30, 0.15, 0.20, 0.10), tables)
    first = {gain.check: gain.bits for gain in gains(model, None, {})}["t2"]
    second = {gain.check: gain.bits for gain in gains(model, None, {"t2": "cannot"})}["t1"]
    assert (first, second) == pytest.approx((0.9341, 0.8631), abs=5e-5)


def test_half_split_of_equally_likely_faults_needs_the_published_number_of_checks() -> None:
    # All splits at hand: 2, 2.4, 3, 3.4, 4 checks for n = 4, 5, 8, 10, 16 (Huffman code lengths).
    for n, steps in ((4, 2.0), (5, 2.4), (8, 3.0)):
        splits = {f"t{bits}": certain([bits >> one & 1 for one in range(n)], 2) for bits in range(1, 2 ** (n - 1))}
        model = signatures([(f"f{one}",) for one in range(n)], np.ones(n), splits)
        assert greedy_cost(model, {}) == pytest.approx(steps, abs=1e-9)
