"""May this person be certified under this program? Decided from values alone, with every reason against it."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
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
class Shown:
    """One piece of evidence of the person, as far as the decision needs it.

    Attributes
    ----------
    seq : int
        Number [-] of the event that recorded it.
    topic, name : str
        ``program`` or ``procedure``, and which one.
    on : date
        The day on which a signer saw it.
    used_by : str
        Code of the certificate of this program in which it stands for a quiz; empty if it does in none.
    """

    seq: int
    topic: str
    name: str
    on: date
    used_by: str = ""


@dataclass(frozen=True, slots=True)
class Standing:
    """What the records hold of a person, in any order.

    Attributes
    ----------
    attempts : sequence of Attempt
        The results that stand.
    seen : sequence of Seen
        The sign-offs that stand.
    shown : sequence of Shown
        The evidence that stands.
    """

    attempts: Sequence[Attempt] = ()
    seen: Sequence[Seen] = ()
    shown: Sequence[Shown] = ()


@dataclass(frozen=True, slots=True)
class Reason:
    """One thing that speaks against certifying.

    Attributes
    ----------
    code : str
        ``missing-result``, ``unsupervised``, ``gate-broken``, ``not-passed``, ``expired``, ``used``,
        ``missing-signoff``, ``signoff-expired``, ``evidence-not-taken``, ``evidence-expired``, ``evidence-used`` or
        ``not-reviewed``.
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
    quiz_evidence, signoff_evidence : mapping of str to int
        Each quiz and each procedure that evidence stands for, with the number [-] of the event that recorded it.
    """

    reasons: tuple[Reason, ...]
    results: tuple[int, ...]
    valid_from: date
    valid_until: date
    signoffs: tuple[int, ...] = ()
    quiz_evidence: Mapping[str, int] = field(default_factory=dict)
    signoff_evidence: Mapping[str, int] = field(default_factory=dict)

    @property
    def granted(self) -> bool:
        """Say whether nothing speaks against it."""
        return not self.reasons

    def report(self) -> str:
        """Return every reason with its advice, a blank-free list for a person."""
        return "\n".join(str(reason) for reason in self.reasons)


def decide(program: Program, standing: Standing, unreviewed: Collection[str], on: date) -> Decision:
    """Decide whether a person may be certified.

    For each quiz of the program the *latest supervised* result counts: a later failure outweighs an
    earlier pass, and practice at home outweighs nothing. It must be passed, with no safety gate broken, recent
    enough, and not used for an earlier certificate of the program. For each procedure of the program the sign-off
    of the latest day counts; it must be as recent as a result. Where the program says so, evidence of earlier training
    or work stands for a quiz or a sign-off that would not do; it must be as recent, and it never outweighs a quiz
    that the person failed.

    Parameters
    ----------
    program : Program
        What is asked.
    standing : Standing
        What the records hold of the person.
    unreviewed : collection of str
        What in the course no licensed technician has reviewed.
    on : date
        The day of the decision.

    Returns
    -------
    Decision
        With every reason against, in the program's order, not only the first.
    """
    quizzes = {blueprint: _quiz(blueprint, program, standing, on) for blueprint in program.blueprints}
    signoffs = {procedure: _signoff(procedure, program, standing, on) for procedure in program.signoffs}
    reasons = [reason for found in (*quizzes.values(), *signoffs.values()) for reason in found.reasons]
    if program.review_required and unreviewed:
        named = sorted(unreviewed)
        shown = ", ".join(named[:MOST_NAMED]) + (", ..." if len(named) > MOST_NAMED else "")
        reasons.append(_reason("not-reviewed", count=len(named), named=shown))
    last = add_months(on, program.valid_months)
    return Decision(
        tuple(reasons), _recorded(quizzes), on, last, _recorded(signoffs), _by_evidence(quizzes), _by_evidence(signoffs)
    )


@dataclass(frozen=True, slots=True)
class _Basis:
    """What one quiz or sign-off of the program rests on, and what speaks against it."""

    seq: int | None
    reasons: tuple[Reason, ...] = ()
    by_evidence: bool = False


def _recorded(found: Mapping[str, _Basis]) -> tuple[int, ...]:
    return tuple(sorted(one.seq for one in found.values() if one.seq is not None and not one.by_evidence))


def _by_evidence(found: Mapping[str, _Basis]) -> Mapping[str, int]:
    return {name: one.seq for name, one in found.items() if one.seq is not None and one.by_evidence}


def _quiz(blueprint: str, program: Program, standing: Standing, on: date) -> _Basis:
    """Return what a quiz of the program rests on: the latest supervised result, or evidence in its place."""
    mine = sorted((attempt for attempt in standing.attempts if attempt.blueprint == blueprint), key=lambda one: one.seq)
    watched = [attempt for attempt in mine if attempt.supervised]
    if watched:
        latest = watched[-1]
        found = _Basis(latest.seq, tuple(_against(latest, program, on)))
        if not found.reasons or not latest.passed or latest.gates:
            return found
    else:
        found = _Basis(None, (_reason("unsupervised" if mine else "missing-result", blueprint=blueprint),))
    allowed = blueprint in program.quizzes_by_evidence
    shown = [one for one in standing.shown if (one.topic, one.name) == ("program", program.id)]
    return _or_evidence(found, shown, say("records.decide-quiz", name=blueprint), program, on if allowed else None)


def _signoff(procedure: str, program: Program, standing: Standing, on: date) -> _Basis:
    """Return what a sign-off of the program rests on: the latest one, or evidence in its place."""
    latest = max((one for one in standing.seen if one.procedure == procedure), key=_day_and_seq, default=None)
    if latest is None:
        found = _Basis(None, (_reason("missing-signoff", procedure=procedure),))
    else:
        found = _Basis(latest.seq, tuple(_against_signoff(latest, program, on)))
        if not found.reasons:
            return found
    allowed = procedure in program.signoffs_by_evidence
    shown = [replace(one, used_by="") for one in standing.shown if (one.topic, one.name) == ("procedure", procedure)]
    return _or_evidence(found, shown, say("records.decide-signoff", name=procedure), program, on if allowed else None)


def _or_evidence(found: _Basis, shown: Sequence[Shown], what: str, program: Program, on: date | None) -> _Basis:
    """Return the evidence of the latest day as the basis, if it may stand there on this day (none: it may not)."""
    latest = max(shown, key=_day_and_seq, default=None)
    if latest is None:
        return found
    told: dict[str, object] = {"what": what, "seq": latest.seq}
    if on is None:
        against = _reason("evidence-not-taken", program=program.title, **told)
    elif on > (last_day := add_months(latest.on, program.result_months)):
        against = _reason("evidence-expired", last_day=last_day, months=program.result_months, **told)
    elif latest.used_by:
        against = _reason("evidence-used", certificate=latest.used_by, **told)
    else:
        return _Basis(latest.seq, by_evidence=True)
    return replace(found, reasons=(*found.reasons, against))


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


def _day_and_seq(one: Seen | Shown) -> tuple[date, int]:
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
