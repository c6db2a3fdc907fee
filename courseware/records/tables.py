"""The tables, as typed rows.

``event`` is the record itself. ``person`` holds all personal data, and can be erased. Every other
table is a *projection*: it can be thrown away and made again from the events, by the rules in
:mod:`courseware.records.kinds`. A projection's ``seq`` is the event that made the row and
``last_seq`` the last one that changed it, so that a row that differs leads to its event.

Moments and days are text as in :mod:`courseware.records.moments`; lists are canonical JSON text;
percents are decimal text, so that no reader rounds them. The SQL that makes the tables stands in
:mod:`courseware.records.migrations`; a test holds the two together.
"""

from typing import Final

from sqlalchemy import ForeignKey
from sqlalchemy.orm import DeclarativeBase, Mapped, MappedAsDataclass, mapped_column


class Row(MappedAsDataclass, DeclarativeBase, kw_only=True):
    """Any row of the store."""


class EventRow(Row):
    """One entry of the record, in the order of writing: never changed, never deleted."""

    __tablename__ = "event"

    seq: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    at: Mapped[str]
    kind: Mapped[str]
    signer: Mapped[str]
    body: Mapped[bytes]
    prev_hash: Mapped[bytes]
    hash: Mapped[bytes]
    signature: Mapped[bytes]


class PersonRow(Row):
    """A person's own data; ``ref`` is what the events call them."""

    __tablename__ = "person"

    id: Mapped[str] = mapped_column(primary_key=True)
    ref: Mapped[str] = mapped_column(ForeignKey("enrollment.ref"), unique=True)
    name: Mapped[str]
    email: Mapped[str | None] = mapped_column(unique=True)
    salt: Mapped[bytes]


class EnrollmentRow(Row):
    """That a person was enrolled; ``identity`` commits to name and e-mail without telling them.

    ``merged_into`` is the reference of the enrollment that this one turned out to repeat. What was recorded under
    it, in every other table, stands under that reference since.
    """

    __tablename__ = "enrollment"

    ref: Mapped[str] = mapped_column(primary_key=True)
    seq: Mapped[int] = mapped_column(ForeignKey("event.seq"))
    last_seq: Mapped[int]
    identity: Mapped[str]
    enrolled_at: Mapped[str]
    erased_at: Mapped[str | None] = mapped_column(default=None)
    merged_into: Mapped[str | None] = mapped_column(ForeignKey("enrollment.ref"), default=None)
    merge_reason: Mapped[str | None] = mapped_column(default=None)


class SignerRow(Row):
    """A qualified technician whose key signs events."""

    __tablename__ = "signer"

    id: Mapped[str] = mapped_column(primary_key=True)
    seq: Mapped[int] = mapped_column(ForeignKey("event.seq"))
    last_seq: Mapped[int]
    public_key: Mapped[str]
    ref: Mapped[str] = mapped_column(ForeignKey("enrollment.ref"))
    added_at: Mapped[str]
    retired_at: Mapped[str | None] = mapped_column(default=None)


class FormRow(Row):
    """A quiz form issued to one person, and whether it has come back or was voided."""

    __tablename__ = "form"

    id: Mapped[str] = mapped_column(primary_key=True)
    seq: Mapped[int] = mapped_column(ForeignKey("event.seq"))
    last_seq: Mapped[int]
    ref: Mapped[str] = mapped_column(ForeignKey("enrollment.ref"))
    blueprint: Mapped[str]
    course_version: Mapped[str]
    course_hash: Mapped[str]
    form_sha256: Mapped[str]
    key_sha256: Mapped[str]
    issued_at: Mapped[str]
    answered_at: Mapped[str | None] = mapped_column(default=None)
    response_sha256: Mapped[str | None] = mapped_column(default=None)
    channel: Mapped[str | None] = mapped_column(default=None)
    voided_at: Mapped[str | None] = mapped_column(default=None)
    void_reason: Mapped[str | None] = mapped_column(default=None)


class ResultRow(Row):
    """The marks of one form; ``replaced_by`` is the event that corrects it."""

    __tablename__ = "result"

    seq: Mapped[int] = mapped_column(ForeignKey("event.seq"), primary_key=True, autoincrement=False)
    last_seq: Mapped[int]
    form: Mapped[str] = mapped_column(ForeignKey("form.id"))
    ref: Mapped[str] = mapped_column(ForeignKey("enrollment.ref"))
    blueprint: Mapped[str]
    score: Mapped[str]
    cut: Mapped[str]
    passed: Mapped[bool]
    gates: Mapped[str]
    objectives: Mapped[str]
    supervised_by: Mapped[str | None] = mapped_column(ForeignKey("signer.id"))
    recorded_at: Mapped[str]
    replaced_by: Mapped[int | None] = mapped_column(ForeignKey("event.seq"), default=None)


class SignOffRow(Row):
    """A procedure that a person carried out on a real unit while a signer watched."""

    __tablename__ = "signoff"

    seq: Mapped[int] = mapped_column(ForeignKey("event.seq"), primary_key=True, autoincrement=False)
    last_seq: Mapped[int]
    ref: Mapped[str] = mapped_column(ForeignKey("enrollment.ref"))
    procedure: Mapped[str]
    unit: Mapped[str]
    done_on: Mapped[str]
    watched_by: Mapped[str] = mapped_column(ForeignKey("signer.id"))
    remark: Mapped[str]
    course_version: Mapped[str]
    course_hash: Mapped[str]
    serial: Mapped[str] = mapped_column(default="")
    withdrawn_at: Mapped[str | None] = mapped_column(default=None)
    withdrawn_reason: Mapped[str | None] = mapped_column(default=None)


class EvidenceRow(Row):
    """What a signer saw of somebody's earlier training or work, for a program or a procedure."""

    __tablename__ = "evidence"

    seq: Mapped[int] = mapped_column(ForeignKey("event.seq"), primary_key=True, autoincrement=False)
    last_seq: Mapped[int]
    ref: Mapped[str] = mapped_column(ForeignKey("enrollment.ref"))
    topic: Mapped[str]
    name: Mapped[str]
    evidence: Mapped[str]
    seen_on: Mapped[str]
    seen_by: Mapped[str] = mapped_column(ForeignKey("signer.id"))
    course_version: Mapped[str]
    course_hash: Mapped[str]
    withdrawn_at: Mapped[str | None] = mapped_column(default=None)
    withdrawn_reason: Mapped[str | None] = mapped_column(default=None)


class CertificateRow(Row):
    """A certificate, from its grant to its withdrawal."""

    __tablename__ = "certificate"

    code: Mapped[str] = mapped_column(primary_key=True)
    seq: Mapped[int] = mapped_column(ForeignKey("event.seq"))
    last_seq: Mapped[int]
    ref: Mapped[str] = mapped_column(ForeignKey("enrollment.ref"))
    program: Mapped[str]
    title: Mapped[str]
    scope: Mapped[str]
    course_version: Mapped[str]
    course_hash: Mapped[str]
    results: Mapped[str]
    signer: Mapped[str] = mapped_column(ForeignKey("signer.id"))
    valid_from: Mapped[str]
    valid_until: Mapped[str]
    withdrawn_on: Mapped[str | None] = mapped_column(default=None)
    withdrawn_reason: Mapped[str | None] = mapped_column(default=None)
    signoffs: Mapped[str] = mapped_column(default="[]")
    quiz_evidence: Mapped[str] = mapped_column(default="{}")
    signoff_evidence: Mapped[str] = mapped_column(default="{}")


PROJECTIONS: Final[tuple[type[Row], ...]] = (
    EnrollmentRow,
    SignerRow,
    FormRow,
    ResultRow,
    SignOffRow,
    EvidenceRow,
    CertificateRow,
)
"""The tables that events rebuild, each after those that it refers to."""
