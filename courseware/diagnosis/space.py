"""The declared hypotheses about one unit: healthy, each fault alone, each pair of faults.

A fault that comes in grades is one hypothesis but several *atoms*: one for each combination of
grades. Given an atom nothing about the unit is left to chance, so that sums over atoms are exact
and no integral has to be approximated.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum
from itertools import combinations, product

import numpy as np
from numpy.typing import NDArray

from courseware.content.words import say
from courseware.heater.faults import FaultMode, Repair
from courseware.heater.load import Trade
from courseware.heater.simulate import Case
from courseware.heater.unit import Unit

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]


class Premise(Enum):
    """What a question takes for granted about the number of faults; the value: the numbers allowed, if not any."""

    # Sets, not tuples: Python 3.11 before 3.11.4 takes an empty tuple for no value at all.
    ANY = frozenset[int]()
    ONE = frozenset({1})
    ONE_OR_TWO = frozenset({1, 2})

    def allows(self, sizes: Ints) -> Flags:
        """Return, for hypotheses with ``sizes`` faults [-], whether the premise leaves them standing."""
        return np.isin(sizes, sorted(self.value)) if self.value else np.ones(len(sizes), dtype=bool)

    def words(self) -> str:
        """Return the premise as a clause: "one thing is wrong"."""
        return say(f"diagnosis.premise-{self.name.lower().replace('_', '-')}")


@dataclass(frozen=True, slots=True)
class Hypothesis:
    """One supposition about the unit.

    Attributes
    ----------
    faults : tuple of str
        Ids of the faults present, sorted; empty for a healthy unit.
    mended_by : tuple of str
        The repair that mends each of them, in the same order.
    """

    faults: tuple[str, ...]
    mended_by: tuple[str, ...]

    @property
    def repairs(self) -> frozenset[str]:
        """Return the repairs the unit needs; two faults may share one."""
        return frozenset(self.mended_by)


@dataclass(frozen=True, slots=True, eq=False)
class Space:
    """All hypotheses about one unit, with their prior, and the atoms they are made of.

    Attributes
    ----------
    unit : Unit
        The unit.
    hypotheses : tuple of Hypothesis, (h,)
        Healthy first, then singles, then pairs.
    prior : array, (h,)
        Probability [-] of each before anything is seen; sums to 1.
    atoms : tuple of Case, (a,)
        Faults with their grades, in the order of the hypotheses.
    atom_hypothesis : array of int, (a,)
        The hypothesis [-] each atom belongs to; rises along the array, and every hypothesis has an atom.
    atom_weight : array, (a,)
        Prior probability [-] of each atom; sums to 1.
    repairs : mapping of str to Repair
        The repairs that any hypothesis needs, by id.
    first_atom : array of int, (h,)
        The first atom [-] of each hypothesis.
    size : array of int, (h,)
        Number of faults [-] of each hypothesis.
    needs : array of bool, (h, r)
        Whether a hypothesis needs a repair; repairs in the order of ``repairs``.
    counts : array, (h, r)
        The same as 0 and 1 [-], for products.
    without : array of int, (h, r)
        The hypothesis [-] that is left when the repair has been made; -1 if the space does not hold it.
    """

    unit: Unit
    hypotheses: tuple[Hypothesis, ...]
    prior: Floats
    atoms: tuple[Case, ...]
    atom_hypothesis: Ints
    atom_weight: Floats
    repairs: Mapping[str, Repair]
    first_atom: Ints = field(init=False)
    size: Ints = field(init=False)
    needs: Flags = field(init=False)
    counts: Floats = field(init=False)
    without: Ints = field(init=False)

    def __post_init__(self) -> None:
        place = {hypothesis.faults: index for index, hypothesis in enumerate(self.hypotheses)}
        without = [[place.get(_left(one, repair), -1) for repair in self.repairs] for one in self.hypotheses]
        needs = [[repair in one.repairs for repair in self.repairs] for one in self.hypotheses]
        shape = (len(self.hypotheses), len(self.repairs))
        object.__setattr__(self, "first_atom", np.flatnonzero(np.diff(self.atom_hypothesis, prepend=-1)))
        object.__setattr__(self, "size", np.array([len(one.faults) for one in self.hypotheses]))
        object.__setattr__(self, "needs", np.array(needs, dtype=bool).reshape(shape))
        object.__setattr__(self, "counts", self.needs.astype(float))
        object.__setattr__(self, "without", np.array(without, dtype=np.int64).reshape(shape))

    def by_hypothesis(self, atoms: Floats) -> Floats:
        """Return the sums over the atoms of each hypothesis: (..., a) becomes (..., h)."""
        return np.asarray(np.add.reduceat(atoms, self.first_atom, axis=-1))


def _left(hypothesis: Hypothesis, repair: str) -> tuple[str, ...]:
    """Return the faults that remain after a repair."""
    return tuple(fault for fault, by in zip(hypothesis.faults, hypothesis.mended_by, strict=True) if by != repair)


def build_space(unit: Unit, trade: Trade) -> Space:
    """Return healthy, all single faults and all pairs of the faults that can befall a unit.

    The prior is proportional to the product of the faults' odds: faults strike independently,
    and three at once are left out. The grades of a fault are equally likely.

    Parameters
    ----------
    unit : Unit
        The unit.
    trade : Trade
        Its ``faults`` and ``repairs`` are used.

    Examples
    --------
    With odds a, b the hypotheses healthy, a, b, ab stand as 1 : a : b : ab.
    """
    faults = sorted((fault for fault in trade.faults.values() if fault.applies_to(unit)), key=lambda fault: fault.id)
    sets = [chosen for size in (0, 1, 2) for chosen in combinations(faults, size)]
    prior = np.array([float(np.prod([fault.odds for fault in chosen])) for chosen in sets])
    prior /= prior.sum()
    cases = [_grades(chosen) for chosen in sets]
    counts = np.array([len(some) for some in cases])
    used = sorted({fault.repair for fault in faults})
    return Space(
        unit=unit,
        hypotheses=tuple(Hypothesis(tuple(f.id for f in some), tuple(f.repair for f in some)) for some in sets),
        prior=prior,
        atoms=tuple(case for some in cases for case in some),
        atom_hypothesis=np.repeat(np.arange(len(sets)), counts),
        atom_weight=np.repeat(prior / counts, counts),
        repairs={repair: trade.repairs[repair] for repair in used},
    )


def _grades(faults: tuple[FaultMode, ...]) -> list[Case]:
    """Return every combination of grades of some faults; one empty case for no fault."""
    return [tuple(zip(faults, grades, strict=True)) for grades in product(*(fault.severities for fault in faults))]
