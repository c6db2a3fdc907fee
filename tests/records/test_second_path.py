"""Every table, reference and seal of the story equals what the second path makes of the events."""

from pathlib import Path

from courseware.records.kinds import EVENT_KINDS
from courseware.records.tables import PROJECTIONS
from tests.records import second_path, story


def test_the_story_has_every_kind_of_event(story_file: Path) -> None:
    found = second_path.events(story_file)
    assert {event["kind"] for event in found} == set(EVENT_KINDS) == set(second_path.READERS)
    assert len(found) == story.LAST


def test_every_projection_is_what_the_events_say(story_file: Path) -> None:
    made = second_path.tables(second_path.events(story_file))
    assert second_path.stored(story_file) == made
    assert set(made) == {table.__tablename__ for table in PROJECTIONS}
    assert all(made.values())  # no table is compared empty


def test_every_column_is_filled_somewhere(story_file: Path) -> None:
    for name, rows in second_path.stored(story_file).items():
        for column in next(iter(rows.values())):
            assert any(row[column] is not None for row in rows.values()), f"{name}.{column} is never filled"


def test_references_and_commitments_are_those_of_the_people(story_file: Path) -> None:
    enrollments = second_path.stored(story_file)["enrollment"]
    refs = second_path.refs(story_file)
    assert sorted(refs) == ["T-0001", "T-0002", "T-0003", "T-0005", "T-0006", "T-0007"]  # T-0004 was erased
    assert dict(refs.values()) == {ref: row["identity"] for ref, row in enrollments.items() if row["erased_at"] is None}


def test_no_event_names_anybody(story_file: Path) -> None:
    told = " ".join(map(second_path.dump, second_path.events(story_file))).casefold()
    for word in ("reyes", "lindqvist", "okaf", "abara", "lee park", "ferro", "example.com", "t-000"):
        assert word not in told
