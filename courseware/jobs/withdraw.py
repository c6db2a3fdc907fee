"""Take back what was wrong: a certificate, a sign-off, evidence; and say what rests on it."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from courseware.jobs.desk import Desk
from courseware.records import certificates
from courseware.records.basis import resting_on
from courseware.records.events import Event
from courseware.records.evidence import withdraw_evidence
from courseware.records.keys import SigningKey
from courseware.records.registers import Certificate
from courseware.records.signoffs import withdraw_sign_off
from courseware.records.store import Store


@dataclass(frozen=True, slots=True)
class TakenBack:
    """An entry that counts no more.

    Attributes
    ----------
    seq : int
        Its number [-].
    resting : tuple of Certificate
        The certificates that rest on it: they stand until somebody withdraws them.
    """

    seq: int
    resting: tuple[Certificate, ...]


def withdraw_certificate(desk: Desk, code: str, reason: str) -> Certificate:
    """Withdraw a certificate from today on.

    Raises
    ------
    Refusal
        If the code is mistyped, there is no such certificate, or it is withdrawn already.
    """
    ended = certificates.withdraw(desk.company.store, code, reason, desk.company.key, desk.now)
    desk.renew_front_pages(desk.press())
    return ended


def take_back_sign_off(desk: Desk, seq: int, reason: str) -> TakenBack:
    """Take a sign-off back by the number of its entry.

    Raises
    ------
    Refusal
        If the entry is no sign-off or was taken back before, or the reason is none.
    """
    return _take_back(desk, withdraw_sign_off, seq, reason)


def take_back_evidence(desk: Desk, seq: int, reason: str) -> TakenBack:
    """Take evidence back by the number of its entry; the rest is as in :func:`take_back_sign_off`."""
    return _take_back(desk, withdraw_evidence, seq, reason)


def _take_back(
    desk: Desk, withdraw: Callable[[Store, int, str, SigningKey, datetime], Event], seq: int, reason: str
) -> TakenBack:
    store = desk.company.store
    withdraw(store, seq, reason, desk.company.key, desk.now)
    desk.renew_front_pages(desk.press())
    return TakenBack(seq, resting_on(store, seq))
