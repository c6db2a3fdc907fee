"""Marks, recorded: who supervised is part of the record, and a wrong result is replaced, never changed."""

from collections.abc import Mapping, Sequence
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


def record_result(
    store: Store,
    form_id: str,
    key: SigningKey,
    now: datetime,
    *,
    score: Fraction | float,
    cut: Fraction | float,
    passed: bool,
    gates_broken: Sequence[str] = (),
    objectives: Mapping[str, Fraction | float] | None = None,
    supervised_by: str | None = None,
    replaces: int | None = None,
    reason: str = "",
) -> Event:
    """Record the marks of a form.

    Parameters
    ----------
    store : Store
        The records.
    form_id : str
        Which form; its response must have been received.
    key : SigningKey
        A signer's, not the trainee's own.
    now : datetime
        With a time zone.
    score, cut : Fraction or float
        What was reached and what was needed, shares of one [-].
    passed : bool
        As graded.
    gates_broken : sequence of str
        The safety gates that the answers broke; each fails the form by itself.
    objectives : mapping
        Share of one [-] reached for each objective.
    supervised_by : str or None
        The signer who watched; none if nobody did, and then the result cannot certify.
    replaces : int or None
        Number [-] of the event whose result this one corrects.
    reason : str
        Why it is corrected, naming nobody; needed with ``replaces``.

    Raises
    ------
    Refused
        If the form was not issued or not answered, has a result that this one does not replace, or the
        supervisor is no active signer or is the trainee.
    """
    body = {
        "form": form_id,
        "score": percent(score),
        "cut": percent(cut),
        "passed": passed,
        "gates": list(gates_broken),
        "objectives": {name: percent(share) for name, share in (objectives or {}).items()},
        "supervised_by": supervised_by,
        "replaces": replaces,
        "reason": reason.strip(),
    }
    with store.transaction() as session:
        names_nobody(session, reason)
        return append(store, kinds.RECORDED.name, body, key, now)
