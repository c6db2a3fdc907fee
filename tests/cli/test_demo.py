"""``courseware demo``: what it tells of the whole job, and what it hands on."""

import dataclasses
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from courseware.cli import demo
from courseware.content.refusal import Refusal
from courseware.jobs.certify import Certified
from courseware.jobs.demo import Shown
from courseware.jobs.grade import Graded
from tests.cli.conftest import Run
from tests.demo import Demonstration

pytestmark = pytest.mark.xdist_group("demonstration")


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch, demonstration: Demonstration) -> list[Path]:
    """Let the command tell of the one demonstration of this run; return the folders that it was asked to fill."""
    folders: list[Path] = []

    def shown(folder: Path, now: datetime, tell: Callable[[str], None]) -> Shown:
        assert now.tzinfo is not None
        tell("a page")
        folders.append(folder)
        return demonstration.shown

    monkeypatch.setattr(demo, "run_demo", shown)
    return folders


def test_everything_that_happened_is_told_and_the_last_line_says_what_to_open(
    run: Run, asked: list[Path], demonstration: Demonstration
) -> None:
    done = run("demo", "my-demo")
    assert (done.returncode, done.stderr) == (0, "  a page\n")
    assert asked == [Path("my-demo")]
    shown = demonstration.shown
    for outcome in shown.outcomes:
        told = str(outcome) if isinstance(outcome, Refusal) else f"form {outcome.result.form}, {outcome.person.name}: "
        assert told in done.stdout
    for answer in shown.certified:
        assert (answer.certificate.code if isinstance(answer, Certified) else str(answer)) in done.stdout
    assert shown.verification.report() in done.stdout
    assert done.stdout.splitlines()[-1] == f"open {shown.start}"


def test_it_shows_some_who_pass_some_who_do_not_and_some_that_are_refused(demonstration: Demonstration) -> None:
    graded = [one for one in demonstration.shown.outcomes if isinstance(one, Graded)]
    assert {one.result.passed for one in graded} == {False, True}
    assert any(isinstance(one, Refusal) for one in demonstration.shown.outcomes)


def test_without_a_folder_it_fills_build_here(run: Run, asked: list[Path]) -> None:
    assert run("demo").returncode == 0
    assert asked == [Path("build")]


def test_records_that_do_not_hold_end_with_1(
    run: Run, demonstration: Demonstration, monkeypatch: pytest.MonkeyPatch
) -> None:
    broken = dataclasses.replace(demonstration.shown.verification, first_bad=3, reason="event 3 does not hold")
    told = dataclasses.replace(demonstration.shown, verification=broken)
    monkeypatch.setattr(demo, "run_demo", lambda *_: told)
    done = run("demo")
    assert done.returncode == 1
    assert "event 3 does not hold\n" in done.stdout
