"""``courseware records erase``: a person is forgotten, and the records hold."""

import pytest

from tests.cli.conftest import Run


@pytest.mark.usefixtures("shop")
def test_an_erased_person_is_gone_and_the_records_hold(run: Run) -> None:
    done = run("records", "erase", "T-0002", "--yes", "--company", "shop")
    assert (done.returncode, done.stdout) == (
        0, "T-0002 is erased; destroy backups, printed certificates and saved answer files yourself\n"
    )  # fmt: skip
    assert "Bo Vise" not in run("records", "people", "--company", "shop").stdout
    assert run("records", "verify", "--company", "shop").returncode == 0
