"""The declared hypotheses: which, how likely, and what is left of each after a repair."""

from collections.abc import Mapping

import pytest

from courseware.diagnosis.space import Premise, build_space
from courseware.heater.faults import FaultMode
from courseware.heater.job import Job
from courseware.heater.load import Trade
from tests.diagnosis.arrays import MADE_UP, UNIT, fault, repair


class Applying(FaultMode):
    """A fault that befalls every unit: the bench unit has no parts to move."""

    def applies_to(self, unit: object) -> bool:  # noqa: ARG002  # the bench has one unit
        return not self.latent


def trade_of(faults: Mapping[str, FaultMode]) -> Trade:
    repairs = {one.repair: repair(one.repair) for one in faults.values()}
    return Trade({UNIT.id: UNIT}, faults, repairs | {"unused": repair("unused")}, {}, (), Job({}, {}))


def applying(
    name: str, mended_by: str, odds: float, grades: tuple[float, ...] = (1.0,), *, here: bool = True
) -> FaultMode:
    one = fault(name, mended_by, odds, grades)
    latent = "" if here else "the unit lacks the part"
    return Applying(name, one.title, mended_by, (), grades, odds, "", latent, MADE_UP)


FAULTS = {
    "gap": applying("gap", "electrode", 0.2, (0.4, 1.0)),
    "air": applying("air", "regulator", 0.1),
    "lead": applying("lead", "electrode", 0.05),
    "fan": applying("fan", "fan", 0.3, here=False),
}


def test_healthy_all_singles_all_pairs_and_no_fault_the_unit_cannot_have() -> None:
    space = build_space(UNIT, trade_of(FAULTS))
    assert [one.faults for one in space.hypotheses] == [
        (), ("air",), ("gap",), ("lead",), ("air", "gap"), ("air", "lead"), ("gap", "lead"),
    ]  # fmt: skip
    assert list(space.repairs) == ["electrode", "regulator"]
    assert space.size.tolist() == [0, 1, 1, 1, 2, 2, 2]


def test_prior_is_in_proportion_to_the_product_of_the_odds() -> None:
    space = build_space(UNIT, trade_of(FAULTS))
    expected = [1, 0.1, 0.2, 0.05, 0.02, 0.005, 0.01]
    assert space.prior == pytest.approx([one / sum(expected) for one in expected], rel=1e-14)


def test_grades_are_atoms_of_one_hypothesis_and_equally_likely() -> None:
    space = build_space(UNIT, trade_of(FAULTS))
    named = [tuple((one.id, grade) for one, grade in atom) for atom in space.atoms]
    assert named == [
        (), (("air", 1.0),), (("gap", 0.4),), (("gap", 1.0),), (("lead", 1.0),),
        (("air", 1.0), ("gap", 0.4)), (("air", 1.0), ("gap", 1.0)), (("air", 1.0), ("lead", 1.0)),
        (("gap", 0.4), ("lead", 1.0)), (("gap", 1.0), ("lead", 1.0)),
    ]  # fmt: skip
    assert space.atom_hypothesis.tolist() == [0, 1, 2, 2, 3, 4, 4, 5, 6, 6]
    assert space.atom_weight[2] == space.atom_weight[3] == space.prior[2] / 2
    assert space.by_hypothesis(space.atom_weight) == pytest.approx(space.prior, rel=1e-14)


def test_what_a_repair_leaves() -> None:
    space = build_space(UNIT, trade_of(FAULTS))
    place = {one.faults: index for index, one in enumerate(space.hypotheses)}
    electrode, regulator = 0, 1
    assert space.without[place["air", "gap"]].tolist() == [place["air",], place["gap",]]
    # One repair mends both faults of the pair, and no fault of the single.
    assert space.without[place["gap", "lead"], electrode] == place[()]
    assert space.without[place["air",], electrode] == place["air",]
    assert space.needs[place["gap", "lead"]].tolist() == [True, False]
    assert not space.needs[place[()]].any()
    assert space.needs[:, regulator].tolist() == [False, True, False, False, True, True, False]


@pytest.mark.parametrize(
    ("premise", "words", "allowed"),
    [
        (Premise.ANY, "any number of things may be wrong, up to two", [True, True, True]),
        (Premise.ONE, "one thing is wrong", [False, True, False]),
        (Premise.ONE_OR_TWO, "one or two things are wrong", [False, True, True]),
    ],
)
def test_premises(premise: Premise, words: str, allowed: list[bool]) -> None:
    space = build_space(UNIT, trade_of(FAULTS))
    assert premise.words() == words
    assert premise.allows(space.size[[0, 1, -1]]).tolist() == allowed
