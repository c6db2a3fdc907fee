"""``courseware records begin``: what it prints, what it makes, and what it refuses."""

import os
import stat

import pytest

from tests.cli.conftest import Run
from tests.cli.day import Day

pytestmark = pytest.mark.xdist_group("day")


def test_the_first_signer_and_what_to_guard_are_told(day: Day) -> None:
    done = day.done["begin"]
    assert (done.returncode, done.stderr) == (0, "")
    office = day.company.relative_to(day.folder) / "office"
    assert done.stdout == (
        "records begun for Ridge Heat; first signer: Ann Lee, T-0001\n"
        f"keep {office} to the office: it holds the secret that quizzes are drawn from and the key that signs; "
        "back it up\n"
    )


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps its permissions elsewhere")
def test_what_the_office_guards_is_nobody_elses_to_read(day: Day) -> None:
    for name in ("secret.txt", "signing-key.pem"):
        assert stat.S_IMODE((day.company / "office" / name).stat().st_mode) == 0o600


def test_records_are_begun_once(day: Day) -> None:
    done = day.done["begin again"]
    assert (done.returncode, done.stdout) == (1, "")
    file = day.company.relative_to(day.folder) / "office" / "records.sqlite"
    assert done.stderr == (
        f"the records '{file}' have been begun before; try: go on with them, or name another folder\n"
    )


def test_a_folder_without_a_course_is_refused(run: Run) -> None:
    done = run("records", "begin", "--name", "Ridge Heat", "--signer", "Ann Lee")
    assert (done.returncode, done.stdout) == (1, "")
    assert "courseware new" in done.stderr
    assert done.stderr.count("\n") == 1
