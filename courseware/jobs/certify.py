"""Certify a person: decide, record, and write the certificate."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from courseware.content.provenance import Provenance
from courseware.content.words import say
from courseware.jobs.company import archived_form
from courseware.jobs.course import Course
from courseware.jobs.desk import Desk
from courseware.jobs.shelf import CERTIFICATES, procedure_title, quiz_title, unit_title
from courseware.jobs.staff import hold_program
from courseware.publish.certificate import (
    Accepted,
    CertificateSheet,
    PassedForm,
    SignedOff,
    certificate_page,
    certificate_paper,
)
from courseware.records import certificates
from courseware.records.basis import Basis, basis_of
from courseware.records.evidence import EvidenceEntry
from courseware.records.registers import Certificate
from courseware.records.signoffs import SignOff


@dataclass(frozen=True, slots=True)
class Certified:
    """A certificate that was granted, and its page."""

    certificate: Certificate
    page: Path
    no_pdf: str


def certify(desk: Desk, person_id: str, program_id: str) -> Certified:
    """Certify a person under a program.

    Parameters
    ----------
    desk : Desk
        Who certifies; the certificate names the course's version and fingerprint, and starts on the desk's day.
    person_id, program_id : str
        Whom, and for what.

    Raises
    ------
    Refusal
        If there is no such person or program, or anything speaks against certifying; with every reason.
    """
    course, company = desk.course, desk.company
    program = hold_program(desk, program_id)
    state = certificates.Course(course.version, course.hash, tuple(unreviewed(course)))
    asked = certificates.Application(person_id, program, state)
    granted = certificates.grant(company.store, asked, company.key, desk.now)
    press, folder, sheet = desk.press(), desk.folders.office / CERTIFICATES, _sheet(desk, granted, state)
    page = folder / f"{granted.code}.html"
    press.page(page, certificate_page(sheet, desk.imprint, root="../"))
    press.paper(folder / f"{granted.code}.pdf", certificate_paper(sheet, desk.imprint))
    desk.renew_front_pages(press)
    return Certified(granted, page, press.no_pdf)


def unreviewed(course: Course) -> Iterator[str]:
    """Yield the place of everything in the course that no licensed technician has reviewed."""
    for provenance in _provenances(course):
        if not provenance.reviewed:
            yield str(provenance.source)


def _provenances(course: Course) -> Iterator[Provenance]:
    trade, work, bank = course.trade, course.safework, course.quizbank
    for things in (trade.units, trade.faults, trade.repairs, trade.checks, work.rules, work.procedures, bank.objectives,
                   bank.templates, bank.blueprints, course.programs):  # fmt: skip
        yield from (thing.provenance for thing in things.values())
    yield from (lesson.provenance for lesson in course.lessons)
    yield from (card.provenance for card in course.cards)


def _signed_off(desk: Desk, signoffs: Iterable[SignOff]) -> Iterator[SignedOff]:
    for one in signoffs:
        unit = unit_title(desk.course, one.work.unit)
        if one.work.serial:
            unit = say("jobs.unit-serial", unit=unit, serial=one.work.serial)
        title = procedure_title(desk.course, one.work.procedure)
        yield SignedOff(title, unit, one.work.on.isoformat(), one.signer_name or "")


def _accepted(desk: Desk, basis: Basis) -> Iterator[Accepted]:
    """Yield each quiz and each procedure that evidence stands for."""
    for name, entry in basis.quiz_evidence:
        yield _evidence(quiz_title(desk.course, name), entry)
    for name, entry in basis.signoff_evidence:
        yield _evidence(procedure_title(desk.course, name), entry)


def _evidence(title: str, entry: EvidenceEntry) -> Accepted:
    return Accepted(title, entry.seen.evidence, entry.seen.seen_on.isoformat(), entry.signer_name or "")


def _sheet(desk: Desk, granted: Certificate, state: certificates.Course) -> CertificateSheet:
    company = desk.company
    basis = basis_of(company.store, granted)
    forms = tuple(
        PassedForm(
            archived_form(company, one.form).title, one.form, float(one.score), one.recorded_at[:10],
            one.supervisor_name or "",
        )
        for one in basis.results
    )  # fmt: skip
    review = say("content.not-reviewed") if state.unreviewed else say("jobs.all-reviewed")
    return CertificateSheet(
        code=granted.code,
        holder=granted.name or "",
        company=company.name,
        program=granted.title,
        scope=granted.scope,
        forms=forms,
        course_version=granted.course_version,
        course_hash=granted.course_hash,
        issued=granted.valid_from.isoformat(),
        expires=granted.valid_until.isoformat(),
        signer=granted.signer_name or "",
        reviewed=not state.unreviewed,
        review=review,
        signoffs=tuple(_signed_off(desk, basis.signoffs)),
        accepted=tuple(_accepted(desk, basis)),
    )
