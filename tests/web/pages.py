"""Every page looked at as people will: on a phone and a desk, in light and dark, magnified, by machine rules.

The rules are axe-core's for WCAG 2.0, 2.1 and 2.2, levels A and AA, and its best practices; they cover a
part of WCAG, and a person must judge the rest. Reflow is WCAG 2.2 success criterion 1.4.10: no scrolling in
two dimensions at a width of 320 CSS pixels.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from playwright.sync_api import Browser, Page

from tests.web.browser import Watch
from tests.web.report import Report
from tests.web.tools import AXE, found, npm_package

RULES: Final = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa", "best-practice")
# No preload: it would fetch the stylesheet by script, which no page opened from a file may do.
# Only violations in full, and how many rules passed: carrying every passed element over costs three times the rules.
RUN: Final = """async rules => {
    const found = await axe.run(document, {
        preload: false, resultTypes: ["violations"], runOnly: {type: "tag", values: rules},
    });
    return {violations: found.violations, passes: found.passes.length};
}"""
REFLOW_WIDTH: Final = 320  # CSS px, WCAG 2.2 success criterion 1.4.10


@dataclass(frozen=True, slots=True)
class View:
    """One way of looking at a page: width and height in CSS pixels, and the colour scheme."""

    name: str
    width: int
    height: int
    scheme: str


VIEWS: Final = tuple(
    View(f"{name}, {scheme}", width, height, scheme)
    for name, width, height in (("phone", 360, 740), ("desktop", 1440, 900))
    for scheme in ("light", "dark")
)


def in_every_view(_page: Path) -> tuple[View, ...]:
    """Return all views."""
    return VIEWS


def check_pages(
    browser: Browser, pages: Iterable[Path], views: Callable[[Path], tuple[View, ...]] = in_every_view
) -> Report:
    """Look at pages and collect what is wrong with them.

    Parameters
    ----------
    browser : Browser
        From :func:`tests.web.browser.open_browser`.
    pages : iterable of Path
        HTML files.
    views : callable
        The views in which to look at a page; at a width of 320 px each one is looked at.

    Returns
    -------
    Report
        Its faults name file, view, rule, and the first element that breaks it.
    """
    npm_package("axe-core")
    axe = found("axe-core", AXE).read_text(encoding="utf-8")
    seen: list[Path] = []
    faults: list[str] = []
    for path in sorted(pages):
        context = browser.new_context(offline=True)
        watch = Watch()
        context.on("page", watch.follow)
        page = context.new_page()
        page.goto(path.resolve().as_uri(), wait_until="load")
        page.evaluate(axe)
        found_here = [fault for view in views(path) for fault in _look(page, view)]
        found_here.extend(_reflow(page))
        context.close()
        faults.extend(f"{path.name}: {fault}" for fault in (*watch.faults, *found_here))
        seen.append(path)
    return Report(tuple(seen), tuple(faults))


def _look(page: Page, view: View) -> Iterator[str]:
    page.set_viewport_size({"width": view.width, "height": view.height})
    page.emulate_media(color_scheme="dark" if view.scheme == "dark" else "light")
    result: dict[str, Any] = page.evaluate(RUN, list(RULES))
    assert result["passes"], f"no rule looked at {page.url}"
    for violation in result["violations"]:
        node = violation["nodes"][0]
        yield f"{view.name}: {violation['id']}: {violation['help']}: {node['html']}: {node['failureSummary']}"
    yield from _overflow(page, view.name)


def _reflow(page: Page) -> Iterator[str]:
    page.set_viewport_size({"width": REFLOW_WIDTH, "height": 740})
    yield from _overflow(page, f"{REFLOW_WIDTH} px")


def _overflow(page: Page, name: str) -> Iterator[str]:
    wide, room = page.evaluate("[document.documentElement.scrollWidth, document.documentElement.clientWidth]")
    if wide > room:
        yield f"{name}: the page is {wide} px wide in a window of {room} px"
