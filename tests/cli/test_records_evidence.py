"""``courseware records evidence``: what it prints, and what becomes of it."""

import pytest

from tests.cli.conftest import Run


@pytest.mark.usefixtures("shop")
def test_evidence_is_told_with_its_entry_and_what_takes_it(run: Run) -> None:
    done = run("records", "evidence", "T-0002", "card 4471", "--procedure", "lockout", "--company", "shop")
    assert done.returncode == 0
    assert done.stdout == (
        "T-0002 Bo Vise: evidence on Lockout and return to service, entry 3\n"
        "it stands in the file; no program takes it in the place of a quiz or a sign-off\n"
    )
    listed = run("records", "list", "evidence", "--company", "shop").stdout.splitlines()
    assert listed[0].startswith("Name\tEvidence on\tWhat was seen\t")
    assert listed[1].startswith("Bo Vise\tLockout and return to service\tcard 4471\t")
    assert listed[1].endswith("\tSal Signer\tstands\t3")
    back = run("records", "withdraw-evidence", "3", "--reason", "another's card", "--company", "shop")
    assert (back.returncode, back.stdout) == (0, "entry 3 counts no more\n")


@pytest.mark.usefixtures("shop")
def test_evidence_on_nothing_is_refused(run: Run) -> None:
    done = run("records", "evidence", "T-0002", "card 4471", "--company", "shop")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "reading the course in shop\nevidence is about one program or one procedure; "
        "try: name one of the two: --program ignition-service, or --procedure lockout\n"
    )
