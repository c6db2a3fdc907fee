"""Every page and paper that the whole job makes, held to the standards."""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from courseware.jobs.build import sound_course
from courseware.jobs.company import Places, open_company
from courseware.jobs.course import Course
from courseware.records.issues import issues
from courseware.records.people import people
from courseware.records.registers import all_certificates, forms_out, results_of
from tests.demo import Demonstration, made
from tests.web.markup import check_links, check_markup
from tests.web.pages import VIEWS, View, check_pages
from tests.web.papers import check_papers, check_prints

pytestmark = pytest.mark.xdist_group("demonstration")

EACH_IN_ALL_VIEWS = 1  # page of a folder; the others of it take the views in turns


@pytest.fixture(scope="module")
def expected(demonstration: Demonstration) -> dict[str, int]:
    """Count what must be there from the course and the records, never from the folders."""
    course: Course = sound_course(demonstration.out / "company")
    with open_company(Places(demonstration.out / "company")) as company:
        everybody = people(company.store)
        graded = [one for person in everybody for one in results_of(company.store, person.id) if not one.replaced_by]
        out, certificates = forms_out(company.store), all_certificates(company.store)
        sittings = tuple(issues(company.store))
    both = {
        "lessons": len(course.lessons),
        "cards": len(course.cards) * len(course.trade.units),
        "quizzes": len(graded) + len(out),
        "feedback": len(graded),
        "classes": len({one.blueprint for one in graded}),
        "certificates": len(certificates),
        "people": len(everybody),
        "training list": 1,
        "sittings": len(sittings),
    }
    assert all(both.values())
    # Front page, three doors and the practice page have no paper; the trainer has each quiz paper too.
    return {".html": sum(both.values()) + 1 + 3 + 1, ".pdf": sum(both.values()) + both["quizzes"]}


def in_turns(out: Path) -> Callable[[Path], tuple[View, ...]]:
    """Return the views for each page: all for the first pages of a folder, one in turn for its others."""
    place = {
        path: number
        for folder in {(out / name).parent for name in made(out, ".html")}
        for number, path in enumerate(sorted(folder.glob("*.html")))
    }
    return lambda path: VIEWS if place[path] < EACH_IN_ALL_VIEWS else (VIEWS[place[path] % len(VIEWS)],)


def test_every_page_passes_the_html_checker(demonstration: Demonstration, expected: dict[str, int]) -> None:
    check_markup(demonstration.out).assert_clean(expected=expected[".html"])


def test_every_link_leads_somewhere(demonstration: Demonstration, expected: dict[str, int]) -> None:
    check_links(demonstration.out).assert_clean(expected=expected[".html"])


def test_every_page_passes_axe_on_phone_and_desk_in_light_and_dark(
    demonstration: Demonstration, browser: Browser, expected: dict[str, int]
) -> None:
    pages = [demonstration.out / name for name in made(demonstration.out, ".html")]
    check_pages(browser, pages, in_turns(demonstration.out)).assert_clean(expected=expected[".html"])


def test_every_paper_is_tagged_for_everybody(demonstration: Demonstration, expected: dict[str, int]) -> None:
    papers = [demonstration.out / name for name in made(demonstration.out, ".pdf")]
    check_papers(papers).assert_clean(expected=expected[".pdf"])


def test_every_paper_prints_whole(demonstration: Demonstration, expected: dict[str, int]) -> None:
    papers = [demonstration.out / name for name in made(demonstration.out, ".pdf")]
    check_prints(papers).assert_clean(expected=expected[".pdf"])
