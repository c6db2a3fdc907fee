"""Opening, writing in one way only, and what the file itself refuses."""

import multiprocessing
import sqlite3
import threading
from contextlib import closing
from datetime import timedelta
from pathlib import Path
from string import Template

import pytest
from sqlalchemy import select
from sqlalchemy.exc import IntegrityError

from courseware.records.errors import EntryRefusedError, StoreError
from courseware.records.ledger import head
from courseware.records.migrations import MIGRATIONS
from courseware.records.people import enroll, people
from courseware.records.store import Store, open_store
from courseware.records.tables import EventRow
from courseware.records.verify import verify
from tests.records.story import FIRST, LAST, NINE, by_hand, clock
from tests.records.writer import write_many

KNOWN = len(MIGRATIONS)
NEWER = Template("INSERT INTO migration VALUES ($number, 'add-appeals')").substitute(number=KNOWN + 1)


def refusal(path: Path, *, create: bool = False, patience: float = 0.05) -> str:
    with pytest.raises(StoreError) as raised:
        open_store(path, create=create, patience=patience).close()
    return str(raised.value).replace(str(path), "FILE").replace(str(path.parent), "DIR")


def raw(path: Path, *statements: str) -> None:
    with closing(sqlite3.connect(path)) as file:
        for statement in statements:
            file.execute(statement)
        file.commit()


def test_a_mistyped_name_makes_no_second_store(tmp_path: Path) -> None:
    assert refusal(tmp_path / "recrods.db") == (
        "there are no records at FILE\n"
        "    try: check the name; if this company has no records yet, begin them there"
    )  # fmt: skip
    assert not list(tmp_path.iterdir())


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    assert refusal(tmp_path / "none" / "records.db", create=True) == (
        "the records cannot be kept in DIR: there is no such folder\n"
        "    try: make the folder first, or name another file"
    )  # fmt: skip


def test_other_files_are_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "photo.jpg"
    path.write_bytes(b"\xff\xd8\xff\xe0 a picture, not a database" * 50)
    before = path.read_bytes()
    assert refusal(path, create=True) == (
        "FILE is damaged, or is not a file of training records: file is not a database\n"
        "    try: keep the damaged file, put the last good copy in its place, "
        "and verify that against the saved chain head"
    )
    assert path.read_bytes() == before


def test_another_programs_database_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "other.db"
    raw(path, "CREATE TABLE invoice (id INTEGER)")
    before = path.read_bytes()
    for create in (False, True):
        assert refusal(path, create=create) == (
            "FILE is not a file of training records; it was left as it is\n    try: name the records file"
        )
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    "statements",
    [
        (f"PRAGMA user_version = {KNOWN + 1}", NEWER),
        (f"PRAGMA user_version = {KNOWN + 1}",),
        (NEWER,),
    ],
)
def test_a_newer_store_is_refused_and_left_alone(path: Path, statements: tuple[str, ...]) -> None:
    raw(path, *statements)
    before = path.read_bytes()
    version = KNOWN + 1 if f"PRAGMA user_version = {KNOWN + 1}" in statements else KNOWN
    assert refusal(path) == (
        f"FILE was last used by a newer version of this program (schema {version}, this one knows {KNOWN}); "
        "it was left as it is\n    try: update this program on this computer, and open the records again"
    )
    assert path.read_bytes() == before


def test_a_folder_is_no_store(tmp_path: Path) -> None:
    assert refusal(tmp_path) == (
        "FILE cannot be used: unable to open database file\n"
        "    try: check that the disk has room, and that you may write to the file and its folder"
    )


def test_wal_is_turned_off_again(path: Path) -> None:
    raw(path, "PRAGMA journal_mode = WAL")
    with open_store(path) as store:
        assert verify(store).events == LAST
    with closing(sqlite3.connect(path)) as file:
        assert file.execute("PRAGMA journal_mode").fetchone() == ("delete",)


def test_wal_that_another_program_holds_is_refused(path: Path) -> None:
    with closing(sqlite3.connect(path)) as other:
        other.execute("PRAGMA journal_mode = WAL")
        other.execute("BEGIN")
        other.execute("SELECT 1 FROM event").fetchone()
        assert refusal(path) == (
            "FILE is in WAL mode and another program holds it; WAL needs memory shared between all users, "
            "and on a network share it can corrupt the file\n"
            "    try: close every other program that has the file open, and open the records again: "
            "they are set back to the rollback journal"
        )


def test_a_store_in_use_is_told_and_nothing_is_written(path: Path) -> None:
    busy = (
        "FILE is in use by another program, or by this one on another computer; nothing was written\n"
        "    try: wait until it is done, and do the same again"
    )
    with open_store(path, patience=0.05) as store, closing(sqlite3.connect(path)) as other:
        other.execute("BEGIN IMMEDIATE")
        assert refusal(path) == busy
        with pytest.raises(StoreError) as raised:
            enroll(store, "Pat Doe", "pat@example.com", FIRST, NINE + timedelta(hours=1))
        assert str(raised.value).replace(str(path), "FILE") == busy
        assert head(store).seq == LAST  # reading goes on beside a writer
        other.rollback()
        enroll(store, "Pat Doe", "pat@example.com", FIRST, NINE + timedelta(hours=1))
        assert verify(store).events == LAST + 1


def test_a_transaction_that_fails_leaves_nothing(told: Store, path: Path) -> None:
    before = path.read_bytes()
    now = clock(NINE + timedelta(hours=1))

    def interrupted() -> None:
        with told.transaction():
            enroll(told, "Pat Doe", "pat@example.com", FIRST, now())
            enroll(told, "Sam Roe", "sam@example.com", FIRST, now())
            assert head(told).seq == LAST + 2
            raise RuntimeError("the power is cut")

    with pytest.raises(RuntimeError, match="the power is cut"):
        interrupted()
    assert path.read_bytes() == before
    assert verify(told).events == LAST


def test_a_part_that_fails_leaves_the_rest(told: Store) -> None:
    now = clock(NINE + timedelta(hours=1))

    def torn() -> None:
        with told.transaction():
            enroll(told, "Sam Roe", "sam@example.com", FIRST, now())
            raise RuntimeError("the form is torn")

    with told.transaction():
        enroll(told, "Pat Doe", "pat@example.com", FIRST, now())
        with pytest.raises(EntryRefusedError):
            enroll(told, "Pat Doe", "PAT@example.com", FIRST, now())
        with pytest.raises(RuntimeError, match="the form is torn"):
            torn()
        enroll(told, "Lou Poe", "lou@example.com", FIRST, now())
    assert [person.name for person in people(told)][-2:] == ["Pat Doe", "Lou Poe"]
    assert verify(told).events == LAST + 2


def test_a_transaction_inside_a_reading_is_our_mistake(told: Store) -> None:
    message = "a transaction was opened inside a reading: its lock would come too late"
    with told.reading(), pytest.raises(RuntimeError, match=message), told.transaction():
        pass


def test_a_reading_is_one_view(path: Path) -> None:
    with open_store(path) as store, open_store(path, patience=0.05) as other:
        with store.reading() as session:
            assert head(store).seq == LAST
            # With the rollback journal a writer waits for readers; it never changes what they see.
            with pytest.raises(StoreError):
                enroll(other, "Pat Doe", "pat@example.com", FIRST, NINE + timedelta(hours=1))
            assert len(session.scalars(select(EventRow)).all()) == LAST
        assert head(other).seq == LAST


@pytest.mark.parametrize(
    ("statement", "message"),
    [
        ("UPDATE event SET at = '2020-01-01T00:00:00Z' WHERE seq = 3", "an event is never changed"),
        ("DELETE FROM event WHERE seq = 3", "an event is never deleted"),
        ("DELETE FROM event", "an event is never deleted"),
        (
            (
                "INSERT OR REPLACE INTO event SELECT seq, at, kind, signer, body, prev_hash, x'00', signature"
                " FROM event WHERE seq = 3"
            ),
            "an event goes to the end of the chain",
        ),
        (
            (
                "INSERT INTO event SELECT seq + 100, at, kind, signer, body, prev_hash, x'00', signature"
                " FROM event WHERE seq = 3"
            ),
            "an event goes to the end of the chain",
        ),
        (
            (
                "INSERT INTO event SELECT (SELECT max(seq) + 1 FROM event),"
                " at, kind, signer, body, prev_hash, x'00', signature"
                " FROM event WHERE seq = 3"
            ),
            "an event goes to the end of the chain",
        ),
    ],
)
def test_the_file_itself_refuses_to_change_the_past(path: Path, statement: str, message: str) -> None:
    before = path.read_bytes()
    with closing(sqlite3.connect(path)) as file, pytest.raises(sqlite3.IntegrityError, match=f"^{message}$"):
        file.execute(statement)
    assert path.read_bytes() == before


def test_our_own_session_is_refused_too(told: Store) -> None:
    def change_the_first() -> None:
        with told.transaction() as session:
            first = session.get(EventRow, 1)
            assert first is not None
            first.at = "2020-01-01T00:00:00Z"

    with pytest.raises(IntegrityError, match="an event is never changed"):
        change_the_first()


def test_the_helper_that_changes_the_past_puts_the_guards_back(path: Path) -> None:
    with by_hand(path) as file:
        file.execute("UPDATE event SET at = at")
    with open_store(path) as store:
        assert verify(store).ok


def test_two_threads_cannot_fork_the_chain(path: Path) -> None:
    writers = [threading.Thread(target=write_many, args=(path, writer, 8)) for writer in (1, 2)]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    hold_whole(path, 16)


def test_two_programs_cannot_fork_the_chain(path: Path) -> None:
    context = multiprocessing.get_context("spawn")
    start = context.Barrier(2)
    other = context.Process(target=write_many, args=(path, 1, 8, start))
    other.start()
    write_many(path, 2, 8, start)
    other.join()
    assert other.exitcode == 0
    hold_whole(path, 16)


def hold_whole(path: Path, many: int) -> None:
    with open_store(path) as store:
        assert verify(store).events == LAST + many
        assert verify(store).ok
        assert len({person.id for person in people(store)}) == 5 + many


def test_two_threads_may_share_a_store(told: Store) -> None:
    def write(writer: int) -> None:
        for number in range(6):
            enroll(
                told, f"Writer {writer} {number}", f"w{writer}-{number}@example.com", FIRST, NINE + timedelta(hours=1)
            )

    writers = [threading.Thread(target=write, args=(writer,)) for writer in (1, 2)]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    assert verify(told).events == LAST + 12
