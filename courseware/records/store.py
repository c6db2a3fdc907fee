"""The store: one SQLite file, opened, brought up to date, and written in one way only.

Every write goes through :meth:`Store.transaction`: it takes the write lock before it reads
(``BEGIN IMMEDIATE``), so two writers can never build on the same last event, and it leaves either everything or
nothing. Writers nest: a job that must record several things opens the outer transaction itself.

The journal is SQLite's rollback journal, never WAL. Shops keep such a file on a share, and WAL needs
memory shared between all readers and writers, which machines on a network do not have: the file
could be corrupted. On a share even the rollback journal depends on the share's file locks, so let one
computer at a time write. ``synchronous = EXTRA`` costs milliseconds and keeps the last event through a
power failure; ``secure_delete`` overwrites what an erasure deletes.
"""

import sqlite3
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import TracebackType
from typing import Any, Final, Self

from sqlalchemy import URL, Connection, Engine, NullPool, create_engine, event
from sqlalchemy.exc import DBAPIError
from sqlalchemy.orm import Session

from courseware.records.errors import BusyStoreError, ForeignFileError, NewerStoreError, UnusableStoreError
from courseware.records.identity import new_salt
from courseware.records.migrations import APPLICATION_ID, MIGRATIONS, migrate, recorded, unknown

PATIENCE: Final = 15.0
"""How long a writer waits for another [s]."""
_PRAGMAS: Final = ("foreign_keys = ON", "secure_delete = ON", "synchronous = EXTRA")


class Store:
    """An open store; made by :func:`open_store`.

    Parameters
    ----------
    path : Path
        The file.
    engine : Engine
        SQLAlchemy's, set up by :func:`open_store`.
    salts : callable
        Gives the salt of a new person.
    """

    def __init__(self, path: Path, engine: Engine, salts: Callable[[], bytes]) -> None:
        self.path = path
        self.new_salt = salts
        self._readers = engine.execution_options(lock="DEFERRED")
        self._writers = engine.execution_options(lock="IMMEDIATE")
        self._open = threading.local()  # each thread has its own transaction

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """Let go of the file."""
        self._writers.dispose()

    @contextmanager
    def transaction(self) -> Iterator[Session]:
        """Open the one way to write; inside another transaction, a part of it that can fail alone.

        Raises
        ------
        BusyStoreError
            If another program has held the file for all of our patience; nothing was written.
        """
        outer = self._current
        if outer is None:
            with self._opened(self._writers) as session:
                yield session
        elif outer.writes:
            with outer.session.begin_nested():
                yield outer.session
        else:
            raise RuntimeError("a transaction was opened inside a reading: its lock would come too late")

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """Open one unchanging view of the whole store; inside a transaction, that transaction's."""
        outer = self._current
        if outer is not None:
            yield outer.session
        else:
            with self._opened(self._readers) as session:
                yield session

    @property
    def _current(self) -> "_Current | None":
        return getattr(self._open, "current", None)

    @contextmanager
    def _opened(self, engine: Engine) -> Iterator[Session]:
        with told(self.path), Session(engine, expire_on_commit=False) as session, session.begin():
            session.connection()  # take the lock now, before anything is read
            self._open.current = _Current(session, writes=engine is self._writers)
            try:
                yield session
            finally:
                self._open.current = None


@dataclass(frozen=True, slots=True)
class _Current:
    """What a thread has open."""

    session: Session
    writes: bool


def open_store(
    path: Path, *, create: bool = False, patience: float = PATIENCE, salts: Callable[[], bytes] = new_salt
) -> Store:
    """Open the records, and bring their schema up to date.

    Parameters
    ----------
    path : Path
        The file.
    create : bool
        Make a new, empty store if there is none; without it a mistyped name is an error, not a second store.
    patience : float
        How long to wait for another program's lock [s].
    salts : callable
        Gives the 32-byte salt of each new person: random ones, but for a demonstration that repeats byte for byte.

    Raises
    ------
    UnusableStoreError
        If there is no such file, or no folder to make it in.
    ForeignFileError
        If the file is something else.
    NewerStoreError
        If a newer version of this program has worked on it.
    BusyStoreError
        If another program holds it for too long.
    """
    if not path.parent.is_dir():
        raise UnusableStoreError("no-folder", path=path, folder=path.parent)
    if not path.exists() and not create:
        raise UnusableStoreError("no-store", path=path)
    engine = _engine(path, patience)
    try:
        with told(path), engine.execution_options(lock="IMMEDIATE").connect() as connection:
            _identify(connection, path, create=create)
            _leave_wal(connection, path)
            migrate(connection)
    except BaseException:
        engine.dispose()
        raise
    return Store(path, engine, salts)


def _identify(connection: Connection, path: Path, *, create: bool) -> None:
    """Refuse every file that is not ours to work on, before anything in it changes."""
    with connection.begin():
        found = connection.exec_driver_sql("PRAGMA application_id").scalar_one()
        empty = connection.exec_driver_sql("SELECT 1 FROM sqlite_master").first() is None
        if found != APPLICATION_ID and not (empty and create):
            raise ForeignFileError("not-a-store", path=path)
        newer = unknown(recorded(connection))
        version = connection.exec_driver_sql("PRAGMA user_version").scalar_one()
        if newer or version > len(MIGRATIONS):
            raise NewerStoreError("newer-store", path=path, found=version, known=len(MIGRATIONS))


def _leave_wal(connection: Connection, path: Path) -> None:
    """Set the rollback journal again if somebody has turned WAL on; it cannot be done inside a transaction."""
    driver = connection.connection.dbapi_connection
    assert driver is not None
    try:
        driver.execute("PRAGMA journal_mode = DELETE")
    except sqlite3.OperationalError as error:
        raise BusyStoreError("wal-store", path=path) from error


@contextmanager
def told(path: Path) -> Iterator[None]:
    """Tell in our words what SQLite says about the file as a whole; anything else is our fault and passes."""
    try:
        yield
    except DBAPIError as error:
        code = getattr(error.orig, "sqlite_errorcode", 0) & 0xFF  # the low byte is the primary result code
        if code in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
            raise BusyStoreError("store-busy", path=path) from error
        if code in (sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_CORRUPT):
            raise ForeignFileError("store-damaged", path=path, reason=error.orig) from error
        if code in (sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_READONLY, sqlite3.SQLITE_FULL, sqlite3.SQLITE_IOERR):
            raise UnusableStoreError("store-io", path=path, reason=error.orig) from error
        raise


def schema_of(connection: Connection) -> dict[str, str]:
    """Return the SQL of every table, index and trigger in the file, by name."""
    rows = connection.exec_driver_sql("SELECT name, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite_%'")
    return {row.name: row.sql for row in rows}


@cache
def schema_of_program() -> dict[str, str]:
    """Return the same for a store that this program has just made."""
    engine = _engine(Path(":memory:"), PATIENCE)
    with engine.execution_options(lock="IMMEDIATE").connect() as connection:
        migrate(connection)
        with connection.begin():
            return schema_of(connection)


def _engine(path: Path, patience: float) -> Engine:
    # NullPool: a closed session holds no handle, so the file can be copied or moved, also on Windows.
    url = URL.create("sqlite+pysqlite", database=str(path))
    engine = create_engine(url, poolclass=NullPool, connect_args={"timeout": patience})
    event.listen(engine, "connect", _set_up)
    event.listen(engine, "begin", _begin)
    return engine


def _set_up(driver: Any, _record: object) -> None:
    driver.isolation_level = None  # the driver starts no transaction of its own: _begin does
    # Damaged text must reach the verifier, which names the event, rather than fail somewhere in the driver.
    driver.text_factory = lambda data: data.decode("utf-8", "surrogateescape")
    for pragma in _PRAGMAS:
        driver.execute(f"PRAGMA {pragma}")


def _begin(connection: Connection) -> None:
    connection.exec_driver_sql(f"BEGIN {connection.get_execution_options()['lock']}")
