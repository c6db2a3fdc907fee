"""The PDF check passes a tagged PDF, and fails on a plain one and on what is no PDF."""

from pathlib import Path

import pytest
import weasyprint

from tests.web.papers import check_papers

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
