"""A course folder small enough to damage, and the command line run as a person runs it."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
Run = Callable[..., "subprocess.CompletedProcess[str]"]


@pytest.fixture
def run(tmp_path: Path) -> Run:
    """Return a function that runs the command line in an empty folder of its own."""

    def start(*arguments: str, **environment: str) -> "subprocess.CompletedProcess[str]":
        return subprocess.run(  # noqa: S603  # a fixed program
            [sys.executable, "-m", "courseware", *arguments], cwd=tmp_path, capture_output=True, encoding="utf-8",
            env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONUTF8": "1", "COLUMNS": "100", **environment},
            check=False, timeout=60,
        )  # fmt: skip

    return start
