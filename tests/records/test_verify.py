"""Whatever is changed, verification finds it, names the event, and says what to try."""

import json
import re
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from courseware.records.book import columns_of, key_name
from courseware.records.codes import certificate_code
from courseware.records.errors import BadEventError, ForeignFileError
from courseware.records.events import Event, Head, Sealed, seal
from courseware.records.heads import read_head, write_head
from courseware.records.keys import SigningKey
from courseware.records.ledger import head
from courseware.records.people import enroll
from courseware.records.store import Store, open_store
from courseware.records.tables import PROJECTIONS, EventRow, Row
from courseware.records.verify import Chain, Verification, rebuild, verify
from tests.records import second_path
from tests.records.story import FIRST, LAST, NINE, SECOND, STRANGER, by_hand, change, put, remove

COLUMNS = columns_of(EventRow)
RESTORE = "    try: compare it with the last copy that verifies, and put that back"


def checked(path: Path, saved: Head | None = None) -> Verification:
    with open_store(path) as store:
        return verify(store, saved)


def stored(path: Path) -> list[Sealed]:
    with closing(sqlite3.connect(path)) as file:
        return [Sealed(*row) for row in file.execute("SELECT * FROM event ORDER BY seq")]


def test_the_story_holds(told: Store) -> None:
    found = verify(told)
    assert (found.ok, found.events, found.first_bad, found.head) == (True, LAST, None, head(told))
    assert found.report() == (
        f"{LAST} events hold, and every table agrees with them; chain head {head(told).hash.hex()}"
    )
    assert verify(told, found.head).ok


def test_verifying_changes_nothing(told: Store, path: Path) -> None:
    before = path.read_bytes()
    assert verify(told).ok
    assert path.read_bytes() == before


def test_checking_nothing_is_a_fault(tmp_path: Path) -> None:
    with open_store(tmp_path / "new.db", create=True) as store:
        found = verify(store)
    assert (found.ok, found.events) == (False, 0)
    assert found.report() == (
        "there are no events to verify: the records have not been begun\n"
        "    try: set up the company and its first signer, or name the right file"
    )


# --- any byte of any column of any event ---------------------------------------------------------------


def flips(value: object) -> Iterator[object]:
    """Yield the value with each of its bytes changed, as SQLite would give it back."""
    if isinstance(value, int):
        for shift in range(0, 64, 8):
            yield value ^ (0x40 << shift)
    else:
        data = value if isinstance(value, bytes) else str(value).encode("utf-8")
        for place, byte in enumerate(data):
            changed = data[:place] + bytes([byte ^ 1]) + data[place + 1 :]
            yield changed if isinstance(value, bytes) else changed.decode("utf-8", "surrogateescape")


def test_any_byte_of_any_event_changed_is_found_and_named(path: Path) -> None:
    chain, tried = Chain(), 0
    for sealed in stored(path):
        for column in COLUMNS:
            for changed in flips(getattr(sealed, column)):
                with pytest.raises(BadEventError) as raised:
                    chain.follow([replace(sealed, **{column: changed})])
                assert raised.value.seq == sealed.seq, (column, changed)
                assert raised.value.message
                tried += 1
        chain.follow([sealed])
    assert chain.head.seq == LAST
    assert tried > 400 * LAST


@pytest.mark.parametrize("column", COLUMNS)
@pytest.mark.parametrize("seq", range(1, LAST + 1))
def test_a_byte_changed_in_the_file_is_found_and_named(path: Path, seq: int, column: str) -> None:
    value = getattr(stored(path)[seq - 1], column)
    data = value if isinstance(value, bytes) else str(value).encode("utf-8")
    row = ("event", "seq", seq)
    with by_hand(path) as file:
        if column == "seq":
            change(file, row, "seq", seq ^ 0x40)
        else:
            # A high bit in the middle: text is then no longer UTF-8, which must not stop the verifier.
            middle = len(data) // 2
            changed = data[:middle] + bytes([data[middle] ^ 0x80]) + data[middle + 1 :]
            change(file, row, column, changed, "CAST(? AS BLOB)" if isinstance(value, bytes) else "CAST(? AS TEXT)")
    found = checked(path)
    assert (found.ok, found.first_bad, found.events) == (False, seq, seq - 1)
    assert found.reason
    assert found.advice


@pytest.mark.parametrize(
    ("column", "value", "report"),
    [
        (
            "at",
            "2026-11-25T14:03:00Z",
            "event 5 was altered: its content is not what was signed in this place of the chain\n" + RESTORE,
        ),
        ("at", "yesterday", "event 5 was altered: its moment is 'yesterday'\n" + RESTORE),
        (
            "kind",
            "person-enrolled",
            "event 5 was altered: its content is not what was signed in this place of the chain\n" + RESTORE,
        ),
        (
            "signer",
            FIRST.id,
            "event 5 was altered: its content is not what was signed in this place of the chain\n" + RESTORE,
        ),
        (
            "signer",
            STRANGER.id,
            (
                f"event 5 names the signer {STRANGER.id}, whom no event before it has registered\n"
                "    try: somebody who is no signer wrote it, or it was altered; put back the last copy that verifies"
            ),
        ),
        ("body", b'{"ref":"x"} ', "event 5 was altered: its body is not in canonical form\n" + RESTORE),
        (
            "prev_hash",
            bytes(32),
            (
                "the link of event 5 to its predecessor was altered: content and signature are as they were written\n"
                "    try: put back the last copy that verifies"
            ),
        ),
        (
            "hash",
            bytes(32),
            (
                "the hash of event 5 was altered: content and signature are as they were written\n"
                "    try: put back the last copy that verifies"
            ),
        ),
        (
            "signature",
            bytes(64),
            (
                f"the signature of event 5 is not that of the signer it names, {SECOND.id}\n"
                "    try: the signature was altered, or somebody without that signer's key wrote the event; "
                "put back the last copy that verifies"
            ),
        ),
        (
            "seq",
            77,
            (
                "event 5 is missing: the next one found has the number 6\n"
                "    try: it was deleted, "
                "moved or renumbered after it was written; put back the last copy that verifies"
            ),
        ),
        (
            "seq",
            -5,
            (
                "event 5 is missing: the next one found has the number 6\n"
                "    try: it was deleted, "
                "moved or renumbered after it was written; put back the last copy that verifies"
            ),
        ),
    ],
)
def test_what_was_changed_is_told_in_words(path: Path, column: str, value: object, report: str) -> None:
    with by_hand(path) as file:
        change(file, ("event", "seq", 5), column, value)
    found = checked(path)
    assert (found.first_bad, found.events, found.report()) == (5, 4, report)


# --- events taken out, cut off, moved, put in ----------------------------------------------------------


def test_an_event_deleted_in_the_middle(path: Path) -> None:
    with by_hand(path) as file:
        file.execute("DELETE FROM event WHERE seq = 9")
    assert checked(path).report() == (
        "event 9 is missing: the next one found has the number 10\n"
        "    try: it was deleted, moved or renumbered after it was written; put back the last copy that verifies"
    )


def test_an_event_deleted_and_the_rest_renumbered(path: Path) -> None:
    with by_hand(path) as file:
        file.execute("DELETE FROM event WHERE seq = 9")
        for seq in range(10, LAST + 1):
            file.execute("UPDATE event SET seq = ? WHERE seq = ?", (seq - 1, seq))
    assert checked(path).first_bad == 9


def test_two_events_swapped(path: Path) -> None:
    with by_hand(path) as file:
        for old, new in ((9, 999), (10, 9), (999, 10)):
            file.execute("UPDATE event SET seq = ? WHERE seq = ?", (new, old))
    found = checked(path)
    assert (found.first_bad, found.events) == (9, 8)


def test_events_cut_off_the_end_with_all_that_they_made(path: Path) -> None:
    """Cut as somebody would who knows the schema: event and row gone, guards in place, nothing dangling."""
    whole = checked(path).head
    with by_hand(path) as file:
        file.execute("DELETE FROM person WHERE ref = (SELECT ref FROM enrollment WHERE seq = ?)", (LAST,))
        remove(file, "enrollment", "seq", LAST)
        remove(file, "event", "seq", LAST)
    assert checked(path).ok  # the chain alone cannot show it
    found = checked(path, whole)
    assert (found.first_bad, found.events) == (LAST, LAST - 1)
    assert found.report() == (
        f"events {LAST} to {LAST} are missing: the records end at event {LAST - 1}, "
        f"and the saved chain head knows event {LAST}\n"
        "    try: the last entries were cut off, "
        "or an old copy was put in place; look for the newest copy that verifies"
    )


def test_a_saved_head_still_holds_when_the_records_have_gone_on(told: Store, tmp_path: Path) -> None:
    write_head(tmp_path / "head.json", verify(told).head)
    enroll(told, "Pat Doe", "pat@example.com", FIRST, NINE.replace(hour=12))
    assert verify(told, read_head(tmp_path / "head.json")).ok


def events_of(path: Path) -> list[Event]:
    chain = Chain()
    found = []
    for sealed in stored(path):
        chain.follow([sealed])
        body = json.loads(sealed.body)
        found.append(Event(sealed.seq, sealed.at, sealed.kind, sealed.signer, body))
    return found


def test_a_past_rewritten_with_the_signers_own_keys_is_found_by_a_saved_head(path: Path) -> None:
    saved = checked(path).head
    events = events_of(path)
    events[0] = replace(events[0], body={**events[0].body, "company": "Another Company"})
    before = bytes(32)
    with by_hand(path) as file:
        file.execute("DELETE FROM event")
        for event in events:
            sealed = seal(event, before, FIRST if event.signer == FIRST.id else SECOND)
            insert(file, sealed)
            before = sealed.hash
    assert checked(path).ok  # those who hold all the keys can tell another story
    found = checked(path, saved)
    assert (found.first_bad, found.events) == (LAST, LAST)
    assert found.report() == (
        f"event {LAST} is not the one whose hash was saved: the records up to there were rewritten\n"
        "    try: do not rely on these records; put back the last copy that verifies against the saved chain head"
    )


# --- events that somebody appends with another program --------------------------------------------------


def insert(file: sqlite3.Connection, sealed: Sealed) -> None:
    put(file, "event", [getattr(sealed, column) for column in COLUMNS])


def said_of(path: Path, event: Event, key: SigningKey) -> str:
    """Append a well linked event, past our own rules; return what verification says of it."""
    last = stored(path)[-1]
    with closing(sqlite3.connect(path)) as file:
        insert(file, seal(replace(event, seq=last.seq + 1), last.hash, key))
        file.commit()
    found = checked(path)
    assert (found.first_bad, found.events) == (last.seq + 1, last.seq)
    return found.report()


def late(kind: str, body: dict[str, Any], signer: str = FIRST.id) -> Event:
    return Event(0, "2026-11-25T20:00:00Z", kind, signer, body)


ENROLLS = {"ref": "ab" * 32, "identity": "cd" * 32}
UNLAWFUL_TRY = "\n    try: whoever signed it used another program; ask them, and do not rely on that entry"


def test_an_event_signed_with_an_unregistered_key(path: Path) -> None:
    assert said_of(path, late("person-enrolled", ENROLLS, STRANGER.id), STRANGER) == (
        f"event {LAST + 1} names the signer {STRANGER.id}, whom no event before it has registered\n"
        "    try: somebody who is no signer wrote it, or it was altered; put back the last copy that verifies"
    )


def test_an_event_in_a_signers_name_signed_with_another_key(path: Path) -> None:
    assert said_of(path, late("person-enrolled", ENROLLS), STRANGER) == (
        f"the signature of event {LAST + 1} is not that of the signer it names, {FIRST.id}\n"
        "    try: the signature was altered, or somebody without that signer's key wrote the event; "
        "put back the last copy that verifies"
    )


def test_an_event_signed_with_a_retired_key(path: Path) -> None:
    assert said_of(path, late("person-enrolled", ENROLLS, SECOND.id), SECOND) == (
        f"event {LAST + 1}, 'person-enrolled', is signed but breaks the rules of the records: "
        f"the key {SECOND.id} was retired on 2026-11-25T14:20:00Z" + UNLAWFUL_TRY
    )


def test_an_event_dated_before_its_predecessor(path: Path) -> None:
    assert said_of(path, replace(late("person-enrolled", ENROLLS), at="2026-11-25T14:00:29Z"), FIRST) == (
        f"event {LAST + 1} is dated 2026-11-25T14:00:29Z, before its predecessor of 2026-11-25T14:00:30Z\n"
        "    try: whoever signed it had a wrong clock or another program; ask them"
    )


def test_an_event_of_no_kind(path: Path) -> None:
    report = said_of(path, late("person-promoted", ENROLLS), FIRST)
    assert report.startswith(
        f"event {LAST + 1}, 'person-promoted', is signed but breaks the rules of the records: "
        "'person-promoted' is no kind of entry"
    )


def test_a_second_beginning(path: Path) -> None:
    body = {"company": "Mine", "public_key": STRANGER.public.hex(), **ENROLLS}
    assert said_of(path, late("company-begun", body), FIRST) == (
        f"event {LAST + 1}, 'company-begun', is signed but breaks the rules of the records: "
        "these records have been begun already" + UNLAWFUL_TRY
    )


def test_a_certificate_on_nothing(path: Path) -> None:
    jo = second_path.refs(path)["T-0003"][0]
    body = {
        "code": certificate_code(LAST + 1, jo, "p"), "ref": jo, "program": "p", "title": "P", "scope": [],
        "course_version": "1", "course_hash": "00" * 32, "results": [8],
        "valid_from": "2026-11-25", "valid_until": "2099-11-25",
    }  # fmt: skip
    assert said_of(path, late("certificate-granted", body), FIRST) == (
        f"event {LAST + 1}, 'certificate-granted', is signed but breaks the rules of the records: "
        "the result in event 8 was replaced by event 9" + UNLAWFUL_TRY
    )


def test_a_first_event_that_brings_no_key_or_another(path: Path) -> None:
    first = events_of(path)[0]
    for body in (
        {"company": "Mine", **ENROLLS},
        {**first.body, "public_key": STRANGER.public.hex()},
        {"public_key": 7},
    ):
        with pytest.raises(BadEventError) as raised:
            Chain().follow([seal(replace(first, body=body), bytes(32), FIRST)])
        assert raised.value.key == "event-unregistered"


# --- the tables that events make ------------------------------------------------------------------------

CELLS = [(table, column) for table in PROJECTIONS for column in columns_of(table)]
REBUILD = "\n    try: the events are good: rebuild the tables from them"


@pytest.mark.parametrize(("table", "column"), CELLS, ids=lambda part: getattr(part, "__tablename__", part))
def test_a_changed_cell_of_a_table_is_found_and_named(path: Path, table: type[Row], column: str) -> None:
    name, key = table.__tablename__, key_name(table)
    right = second_path.stored(path)[name]
    row = next(row for row in right.values() if row[column] is not None)
    new = row[column] + 100 if isinstance(row[column], int) else "x" + row[column]
    with by_hand(path) as file:
        change(file, (name, key, row[key]), column, new)
    found = checked(path)
    assert (found.ok, found.first_bad, found.events) == (False, row["last_seq"], LAST)
    if column == key:
        expected = f"the table '{name}' lacks the row '{row[key]}', which event {row['last_seq']} made or changed last"
    else:
        shown = bool(row[column]) if column == "passed" else row[column]
        expected = (
            f"in the table '{name}', row '{row[key]}', '{column}' is {new!r}, "
            f"but event {row['last_seq']} makes it {shown!r}"
        )
    assert found.report() == expected + REBUILD


@pytest.mark.parametrize("table", PROJECTIONS, ids=lambda table: str(table.__tablename__))
def test_rows_taken_out_and_put_in_are_found_and_rebuilding_heals(path: Path, table: type[Row]) -> None:
    name, key = table.__tablename__, key_name(table)
    right = second_path.stored(path)
    row = next(iter(right[name].values()))
    with by_hand(path) as file:
        remove(file, name, key, row[key])
    found = checked(path)
    assert found.first_bad == row["last_seq"]
    assert found.report() == (
        f"the table '{name}' lacks the row '{row[key]}', which event {row['last_seq']} made or changed last" + REBUILD
    )
    heal(path, right)
    with by_hand(path) as file:
        invented = {**row, key: 3 if key == "seq" else "invented"}
        put(file, name, [invented[column] for column in columns_of(table)])
    found = checked(path)
    assert found.first_bad is None
    assert found.report() == f"the table '{name}' has a row '{invented[key]}' that no event made" + REBUILD
    heal(path, right)


def heal(path: Path, right: dict[str, second_path.Table]) -> None:
    with open_store(path) as store:
        assert rebuild(store) == sum(map(len, right.values()))
        assert verify(store).ok
    assert second_path.stored(path) == right


def test_the_earliest_of_several_differences_is_named(path: Path) -> None:
    with by_hand(path) as file:
        file.execute("DELETE FROM certificate")
        file.execute("UPDATE form SET blueprint = 'x' WHERE id = 'T9PQ'")
        file.execute("INSERT INTO certificate SELECT * FROM certificate")
    found = checked(path)
    assert found.first_bad == 11  # Jo's certificate; the form is event 16's, Kim's certificate event 20's


def test_tables_are_not_rebuilt_from_events_that_do_not_hold(path: Path) -> None:
    with by_hand(path) as file:
        file.execute("DELETE FROM certificate")
        file.execute("UPDATE event SET at = '2026-11-25T14:00:01Z' WHERE seq = 12")
    with open_store(path) as store, pytest.raises(BadEventError, match=r"^event 12 was altered"):
        rebuild(store)
    assert second_path.stored(path)["certificate"] == {}


# --- the people -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("statement", "first_bad", "report"),
    [
        (
            "UPDATE person SET name = 'Kim Abara' WHERE id = 'T-0003'",
            5,
            (
                "the name or e-mail of T-0003 was changed without an entry; event 5 recorded another\n"
                "    try: compare it with the last copy that verifies; if the new one is right, put the old one back "
                "and record a correction"
            ),
        ),
        (
            "UPDATE person SET email = NULL WHERE id = 'T-0002'",
            2,
            (
                "the name or e-mail of T-0002 was changed without an entry; event 2 recorded another\n"
                "    try: compare it with the last copy that verifies; if the new one is right, put the old one back "
                "and record a correction"
            ),
        ),
        (
            "UPDATE person SET salt = zeroblob(32) WHERE id = 'T-0003'",
            None,
            (
                "T-0003 in the table of people is nobody whom the events know\n"
                "    try: the row was written or altered by hand; compare it with the last copy that verifies"
            ),
        ),
        (
            "UPDATE person SET id = 'T-0004' WHERE id = 'T-0003'",
            None,
            (
                "T-0004 in the table of people is nobody whom the events know\n"
                "    try: the row was written or altered by hand; compare it with the last copy that verifies"
            ),
        ),
        (
            "INSERT INTO person VALUES ('T-0009', 'ref', 'Pat Doe', 'pat@example.com', zeroblob(32))",
            None,
            (
                "T-0009 in the table of people is nobody whom the events know\n"
                "    try: the row was written or altered by hand; compare it with the last copy that verifies"
            ),
        ),
    ],
)
def test_people_are_held_to_the_events(path: Path, statement: str, first_bad: int | None, report: str) -> None:
    with by_hand(path) as file:
        file.execute(statement)
    found = checked(path)
    assert (found.first_bad, found.events, found.report()) == (first_bad, LAST, report)


def test_a_person_taken_out_is_found(path: Path) -> None:
    ref = second_path.refs(path)["T-0002"][0]
    with by_hand(path) as file:
        file.execute("DELETE FROM person WHERE id = 'T-0002'")
    assert checked(path).report() == (
        "the person whom event 2 enrolled is not in the table of people, and no event erased them "
        f"(reference {ref})\n    try: take the row from the last copy that verifies"
    )


def test_an_erased_person_put_back_is_found(path: Path) -> None:
    kim = next(row["ref"] for row in second_path.stored(path)["enrollment"].values() if row["erased_at"])
    salt = b"salt 4".ljust(32, b".")
    with by_hand(path) as file:
        file.execute("INSERT INTO person VALUES ('T-0004', ?, 'Kim Abara', 'kim@example.com', ?)", (kim, salt))
    assert second_path.refs(path)["T-0004"][0] == kim  # it is the right salt: only the erasure speaks against it
    assert checked(path).reason == "T-0004 in the table of people is nobody whom the events know"


# --- the file -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("statement", "name"),
    [
        ("DROP TRIGGER event_is_never_changed", "event_is_never_changed"),
        ("CREATE TRIGGER extra AFTER INSERT ON result BEGIN SELECT 1; END", "extra"),
        ("ALTER TABLE result ADD COLUMN bonus TEXT", "result"),
        ("DROP INDEX result_form", "result_form"),
    ],
)
def test_a_changed_structure_is_found(path: Path, statement: str, name: str) -> None:
    with closing(sqlite3.connect(path)) as file:
        file.execute(statement)
        file.commit()
    assert checked(path).report() == (
        f"the structure of the file was changed by hand: '{name}' is not as this program made it\n"
        "    try: find out who changed it; put the last good copy in its place, "
        "and verify that against the saved chain head"
    )


def test_an_index_that_differs_from_its_table_is_found(path: Path) -> None:
    ref = second_path.refs(path)["T-0003"][0].encode()
    whole = path.read_bytes()
    reasons = []
    for found in re.finditer(re.escape(ref), whole):
        path.write_bytes(whole[: found.start()] + b"x" + whole[found.start() + 1 :])
        verification = checked(path)
        assert not verification.ok
        reasons.append(verification.report())
    damaged = [reason for reason in reasons if reason.startswith("the file is damaged: row ")]
    assert damaged
    assert damaged[0].endswith(
        "\n    try: keep the damaged file, put the last good copy in its place, "
        "and verify that against the saved chain head"
    )


def test_a_damaged_file_is_told_not_crashed_on(path: Path) -> None:
    whole = path.read_bytes()
    told = set()
    for page in range(1, len(whole) // 4096):
        path.write_bytes(whole[: page * 4096] + b"\xa5" * 4096 + whole[(page + 1) * 4096 :])
        try:
            found = checked(path)
        except ForeignFileError as error:
            told.add(error.key)
        else:
            assert not found.ok, page
            told.add(found.reason.partition(":")[0])
    assert told <= {"store-damaged", "the file is damaged", f"{path} is damaged, or is not a file of training records"}
    assert told


def test_young_records_are_rebuilt_too(store: Store) -> None:
    with by_hand(store.path) as file:
        file.execute("DELETE FROM signer")
    assert rebuild(store) == 2  # one person, one signer; no form, result or certificate yet
    assert verify(store).ok
