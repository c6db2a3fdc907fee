"""Marks, recorded: who supervised is part of the record, and a wrong result is replaced, never changed."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

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
        supervisor is no active signer or is the trainee.
    """
    body = {
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
    with store.transaction() as session:
        names_nobody(session, marks.reason)
        return append(store, kinds.RECORDED.name, body, key, now)
