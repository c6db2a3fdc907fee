"""The PDF check passes a tagged PDF, and fails on a plain one and on what is no PDF."""

from pathlib import Path

import pytest
import weasyprint

from tests.web.papers import check_papers, check_prints
from tests.web.tools import ToolMissingError

PAGE = '<html lang="en"><head><title>Gap</title></head><body><h1>Gap</h1><p>Set it to 1/8 inch.</p></body></html>'


def test_a_tagged_pdf_passes_and_is_counted(tmp_path: Path) -> None:
    weasyprint.HTML(string=PAGE).write_pdf(tmp_path / "good.pdf", pdf_variant="pdf/ua-1")
    check_papers(tmp_path.glob("*.pdf")).assert_clean(expected=1)


def test_a_planted_plain_pdf_is_found(tmp_path: Path) -> None:
    weasyprint.HTML(string=PAGE).write_pdf(tmp_path / "plain.pdf")
    report = check_papers(tmp_path.glob("*.pdf"))
    assert len(report.seen) == 1
    assert report.faults
    assert all(line.startswith("plain.pdf: ") for line in report.faults)


def test_a_planted_heading_jump_is_found(tmp_path: Path) -> None:
    weasyprint.HTML(string=PAGE.replace("<p>", "<h3>Jump</h3><p>")).write_pdf(
        tmp_path / "jump.pdf", pdf_variant="pdf/ua-1"
    )
    assert check_papers(tmp_path.glob("*.pdf")).faults


def test_what_is_no_pdf_is_found(tmp_path: Path) -> None:
    (tmp_path / "letter.pdf").write_text("not a PDF", encoding="utf-8")
    report = check_papers(tmp_path.glob("*.pdf"))
    assert [line[:31] for line in report.faults] == ["letter.pdf: not readable as PDF"]


def test_seeing_no_paper_fails(tmp_path: Path) -> None:
    with pytest.raises(AssertionError, match="expected 1 files, saw 0"):
        check_papers(tmp_path.glob("*.pdf")).assert_clean(expected=1)


def test_a_page_with_all_ink_inside_its_margins_passes(tmp_path: Path) -> None:
    weasyprint.HTML(string=PAGE).write_pdf(tmp_path / "good.pdf")
    check_prints(tmp_path.glob("*.pdf")).assert_clean(expected=1)


@pytest.mark.parametrize(
    ("body", "fault"),
    [
        ('<p style="margin-left: 6in; white-space: nowrap">Off the page goes this reading of 8.5 kV</p>',
         "bad.pdf: page 1 has ink within 1/4 inch of the edge"),
        ('<p>One</p><p style="break-before: page"></p><p style="break-before: page">Three</p>',
         "bad.pdf: page 2 is empty"),
    ],
)  # fmt: skip
def test_planted_ink_at_the_edge_and_a_planted_empty_page_are_found(tmp_path: Path, body: str, fault: str) -> None:
    weasyprint.HTML(string=PAGE.replace("<p>", f"{body}<p>")).write_pdf(tmp_path / "bad.pdf")
    assert check_prints(tmp_path.glob("*.pdf")).faults == (fault,)


def test_what_cannot_be_drawn_is_found(tmp_path: Path) -> None:
    (tmp_path / "letter.pdf").write_text("not a PDF", encoding="utf-8")
    assert check_prints(tmp_path.glob("*.pdf")).faults == ("letter.pdf: cannot be drawn",)


def test_a_missing_drawing_tool_fails(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    with pytest.raises(ToolMissingError, match=r"pdftoppm was not found \(not on PATH\)"):
        check_prints([tmp_path / "any.pdf"])
