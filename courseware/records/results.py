"""Marks, recorded: who supervised is part of the record, and a wrong result is replaced, never changed."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import Any

from courseware.records.events import Event
from courseware.records.keys import SigningKey
from courseware.records.kinds import results as kinds
from courseware.records.ledger import append, names_nobody
from courseware.records.store import Store


def percent(share: Fraction | float) -> str:
    """Return a share of one as percent text, to a hundredth.

    Parameters
    ----------
    share : Fraction or float
        From 0 to 1 [-].

    Examples
    --------
    >>> percent(Fraction(2, 3)), percent(0.9), percent(1)
    ('66.67', '90', '100')
    """
    if not 0 <= share <= 1:
        raise ValueError(f"{share} is not a share of one")
    exact = Fraction(share) * 100
    rounded = (Decimal(exact.numerator) / exact.denominator).quantize(Decimal("0.01"), ROUND_HALF_UP)
    return f"{rounded:f}".rstrip("0").rstrip(".")


def points_text(points: Fraction) -> str:
    """Return points as decimal text.

    Raises
    ------
    ValueError
        If they are no whole number of hundredths.

    Examples
    --------
    >>> points_text(Fraction(3, 2)), points_text(Fraction(2))
    ('1.5', '2')
    """
    if (points * 100).denominator != 1:
        raise ValueError(f"{points} is no whole number of hundredths")
    return f"{float(points):.2f}".rstrip("0").rstrip(".")


@dataclass(frozen=True, slots=True)
class Marks:
    """The marks of a form, as graded.

    Attributes
    ----------
    form : str
        Id of the form.
    score, cut : Fraction or float
        What was reached and what was needed, shares of one [-].
    passed : bool
        As graded.
    gates_broken : tuple of str
        The safety gates that the answers broke, by rule; each fails the form by itself, and counts once.
    objectives : mapping
        Share of one [-] reached for each objective.
    supervised_by : str or None
        Key id of the signer who watched; none if nobody did, and then the result cannot certify.
    replaces : int or None
        Number [-] of the event whose result this one corrects.
    reason : str
        Why it is corrected, naming nobody; needed with ``replaces``.
    by_hand : mapping of int to Fraction
        Points [-] that a signer gave for an item, by its number, in place of those that grading gave.
    decided_by : str or None
        Key id of that signer; needed with ``by_hand``.
    """

    form: str
    score: Fraction | float
    cut: Fraction | float
    passed: bool
    gates_broken: tuple[str, ...] = ()
    objectives: Mapping[str, Fraction | float] = field(default_factory=dict)
    supervised_by: str | None = None
    replaces: int | None = None
    reason: str = ""
    by_hand: Mapping[int, Fraction] = field(default_factory=dict)
    decided_by: str | None = None


def record_result(store: Store, marks: Marks, key: SigningKey, now: datetime) -> Event:
    """Record the marks of a form.

    Parameters
    ----------
    store : Store
        The records.
    marks : Marks
        What was graded; the response must have been received.
    key : SigningKey
        A signer's, not the trainee's own.
    now : datetime
        With a time zone.

    Raises
    ------
    EntryRefusedError
        If the form was not issued or not answered, has a result that this one does not replace, or the
        supervisor is no active signer or is the trainee; if points by hand correct nothing, or who decided them is
        no active signer or is the trainee.
    """
    body: dict[str, Any] = {
        "form": marks.form,
        "score": percent(marks.score),
        "cut": percent(marks.cut),
        "passed": marks.passed,
        "gates": list(dict.fromkeys(marks.gates_broken)),
        "objectives": {name: percent(share) for name, share in marks.objectives.items()},
        "supervised_by": marks.supervised_by,
        "replaces": marks.replaces,
        "reason": marks.reason.strip(),
    }
    if marks.by_hand or marks.decided_by:
        body["by_hand"] = {str(item): points_text(points) for item, points in marks.by_hand.items()}
        body["decided_by"] = marks.decided_by
    with store.transaction() as session:
        names_nobody(session, marks.reason)
        return append(store, kinds.RECORDED.name, body, key, now)
