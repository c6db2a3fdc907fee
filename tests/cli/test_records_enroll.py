"""``courseware records enroll``: what it prints and what it refuses."""

import pytest

from tests.cli.day import Day

pytestmark = pytest.mark.xdist_group("day")


def test_each_person_gets_a_number(day: Day) -> None:
    assert day.done["enroll"].stdout == "T-0002 Bo Ray\n"
    assert day.done["enroll another"].stdout == "T-0003 Cy Dow\n"
    assert day.done["enroll"].returncode == day.done["enroll another"].returncode == 0


def test_nobody_is_enrolled_before_the_records_are_begun(day: Day) -> None:
    done = day.done["too early"]
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == (
        "the company in 'ridge' has no records yet; "
        "try: begin them: courseware records begin --company ridge --name NAME --signer NAME\n"
    )
