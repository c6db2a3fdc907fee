"""Certify a person: decide, record, and write the certificate."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from courseware.content.problems import listed, nearest
from courseware.content.provenance import Provenance
from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.jobs.company import archived_form
from courseware.jobs.course import Course
from courseware.jobs.desk import Desk
from courseware.jobs.shelf import CERTIFICATES, procedure_title, unit_title
from courseware.publish.certificate import CertificateSheet, PassedForm, SignedOff, certificate_page, certificate_paper
from courseware.records import certificates
from courseware.records.registers import Certificate, results_of
from courseware.records.signoffs import signoffs_of


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
    if program_id not in course.programs:
        advice = nearest(program_id, course.programs) or say("jobs.programs-are", known=listed(course.programs))
        raise Refusal(say("jobs.no-program", program=program_id), advice)
    state = certificates.Course(course.version, course.hash, tuple(unreviewed(course)))
    asked = certificates.Application(person_id, course.programs[program_id], state)
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


def _signed_off(desk: Desk, granted: Certificate) -> Iterator[SignedOff]:
    assert granted.person_id is not None
    for one in signoffs_of(desk.company.store, granted.person_id):
        if one.seq in granted.signoffs:
            yield SignedOff(
                procedure_title(desk.course, one.work.procedure), unit_title(desk.course, one.work.unit),
                one.work.on.isoformat(), one.signer_name or "",
            )  # fmt: skip


def _sheet(desk: Desk, granted: Certificate, state: certificates.Course) -> CertificateSheet:
    company = desk.company
    assert granted.person_id is not None
    results = [one for one in results_of(company.store, granted.person_id) if one.seq in granted.results]
    forms = tuple(
        PassedForm(
            archived_form(company, one.form).title, one.form, float(one.score), one.recorded_at[:10],
            one.supervisor_name or "",
        )
        for one in results
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
        signoffs=tuple(_signed_off(desk, granted)),
    )
