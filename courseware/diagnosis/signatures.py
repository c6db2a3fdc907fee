"""What each hypothesis predicts for every check: the heater simulated once, kept as tables.

All outcome rows of all checks, and the rows of the complaints, stand in one matrix, as logarithms
beside it, so that a posterior is a sum of rows and all gains come from one product.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

import numpy as np

from courseware.content.problems import listed
from courseware.content.words import say
from courseware.diagnosis.space import Floats, Ints, Premise, Space, build_space
from courseware.heater.checks import Check
from courseware.heater.complaints import Complaint
from courseware.heater.faults import Change
from courseware.heater.load import Trade
from courseware.heater.readings import complaint_of, outcomes, verdict_probabilities
from courseware.heater.simulate import Run, at_moment, side_by_side, simulate
from courseware.heater.unit import Unit

COMPLAINT: Final = ""
"""The check id that stands for "what the customer says" among the evidence."""

SMALLEST: Final = 1e-15
"""A verdict's probability [-] below this is taken as 0: it is a difference of two values near 1, known no better."""

BATCH: Final = 1024
"""Cases [-] simulated together: more would not be faster, and the signals of all would not fit a small machine."""


class UnknownEvidenceError(ValueError):
    """A reading that this unit's checks cannot give; its text names it."""


@dataclass(frozen=True, slots=True, eq=False)
class NeedSets:
    """The atoms by the set of repairs they need.

    Attributes
    ----------
    stacked : array, (rows of checks + checks, a)
        The outcome rows of the checks [-]; below them, for each check, the entropy [bit] of its outcome given
        the atom where the atom is all of its repair set, else 0.
    mixed : array of int, (m,)
        The atoms whose repair set has other atoms too, set by set.
    group : array of int, (m,)
        Number [-] of the repair set of each of those.
    columns : array, (m, rows of checks)
        The outcome rows of those atoms, atom by atom.
    """

    stacked: Floats
    mixed: Ints
    group: Ints
    columns: Floats


@dataclass(frozen=True, slots=True, eq=False)
class Signatures:
    """The predictions of a space of hypotheses.

    Attributes
    ----------
    space : Space
        The hypotheses, (h,), and their atoms, (a,).
    checks : tuple of Check
        The checks that can be made on the unit.
    complaints : tuple of str, (a,)
        What the customer says for each atom, by id.
    tables : mapping of check id to array, (a, k)
        Probability [-] of each of the check's k outcomes, given each atom; rows sum to 1.
    outcomes : mapping of check id to tuple of str, (k,)
        The outcomes, "cannot" last.
    said : mapping of str to Complaint
        The complaints, by id.
    finds : mapping of check id to Run
        What each check is read from: a run of the one instant at which it is made; its cases are the atoms, (a,).
    row_of : mapping of (check id, outcome) to int
        The row [-] of the stacked matrices; the check of a complaint is ``COMPLAINT``.
    starts : array of int, (checks,)
        First row [-] of each check; the complaints follow the last check.
    rows, log_rows : array, (rows, a)
        Stacked probabilities [-] and their natural logarithms; -inf for 0.
    log_prior : mapping of Premise to array, (a,)
        Natural logarithm of each atom's prior under the premise; -inf where it is excluded.
    needs : NeedSets
        The atoms by the set of repairs they need, made ready for the gains.
    """

    space: Space
    checks: tuple[Check, ...]
    complaints: tuple[str, ...]
    tables: Mapping[str, Floats]
    outcomes: Mapping[str, tuple[str, ...]]
    said: Mapping[str, Complaint]
    finds: Mapping[str, Run]
    row_of: Mapping[tuple[str, str], int] = field(init=False, repr=False)
    starts: Ints = field(init=False, repr=False)
    rows: Floats = field(init=False, repr=False)
    log_rows: Floats = field(init=False, repr=False)
    log_prior: Mapping[Premise, Floats] = field(init=False, repr=False)
    needs: "NeedSets" = field(init=False, repr=False)

    def __post_init__(self) -> None:
        names = [(check.id, outcome) for check in self.checks for outcome in self.outcomes[check.id]]
        names += [(COMPLAINT, complaint) for complaint in self.said]
        said = np.array([[one == complaint for one in self.complaints] for complaint in self.said], dtype=float)
        tables = [self.tables[check.id].T for check in self.checks]
        rows = np.ascontiguousarray(np.vstack([*tables, said.reshape(len(self.said), len(self.complaints))]))
        sizes = [len(self.outcomes[check.id]) for check in self.checks]
        with np.errstate(divide="ignore"):  # the logarithm of "never" is -inf, and adds up as such
            log_rows = np.log(rows)
            log_prior = {premise: np.log(_prior(self.space, premise)) for premise in Premise}
        object.__setattr__(self, "row_of", {name: row for row, name in enumerate(names)})
        starts = np.cumsum([0, *sizes], dtype=np.int64)
        object.__setattr__(self, "starts", starts[:-1])
        object.__setattr__(self, "rows", rows)
        object.__setattr__(self, "log_rows", log_rows)
        object.__setattr__(self, "log_prior", log_prior)
        object.__setattr__(self, "needs", _need_sets(self.space, rows[: starts[-1]], starts[:-1]))

    def check(self, check_id: str) -> Check:
        """Return one of the checks by id."""
        return next(check for check in self.checks if check.id == check_id)

    def rows_of(self, complaint: str | None, evidence: Mapping[str, str]) -> list[int]:
        """Return the matrix rows of what was seen, in the order given, the complaint first.

        Raises
        ------
        UnknownEvidenceError
            If the unit has no such complaint, check or outcome.
        """
        seen = evidence.items() if complaint is None else [(COMPLAINT, complaint), *evidence.items()]
        try:
            return [self.row_of[one] for one in seen]
        except KeyError as missing:
            raise _unknown(self, *missing.args[0]) from None


def _unknown(signatures: Signatures, check: str, outcome: str) -> UnknownEvidenceError:
    """Return the error that says what the unit does have."""
    unit = signatures.space.unit.id
    if check == COMPLAINT:
        return UnknownEvidenceError(
            say("diagnosis.unknown-complaint", outcome=outcome, known=listed(signatures.said), unit=unit)
        )
    if check not in signatures.outcomes:
        return UnknownEvidenceError(say("diagnosis.unknown-check", check=check, unit=unit))
    known = listed(signatures.outcomes[check])
    return UnknownEvidenceError(say("diagnosis.unknown-outcome", check=check, outcome=outcome, known=known, unit=unit))


def surprise(probabilities: Floats) -> Floats:
    """Return -p log2 p [bit] of each probability [-]; 0 for 0. Summed over outcomes it is their entropy."""
    return np.asarray(-probabilities * np.log2(np.where(probabilities > 0, probabilities, 1.0)))


def _need_sets(space: Space, rows: Floats, starts: Ints) -> NeedSets:
    numbers: dict[frozenset[str], int] = {}
    of_hypothesis = [numbers.setdefault(hypothesis.repairs, len(numbers)) for hypothesis in space.hypotheses]
    group = np.array(of_hypothesis, dtype=np.int64)[space.atom_hypothesis]
    shared = np.bincount(group)[group] > 1
    entropy = np.add.reduceat(surprise(rows), starts, axis=0) if len(starts) else rows
    mixed = np.flatnonzero(shared)
    mixed = mixed[np.argsort(group[mixed], kind="stable")]
    columns = np.ascontiguousarray(rows[:, mixed].T)
    return NeedSets(np.vstack([rows, entropy * ~shared]), mixed, group[mixed], columns)


def _prior(space: Space, premise: Premise) -> Floats:
    """Return the atoms' prior [-] under a premise, summing to 1 if anything is left."""
    weight = np.where(premise.allows(space.size)[space.atom_hypothesis], space.atom_weight, 0.0)
    total = weight.sum()
    return weight / total if total else weight


def build_signatures(unit: Unit, trade: Trade) -> Signatures:
    """Simulate every atom of a unit's hypotheses, once for each arrangement its checks need.

    Parameters
    ----------
    unit : Unit
        The unit.
    trade : Trade
        Faults, checks and complaints; the checks that cannot be made on the unit are left out.
    """
    space = build_space(unit, trade)
    checks = [check for check in trade.checks.values() if check.applies_to(unit)]
    arrangements: list[tuple[tuple[Change, ...], list[Check]]] = [((), [])]
    for check in checks:
        same = next((group for changes, group in arrangements if changes == check.changes), None)
        if same is None:
            arrangements.append((check.changes, [check]))
        else:
            same.append(check)
    tables: dict[str, list[Floats]] = {check.id: [] for check in checks}
    finds: dict[str, list[Run]] = {check.id: [] for check in checks}
    complaints: list[str] = []
    for start in range(0, len(space.atoms), BATCH):
        cases = space.atoms[start : start + BATCH]
        for changes, group in arrangements:
            run = simulate(unit, cases, changes)
            if not changes:
                complaints += complaint_of(unit, trade.complaints, run)
            for check in group:
                tables[check.id].append(verdict_probabilities(unit, check, run))
                finds[check.id].append(at_moment(run, check.moment, read_from(check)))
    return Signatures(
        space=space,
        checks=tuple(checks),
        complaints=tuple(complaints),
        tables={check: _without_noise(np.vstack(parts)) for check, parts in tables.items()},
        outcomes={check.id: outcomes(unit, check) for check in checks},
        said={complaint.id: complaint for complaint in trade.complaints},
        finds={check: side_by_side(parts) for check, parts in finds.items()},
    )


def read_from(check: Check) -> tuple[str, ...]:
    """Return the signals that a check is read from, its own first."""
    return tuple(dict.fromkeys((check.signal, *(condition.signal for condition in check.given))))


def _without_noise(table: Floats) -> Floats:
    """Return the table with probabilities that are mere rounding noise set to 0, rows summing to 1 again."""
    kept = np.where(table < SMALLEST, 0.0, table)
    return np.asarray(kept / kept.sum(axis=1, keepdims=True))
