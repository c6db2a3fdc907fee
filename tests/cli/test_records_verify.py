"""``courseware records verify``: what it prints on sound and on damaged records, and for a certificate."""

import re
import shutil
import sqlite3
from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.cli.day import Day

pytestmark = pytest.mark.xdist_group("day")


@pytest.fixture
def copy(day: Day, tmp_path: Path) -> Path:
    """Copy the company, to be damaged, to where the command line runs."""
    return shutil.copytree(day.company, tmp_path / "ridge")


def certificate(day: Day) -> str:
    found = re.search(r"code (\S+),", day.done["certify"].stdout)
    assert found
    return found[1]


def test_sound_records_are_told_with_their_head(day: Day) -> None:
    done = day.done["verify"]
    assert (done.returncode, done.stderr) == (0, "")
    assert re.fullmatch(r"14 events hold, and every table agrees with them; chain head [0-9a-f]{64}\n", done.stdout)


def test_a_changed_event_is_named(run: Run, copy: Path) -> None:
    database = sqlite3.connect(copy / "office" / "records.sqlite")
    guards = database.execute("select name, sql from sqlite_master where type = 'trigger'").fetchall()
    for name, _ in guards:
        database.execute(f'drop trigger "{name}"')  # as an intruder would, who puts them back when he is done
    (body,) = database.execute("select body from event where seq = 3").fetchone()
    changed = bytes(body).replace(b'"ref":"', b'"ref":"0', 1)
    assert changed != body
    database.execute("update event set body = ? where seq = 3", (changed,))
    for _, guard in guards:
        database.execute(guard)
    database.commit()
    database.close()
    done = run("records", "verify", "--company", "ridge")
    assert (done.returncode, done.stdout) == (1, "")
    assert re.match(r"event 3\b", done.stderr)


@pytest.mark.usefixtures("copy")
def test_a_good_certificate_is_told(run: Run, day: Day) -> None:
    done = run("records", "verify", "--certificate", certificate(day), "--company", "ridge")
    assert (done.returncode, done.stderr) == (0, "")
    head, told, _, *basis = done.stdout.splitlines()
    assert head.startswith("14 events hold")
    assert certificate(day) in told
    assert "Ignition service of used-oil heaters" in told
    assert basis[0].startswith("granted by Ann Lee on ")
    assert basis[1].startswith("on course version 0.1, SHA-256 of its content ")
    assert sum(line.startswith("resting on the quiz ") for line in basis) >= 1
    assert basis[-1].startswith("resting on the procedure 'ignition-test', carried out on bay-siphon, ")


@pytest.mark.usefixtures("copy")
def test_an_unknown_certificate_ends_with_1(run: Run) -> None:
    done = run("records", "verify", "--certificate", "0000-0000-0000", "--company", "ridge")
    assert done.returncode == 1
    assert done.stdout.startswith("14 events hold")
    assert done.stderr != ""
