"""``courseware certify``: what it prints where nothing speaks against it, and where something does."""

import re
from pathlib import Path

import pytest

from tests.cli.day import Day

pytestmark = pytest.mark.xdist_group("day")


def test_who_has_passed_is_certified_and_told_until_when(day: Day) -> None:
    done = day.done["certify"]
    assert done.returncode == 0
    told = re.fullmatch(
        r"Bo Ray: (.+), code ([0-9A-Z]{4}-[0-9A-Z]{4}-[0-9A-Z]{4}), good until \d{4}-\d{2}-\d{2}\n"
        r"certificate: (.+)\n",
        done.stdout,
    )
    assert told
    assert Path(told[3]) == Path("ridge", "build", "office", "certificates", f"{told[2]}.html")
    assert (day.folder / told[3]).is_file()


def test_who_has_not_passed_is_refused_with_every_reason(day: Day) -> None:
    done = day.done["certify another"]
    assert (done.returncode, done.stdout) == (1, "")
    reading, *told = done.stderr.splitlines()
    assert reading == "reading the course in ridge"
    assert told[0].startswith("Cy Dow (T-0003) cannot get the certificate ")
    assert told[1:4:2] == ["there is no result for the quiz 'lockout'", "the quiz 'ignition' is not passed (event 9)"]
    assert all(line.startswith("    try: ") for line in told[2:5:2])
