"""``courseware records qualify``: a second signer, with a key of their own."""

from pathlib import Path

import pytest

from courseware.jobs.company import Places
from tests.cli.conftest import Run


def test_a_second_signer_gets_a_key_of_their_own(run: Run, shop: Path, tmp_path: Path) -> None:
    done = run("records", "qualify", "T-0002", "--key-file", "bo.pem", "--company", "shop")
    assert (done.returncode, done.stdout) == (0, "T-0002 Bo Vise is a qualified signer; their key: bo.pem\n")
    assert (tmp_path / "bo.pem").read_bytes() != Places(shop).signing_key.read_bytes()
    assert run("records", "people", "--company", "shop").stdout.count("\tsigner\n") == 2
    assert run("records", "verify", "--company", "shop").returncode == 0


@pytest.mark.usefixtures("shop")
def test_a_signer_whose_key_cannot_be_kept_is_not_registered(run: Run, tmp_path: Path) -> None:
    (tmp_path / "bo.pem").touch()
    assert run("records", "qualify", "T-0002", "--key-file", "bo.pem", "--company", "shop").returncode == 1
    assert run("records", "people", "--company", "shop").stdout.count("\tsigner\n") == 1
