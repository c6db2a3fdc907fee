"""Certificates: granted on a decision, withdrawn for a reason, and checked by their code."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Final

from sqlalchemy import select
from sqlalchemy.orm import Session

from courseware.content.canonical import read_canonical
from courseware.content.words import say
from courseware.records.codes import certificate_code, normal_code
from courseware.records.decision import Attempt, Decision, Seen, Shown, Standing, decide
from courseware.records.errors import CodeError, EntryRefusedError, with_advice
from courseware.records.identity import Person
from courseware.records.keys import SigningKey
from courseware.records.kinds import certificates as kinds
from courseware.records.ledger import append, head, names_nobody
from courseware.records.moments import day_of
from courseware.records.people import find_person
from courseware.records.program import Program
from courseware.records.registers import Certificate, certificate_by_code
from courseware.records.store import Store
from courseware.records.tables import CertificateRow, EvidenceRow, ResultRow, SignOffRow

CODE_STATUSES: Final = ("valid", "not-yet", "expired", "withdrawn", "erased", "unknown", "mistyped")
"""What :func:`verify_code` may answer."""


@dataclass(frozen=True, slots=True)
class Course:
    """The course as it stands when a certificate is granted.

    Attributes
    ----------
    version : str
        Its version.
    hash : str
        SHA-256 over its files, 64 hexadecimal digits.
    unreviewed : tuple of str
        What in it no licensed technician has reviewed.
    """

    version: str
    hash: str
    unreviewed: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Application:
    """What is asked for: a certificate for a person under a program, resting on a course.

    Attributes
    ----------
    person_id : str
        Who is to be certified.
    program : Program
        Under which program.
    course : Course
        As it stands today.
    """

    person_id: str
    program: Program
    course: Course


@dataclass(frozen=True, slots=True)
class CodeStatus:
    """The answer to somebody who asks about a certificate by its code.

    Attributes
    ----------
    status : str
        One of :data:`CODE_STATUSES`.
    message : str
        For a person: what it is, and what to do.
    certificate : Certificate or None
        The certificate, if there is one.
    """

    status: str
    message: str
    certificate: Certificate | None


class NotCertifiedError(EntryRefusedError):
    """The person may not be certified under the program; ``decision`` has the reasons, and the text tells them all."""

    def __init__(self, person: Person, program: Program, decision: Decision) -> None:
        super().__init__("not-certified", person=person.id, name=person.name, title=program.title)
        self.decision = decision

    def __str__(self) -> str:
        return f"{self.message}\n{self.decision.report()}"


def assess(store: Store, asked: Application, on: date) -> Decision:
    """Decide on a person's results as they are recorded, and write nothing.

    Raises
    ------
    EntryRefusedError
        If there is no such person.
    """
    with store.reading() as session:
        person = find_person(store, asked.person_id)
        return decide(asked.program, _standing(session, person.ref, asked.program.id), asked.course.unreviewed, on)


def grant(store: Store, asked: Application, key: SigningKey, now: datetime) -> Certificate:
    """Decide, and record the certificate, in one transaction.

    Parameters
    ----------
    store : Store
        The records.
    asked : Application
        For whom, under which program, on which course.
    key : SigningKey
        A signer's, not the person's own.
    now : datetime
        With the office's time zone: its date is the certificate's first day.

    Raises
    ------
    NotCertifiedError
        If anything speaks against it; with every reason.
    EntryRefusedError
        If there is no such person, or the rules of the records refuse it.
    """
    with store.transaction():
        person, program, course = find_person(store, asked.person_id), asked.program, asked.course
        decision = assess(store, asked, now.date())
        if not decision.granted:
            raise NotCertifiedError(person, program, decision)
        code = certificate_code(head(store).seq + 1, person.ref, program.id)
        body: dict[str, object] = {
            "code": code,
            "ref": person.ref,
            "program": program.id,
            "title": program.title,
            "scope": list(program.scope),
            "course_version": course.version,
            "course_hash": course.hash,
            "results": list(decision.results),
            "valid_from": decision.valid_from.isoformat(),
            "valid_until": decision.valid_until.isoformat(),
        }
        # What came later to the entry stands in it only where there is some.
        later = {
            "signoffs": list(decision.signoffs),
            "quiz_evidence": dict(decision.quiz_evidence),
            "signoff_evidence": dict(decision.signoff_evidence),
        }
        body |= {name: value for name, value in later.items() if value}
        append(store, kinds.GRANTED.name, body, key, now)
        granted = certificate_by_code(store, code)
    assert granted is not None
    return granted


def withdraw(store: Store, code: str, reason: str, key: SigningKey, now: datetime) -> Certificate:
    """Withdraw a certificate from today on.

    Parameters
    ----------
    store : Store
        The records.
    code : str
        As typed.
    reason : str
        Why, naming nobody.
    key : SigningKey
        A signer's.
    now : datetime
        With the office's time zone.

    Raises
    ------
    CodeError
        If the code is mistyped.
    EntryRefusedError
        If there is no such certificate, or it is withdrawn already.
    """
    normal = normal_code(code)
    with store.transaction() as session:
        names_nobody(session, reason)
        body = {"code": normal, "on": now.date().isoformat(), "reason": reason.strip()}
        append(store, kinds.WITHDRAWN.name, body, key, now)
        withdrawn = certificate_by_code(store, normal)
    assert withdrawn is not None
    return withdrawn


def verify_code(store: Store, code: str, on: date) -> CodeStatus:
    """Answer what a certificate's code is worth on a day.

    Parameters
    ----------
    store : Store
        The records.
    code : str
        As typed: case, spaces and hyphens do not matter.
    on : date
        The day asked about.
    """
    try:
        normal = normal_code(code)
    except CodeError as error:
        return CodeStatus("mistyped", str(error), None)
    found = certificate_by_code(store, normal)
    status = "unknown" if found is None else found.status(on)
    values = {"code": normal, "on": on, **(_told(found) if found else {})}
    message = with_advice(say(f"records.code-{status}", **values), say(f"records.code-{status}-try", **values))
    return CodeStatus(status, message, found)


def _told(found: Certificate) -> Mapping[str, object]:
    return {
        "name": found.name,
        "title": found.title,
        "first": found.valid_from,
        "last": found.valid_until,
        "withdrawn": found.withdrawn_on,
        "reason": found.withdrawn_reason,
        "erased": found.erased_on,
    }


def _standing(session: Session, ref: str, program: str) -> Standing:
    """Return what counts of a person, each with the certificate of this program that rests on it."""
    granted = session.scalars(select(CertificateRow).filter_by(ref=ref, program=program)).all()
    used = {seq: row.code for row in granted for seq in read_canonical(row.results.encode("utf-8"))}
    used |= {seq: row.code for row in granted for seq in read_canonical(row.quiz_evidence.encode("utf-8")).values()}
    return Standing(_attempts(session, ref, used), _seen(session, ref), _shown(session, ref, used))


def _attempts(session: Session, ref: str, used: Mapping[int, str]) -> tuple[Attempt, ...]:
    rows = session.scalars(select(ResultRow).filter_by(ref=ref, replaced_by=None).order_by(ResultRow.seq))
    return tuple(
        Attempt(
            seq=row.seq,
            blueprint=row.blueprint,
            passed=row.passed,
            gates=tuple(read_canonical(row.gates.encode("utf-8"))),
            supervised=row.supervised_by is not None,
            on=day_of(row.recorded_at),
            used_by=used.get(row.seq, ""),
        )
        for row in rows
    )


def _seen(session: Session, ref: str) -> tuple[Seen, ...]:
    rows = session.scalars(select(SignOffRow).filter_by(ref=ref, withdrawn_at=None).order_by(SignOffRow.seq))
    return tuple(Seen(row.seq, row.procedure, date.fromisoformat(row.done_on)) for row in rows)


def _shown(session: Session, ref: str, used: Mapping[int, str]) -> tuple[Shown, ...]:
    rows = session.scalars(select(EvidenceRow).filter_by(ref=ref, withdrawn_at=None).order_by(EvidenceRow.seq))
    return tuple(
        Shown(row.seq, row.topic, row.name, date.fromisoformat(row.seen_on), used.get(row.seq, "")) for row in rows
    )
