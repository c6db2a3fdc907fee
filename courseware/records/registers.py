"""What pages and lists read: certificates, holders and their last days, results, forms that are out."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from sqlalchemy import ColumnElement, Select, select

from courseware.content.canonical import read_canonical
from courseware.records.moments import day_of
from courseware.records.people import find_person
from courseware.records.store import Store
from courseware.records.tables import CertificateRow, EnrollmentRow, FormRow, PersonRow, ResultRow, SignerRow
from courseware.records.vouched import with_signer


@dataclass(frozen=True, slots=True)
class Certificate:
    """A certificate, with what must be printed on it.

    Attributes
    ----------
    code : str
        In fours, as printed.
    seq : int
        Number [-] of the event that granted it.
    person_id, name : str or None
        The holder; none once erased.
    program, title : str
        The program as it was called on the day.
    scope : tuple of str
        What the holder has shown, as worded on the day.
    course_version, course_hash : str
        The course it rests on.
    results : tuple of int
        Numbers [-] of the events that recorded the results it rests on.
    signoffs : tuple of int
        Numbers [-] of the events that recorded the field sign-offs it rests on.
    quiz_evidence, signoff_evidence : mapping of str to int
        Each quiz and each procedure that evidence stands for, with the number [-] of the event that recorded it.
    signer, signer_name : str, str or None
        Key id and name of who granted it; the name is none once erased.
    valid_from, valid_until : date
        First and last day.
    withdrawn_on, withdrawn_reason : date, str, or None
        Its withdrawal, if there was one.
    erased_on : date or None
        When the holder was erased (UTC), if they were.
    """

    code: str
    seq: int
    person_id: str | None
    name: str | None
    program: str
    title: str
    scope: tuple[str, ...]
    course_version: str
    course_hash: str
    results: tuple[int, ...]
    signoffs: tuple[int, ...]
    quiz_evidence: Mapping[str, int]
    signoff_evidence: Mapping[str, int]
    signer: str
    signer_name: str | None
    valid_from: date
    valid_until: date
    withdrawn_on: date | None
    withdrawn_reason: str | None
    erased_on: date | None

    def status(self, on: date) -> str:
        """Return ``not-yet``, ``valid``, ``expired`` or ``withdrawn`` as of a day, or ``erased``.

        An erasure counts for every day: nobody can tell any more whose certificate it was.
        """
        if self.erased_on is not None:
            return "erased"
        if self.withdrawn_on is not None and on >= self.withdrawn_on:
            return "withdrawn"
        if on < self.valid_from:
            return "not-yet"
        return "valid" if on <= self.valid_until else "expired"


@dataclass(frozen=True, slots=True)
class Result:
    """The marks of one form.

    Attributes
    ----------
    seq : int
        Number [-] of the event that recorded it.
    form, blueprint : str
        Which form of which quiz.
    score, cut : Decimal
        Reached and needed [%].
    passed : bool
        As graded.
    gates : tuple of str
        Safety gates broken.
    objectives : mapping
        Reached for each objective [%].
    supervised_by, supervisor_name : str or None
        Key id and name of who watched; none if nobody did (the name also once erased).
    recorded_at : str
        When, UTC.
    replaced_by : int or None
        Number [-] of the event that corrects it.
    """

    seq: int
    form: str
    blueprint: str
    score: Decimal
    cut: Decimal
    passed: bool
    gates: tuple[str, ...]
    objectives: dict[str, Decimal]
    supervised_by: str | None
    supervisor_name: str | None
    recorded_at: str
    replaced_by: int | None


@dataclass(frozen=True, slots=True)
class FormOut:
    """A form that was issued and has not come back.

    Attributes
    ----------
    form, blueprint : str
        Which form of which quiz.
    person_id, name : str or None
        Who has it; none once erased.
    issued_at : str
        When, UTC.
    """

    form: str
    blueprint: str
    person_id: str | None
    name: str | None
    issued_at: str


def all_certificates(store: Store) -> tuple[Certificate, ...]:
    """Return every certificate ever granted, in the order of granting."""
    return tuple(_certificates(store, _certificate_query()))


def certificates_of(store: Store, person_id: str) -> tuple[Certificate, ...]:
    """Return every certificate of one person, in the order of granting; refused if nobody has the id."""
    with store.reading():
        ref = find_person(store, person_id).ref
        return tuple(_certificates(store, _certificate_query().where(CertificateRow.ref == ref)))


def certificate_by_code(store: Store, code: str) -> Certificate | None:
    """Return the certificate with this code in its printed form, if there is one."""
    return next(_certificates(store, _certificate_query().where(CertificateRow.code == code)), None)


def holders(store: Store, on: date, program: str | None = None) -> tuple[Certificate, ...]:
    """Return the certificates that are valid on a day, the first to expire first.

    Parameters
    ----------
    store : Store
        The records.
    on : date
        The day.
    program : str, optional
        Id of the one program to list; all by default.
    """
    valid = [one for one in all_certificates(store) if one.status(on) == "valid" and program in (None, one.program)]
    return tuple(sorted(valid, key=lambda one: (one.valid_until, one.code)))


def results_of(store: Store, person_id: str) -> tuple[Result, ...]:
    """Return every result of one person, in the order of recording, replaced ones too; refused if nobody has the id."""
    with store.reading():
        return _results(store, ResultRow.ref == find_person(store, person_id).ref)


def results_in(store: Store, seqs: Collection[int]) -> tuple[Result, ...]:
    """Return the results that these events recorded, in their order; whose they are does not matter."""
    return _results(store, ResultRow.seq.in_(seqs))


def forms_of_erased(store: Store) -> tuple[str, ...]:
    """Return the ids of the forms of people who were erased, in the order of issuing."""
    query = select(FormRow.id).join(EnrollmentRow, EnrollmentRow.ref == FormRow.ref).order_by(FormRow.seq)
    with store.reading() as session:
        return tuple(session.scalars(query.where(EnrollmentRow.erased_at.is_not(None))))


def forms_out(store: Store) -> tuple[FormOut, ...]:
    """Return every form that was issued, has not come back and is not void, the oldest first."""
    query = (
        select(FormRow, PersonRow.id, PersonRow.name)
        .outerjoin(PersonRow, PersonRow.ref == FormRow.ref)
        .where(FormRow.answered_at.is_(None), FormRow.voided_at.is_(None))
        .order_by(FormRow.seq)
    )
    with store.reading() as session:
        return tuple(
            FormOut(form.id, form.blueprint, person_id, name, form.issued_at)
            for form, person_id, name in session.execute(query)
        )


def voided(store: Store, form_id: str) -> tuple[date, str] | None:
    """Return when (UTC) and why a form was voided; nothing for a form that was not."""
    with store.reading() as session:
        form = session.get(FormRow, form_id)
        if form is None or form.voided_at is None:
            return None
        return day_of(form.voided_at), form.void_reason or ""


def _certificate_query() -> Select[Any]:
    granter = select(SignerRow.id, PersonRow.name).outerjoin(PersonRow, PersonRow.ref == SignerRow.ref).subquery()
    return (
        select(CertificateRow, EnrollmentRow.erased_at, PersonRow.id, PersonRow.name, granter.c.name)
        .join(EnrollmentRow, EnrollmentRow.ref == CertificateRow.ref)
        .outerjoin(PersonRow, PersonRow.ref == CertificateRow.ref)
        .join(granter, granter.c.id == CertificateRow.signer)
        .order_by(CertificateRow.seq)
    )


def _certificates(store: Store, query: Select[Any]) -> Iterator[Certificate]:
    with store.reading() as session:
        found = session.execute(query).all()
    for row, erased_at, person_id, name, signer_name in found:
        yield Certificate(
            code=row.code,
            seq=row.seq,
            person_id=person_id,
            name=name,
            program=row.program,
            title=row.title,
            scope=tuple(read_canonical(row.scope.encode("utf-8"))),
            course_version=row.course_version,
            course_hash=row.course_hash,
            results=tuple(read_canonical(row.results.encode("utf-8"))),
            signoffs=tuple(read_canonical(row.signoffs.encode("utf-8"))),
            quiz_evidence=read_canonical(row.quiz_evidence.encode("utf-8")),
            signoff_evidence=read_canonical(row.signoff_evidence.encode("utf-8")),
            signer=row.signer,
            signer_name=signer_name,
            valid_from=date.fromisoformat(row.valid_from),
            valid_until=date.fromisoformat(row.valid_until),
            withdrawn_on=date.fromisoformat(row.withdrawn_on) if row.withdrawn_on else None,
            withdrawn_reason=row.withdrawn_reason,
            erased_on=day_of(erased_at) if erased_at else None,
        )


def _results(store: Store, which: ColumnElement[bool]) -> tuple[Result, ...]:
    return tuple(_result(*found) for found in with_signer(store, ResultRow, ResultRow.supervised_by, which))


def _result(row: ResultRow, supervisor_name: str | None) -> Result:
    objectives = read_canonical(row.objectives.encode("utf-8"))
    return Result(
        seq=row.seq,
        form=row.form,
        blueprint=row.blueprint,
        score=Decimal(row.score),
        cut=Decimal(row.cut),
        passed=row.passed,
        gates=tuple(read_canonical(row.gates.encode("utf-8"))),
        objectives={name: Decimal(share) for name, share in objectives.items()},
        supervised_by=row.supervised_by,
        supervisor_name=supervisor_name,
        recorded_at=row.recorded_at,
        replaced_by=row.replaced_by,
    )
