"""``courseware records withdraw``: a certificate ends before its time."""

import shutil

import pytest

from tests.cli.conftest import Run
from tests.demo import Demonstration


@pytest.mark.usefixtures("shop")
def test_a_mistyped_code_is_not_withdrawn(run: Run) -> None:
    done = run("records", "withdraw", "K7QM-2XPA-9D4T", "--reason", "retraining", "--company", "shop")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "reading the course in shop\n"
        "'K7QM-2XPA-9D4T' is mistyped: its check characters do not fit\n"
        "    try: compare it with the certificate, character by character\n"
    )


@pytest.mark.xdist_group("demonstration")
def test_a_withdrawn_certificate_is_told_as_such(run: Run, demonstration: Demonstration) -> None:
    shutil.copytree(demonstration.out / "company", "shop")
    code = next((demonstration.out / "office" / "certificates").glob("*.html")).stem
    done = run("records", "withdraw", code, "--reason", "retraining after an incident", "--company", "shop")
    assert (done.returncode, done.stdout) == (0, f"certificate {code} is withdrawn\n")
    told = run("records", "verify", "--certificate", code, "--company", "shop")
    assert told.returncode == 1
    assert "withdrawn" in told.stderr
