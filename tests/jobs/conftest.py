"""The shipped course, read once for all tests of this room, and a company at work."""

from pathlib import Path

import pytest

from courseware.content.folders import shipped_course
from courseware.jobs.check import Report, check_course
from courseware.jobs.issue import issue_quiz
from tests.jobs.office import at_desk, begun, copied, enrolled


@pytest.fixture(scope="session")
def report() -> Report:
    """Check the shipped course once."""
    return check_course(shipped_course())


@pytest.fixture(scope="session")
def company_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Make a company with a signer, two people and one form issued to each; tests work on copies."""
    folder = enrolled(begun(tmp_path_factory.mktemp("company") / "bench"))
    with at_desk(folder) as desk:
        issue_quiz(desk, "ignition", ["T-0002", "T-0003"])
    return folder


@pytest.fixture
def company(company_once: Path, tmp_path: Path) -> Path:
    """Return a copy of that company."""
    return copied(company_once, tmp_path / "bench")
