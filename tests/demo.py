"""One demonstration for all tests that look at what the whole job makes."""

from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from courseware.jobs.demo import Shown, run_demo

NOW: Final = datetime(2026, 11, 25, 9, 30, tzinfo=UTC)


@dataclass(frozen=True)
class Demonstration:
    """What it did, the folder that it filled, and the lines that it told."""

    shown: Shown
    out: Path
    told: tuple[str, ...]


def demonstrate(out: Path) -> Demonstration:
    told: list[str] = []
    return Demonstration(run_demo(out, NOW, told.append), out, tuple(told))


def made(out: Path, *endings: str) -> list[str]:
    """Return the names of what the demonstration published, sorted; the company's own folder is not published."""
    paths = (path for path in out.rglob("*") if path.is_file() and path.suffix in endings)
    names = (path.relative_to(out).as_posix() for path in paths)
    return sorted(name for name in names if not name.startswith("company/"))
