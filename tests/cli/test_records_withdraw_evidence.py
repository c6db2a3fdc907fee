"""``courseware records withdraw-evidence``: what is no evidence cannot be taken back."""

import pytest

from tests.cli.conftest import Run


@pytest.mark.usefixtures("shop")
def test_an_entry_that_is_no_evidence(run: Run) -> None:
    done = run("records", "withdraw-evidence", "1", "--reason", "wrong", "--company", "shop")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "reading the course in shop\nevent 1 is no evidence\n"
        "    try: look up the number of the entry in the person's file\n"
    )


def test_an_entry_is_a_number(run: Run) -> None:
    done = run("records", "withdraw-evidence", "first", "--reason", "wrong")
    assert (done.returncode, done.stdout) == (1, "")
    assert "'first' is not a valid integer range" in done.stderr
