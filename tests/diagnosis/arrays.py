"""Signatures from plain arrays, so that the inference can be held against published examples."""

from collections.abc import Mapping, Sequence
from functools import cache
from typing import TypedDict, Unpack

import numpy as np
from numpy.typing import ArrayLike, NDArray

from courseware.content.provenance import Provenance
from courseware.content.source import Source
from courseware.diagnosis.signatures import Signatures
from courseware.diagnosis.space import Hypothesis, Space
from courseware.heater.checks import Band, Check
from courseware.heater.complaints import Complaint
from courseware.heater.faults import FaultMode, Repair
from courseware.heater.unit import Unit

MADE_UP = Provenance("made up for a test", "", "", Source("test.yaml", 1))
UNIT = Unit("bench", "Bench unit", "", {}, {}, (), MADE_UP)


def repair(name: str) -> Repair:
    return Repair(name, f"Fix the {name}", 10.0, "lesson#part", MADE_UP)


def fault(name: str, mended_by: str, odds: float = 0.1, grades: tuple[float, ...] = (1.0,)) -> FaultMode:
    return FaultMode(name, name, mended_by, (), grades, odds, "", "", MADE_UP)


def check(name: str, outcomes: int, minutes: float = 1.0) -> Check:
    """Return a check of so many outcomes, "cannot" the last of them."""
    bands = tuple(Band(str(one), None, None, f"{name} shows {one}") for one in range(outcomes - 1))
    return Check(
        id=name, title=f"Check {name}", asks="", tools=(), hazards=(), minutes=minutes, needs={}, signal="", moment="",
        given=(), unit="", resolution=1.0, error=0.0, top=None, bands=bands, changes=(),
        cannot=f"{name} cannot be read", strong=False, lesson="lesson#part", provenance=MADE_UP,
    )  # fmt: skip


class Extras(TypedDict, total=False):
    """What a model of plain arrays may say besides.

    ``grades``: number of equally likely atoms of each hypothesis, else one each. ``mended_by``: fault to
    repair, else a repair of the fault's name. ``minutes`` of each check, else 1. ``complaints`` of each atom.
    """

    grades: Sequence[int]
    mended_by: Mapping[str, str]
    minutes: Mapping[str, float]
    complaints: Sequence[str]


def signatures(
    hypotheses: Sequence[tuple[str, ...]], prior: ArrayLike, tables: Mapping[str, ArrayLike], **extras: Unpack[Extras]
) -> Signatures:
    """Return signatures whose tables are given.

    Parameters
    ----------
    hypotheses
        Sets of faults, (h,).
    prior
        Of each, (h,); scaled to sum 1.
    tables
        Check to (a, k) probabilities; the last outcome is "cannot", the others "0", "1" ...
    extras
        See :class:`Extras`.
    """
    space = _space(hypotheses, prior, extras.get("grades", [1] * len(hypotheses)), extras.get("mended_by", {}))
    arrays = {name: np.array(table, dtype=float) for name, table in tables.items()}
    minutes = extras.get("minutes", {})
    checks = tuple(check(name, table.shape[1], minutes.get(name, 1.0)) for name, table in arrays.items())
    complaints = extras.get("complaints", ())
    return Signatures(
        space=space,
        checks=checks,
        complaints=tuple(complaints or [""] * len(space.atoms)),
        tables=arrays,
        outcomes={one.id: (*(band.id for band in one.bands), "cannot") for one in checks},
        said={name: Complaint(name, name, f"It {name}.", (), MADE_UP) for name in sorted(set(complaints))},
        finds={},
    )


def _space(
    hypotheses: Sequence[tuple[str, ...]], prior: ArrayLike, grades: Sequence[int], mended_by: Mapping[str, str]
) -> Space:
    chances = np.array(prior, dtype=float) / np.sum(prior)
    by = {one: mended_by.get(one, one) for one in sorted({one for some in hypotheses for one in some})}
    return Space(
        unit=UNIT,
        hypotheses=tuple(Hypothesis(some, tuple(by[one] for one in some)) for some in hypotheses),
        prior=chances,
        atoms=tuple(
            tuple((fault(one, by[one]), (grade + 1) / count) for one in some)
            for some, count in zip(hypotheses, grades, strict=True)
            for grade in range(count)
        ),
        atom_hypothesis=np.repeat(np.arange(len(hypotheses)), grades),
        atom_weight=np.repeat(chances / grades, grades),
        repairs={name: repair(name) for name in sorted(set(by.values()))},
    )


def certain(outcomes: Sequence[int], count: int | None = None) -> list[list[float]]:
    """Return a table without doubt: atom i gives outcome ``outcomes[i]`` of ``count``."""
    width = count or max(outcomes) + 1
    return [[float(column == outcome) for column in range(width)] for outcome in outcomes]


def passes(fails: Sequence[int]) -> list[list[float]]:
    """Return the table of a check of outcomes "0" pass, "cannot" (never), from 0/1 fail flags, as "0"/"1"."""
    return certain(fails, 3)


@cache
def random_model(seed: int, *, faults: int = 5, checks: int = 5) -> Signatures:
    """Return healthy, singles and pairs of faults that share repairs, with grades, doubt and impossible outcomes."""
    rng = np.random.default_rng(seed)
    names = [f"fault-{one}" for one in range(faults)]
    sets = [(), *((one,) for one in names), *((a, b) for i, a in enumerate(names) for b in names[i + 1 :])]
    grades = [1 if not some else int(rng.integers(1, 4)) for some in sets]
    tables = {f"check-{one}": _random_table(rng, sum(grades), int(rng.integers(2, 5))) for one in range(checks)}
    return signatures(
        sets, rng.uniform(0.05, 1.0, len(sets)), tables, grades=grades,
        mended_by={name: f"repair-{int(rng.integers(faults - 1))}" for name in names},
        minutes={name: float(rng.uniform(1, 9)) for name in tables},
        complaints=[str(rng.choice(["hums", "clicks", "smokes"])) for _ in range(sum(grades))],
    )  # fmt: skip


def _random_table(rng: np.random.Generator, atoms: int, outcomes: int) -> NDArray[np.float64]:
    """Return rows that sum to 1, about half of them certain, with zeros among the others."""
    doubtful = rng.dirichlet(np.full(outcomes, 0.5), atoms) * rng.integers(0, 2, (atoms, outcomes))
    sure = np.eye(outcomes)[rng.integers(0, outcomes, atoms)]
    keep = (doubtful.sum(axis=1) > 0) & (rng.random(atoms) < 0.5)
    doubtful[~keep] = sure[~keep]
    return np.asarray(doubtful / doubtful.sum(axis=1, keepdims=True))


def random_evidence(model: Signatures, seed: int, readings: int) -> tuple[str, dict[str, str]]:
    """Return a complaint and outcomes that one atom, drawn from the prior, gives: so they are possible."""
    rng = np.random.default_rng(seed)
    atom = int(rng.choice(len(model.space.atoms), p=model.space.atom_weight))
    chosen = rng.permutation([check.id for check in model.checks])[:readings].tolist()
    return model.complaints[atom], {
        name: str(rng.choice(model.outcomes[name], p=model.tables[name][atom])) for name in chosen
    }


GOOD, BAD = "0", "1"


def bench(doubt: float = 0.0, odds: Mapping[str, float] | None = None) -> Signatures:
    """Return a small heater: "air", "pump" and "spark" stop the flame, "soot" shows only on the lens.

    The gauge sees air, the mirror spark, the lens soot; the beaker stays dry if air or pump fails.
    ``doubt`` is the chance that the mirror shows the opposite. Odds are 0.1 each if not given.
    """
    names = ("air", "pump", "soot", "spark")
    sets = [(), *((one,) for one in names), *((a, b) for i, a in enumerate(names) for b in names[i + 1 :])]
    chances = [float(np.prod([(odds or {}).get(one, 0.1) for one in some])) for some in sets]
    seen_by = {"gauge": {"air"}, "mirror": {"spark"}, "lens": {"soot"}, "beaker": {"air", "pump"}}
    tables = {name: np.array(passes([int(bool(what & {*some})) for some in sets])) for name, what in seen_by.items()}
    tables["mirror"][:, :2] = (1 - doubt) * tables["mirror"][:, :2] + doubt * tables["mirror"][:, 1::-1]
    stopped = ["clicks" if {*some} & {"air", "pump", "spark"} else "works" for some in sets]
    minutes = {"gauge": 2.0, "mirror": 10.0, "lens": 4.0, "beaker": 15.0}
    return signatures(sets, chances, tables, minutes=minutes, complaints=stopped)
