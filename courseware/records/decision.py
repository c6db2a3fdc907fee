"""May this person be certified under this program? Decided from values alone, with every reason against it."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from courseware.content.words import say
from courseware.records.errors import with_advice
from courseware.records.moments import add_months
from courseware.records.program import Program

MOST_NAMED: Final = 5
"""Most unreviewed things [-] that a reason names."""


@dataclass(frozen=True, slots=True)
class Attempt:
    """One standing result of the person, as far as the decision needs it.

    Attributes
    ----------
    seq : int
        Number [-] of the event that recorded it.
    blueprint : str
        Which quiz.
    passed : bool
        As graded.
    gates : tuple of str
        Safety gates broken.
    supervised : bool
        Whether a signer watched.
    on : date
        When it was recorded.
    used_by : str
        Code of the certificate of this program that rests on it; empty if none does.
    """

    seq: int
    blueprint: str
    passed: bool
    gates: tuple[str, ...]
    supervised: bool
    on: date
    used_by: str = ""


@dataclass(frozen=True, slots=True)
class Seen:
    """One sign-off of the person, as far as the decision needs it.

    Attributes
    ----------
    seq : int
        Number [-] of the event that recorded it.
    procedure : str
        Which procedure.
    on : date
        The day it was carried out.
    """

    seq: int
    procedure: str
    on: date


@dataclass(frozen=True, slots=True)
class Reason:
    """One thing that speaks against certifying.

    Attributes
    ----------
    code : str
        ``missing-result``, ``unsupervised``, ``gate-broken``, ``not-passed``, ``expired``, ``used``,
        ``missing-signoff``, ``signoff-expired`` or ``not-reviewed``.
    message, advice : str
        For a person: what it is, and what to do.
    """

    code: str
    message: str
    advice: str

    def __str__(self) -> str:
        return with_advice(self.message, self.advice)


@dataclass(frozen=True, slots=True)
class Decision:
    """What was decided.

    Attributes
    ----------
    reasons : tuple of Reason
        All that speaks against it.
    results : tuple of int
        Numbers [-] of the results that it rests on, in order.
    valid_from, valid_until : date
        First and last day of the certificate.
    signoffs : tuple of int
        Numbers [-] of the sign-offs that it rests on, in order.
    """

    reasons: tuple[Reason, ...]
    results: tuple[int, ...]
    valid_from: date
    valid_until: date
    signoffs: tuple[int, ...] = ()

    @property
    def granted(self) -> bool:
        """Say whether nothing speaks against it."""
        return not self.reasons

    def report(self) -> str:
        """Return every reason with its advice, a blank-free list for a person."""
        return "\n".join(str(reason) for reason in self.reasons)


def decide(
    program: Program, attempts: Sequence[Attempt], seen: Sequence[Seen], unreviewed: Collection[str], on: date
) -> Decision:
    """Decide whether a person may be certified.

    For each quiz of the program the *latest supervised* result counts: a later failure outweighs an
    earlier pass, and practice at home outweighs nothing. It must be passed, with no safety gate broken, recent
    enough, and not used for an earlier certificate of the program. For each procedure of the program the sign-off
    of the latest day counts; it must be as recent as a result.

    Parameters
    ----------
    program : Program
        What is asked.
    attempts : sequence of Attempt
        The person's results that stand, in any order.
    seen : sequence of Seen
        The person's sign-offs, in any order.
    unreviewed : collection of str
        What in the course no licensed technician has reviewed.
    on : date
        The day of the decision.

    Returns
    -------
    Decision
        With every reason against, in the program's order, not only the first.
    """
    reasons: list[Reason] = []
    results = []
    for blueprint in program.blueprints:
        mine = sorted((attempt for attempt in attempts if attempt.blueprint == blueprint), key=lambda one: one.seq)
        watched = [attempt for attempt in mine if attempt.supervised]
        if watched:
            reasons += _against(watched[-1], program, on)
            results.append(watched[-1].seq)
        else:
            reasons.append(_reason("unsupervised" if mine else "missing-result", blueprint=blueprint))
    signoffs = []
    for procedure in program.signoffs:
        latest = max((one for one in seen if one.procedure == procedure), key=_day_and_seq, default=None)
        if latest is None:
            reasons.append(_reason("missing-signoff", procedure=procedure))
        else:
            reasons += _against_signoff(latest, program, on)
            signoffs.append(latest.seq)
    if program.review_required and unreviewed:
        named = sorted(unreviewed)
        shown = ", ".join(named[:MOST_NAMED]) + (", ..." if len(named) > MOST_NAMED else "")
        reasons.append(_reason("not-reviewed", count=len(named), named=shown))
    last = add_months(on, program.valid_months)
    return Decision(tuple(reasons), tuple(sorted(results)), on, last, tuple(sorted(signoffs)))


def _against(attempt: Attempt, program: Program, on: date) -> list[Reason]:
    """Return what speaks against resting a certificate on one supervised result."""
    told = {"blueprint": attempt.blueprint, "seq": attempt.seq}
    reasons = []
    if attempt.gates:
        reasons.append(_reason("gate-broken", gates=", ".join(attempt.gates), **told))
    elif not attempt.passed:
        reasons.append(_reason("not-passed", **told))
    last_day = add_months(attempt.on, program.result_months)
    if on > last_day:
        reasons.append(_reason("expired", last_day=last_day, months=program.result_months, **told))
    if attempt.used_by:
        reasons.append(_reason("used", certificate=attempt.used_by, **told))
    return reasons


def _day_and_seq(one: Seen) -> tuple[date, int]:
    return one.on, one.seq


def _against_signoff(latest: Seen, program: Program, on: date) -> list[Reason]:
    """Return what speaks against resting a certificate on one sign-off: it counts as long as a result."""
    last_day = add_months(latest.on, program.result_months)
    if on <= last_day:
        return []
    told = {"procedure": latest.procedure, "seq": latest.seq}
    return [_reason("signoff-expired", last_day=last_day, months=program.result_months, **told)]


def _reason(code: str, /, **values: object) -> Reason:
    return Reason(code, say(f"records.decide-{code}", **values), say(f"records.decide-{code}-try", **values))
