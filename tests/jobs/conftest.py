"""The shipped course, read once for all tests of this room."""

import pytest

from courseware.content.folders import shipped_course
from courseware.jobs.check import Report, check_course


@pytest.fixture(scope="session")
def report() -> Report:
    """Check the shipped course once."""
    return check_course(shipped_course())
