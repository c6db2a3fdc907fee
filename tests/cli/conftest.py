"""A course folder small enough to damage, and the command line run as a person runs it."""

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from courseware.cli import work
from courseware.cli.main import main
from courseware.content.folders import shipped_course
from courseware.jobs.company import Beginning, Places, begin_company, open_company
from courseware.jobs.new import copy_course
from courseware.records.people import enroll
from tests.cli.day import Day, Done, live
from tests.demo import NOW
from tests.jobs.office import loaded

ROOT = Path(__file__).resolve().parents[2]
TITLE_PAGE = "format: courseware/course/1\ntitle: Bench\nversion: '1.10'\n"


Run = Callable[..., Done]


@pytest.fixture(scope="session", autouse=True)
def _read_once() -> Iterator[None]:
    """Let commands at a desk share a course of the same content; a command in a process of its own reads it itself."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(work, "sound_course", lambda folder: replace(loaded(folder)[0], folder=folder))
        yield


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """Return a function that runs the command line in an empty folder, inside this process."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "100")

    def start(*arguments: str) -> Done:
        monkeypatch.setattr(sys, "argv", ["courseware", *arguments])
        with pytest.raises(SystemExit) as ended:
            main()
        assert isinstance(ended.value.code, int)
        return Done(ended.value.code, *capsys.readouterr())

    return start


@pytest.fixture
def shell(tmp_path: Path) -> Run:
    """Return a function that runs the command line in an empty folder, as a process of its own."""

    def start(*arguments: str, **environment: str) -> Done:
        done = subprocess.run(  # noqa: S603  # a fixed program
            [sys.executable, "-m", "courseware", *arguments], cwd=tmp_path, capture_output=True, encoding="utf-8",
            env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONUTF8": "1", **environment}, check=False, timeout=120,
        )  # fmt: skip
        return Done(done.returncode, done.stdout, done.stderr)

    return start


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """Make a sound course of one document, quick to read, in the folder where the command line runs."""
    folder = tmp_path / "small"
    (folder / "question_bank").mkdir(parents=True)
    (folder / "modules").mkdir()
    (folder / "question_bank" / "course.yaml").write_text(TITLE_PAGE, encoding="utf-8", newline="\n")
    return folder


@pytest.fixture(scope="session")
def day(tmp_path_factory: pytest.TempPathFactory) -> Day:
    """Work through a company's first day once, for the tests of every command in it."""
    return live(tmp_path_factory.mktemp("day"))


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """Set up a company with a signer and one person."""
    folder = tmp_path / "shop"
    copy_course(shipped_course(), folder)
    begin_company(folder, Beginning("Bench Heater Service", "Sal Signer"), NOW)
    with open_company(Places(folder)) as company:
        enroll(company.store, "Bo Vise", "bo@example.com", company.key, NOW)
    return folder
