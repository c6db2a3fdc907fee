"""The certificate: what a person has shown, under which program, until when, and who answers for it.

It says plainly that it is the certificate of an employer's own program, that it replaces no licence,
and whether a licensed technician has reviewed what was taught.
"""

from dataclasses import dataclass

from courseware.content.words import say
from courseware.publish.assets import number, static_text
from courseware.publish.pages import Imprint, render


@dataclass(frozen=True, slots=True)
class PassedForm:
    """One form that the certificate rests on.

    Attributes
    ----------
    title : str
        What the quiz is called.
    form : str
        Form number.
    percent : float
        Score in percent [%] of all points.
    on : str
        Date of the result, ISO 8601.
    supervised_by : str
        Name of the signer who watched; empty if nobody did.
    """

    title: str
    form: str
    percent: float
    on: str
    supervised_by: str


@dataclass(frozen=True, slots=True)
class SignedOff:
    """One procedure that a signer saw the holder carry out on a unit.

    Attributes
    ----------
    procedure, unit : str
        What they are called.
    on : str
        The day it was done, ISO 8601.
    watched_by : str
        Name of the signer who watched.
    """

    procedure: str
    unit: str
    on: str
    watched_by: str


@dataclass(frozen=True, slots=True)
class Accepted:
    """One quiz or procedure that evidence of earlier training or work stands for.

    Attributes
    ----------
    title : str
        What the quiz or the procedure is called.
    evidence : str
        What was seen.
    on : str
        The day it was seen, ISO 8601.
    seen_by : str
        Name of the signer who saw it.
    """

    title: str
    evidence: str
    on: str
    seen_by: str


@dataclass(frozen=True, slots=True)
class CertificateSheet:
    """Everything that a certificate shows.

    Attributes
    ----------
    code : str
        Code that the records answer to, such as ``K7QM-2XPA-9D4T``.
    holder : str
        Name of the person.
    company : str
        Name of the company whose program it is.
    program : str
        Title of the program.
    scope : tuple of str
        What the person has shown, one line each: the objectives.
    forms : tuple of PassedForm
        The results it rests on.
    course_version, course_hash : str
        Version of the course, and SHA-256 over its content, hexadecimal.
    issued, expires : str
        Dates, ISO 8601.
    signer : str
        The qualified signer who granted it.
    reviewed : bool
        Whether a licensed technician has reviewed the course.
    review : str
        The review status in words.
    signoffs : tuple of SignedOff
        The field sign-offs it rests on; none where the program asks for none.
    accepted : tuple of Accepted
        What evidence stands for, and which.
    """

    code: str
    holder: str
    company: str
    program: str
    scope: tuple[str, ...]
    forms: tuple[PassedForm, ...]
    course_version: str
    course_hash: str
    issued: str
    expires: str
    signer: str
    reviewed: bool
    review: str
    signoffs: tuple[SignedOff, ...] = ()
    accepted: tuple[Accepted, ...] = ()


def certificate_page(sheet: CertificateSheet, imprint: Imprint, *, root: str = "") -> str:
    """Return the certificate as a web page; ``root`` is the way to the folder of the stylesheet."""
    return _render(sheet, imprint, root=root, paper=False)


def certificate_paper(sheet: CertificateSheet, imprint: Imprint) -> str:
    """Return the certificate as HTML for the PDF maker."""
    return _render(sheet, imprint, root="", paper=True)


def _render(sheet: CertificateSheet, imprint: Imprint, *, root: str, paper: bool) -> str:
    return render(
        "certificate.html.j2",
        imprint,
        sheet=sheet,
        title=say("publish_pages.certificate-of-title", program=sheet.program, holder=sheet.holder),
        supervised=all(form.supervised_by for form in sheet.forms),
        number=number,
        root=root,
        paper=paper,
        style=static_text("papers.css"),
    )
