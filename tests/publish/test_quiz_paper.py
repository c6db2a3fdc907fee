"""The printed quiz: every question and tag on it, an answer sheet that is the answer code, and nothing of the key."""

import io
import re
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest

from courseware.content.words import say
from courseware.publish.pdf import html_to_pdf
from courseware.publish.quiz_paper import quiz_paper
from courseware.quiz.form import Form
from tests.publish.sample_quiz import FORM, IMPRINT, KEY
from tests.web.papers import check_papers, check_prints


def pages_of(data: bytes) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(data)).pages]


@pytest.fixture(scope="module")
def paper() -> bytes:
    return html_to_pdf(quiz_paper(FORM, IMPRINT))


def test_every_question_and_tag_is_printed(paper: bytes) -> None:
    text = " ".join(pages_of(paper)[:-1])
    for item in FORM.items:
        assert say("publish_pages.question", number=item.number) in text
        assert all(paragraph in text for paragraph in item.stem)
        assert all(f"{option.tag} {option.text}" in text for option in item.options)
        assert item.exhibit is None or all(f"{label} {value}" in text for label, value in item.exhibit.rows)


def test_the_answer_sheet_stands_whole_on_the_last_page(paper: bytes) -> None:
    last = pages_of(paper)[-1]
    for key in ("sheet-title", "sheet-trainee", "sheet-watched", "sheet-watched-says", "sheet-unwatched"):
        assert say(f"publish_pages.{key}") in last, key
    assert all(option.tag in last for item in FORM.items if item.kind != "ordering" for option in item.options)
    assert say("publish_pages.paper-number", unit="kV") in last
    assert "2=8.5/13" in last


def test_every_page_names_the_form(paper: bytes) -> None:
    pages = pages_of(paper)
    assert len(pages) == 3
    assert all(FORM.id in page for page in pages)


def test_nothing_of_the_key_is_printed(paper: bytes) -> None:
    text = " ".join(pages_of(paper)) + quiz_paper(FORM, IMPRINT)
    told = [entry.because for entry in KEY.entries] + [line for e in KEY.entries for line in e.feedback.values()]
    assert len(told) == 14
    assert not [line for line in told if line in text]


def test_without_a_numeric_question_no_digit_sum_is_explained() -> None:
    plain = replace(FORM, items=tuple(item for item in FORM.items if item.kind != "numeric"))
    assert "8.5/13" not in quiz_paper(plain, IMPRINT)
    assert say("publish_pages.sheet-typing-plain", blank="5=-") in quiz_paper(plain, IMPRINT)


def long_form(questions: int) -> Form:
    items = [replace(FORM.items[index % 5], number=index + 1) for index in range(questions)]
    return replace(FORM, items=tuple(items))


def test_a_long_form_prints_too(tmp_path: Path) -> None:
    """Forty questions go over many pages; none of them may be lost at a page's end."""
    data = html_to_pdf(quiz_paper(long_form(40), IMPRINT))
    text = " ".join(pages_of(data))
    assert all(say("publish_pages.question", number=number) in text for number in range(1, 41))
    (tmp_path / "long.pdf").write_bytes(data)
    check_papers(tmp_path.glob("*.pdf")).assert_clean(expected=1)
    check_prints(tmp_path.glob("*.pdf")).assert_clean(expected=1)


def test_no_question_is_split_between_pages() -> None:
    form = long_form(40)
    seen: list[int] = []
    for page in pages_of(html_to_pdf(quiz_paper(form, IMPRINT))):
        here = [int(number) for number in re.findall(r"Question (\d+) about", page)]
        seen += here
        for item in FORM.items:
            times = sum(1 for number in here if form.items[number - 1].stem == item.stem)
            last = item.options[-1].text if item.options else item.stem[-1]
            assert page.count(last) == times, (here, last)
    assert seen == list(range(1, 41))


def test_the_same_form_gives_the_same_bytes_and_a_tagged_pdf(paper: bytes, tmp_path: Path) -> None:
    assert html_to_pdf(quiz_paper(FORM, IMPRINT)) == paper
    (tmp_path / "quiz.pdf").write_bytes(paper)
    check_papers(tmp_path.glob("*.pdf")).assert_clean(expected=1)
    check_prints(tmp_path.glob("*.pdf")).assert_clean(expected=1)
