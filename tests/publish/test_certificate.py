"""The certificate carries what the records answer to, says what it is not, and is one tagged page."""

import io
from dataclasses import replace
from pathlib import Path

import pypdf
from playwright.sync_api import Browser

from courseware.content.words import say
from courseware.publish.certificate import CertificateSheet, SignedOff, certificate_page, certificate_paper
from courseware.publish.output import write_page, write_style
from courseware.publish.pdf import html_to_pdf
from tests.publish.sample_quiz import FORM, IMPRINT
from tests.publish.sample_records import CERTIFICATE
from tests.web.markup import check_markup
from tests.web.pages import check_pages
from tests.web.papers import check_papers, check_prints


def printed(sheet: CertificateSheet) -> list[str]:
    """Return the text of each page."""
    reader = pypdf.PdfReader(io.BytesIO(html_to_pdf(certificate_paper(sheet, IMPRINT))))
    return [" ".join(page.extract_text().split()) for page in reader.pages]


def test_it_carries_what_a_checker_needs() -> None:
    """Name, unique code, body, scope, dates: as ISO/IEC 17024 clause 9.4 lists for certificates (from memory)."""
    pages = printed(CERTIFICATE)
    assert len(pages) == 1
    text = pages[0]
    for value in (
        CERTIFICATE.code, CERTIFICATE.holder, CERTIFICATE.company, CERTIFICATE.program, *CERTIFICATE.scope,
        CERTIFICATE.issued, CERTIFICATE.expires, CERTIFICATE.signer, FORM.id, "91.7 %",
        say("publish_pages.certificate-program"), say("publish_pages.certificate-watched-say"),
    ):  # fmt: skip
        assert value in text, value
    assert CERTIFICATE.course_hash in text.replace(" ", "")


def test_it_says_that_nobody_has_reviewed_the_course() -> None:
    assert "Content of the course: not reviewed by a licensed technician." in printed(CERTIFICATE)[0]


def test_it_says_who_has_reviewed_the_course() -> None:
    sheet = replace(CERTIFICATE, reviewed=True, review="reviewed by R. Vega on 2026-10-01")
    text = printed(sheet)[0]
    assert "Content of the course: reviewed by R. Vega on 2026-10-01." in text
    assert "not reviewed" not in text


def test_an_unsupervised_form_is_named_as_such() -> None:
    watched, alone = CERTIFICATE.forms[0], replace(CERTIFICATE.forms[0], title="Combustion", supervised_by="")
    text = printed(replace(CERTIFICATE, forms=(watched, alone)))[0]
    assert say("publish_pages.certificate-partly-say") in text
    assert say("publish_pages.certificate-watched-say") not in text
    assert "nobody" in text


def test_the_work_that_a_signer_saw_is_listed() -> None:
    seen = SignedOff("Ignition test", "Bay heater 140, siphon burner", "2026-11-20", "R. Vega")
    (text,) = printed(replace(CERTIFICATE, signoffs=(seen,)))
    assert (
        f"{say('publish_pages.certificate-signoffs')} Ignition test on Bay heater 140, siphon burner, 2026-11-20; "
        "watched by R. Vega"
    ) in text.replace("• ", "")
    assert say("publish_pages.certificate-signoffs") not in printed(CERTIFICATE)[0]


def test_machine_rules_markup_and_the_same_bytes(browser: Browser, tmp_path: Path) -> None:
    seen = SignedOff("Ignition test", "Bay heater 140, siphon burner", "2026-11-20", "R. Vega")
    sheet = replace(CERTIFICATE, signoffs=(seen,))
    write_page(tmp_path / "certificate.html", certificate_page(sheet, IMPRINT))
    write_style(tmp_path)
    check_markup(tmp_path).assert_clean(expected=1)
    check_pages(browser, tmp_path.glob("*.html")).assert_clean(expected=1)
    data = html_to_pdf(certificate_paper(sheet, IMPRINT))
    assert html_to_pdf(certificate_paper(replace(sheet), IMPRINT)) == data
    (tmp_path / "certificate.pdf").write_bytes(data)
    check_papers(tmp_path.glob("*.pdf")).assert_clean(expected=1)
    check_prints(tmp_path.glob("*.pdf")).assert_clean(expected=1)
