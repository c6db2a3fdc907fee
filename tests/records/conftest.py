"""Stores to work on: an empty one, a begun one, and a copy of the story."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from courseware.records.ledger import begin
from courseware.records.store import Store, open_store
from tests.records import story


@pytest.fixture(scope="session")
def story_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give the story, once a run; not to be written to."""
    path = tmp_path_factory.mktemp("story") / "records.db"
    story.tell(path)
    return path


@pytest.fixture
def path(story_file: Path, tmp_path: Path) -> Path:
    """Give a copy of the story."""
    return Path(shutil.copy(story_file, tmp_path / "records.db"))


@pytest.fixture
def told(path: Path) -> Iterator[Store]:
    """Give the story, open."""
    with open_store(path, salts=story.salts()) as store:
        yield store


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """Give records that have just been begun."""
    with open_store(tmp_path / "new.db", create=True, salts=story.salts()) as opened:
        begin(opened, "Northfield Heater Service", "Ann Reyes", story.FIRST, story.NINE)
        yield opened
