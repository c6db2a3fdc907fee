"""Every page and paper that the whole job makes, held to the standards."""

import pytest
from playwright.sync_api import Browser

from tests.demo import Demonstration, made
from tests.web.markup import check_links, check_markup
from tests.web.pages import check_pages
from tests.web.papers import check_papers, check_prints

pytestmark = pytest.mark.xdist_group("demonstration")

# Front page; trainee, trainer and office; practice; three lessons; three quizzes; two feedback sheets; one certificate.
PAGES = 1 + 3 + 1 + 3 + 3 + 2 + 1
# Three lessons; three quiz papers for trainees and the same for the trainer; two feedback sheets; one certificate.
PAPERS = 3 + 3 + 3 + 2 + 1


def test_every_page_passes_the_html_checker(demonstration: Demonstration) -> None:
    check_markup(demonstration.out).assert_clean(expected=PAGES)


def test_every_link_leads_somewhere(demonstration: Demonstration) -> None:
    check_links(demonstration.out).assert_clean(expected=PAGES)


def test_every_page_passes_axe_on_phone_and_desk_in_light_and_dark(
    demonstration: Demonstration, browser: Browser
) -> None:
    pages = [demonstration.out / name for name in made(demonstration.out, ".html")]
    check_pages(browser, pages).assert_clean(expected=PAGES)


def test_every_paper_is_tagged_for_everybody(demonstration: Demonstration) -> None:
    papers = [demonstration.out / name for name in made(demonstration.out, ".pdf")]
    check_papers(papers).assert_clean(expected=PAPERS)


def test_every_paper_prints_whole(demonstration: Demonstration) -> None:
    papers = [demonstration.out / name for name in made(demonstration.out, ".pdf")]
    check_prints(papers).assert_clean(expected=PAPERS)
