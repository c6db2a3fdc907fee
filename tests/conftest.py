"""Fixtures that tests of several rooms share."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser

from tests.demo import Demonstration, demonstrate
from tests.web.browser import open_browser


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Give the one browser of the run; Playwright allows one at a time in a thread."""
    with open_browser() as opened:
        yield opened


@pytest.fixture(scope="session")
def demonstration(tmp_path_factory: pytest.TempPathFactory) -> Demonstration:
    """Run the demonstration once; a test that changes what it made works on a copy."""
    return demonstrate(tmp_path_factory.mktemp("demonstration") / "build")
