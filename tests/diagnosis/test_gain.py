"""The expected information of checks against its definition, and the law that knowing more is expected to help."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courseware.diagnosis.gain import Gain, gains
from courseware.diagnosis.posterior import ImpossibleEvidence, posterior
from courseware.diagnosis.signatures import Signatures
from courseware.diagnosis.space import Floats, Premise
from tests.diagnosis.arrays import certain, random_evidence, random_model, signatures


def repair_entropy(model: Signatures, hypotheses: Floats) -> float:
    """Return the entropy [bit] of the set of repairs needed, by adding up a dictionary."""
    sets: dict[frozenset[str], float] = {}
    for hypothesis, chance in zip(model.space.hypotheses, hypotheses.tolist(), strict=True):
        sets[hypothesis.repairs] = sets.get(hypothesis.repairs, 0.0) + chance
    return -sum(chance * float(np.log2(chance)) for chance in sets.values() if chance > 0)


@settings(deadline=None)
@given(st.integers(0, 2**32 - 1), st.integers(0, 4), st.sampled_from(Premise))
def test_law_gain_is_the_expected_fall_of_entropy_and_never_negative(
    seed: int, readings: int, premise: Premise
) -> None:
    model = random_model(seed % 50)
    complaint, evidence = random_evidence(model, seed, readings)
    try:
        before = posterior(model, complaint, evidence, premise)
    except ImpossibleEvidence:
        return  # what was drawn from two faults may be impossible with one
    for gain in gains(model, complaint, evidence, premise):
        after = 0.0
        for outcome in model.outcomes[gain.check]:
            chance = float(model.rows[model.row_of[gain.check, outcome]] @ before.atoms)
            if chance > 0:
                belief = posterior(model, complaint, evidence | {gain.check: outcome}, premise)
                after += chance * repair_entropy(model, belief.hypotheses)
        assert gain.bits == pytest.approx(repair_entropy(model, before.hypotheses) - after, abs=1e-9)
        assert gain.bits >= 0


def test_grades_of_one_fault_and_faults_of_one_repair_are_not_told_apart() -> None:
    # "grades" splits the grades of a fault, "faults" two faults that one repair mends: nobody needs to know.
    model = signatures(
        [("gap",), ("lead",), ("pump",)], [2, 1, 1],
        {"grades": certain([0, 1, 0, 0]), "faults": certain([0, 0, 1, 0]), "pump": certain([0, 0, 0, 1])},
        grades=[2, 1, 1], mended_by={"gap": "electrode", "lead": "electrode", "pump": "pump"},
    )  # fmt: skip
    bits = {gain.check: gain.bits for gain in gains(model, None, {})}
    assert bits["pump"] == pytest.approx(0.811278, abs=5e-7)  # H(1/4)
    # A split inside "electrode" still tells something: what shows 1 is not the pump.
    assert bits["grades"] == pytest.approx(_mutual([[0.25, 0.5], [0.0, 0.25]]), abs=1e-12)
    assert bits["faults"] == pytest.approx(_mutual([[0.25, 0.5], [0.0, 0.25]]), abs=1e-12)


def _mutual(joint: list[list[float]]) -> float:
    table = np.array(joint)
    product = table.sum(axis=1, keepdims=True) * table.sum(axis=0, keepdims=True)
    return float((table[table > 0] * np.log2(table[table > 0] / product[table > 0])).sum())


def test_gain_is_told_for_each_minute_and_ties_stand_in_order_of_name() -> None:
    table = certain([0, 1])
    model = signatures(
        [("air",), ("spark",)], [1, 1], {"slow": table, "quick-b": table, "quick-a": table},
        minutes={"slow": 8, "quick-a": 2, "quick-b": 2},
    )  # fmt: skip
    found = gains(model, None, {})
    assert [gain.check for gain in found] == ["quick-a", "quick-b", "slow"]
    assert found[-1] == Gain("slow", 1.0, 8.0)
    assert found[-1].per_minute == 0.125


def test_a_check_already_made_is_not_offered_again() -> None:
    model = random_model(1)
    complaint, evidence = random_evidence(model, 1, 3)
    assert {gain.check for gain in gains(model, complaint, evidence)} == {one.id for one in model.checks} - set(
        evidence
    )
