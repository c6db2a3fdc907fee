"""``courseware records merge``: two enrollments become one person."""

import pytest

from tests.cli.conftest import Run


@pytest.mark.usefixtures("shop")
def test_a_duplicate_is_merged_and_its_number_leads_to_the_person(run: Run) -> None:
    assert run("records", "enroll", "Bo Vise", "b.vise@example.com", "--company", "shop").returncode == 0
    done = run("records", "merge", "t-0003", "T-0002", "--reason", "two addresses", "--company", "shop")
    assert (done.returncode, done.stdout) == (0, "T-0003 is now T-0002, Bo Vise\n")
    assert [line[:6] for line in run("records", "people", "--company", "shop").stdout.splitlines()] == [
        "T-0001",
        "T-0002",
    ]
    assert run("records", "verify", "--company", "shop").returncode == 0


@pytest.mark.usefixtures("shop")
def test_nobody_is_merged_into_themselves(run: Run) -> None:
    done = run("records", "merge", "T-0002", "T-0002", "--reason", "x", "--company", "shop")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.endswith(
        " cannot be merged into itself\n    try: name the duplicate first, and then the person to keep\n"
    )


def test_a_merge_asks_for_a_reason(run: Run) -> None:
    done = run("records", "merge", "T-0003", "T-0002")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "courseware records merge: Missing option '--reason'. Try: courseware records merge --help\n"
    )
