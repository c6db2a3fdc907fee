"""A browser for the tests: the system's Chromium, and no way out to a network."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any, Final

from playwright.sync_api import Browser, BrowserContext, Page, expect, sync_playwright

from tests.web.tools import CHROMIUM, found

FLAGS: Final = (
    "--no-sandbox",
    "--disable-gpu",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--host-resolver-rules=MAP * ~NOTFOUND",  # no name resolves, whatever a page tries
)
# What a page makes of itself: these carry their bytes in the address and ask nobody.
INSIDE: Final = ("file:", "data:", "blob:", "about:")
# On a machine where papers are made beside it, a page may take longer than the usual 5 s to say what it must [ms].
PATIENCE: Final = 20_000


@contextmanager
def open_browser() -> Iterator[Browser]:
    """Start the system's Chromium; a missing one fails, and none is ever downloaded."""
    path = found("chromium", CHROMIUM)
    expect.set_options(timeout=PATIENCE)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=list(FLAGS))
        try:
            yield browser
        finally:
            browser.close()


@dataclass  # without slots: Playwright hangs a name on the object whose method it calls
class Watch:
    """What a page did that no page may do: requests that leave the machine, script errors, missing files."""

    faults: list[str] = field(default_factory=list)

    def follow(self, page: Page) -> None:
        """Note every such act of the page from now on."""
        page.on("request", lambda request: self._request(request.url))
        page.on("websocket", lambda socket: self.faults.append(f"request to {socket.url}"))
        page.on("pageerror", lambda error: self.faults.append(f"script error: {error}"))
        page.on("console", lambda message: self._console(message.type, message.text))

    def _request(self, url: str) -> None:
        if not url.startswith(INSIDE):
            self.faults.append(f"request to {url}")

    def _console(self, kind: str, text: str) -> None:
        if kind in ("error", "warning"):
            self.faults.append(f"console {kind}: {text}")


@contextmanager
def open_page(browser: Browser, **settings: Any) -> Iterator[Page]:
    """Open a page in a context of its own, and fail at the end if it reached for the network or a script failed.

    Parameters
    ----------
    browser : Browser
        From :func:`open_browser`.
    settings : Any
        Passed to ``Browser.new_context``: ``viewport``, ``has_touch``, ``java_script_enabled`` ...
    """
    context: BrowserContext = browser.new_context(offline=True, **settings)
    watch = Watch()
    context.on("page", watch.follow)
    try:
        yield context.new_page()
    finally:
        context.close()
    assert not watch.faults, "\n".join(watch.faults)
