"""The proctor sheet: everybody with their form, the rules of the sitting, and a line to sign, on one sheet of paper."""

import io
from pathlib import Path

import pypdf
import pytest
from playwright.sync_api import Browser

from courseware.content.words import say
from courseware.publish.output import write_page, write_style
from courseware.publish.pdf import html_to_pdf
from courseware.publish.proctor import Seat, Sitting, proctor_page, proctor_paper
from tests.publish.sample_quiz import IMPRINT
from tests.web.markup import check_markup
from tests.web.pages import check_pages
from tests.web.papers import check_papers, check_prints

NAMES = (
    "Jennifer Rodriguez", "Mark Hernandez", "Kelly Diaz", "Christopher van der Merwe-Okonkwo", "Ann Lee", "Bo Ray",
    "Cy Dow", "Di Fox", "Eve Hall", "Flo Ito", "Gus Jay", "Hal Kim",
)  # fmt: skip
RULES = ("who", "table", "device", "say", "network", "phone", "leak", "harm", "count")


def sitting(size: int = 12) -> Sitting:
    seats = [Seat(NAMES[at % 12], f"7K3Q-9X{at:02d}") for at in range(size)]
    return Sitting("Quiz: ignition test", "2026-11-25", tuple(seats), 8, 30)


MIXED = Sitting(
    "Quiz: ignition test", "2026-11-25",
    (Seat("Ann", "7K3Q-9XA2", void=True), Seat("Bo", "T9PQ-4CDE", answered="2026-11-26"), Seat("Cy", "M4C7-00AA")),
    8, 30,
)  # fmt: skip


def pages_of(data: bytes) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(data)).pages]


@pytest.fixture(scope="module")
def paper() -> bytes:
    return html_to_pdf(proctor_paper(sitting(), IMPRINT))


def test_a_class_of_twelve_fits_one_sheet_with_everything_on_it(paper: bytes) -> None:
    (page,) = pages_of(paper)
    for seat in sitting().seats:
        assert f"{seat.trainee} {seat.form}" in page
    for key in (*(f"rule-{rule}" for rule in RULES), "on", "room", "handed", "returned", "notes", "says", "signature"):
        assert say(f"publish_proctor.{key}") in page, key
    assert 'courseware void 7K3Q-9X00 --leaked --reason "questions got out"' in page


def test_a_large_class_loses_nobody() -> None:
    pages = pages_of(html_to_pdf(proctor_paper(sitting(60), IMPRINT)))
    assert len(pages) > 1
    assert all(seat.form in " ".join(pages) for seat in sitting(60).seats)


def test_forms_that_count_no_more_or_are_in_have_nothing_to_tick() -> None:
    text = proctor_page(MIXED, IMPRINT)
    assert text.count('class="square"') == 2
    assert f'<td colspan="4">{say("publish_proctor.void")}</td>' in text
    assert f'<td colspan="4">{say("publish_proctor.answered", on="2026-11-26")}</td>' in text
    assert "courseware void M4C7-00AA --leaked" in text, "the command names a form that is still open"


def test_machine_rules_and_markup(browser: Browser, paper: bytes, tmp_path: Path) -> None:
    write_style(tmp_path)
    write_page(tmp_path / "full.html", proctor_page(sitting(), IMPRINT))
    write_page(tmp_path / "mixed.html", proctor_page(MIXED, IMPRINT))
    check_markup(tmp_path).assert_clean(expected=2)
    check_pages(browser, tmp_path.glob("*.html")).assert_clean(expected=2)
    (tmp_path / "full.pdf").write_bytes(paper)
    check_papers(tmp_path.glob("*.pdf")).assert_clean(expected=1)
    check_prints(tmp_path.glob("*.pdf")).assert_clean(expected=1)


def test_the_same_sitting_gives_the_same_bytes(paper: bytes) -> None:
    assert html_to_pdf(proctor_paper(sitting(), IMPRINT)) == paper
