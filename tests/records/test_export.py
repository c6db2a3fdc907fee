"""The auditor's way: JSON lines and public keys, no database, no name."""

import json

import pytest

from courseware.records.errors import BadEventError
from courseware.records.events import Head
from courseware.records.export import event_lines, export_events, read_line
from courseware.records.ledger import head
from courseware.records.store import Store, open_store
from courseware.records.verify import Chain, verify_lines
from tests.records import second_path
from tests.records.story import FIRST, LAST, SECOND, STRANGER, by_hand

KEYS = (FIRST.public, SECOND.public)


@pytest.fixture
def lines(told: Store) -> list[str]:
    return list(event_lines(told))


def test_the_lines_are_the_events(told: Store, lines: list[str]) -> None:
    assert [json.loads(line) for line in lines] == list(export_events(told))
    assert [json.loads(line)["body"] for line in lines] == [
        {name: value for name, value in event.items() if name not in ("seq", "at", "kind", "by")}
        if event["kind"] != "signer-retired" else {"signer": event["signer"], "reason": event["reason"]}
        for event in second_path.events(told.path)
    ]  # fmt: skip
    assert all(line.endswith("\n") and line.count("\n") == 1 for line in lines)


def test_an_auditor_verifies_the_lines(told: Store, lines: list[str]) -> None:
    found = verify_lines(lines, KEYS, head(told))
    assert (found.ok, found.events, found.head) == (True, LAST, head(told))
    assert verify_lines(lines).ok
    assert verify_lines([line.rstrip("\n") for line in lines], KEYS).ok


def test_a_key_that_the_auditor_does_not_know(lines: list[str]) -> None:
    found = verify_lines(lines, [FIRST.public, STRANGER.public])
    assert (found.ok, found.first_bad, found.events) == (False, 5, 4)
    assert found.report() == (
        f"event 5 is signed with the key {SECOND.id}, which is not among the keys you gave\n"
        "    try: ask the company whose key it is; if it is a signer's, give it too"
    )


def test_lines_cut_off_left_out_or_moved(told: Store, lines: list[str]) -> None:
    cut = verify_lines(lines[:-2], KEYS, head(told))
    assert (cut.first_bad, cut.reason) == (
        LAST - 1,
        (
            f"events {LAST - 1} to {LAST} are missing: the records end at event {LAST - 2}, "
            f"and the saved chain head knows event {LAST}"
        ),
    )
    assert verify_lines(lines[:-2], KEYS).ok  # which is why a head is saved
    left_out = verify_lines([*lines[:6], *lines[7:]], KEYS)
    assert (left_out.first_bad, left_out.reason) == (7, "event 7 is missing: the next one found has the number 8")
    moved = verify_lines([*lines[:6], lines[7], lines[6], *lines[8:]], KEYS)
    assert (moved.first_bad, moved.reason) == (7, "event 7 is missing: the next one found has the number 8")
    assert verify_lines([], KEYS).reason == "there are no events to verify: the records have not been begun"


def test_another_past(lines: list[str]) -> None:
    found = verify_lines(lines, KEYS, Head(9, bytes(32)))
    assert (found.first_bad, found.events) == (9, 9)
    assert found.reason == "event 9 is not the one whose hash was saved: the records up to there were rewritten"


def test_any_character_changed_in_any_line_is_found_and_named(lines: list[str]) -> None:
    chain = Chain()
    for number, line in enumerate(lines, start=1):
        for place, character in enumerate(line[:-1]):
            changed = line[:place] + chr(ord(character) ^ 1) + line[place + 1 :]
            with pytest.raises(BadEventError) as raised:
                chain.follow([read_line(changed, number)])
            assert raised.value.seq == number, changed
            assert chain.head.seq == number - 1
        chain.follow([read_line(line, number)])
    assert chain.head.seq == LAST


@pytest.mark.parametrize("line", ["", "[]", "null", "{}", '{"seq":1}', "{" * 100_000])
def test_a_line_that_is_no_event(line: str) -> None:
    found = verify_lines([line])
    assert found.report() == (
        "line 1 is not an exported event in canonical form\n    try: export the events again"
    )  # fmt: skip


def test_a_damaged_store_is_not_exported(told: Store) -> None:
    with by_hand(told.path) as file:
        file.execute("UPDATE event SET body = x'ff' WHERE seq = 5")
    with open_store(told.path) as store, pytest.raises(BadEventError, match="event 5 was altered"):
        list(export_events(store))
