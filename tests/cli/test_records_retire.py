"""``courseware records retire``: a signer who leaves signs no more."""

import pytest

from tests.cli.conftest import Run


@pytest.mark.usefixtures("shop")
def test_the_last_signer_stays_and_another_goes(run: Run) -> None:
    done = run("records", "retire", "T-0001", "--reason", "left", "--company", "shop")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "reading the course in shop\n"
        "this is the last active signer; without one nothing could be recorded any more\n"
        "    try: add another signer first\n"
    )
    assert run("records", "qualify", "T-0002", "--key-file", "bo.pem", "--company", "shop").returncode == 0
    done = run("records", "retire", "T-0002", "--reason", "left", "--company", "shop")
    assert (done.returncode, done.stdout) == (0, "T-0002, Bo Vise, signs no more\n")
    assert "qualified signer" not in run("records", "people", "--company", "shop").stdout.splitlines()[1]
