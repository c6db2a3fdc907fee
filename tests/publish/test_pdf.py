"""PDF: tagged PDF/UA-1, our own fonts only, the same bytes twice, and one line where it cannot be made."""

import io
import sys
from pathlib import Path

import pypdf
import pytest

from courseware.publish.pdf import PdfFault, PdfUnavailable, html_to_pdf
from tests.web.papers import check_papers

HTML = (
    '<!DOCTYPE html><html lang="en"><head><title>Gap</title></head><body><h1>Gap</h1>'
    "<p>→ ☐ ✓ ≤ ≥ ½ ⅛ CO₂ 140 °F <b>bold</b> <i>slanted <b>both</b></i></p>{more}</body></html>"
)
GOOD = HTML.format(more="")


def fonts(data: bytes) -> set[tuple[str, bool]]:
    """Return (name without its subset tag, embedded?) of every font in a PDF."""
    found = set()
    for page in pypdf.PdfReader(io.BytesIO(data)).pages:
        for font in page["/Resources"]["/Font"].values():  # type: ignore[index] # pypdf types no resources
            inner = font.get_object()["/DescendantFonts"][0].get_object()
            descriptor = inner["/FontDescriptor"].get_object()
            embedded = any(key in descriptor for key in ("/FontFile2", "/FontFile3"))
            found.add((inner["/BaseFont"].split("+")[-1], embedded))
    return found


def test_a_page_becomes_pdf_ua(tmp_path: Path) -> None:
    (tmp_path / "gap.pdf").write_bytes(html_to_pdf(GOOD))
    check_papers([tmp_path / "gap.pdf"]).assert_clean(expected=1)


def test_only_our_own_fonts_are_in_it_and_all_of_them_whole() -> None:
    assert fonts(html_to_pdf(GOOD)) == {
        ("Course-Sans", True), ("Course-Sans-Bold", True), ("Course-Sans-Italic", True),
        ("Course-Sans-Bold-Italic", True),
    }  # fmt: skip


def test_the_same_page_gives_the_same_bytes() -> None:
    assert html_to_pdf(GOOD) == html_to_pdf(GOOD)


def test_the_words_come_back_out() -> None:
    text = pypdf.PdfReader(io.BytesIO(html_to_pdf(GOOD))).pages[0].extract_text()
    assert "→ ☐ ✓ ≤ ≥ ½ ⅛ CO₂ 140 °F" in text


def test_a_page_that_the_maker_complains_about_is_not_shipped() -> None:
    with pytest.raises(PdfFault) as caught:
        html_to_pdf(HTML.format(more="<p style='colour: red'>x</p>"))
    assert "Ignored `colour: red`" in str(caught.value)


def test_missing_system_libraries_say_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    class Missing:
        def find_spec(self, name: str, *_rest: object) -> None:
            if name == "weasyprint":
                raise OSError("cannot load library 'libpango-1.0-0'")

    for name in [name for name in sys.modules if name.partition(".")[0] == "weasyprint"]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setattr(sys, "meta_path", [Missing(), *sys.meta_path])
    with pytest.raises(PdfUnavailable) as caught:
        html_to_pdf(GOOD)
    assert str(caught.value) == (
        "PDF files were not made: the text libraries of the system are missing. On Debian or Ubuntu install them with: "
        "apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
    )
