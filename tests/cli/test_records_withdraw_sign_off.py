"""``courseware records withdraw-sign-off``: a wrong sign-off counts no more, and what rests on it is named."""

import re
import shutil
from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.cli.day import Day

pytestmark = pytest.mark.xdist_group("day")


def test_the_certificate_that_rests_on_it_is_named(run: Run, day: Day, tmp_path: Path) -> None:
    shutil.copytree(day.company, tmp_path / "ridge")
    listed = run("records", "list", "sign-offs", "--company", "ridge").stdout.splitlines()
    entry = listed[1].rpartition("\t")[2]
    found = re.search(r"code (\S+),", day.done["certify"].stdout)
    assert found
    done = run("records", "withdraw-sign-off", entry, "--reason", "done on another day", "--company", "ridge")
    assert (done.returncode, done.stdout) == (
        0,
        (
            f"entry {entry} counts no more\n"
            f"the certificate {found[1]} (Ignition service of used-oil heaters, Bo Ray) rests on it; "
            f"to end it: courseware records withdraw {found[1]}\n"
        ),
    )
    told = run("records", "verify", "--certificate", found[1], "--company", "ridge").stdout.splitlines()
    assert told[-1] == f"event {entry} was taken back on {told[-1].split()[6].rstrip(':')}: done on another day"
