"""The posterior against arithmetic by hand, brute force, and the laws of probability."""

from collections.abc import Mapping

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courseware.diagnosis.posterior import ImpossibleEvidence, posterior
from courseware.diagnosis.signatures import Signatures, UnknownEvidenceError
from courseware.diagnosis.space import Premise
from tests.diagnosis.arrays import certain, random_evidence, random_model, signatures

SEEDS = st.integers(min_value=0, max_value=2**32 - 1)


def brute_force(model: Signatures, complaint: str | None, evidence: Mapping[str, str]) -> dict[tuple[str, ...], float]:
    """Return the posterior of each hypothesis by plain multiplication, atom by atom."""
    sums: dict[tuple[str, ...], float] = {}
    for atom, weight in enumerate(model.space.atom_weight.tolist()):
        chance = weight if complaint in (None, model.complaints[atom]) else 0.0
        for check, outcome in evidence.items():
            chance *= float(model.tables[check][atom, model.outcomes[check].index(outcome)])
        faults = model.space.hypotheses[model.space.atom_hypothesis[atom]].faults
        sums[faults] = sums.get(faults, 0.0) + chance
    total = sum(sums.values())
    return {faults: chance / total for faults, chance in sums.items()}


def two_faults() -> Signatures:
    return signatures(
        [(), ("air",), ("spark",), ("air", "spark")],
        [100, 10, 20, 2],
        {"mirror": [[0.9, 0.1], [0.9, 0.1], [0.2, 0.8], [0.0, 1.0]], "gauge": certain([0, 1, 0, 1], 3)},
        complaints=["works", "clicks", "clicks", "clicks"],
    )


def test_by_hand() -> None:
    belief = posterior(two_faults(), "clicks", {"mirror": "cannot"})
    # 10 * .1 : 20 * .8 : 2 * 1 = 1 : 16 : 2
    assert belief.hypotheses == pytest.approx([0, 1 / 19, 16 / 19, 2 / 19], rel=1e-14)
    assert belief.repairs == pytest.approx({"air": 3 / 19, "spark": 18 / 19}, rel=1e-14)
    assert np.exp(belief.log_evidence) == pytest.approx(19 / 132, rel=1e-14)


def test_nothing_seen_gives_the_prior() -> None:
    assert posterior(two_faults(), None, {}).hypotheses == pytest.approx(np.array([100, 10, 20, 2]) / 132, rel=1e-14)


@pytest.mark.parametrize(
    ("premise", "expected"),
    [(Premise.ONE, [0, 1 / 17, 16 / 17, 0]), (Premise.ONE_OR_TWO, [0, 1 / 19, 16 / 19, 2 / 19])],
)
def test_premise_leaves_out_what_the_question_leaves_out(premise: Premise, expected: list[float]) -> None:
    assert posterior(two_faults(), None, {"mirror": "cannot"}, Premise.ONE).hypotheses[0] == 0
    assert posterior(two_faults(), "clicks", {"mirror": "cannot"}, premise).hypotheses == pytest.approx(expected)


def test_one_reading_that_nothing_gives_is_named_alone() -> None:
    with pytest.raises(ImpossibleEvidence) as caught:
        posterior(two_faults(), "clicks", {"mirror": "0", "gauge": "cannot"})
    assert caught.value.clash == (("gauge", "cannot"),)
    assert str(caught.value) == (
        "this reading never comes up on this unit (any number of things may be wrong, up to two):"
        " Check gauge: gauge cannot be read"
    )


def test_readings_that_clash_are_named_and_no_other() -> None:
    model = signatures(
        [(), ("air",), ("spark",)], [1, 1, 1],
        {"lamp": certain([0, 1, 1]), "gauge": certain([0, 1, 0]), "meter": certain([0, 0, 1])},
        complaints=["works", "clicks", "clicks"],
    )  # fmt: skip
    with pytest.raises(ImpossibleEvidence) as caught:
        posterior(model, "clicks", {"lamp": "cannot", "gauge": "cannot", "meter": "cannot"}, Premise.ONE)
    assert caught.value.clash == (("gauge", "cannot"), ("meter", "cannot"))
    assert str(caught.value) == (
        "these readings cannot stand together on this unit (one thing is wrong):"
        " Check gauge: gauge cannot be read; Check meter: meter cannot be read"
    )
    with pytest.raises(ImpossibleEvidence) as caught:
        posterior(model, "works", {"lamp": "cannot"})
    assert str(caught.value) == (
        "these readings cannot stand together on this unit (any number of things may be wrong, up to two):"
        " the customer says “It works”; Check lamp: lamp cannot be read"
    )


@pytest.mark.parametrize(
    ("complaint", "evidence", "text"),
    [
        ("sings", {}, "unit 'bench' has no complaint 'sings'; the customers say: clicks, works"),
        (None, {"mirrors": "0"}, "unit 'bench' has no check 'mirrors'"),
        (None, {"mirror": "7"}, "check 'mirror' of unit 'bench' has no outcome '7'; it has: 0, cannot"),
    ],
)
def test_unknown_evidence(complaint: str | None, evidence: dict[str, str], text: str) -> None:
    with pytest.raises(UnknownEvidenceError) as caught:
        posterior(two_faults(), complaint, evidence)
    assert str(caught.value) == text


def test_sixty_readings_do_not_underflow() -> None:
    tables = {f"check-{one}": [[1e-12, 1 - 1e-12], [2e-12, 1 - 2e-12]] for one in range(60)}
    model = signatures([("air",), ("spark",)], [1, 1], tables)
    belief = posterior(model, None, dict.fromkeys(tables, "0"))
    assert belief.hypotheses[0] == pytest.approx(2.0**-60, rel=1e-9)


@settings(deadline=None)
@given(SEEDS, st.integers(0, 5))
def test_law_equals_brute_force(seed: int, readings: int) -> None:
    model = random_model(seed % 50)
    complaint, evidence = random_evidence(model, seed, readings)
    belief = posterior(model, complaint, evidence)
    expected = brute_force(model, complaint, evidence)
    assert belief.hypotheses == pytest.approx([expected[one.faults] for one in model.space.hypotheses], abs=1e-12)
    for repair, chance in belief.repairs.items():
        with_it = sum(expected[one.faults] for one in model.space.hypotheses if repair in one.repairs)
        assert chance == pytest.approx(with_it, abs=1e-12)


@settings(deadline=None)
@given(SEEDS, st.integers(1, 5))
def test_law_sums_to_one_and_order_of_evidence_changes_no_bit(seed: int, readings: int) -> None:
    model = random_model(seed % 50)
    complaint, evidence = random_evidence(model, seed, readings)
    shuffled = {name: evidence[name] for name in np.random.default_rng(seed).permutation(list(evidence)).tolist()}
    one, other = posterior(model, complaint, evidence), posterior(model, complaint, shuffled)
    assert one.atoms.sum() == pytest.approx(1, abs=1e-12)
    assert one.hypotheses.sum() == pytest.approx(1, abs=1e-12)
    assert one.atoms.tobytes() == other.atoms.tobytes()
    assert one.repairs == other.repairs
    assert one.log_evidence == other.log_evidence


def test_no_order_of_twenty_doubtful_readings_changes_a_bit() -> None:
    rng = np.random.default_rng(11)
    tables = {f"check-{one:02}": rng.dirichlet(np.ones(4), 30) for one in range(20)}
    model = signatures([(f"fault-{one:02}",) for one in range(30)], rng.random(30), tables)
    beliefs = [posterior(model, None, dict.fromkeys(rng.permutation(list(tables)).tolist(), "1")) for _ in range(20)]
    assert len({belief.atoms.tobytes() for belief in beliefs}) == 1


@settings(deadline=None)
@given(SEEDS)
def test_law_posterior_is_the_average_over_what_is_read_next(seed: int) -> None:
    model = random_model(seed % 50)
    complaint, evidence = random_evidence(model, seed, 2)
    before = posterior(model, complaint, evidence)
    check = next(one.id for one in model.checks if one.id not in evidence)
    mean = np.zeros_like(before.hypotheses)
    for outcome in model.outcomes[check]:
        chance = float(model.rows[model.row_of[check, outcome]] @ before.atoms)
        if chance > 0:
            mean += chance * posterior(model, complaint, evidence | {check: outcome}).hypotheses
    assert mean == pytest.approx(before.hypotheses, abs=1e-12)
