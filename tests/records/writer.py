"""One of two writers at once; a module of its own, so that another process starts quickly."""

from datetime import timedelta
from multiprocessing.synchronize import Barrier
from pathlib import Path

from courseware.records.people import enroll
from courseware.records.store import open_store
from tests.records.story import FIRST, NINE


def write_many(path: Path, writer: int, many: int, start: Barrier | None = None) -> None:
    later = NINE + timedelta(hours=1)
    with open_store(path, patience=60) as store:
        if start is not None:
            start.wait(60)  # both are ready: now they compete
        for number in range(many):
            enroll(store, f"Writer {writer} {number}", f"w{writer}-{number}@example.com", FIRST, later)
