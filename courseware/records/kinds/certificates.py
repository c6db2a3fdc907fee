"""Granting and withdrawing a certificate.

Whether a person *may* be certified under a program is decided in :mod:`courseware.records.decision`,
with the program at hand. Here stands what must hold of every certificate, whatever the program, so that
an auditor who has only the events can check it.
"""

from datetime import date
from typing import Final

from courseware.content.canonical import canonical, read_canonical
from courseware.content.problems import listed
from courseware.records.book import Book
from courseware.records.codes import certificate_code
from courseware.records.errors import EntryRefusedError
from courseware.records.events import Event
from courseware.records.kinds.base import EventKind, enrolled, not_for_oneself
from courseware.records.moments import day_of
from courseware.records.shapes import DAY, DIGEST, SEQ_BY_NAME, SEQS, SEQS_OR_NONE, TEXT, TEXTS
from courseware.records.tables import CertificateRow, EvidenceRow, ResultRow, SignOffRow


def _grant(event: Event, book: Book) -> None:
    body = event.body
    enrolled(body["ref"], book)
    not_for_oneself(event, body["ref"], book)
    _hold_code(event)
    _hold_days(event)
    for seq in body["results"]:
        _hold_result(seq, body["ref"], book)
    for seq in body.get("signoffs", ()):
        _hold_signoff(seq, body["ref"], book)
    _hold_evidence(event, book)
    _hold_unused(event, book)
    book.add(
        CertificateRow(
            code=body["code"],
            seq=event.seq,
            last_seq=event.seq,
            ref=body["ref"],
            program=body["program"],
            title=body["title"],
            scope=canonical(body["scope"]).decode("utf-8"),
            course_version=body["course_version"],
            course_hash=body["course_hash"],
            results=canonical(body["results"]).decode("ascii"),
            signer=event.signer,
            valid_from=body["valid_from"],
            valid_until=body["valid_until"],
            signoffs=canonical(body.get("signoffs", [])).decode("ascii"),
            quiz_evidence=canonical(body.get("quiz_evidence", {})).decode("utf-8"),
            signoff_evidence=canonical(body.get("signoff_evidence", {})).decode("utf-8"),
        )
    )


def _hold_code(event: Event) -> None:
    body = event.body
    if body["code"] != certificate_code(event.seq, body["ref"], body["program"]):
        raise EntryRefusedError("wrong-code", code=body["code"])


def _hold_days(event: Event) -> None:
    """Hold the first day to today where the office is, which may be a day off from UTC, and the last to no earlier."""
    first, last = (date.fromisoformat(event.body[name]) for name in ("valid_from", "valid_until"))
    if abs((first - day_of(event.at)).days) > 1 or last < first:
        raise EntryRefusedError("wrong-days", first=first, last=last, at=event.at)


def _hold_result(seq: int, ref: str, book: Book) -> None:
    result = book.find(ResultRow, seq)
    if result is None or result.ref != ref:
        raise EntryRefusedError("result-not-theirs", seq=seq)
    if result.replaced_by is not None:
        raise EntryRefusedError("result-replaced", seq=seq, by=result.replaced_by)
    if not result.passed:
        raise EntryRefusedError("result-not-passed", seq=seq)
    if result.supervised_by is None:
        raise EntryRefusedError("result-unsupervised", seq=seq)


def _hold_signoff(seq: int, ref: str, book: Book) -> None:
    signoff = book.find(SignOffRow, seq)
    if signoff is None or signoff.ref != ref:
        raise EntryRefusedError("signoff-not-theirs", seq=seq)
    if signoff.withdrawn_at is not None:
        raise EntryRefusedError("signoff-withdrawn-already", seq=seq, at=signoff.withdrawn_at)


def _hold_evidence(event: Event, book: Book) -> None:
    """Hold each quiz and each sign-off that evidence stands for to evidence of the person on just that."""
    body = event.body
    about = [("program", body["program"], seq) for seq in body.get("quiz_evidence", {}).values()]
    about += [("procedure", name, seq) for name, seq in body.get("signoff_evidence", {}).items()]
    if not body["results"] and not body.get("quiz_evidence"):
        raise EntryRefusedError("rests-on-nothing")
    for topic, name, seq in about:
        entry = book.find(EvidenceRow, seq)
        if entry is None or entry.ref != body["ref"] or (entry.topic, entry.name) != (topic, name):
            raise EntryRefusedError("evidence-not-theirs", seq=seq, name=name)
        if entry.withdrawn_at is not None:
            raise EntryRefusedError("evidence-withdrawn-already", seq=seq, at=entry.withdrawn_at)


def _hold_unused(event: Event, book: Book) -> None:
    """Refuse what stood for a quiz in an earlier certificate of the program: a renewal rests on something new."""
    wanted = {*event.body["results"], *event.body.get("quiz_evidence", {}).values()}
    for row in book.every(CertificateRow, ref=event.body["ref"], program=event.body["program"]):
        used = {
            *read_canonical(row.results.encode("utf-8")),
            *read_canonical(row.quiz_evidence.encode("utf-8")).values(),
        }
        again = wanted & used
        if again:
            raise EntryRefusedError("result-used", seqs=listed(str(seq) for seq in again), code=row.code)


def _withdraw(event: Event, book: Book) -> None:
    certificate = book.find(CertificateRow, event.body["code"])
    if certificate is None:
        raise EntryRefusedError("unknown-certificate", code=event.body["code"])
    if certificate.withdrawn_on is not None:
        raise EntryRefusedError("withdrawn-already", code=certificate.code, on=certificate.withdrawn_on)
    certificate.withdrawn_on = event.body["on"]
    certificate.withdrawn_reason = event.body["reason"]
    certificate.last_seq = event.seq


GRANTED: Final = EventKind(
    "certificate-granted",
    {
        "code": TEXT,
        "ref": DIGEST,
        "program": TEXT,
        "title": TEXT,
        "scope": TEXTS,
        "course_version": TEXT,
        "course_hash": DIGEST,
        "results": SEQS_OR_NONE,
        "valid_from": DAY,
        "valid_until": DAY,
    },
    _grant,
    later={"signoffs": SEQS, "quiz_evidence": SEQ_BY_NAME, "signoff_evidence": SEQ_BY_NAME},
)
WITHDRAWN: Final = EventKind("certificate-withdrawn", {"code": TEXT, "on": DAY, "reason": TEXT}, _withdraw)
