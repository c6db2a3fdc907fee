"""``courseware records sign-off``: what it prints, what it refuses, and what a certificate owes to it."""

import shutil
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.cli.day import Day

pytestmark = pytest.mark.xdist_group("day")


def test_who_did_what_on_which_unit_is_told(day: Day) -> None:
    done = day.done["sign off"]
    today = datetime.now(UTC).astimezone().date()
    told = "T-0002 Bo Ray: Ignition test, on Bay heater 140, siphon burner, "
    assert done.returncode == 0
    assert done.stdout.startswith(told)
    assert abs(datetime.fromisoformat(done.stdout.removeprefix(told).strip()).date() - today).days <= 1


def test_without_it_the_program_certifies_nobody(day: Day) -> None:
    done = day.done["certify too early"]
    assert (done.returncode, done.stdout) == (1, "")
    reading, *told = done.stderr.splitlines()
    assert reading == "reading the course in ridge"
    assert told == [
        "Bo Ray (T-0002) cannot get the certificate 'Ignition service of used-oil heaters'",
        "nobody has signed off the procedure 'ignition-test'",
        "    try: let the person carry it out on a unit with a signer watching, and record the sign-off",
    ]
    assert day.done["certify"].returncode == 0


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (
            ("T-0003", "ignition-tset", "--unit", "bay-siphon"),
            "the course has no procedure 'ignition-tset'; try: did you mean 'ignition-test'?",
        ),
        (
            ("T-0003", "ignition-test", "--unit", "zzz"),
            "the course has no unit 'zzz'; try: it has: bay-metered, bay-siphon",
        ),
        (
            ("T-0003", "ignition-test", "--unit", "bay-siphon", "--by", "T-0002"),
            "'T-0002' is no qualified signer; try: name one of: T-0001",
        ),
        (
            ("T-0001", "ignition-test", "--unit", "bay-siphon"),
            (
                "a signer does not record their own results, sign-offs or certificates\n"
                "    try: let another signer do it"
            ),
        ),
        (
            ("T-0003", "ignition-test", "--unit", "bay-siphon", "--remark", "better than Bo Ray"),
            (
                "the text names T-0002, and what stands in the chain cannot be erased\n"
                "    try: say it without the name and the e-mail"
            ),
        ),
    ],
)
def test_what_is_not_so_is_refused(run: Run, day: Day, tmp_path: Path, arguments: tuple[str, ...], told: str) -> None:
    shutil.copytree(day.company, tmp_path / "ridge")
    done = run("records", "sign-off", *arguments, "--company", "ridge")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == f"reading the course in ridge\n{told}\n"


def test_a_day_is_a_day(run: Run) -> None:
    done = run("records", "sign-off", "T-0002", "lockout", "--unit", "bay-siphon", "--on", "yesterday")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.startswith("courseware records sign-off: Invalid value for '--on': 'yesterday' ")
