"""Every ending of a command: its exit code and its whole message."""

import errno
import importlib.metadata
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from datetime import UTC, datetime
from pathlib import Path
from typing import NoReturn

import click
import pytest

import courseware
from courseware.cli.faults import exit_code
from courseware.content.problems import ContentError, Problem
from courseware.content.refusal import Refusal
from courseware.content.source import Source
from tests.cli.conftest import ROOT

NOW = datetime(2026, 11, 25, 10, 31, 5, tzinfo=UTC)


def ending(error: BaseException) -> int:
    def fail() -> NoReturn:
        raise error

    return exit_code(fail, ["check", "--course", "köln"], NOW)


FAULTS = {
    "refusal": (
        Refusal("the folder 'x' is not empty", "name another folder"),
        "the folder 'x' is not empty; try: name another folder\n",
    ),
    "content": (
        ContentError(
            (
                Problem(Source("modules/a.md", 3), "", "found", "allowed", "advice"),
                Problem(Source("modules/a.md", 4), "lesson 'b'", "found"),
                Problem(Source("question_bank/c.yaml", 1), "", "found"),
            )
        ),
        (
            "modules/a.md:3: found\n    allowed: allowed\n    try: advice\n"
            "modules/a.md:4: lesson 'b': found\nquestion_bank/c.yaml:1: found\n"
            "faults: 3, files: 2; try: mend them, then type the same command again\n"
        ),
    ),
    "usage without a command": (click.UsageError("Missing."), "courseware: Missing. Try: courseware --help\n"),
    "another fault that Click tells": (click.ClickException("No such thing."), "No such thing.\n"),
    "file": (
        PermissionError(errno.EACCES, "Permission denied", "build/trainee/index.html"),
        (
            "'build/trainee/index.html' cannot be used: Permission denied; try: check that it is there, that no other "
            "program has it open, and that you may read and write there\n"
        ),
    ),
    "full disk": (
        OSError(errno.ENOSPC, "No space left on device"),
        "the disk is full; try: make room, then type the same command again\n",
    ),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_a_persons_fault_ends_with_1_and_says_what_to_try(fault: str, capsys: pytest.CaptureFixture[str]) -> None:
    error, message = FAULTS[fault]
    assert ending(error) == 1
    assert capsys.readouterr() == ("", message)


@pytest.mark.parametrize("error", [KeyboardInterrupt(), click.Abort()])
def test_a_stopped_command_ends_with_130(error: BaseException, capsys: pytest.CaptureFixture[str]) -> None:
    assert ending(error) == 130
    assert capsys.readouterr() == ("", "stopped; what was finished before is kept\n")


def test_done_is_0_and_a_command_may_choose_its_code() -> None:
    assert exit_code(lambda: None, [], NOW) == 0
    assert exit_code(lambda: "text", [], NOW) == 0
    assert exit_code(lambda: 1, [], NOW) == 1


def test_our_fault_ends_with_3_and_a_log_in_the_current_folder(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert ending(ZeroDivisionError("division\nby zero")) == 3
    log = tmp_path / "courseware-error-20261125-103105.log"
    assert capsys.readouterr() == (
        "",
        (
            "a fault in courseware itself (ZeroDivisionError: division by zero), not yours; "
            f"try: send the file {log} to "
            "whoever looks after the program for you, after reading it for names, because it holds what you typed\n"
        ),
    )
    text = log.read_text(encoding="utf-8")
    head, _, trace = text.partition("\n\n")
    assert head.splitlines()[:3] == [
        "time: 2026-11-25 10:31:05 UTC",
        "command: courseware check --course köln",
        f"courseware {courseware.__version__}",
    ]
    version = ".".join(str(part) for part in sys.version_info[:3])
    assert head.splitlines()[3].startswith(f"Python {version} on ")
    assert f"\nclick {importlib.metadata.version('click')}" in head
    assert trace.startswith("Traceback (most recent call last):\n")
    assert trace.rstrip().endswith("ZeroDivisionError: division\nby zero")


def test_a_file_missing_from_the_program_is_our_fault(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    missing = str(ROOT / "courseware" / "publish" / "templates" / "gone.html")
    assert ending(FileNotFoundError(errno.ENOENT, "No such file", missing)) == 3
    assert "a fault in courseware itself (FileNotFoundError" in capsys.readouterr().err


def test_the_log_goes_to_the_folder_for_temporary_files_where_the_current_one_is_closed(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Path, "cwd", lambda: tmp_path / "gone")
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    assert ending(RuntimeError("x")) == 3
    assert (tmp_path / "courseware-error-20261125-103105.log").is_file()
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "gone"))
    capsys.readouterr()
    assert ending(RuntimeError("x")) == 3
    assert capsys.readouterr().err == (
        "a fault in courseware itself (RuntimeError: x), not yours, and no log could be written; "
        "try: type the same command in a folder where you may write\n"
    )


SLEEPER = (
    "import time, sys\nfrom courseware.cli.main import program, main\n"
    "import click\n@click.command()\ndef wait() -> None:\n    print('ready', flush=True)\n    time.sleep(60)\n"
    "program.get_command = lambda ctx, name: wait\nprogram.modules = {'wait': ''}\nsys.argv = ['courseware', 'wait']\n"
    "main()\n"
)


@pytest.mark.skipif(os.name == "nt", reason="Windows sends no SIGINT to one process alone")
def test_ctrl_c_stops_a_running_command_with_130() -> None:
    with subprocess.Popen(  # noqa: S603  # a fixed program
        [sys.executable, "-c", SLEEPER], cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == "ready\n"
        time.sleep(0.05)
        process.send_signal(signal.SIGINT)
        _, told = process.communicate(timeout=20)
    assert process.returncode == 130
    assert told.strip() == "stopped; what was finished before is kept"


def test_a_reader_that_goes_away_is_no_fault_of_ours(tmp_path: Path) -> None:
    script = f"'{sys.executable}' -m courseware --help | true; exit ${{PIPESTATUS[0]}}"
    bash = shutil.which("bash")
    assert bash is not None
    done = subprocess.run(  # noqa: S603  # a fixed program
        [bash, "-c", script], cwd=tmp_path, env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True,
        text=True, check=False, timeout=60,
    )  # fmt: skip
    assert done.returncode in {0, 1}
    assert done.stderr == ""
    assert list(tmp_path.iterdir()) == []
