"""Fixtures that tests of several rooms share."""

import os
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser

from courseware.heater.kept import FOLDER_NAMED_BY
from tests.demo import Demonstration, demonstrate
from tests.web.browser import open_browser


def pytest_configure(config: pytest.Config) -> None:
    """Let the processes of one run share what they simulate, away from what the user's own commands keep."""
    os.environ[FOLDER_NAMED_BY] = str(config.cache.mkdir("simulated")) if config.cache else ""


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Give the one browser of the run; Playwright allows one at a time in a thread."""
    with open_browser() as opened:
        yield opened


@pytest.fixture(scope="session")
def demonstration(tmp_path_factory: pytest.TempPathFactory) -> Demonstration:
    """Run the demonstration once; a test that changes what it made works on a copy."""
    return demonstrate(tmp_path_factory.mktemp("demonstration") / "build")
