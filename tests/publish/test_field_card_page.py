"""The card on paper is one letter sheet in large type; its bands are the unit's, its steps and rules the bank's."""

import io
import re
from collections import Counter
from pathlib import Path

import pypdf
import pytest
from playwright.sync_api import Browser

from courseware.heater.checks import Check
from courseware.heater.simulate import simulate
from courseware.heater.unit import Unit
from courseware.physics.units import from_si
from courseware.publish.field_card_page import CardSheet, card_sheet, field_card_page, field_card_paper
from courseware.publish.output import write_page, write_style
from courseware.publish.pdf import html_to_pdf
from courseware.safework.judge import judge
from courseware.safework.work import steps_on
from tests.publish.conftest import IMPRINT, Shipped
from tests.publish.test_field_card import shipped_cards
from tests.web.browser import open_page
from tests.web.markup import check_markup
from tests.web.pages import check_pages
from tests.web.papers import check_papers, check_prints

UNITS = ("bay-siphon", "bay-metered")
LEAST_TYPE = 11  # points: the order of the work


@pytest.fixture(scope="module")
def sheets(shipped: Shipped) -> dict[str, CardSheet]:
    (card,) = shipped_cards(shipped)
    trade, safework = shipped.teaching.trade, shipped.teaching.safework
    return {name: card_sheet(card, trade.units[name], trade, safework) for name in UNITS}


@pytest.fixture(scope="module")
def papers(sheets: dict[str, CardSheet], tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("cards")
    for name, sheet in sheets.items():
        (folder / f"{name}.pdf").write_bytes(html_to_pdf(field_card_paper(sheet, IMPRINT)))
    return folder


@pytest.mark.parametrize("name", UNITS)
def test_the_paper_is_one_letter_sheet_on_its_side(papers: Path, name: str) -> None:
    pages = pypdf.PdfReader(papers / f"{name}.pdf").pages
    assert len(pages) == 2, "two sides of one sheet"
    assert {(float(page.mediabox.width), float(page.mediabox.height)) for page in pages} == {(11 * 72, 8.5 * 72)}


@pytest.mark.parametrize("name", UNITS)
def test_no_letter_is_smaller_than_large_type_and_none_lies_on_the_fold(papers: Path, name: str) -> None:
    sizes: Counter[float] = Counter()
    starts = []

    def seen(text: str, cm: list[float], tm: list[float], _font: object, size: float) -> None:
        if text.strip():
            sizes[round(size * abs(tm[3]) * abs(cm[3]), 1)] += len(text)
            starts.append(tm[4] * cm[0] + cm[4])

    for page in pypdf.PdfReader(papers / f"{name}.pdf").pages:
        page.extract_text(visitor_text=seen)
    assert sum(sizes.values()) > 2000
    assert min(sizes) >= LEAST_TYPE, sizes
    fold = 11 * 72 / 2
    assert all(abs(start - fold) > 15 for start in starts)


def test_the_papers_are_tagged_and_print_whole_in_the_same_bytes(papers: Path, sheets: dict[str, CardSheet]) -> None:
    check_papers(papers.glob("*.pdf")).assert_clean(expected=2)
    check_prints(papers.glob("*.pdf")).assert_clean(expected=2)
    again = html_to_pdf(field_card_paper(sheets["bay-siphon"], IMPRINT))
    assert again == (papers / "bay-siphon.pdf").read_bytes()


@pytest.mark.parametrize("name", UNITS)
def test_everything_on_the_card_is_on_the_paper(papers: Path, sheets: dict[str, CardSheet], name: str) -> None:
    data = (papers / f"{name}.pdf").read_bytes()
    text = " ".join(" ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(data)).pages)
    sheet = sheets[name]
    wanted = [
        *sheet.sequence,
        *sheet.lockout,
        *sheet.back,
        *sheet.blanks,
        *(rule for _, of_it in sheet.rules for rule in of_it),
    ]
    wanted += [part for row in sheet.readings for part in row]
    wanted += [line for one in sheet.emergency for line in (one.title, *one.says)]
    assert [line for line in wanted if line not in text] == []


def numbers(text: str) -> list[float]:
    return [float(found.replace("−", "-").replace(",", "")) for found in re.findall(r"−?[\d,]+(?:\.\d+)?", text)]


def number(unit: Unit, check: Check, edge: float | str | None) -> float | None:
    return from_si(unit.limits[edge], check.unit) if isinstance(edge, str) else edge


def healthy(unit: Unit, check: Check) -> float:
    """Return what the unit in order reads [unit of the check], taken from the signal itself."""
    run = simulate(unit, [()], check.changes)
    return from_si(float(run.signals[check.signal][run.moments[check.moment][0], 0]), check.unit)


@pytest.mark.parametrize("name", UNITS)
def test_each_band_holds_the_healthy_reading_and_ends_where_the_bank_says(
    shipped: Shipped, sheets: dict[str, CardSheet], name: str
) -> None:
    """The second way: edges straight from the document and the unit's limits, the reading straight from the signal."""
    trade = shipped.teaching.trade
    unit, by_title = trade.units[name], {check.title: check for check in trade.checks.values()}
    told = 0
    for title, words in sheets[name].readings:
        check = by_title[title]
        if not check.unit:
            assert words in {band.says for band in check.bands}
            continue
        value = healthy(unit, check)
        edges = [(number(unit, check, band.low), number(unit, check, band.high)) for band in check.bands]
        (low, high), = [(low, high) for low, high in edges
                        if (low is None or value >= low - 1e-9) and (high is None or value < high - 1e-9)]  # fmt: skip
        found = numbers(words.partition(" (")[0])
        expected = ([] if low is None else [low]) + ([] if high is None else [high - check.resolution])
        assert found == pytest.approx(expected, abs=check.resolution / 2), title
        told += 1
    assert told > 10


@pytest.mark.parametrize("name", UNITS)
def test_the_steps_are_an_allowed_order_on_the_unit(shipped: Shipped, sheets: dict[str, CardSheet], name: str) -> None:
    """The safe-work engine judges the card's own list."""
    trade, safework = shipped.teaching.trade, shipped.teaching.safework
    unit, procedure = trade.units[name], safework.procedures["lockout"]
    by_title = {safework.actions[step.action].title: step.id for step in steps_on(procedure, unit)}
    order = [by_title[title] for title in (*sheets[name].lockout, *sheets[name].back)]
    assert len(order) == len(steps_on(procedure, unit))
    assert judge(safework, trade, unit, procedure, order).breach is None
    assert by_title[sheets[name].lockout[-1]] == "proved"


def test_units_differ_where_they_should(sheets: dict[str, CardSheet]) -> None:
    siphon, metered = sheets["bay-siphon"], sheets["bay-metered"]
    assert any("the spark stays on" in line for line in siphon.sequence)
    assert any("the spark stops" in line for line in metered.sequence)
    assert any("Prepurge, 10 s" in line for line in metered.sequence)
    assert not any("Prepurge" in line for line in siphon.sequence)
    assert any("bleed port of the oil line" in step for step in metered.lockout)
    assert not any("bleed port of the oil line" in step for step in siphon.lockout)


def test_the_emergency_block_names_the_limits_of_carbon_monoxide(sheets: dict[str, CardSheet]) -> None:
    """NIOSH: 35 ppm over 8 hours, 200 ppm ceiling, 1,200 ppm immediately dangerous to life (NIOSH Pocket Guide)."""
    (words,) = [" ".join(one.says) for one in sheets["bay-siphon"].emergency if one.title == "Carbon monoxide"]
    assert all(f"{limit} ppm" in words for limit in ("35", "200", "1,200"))


def test_machine_rules_and_markup(browser: Browser, sheets: dict[str, CardSheet], tmp_path: Path) -> None:
    for name, sheet in sheets.items():
        write_page(tmp_path / f"{name}.html", field_card_page(sheet, IMPRINT))
    write_style(tmp_path)
    check_markup(tmp_path).assert_clean(expected=2)
    check_pages(browser, tmp_path.glob("*.html")).assert_clean(expected=2)


def test_the_page_prints_as_one_sheet_too(browser: Browser, sheets: dict[str, CardSheet], tmp_path: Path) -> None:
    write_page(tmp_path / "card.html", field_card_page(sheets["bay-metered"], IMPRINT))
    write_style(tmp_path)
    with open_page(browser) as page:
        page.goto((tmp_path / "card.html").as_uri())
        data = page.pdf(prefer_css_page_size=True)
    assert len(pypdf.PdfReader(io.BytesIO(data)).pages) == 2
