"""How the store's schema came to be: a list of named migrations, each recorded in the store that it changed.

A migration that has shipped is never edited: a change of the schema is a new one at the end. Each
runs in one transaction *together with the record of having run*, so a crash leaves it either done
or not begun. A store that records a migration we do not know was made by a newer program; it is
refused before anything is read from it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from sqlalchemy import Connection

APPLICATION_ID: Final = 0x68656174
"""Number [-] in the file's header that tells the records from any other SQLite file: "heat" in ASCII."""


@dataclass(frozen=True, slots=True)
class Migration:
    """One step of the schema.

    Attributes
    ----------
    name : str
        What it is recorded as.
    statements : tuple of str
        SQL, one statement each.
    """

    name: str
    statements: tuple[str, ...]


# Deferred: references are held at the commit, so that rows may be written in any order, and rebuilt.
# STRICT: SQLite otherwise keeps any type in any column, and a damaged value would pass as text.
_FIRST_TABLES: Final = (
    """
    CREATE TABLE event (
        seq INTEGER NOT NULL PRIMARY KEY,
        at TEXT NOT NULL,
        kind TEXT NOT NULL,
        signer TEXT NOT NULL,
        body BLOB NOT NULL,
        prev_hash BLOB NOT NULL,
        hash BLOB NOT NULL UNIQUE,
        signature BLOB NOT NULL
    ) STRICT""",
    """
    CREATE TABLE enrollment (
        ref TEXT NOT NULL PRIMARY KEY,
        seq INTEGER NOT NULL REFERENCES event (seq) DEFERRABLE INITIALLY DEFERRED,
        last_seq INTEGER NOT NULL,
        identity TEXT NOT NULL,
        enrolled_at TEXT NOT NULL,
        erased_at TEXT
    ) STRICT""",
    """
    CREATE TABLE person (
        id TEXT NOT NULL PRIMARY KEY,
        ref TEXT NOT NULL UNIQUE REFERENCES enrollment (ref) DEFERRABLE INITIALLY DEFERRED,
        name TEXT NOT NULL,
        email TEXT UNIQUE,
        salt BLOB NOT NULL
    ) STRICT""",
    """
    CREATE TABLE signer (
        id TEXT NOT NULL PRIMARY KEY,
        seq INTEGER NOT NULL REFERENCES event (seq) DEFERRABLE INITIALLY DEFERRED,
        last_seq INTEGER NOT NULL,
        public_key TEXT NOT NULL,
        ref TEXT NOT NULL REFERENCES enrollment (ref) DEFERRABLE INITIALLY DEFERRED,
        added_at TEXT NOT NULL,
        retired_at TEXT
    ) STRICT""",
    """
    CREATE TABLE form (
        id TEXT NOT NULL PRIMARY KEY,
        seq INTEGER NOT NULL REFERENCES event (seq) DEFERRABLE INITIALLY DEFERRED,
        last_seq INTEGER NOT NULL,
        ref TEXT NOT NULL REFERENCES enrollment (ref) DEFERRABLE INITIALLY DEFERRED,
        blueprint TEXT NOT NULL,
        course_version TEXT NOT NULL,
        course_hash TEXT NOT NULL,
        form_sha256 TEXT NOT NULL,
        key_sha256 TEXT NOT NULL,
        issued_at TEXT NOT NULL,
        answered_at TEXT,
        response_sha256 TEXT,
        channel TEXT
    ) STRICT""",
    """
    CREATE TABLE result (
        seq INTEGER NOT NULL PRIMARY KEY REFERENCES event (seq) DEFERRABLE INITIALLY DEFERRED,
        last_seq INTEGER NOT NULL,
        form TEXT NOT NULL REFERENCES form (id) DEFERRABLE INITIALLY DEFERRED,
        ref TEXT NOT NULL REFERENCES enrollment (ref) DEFERRABLE INITIALLY DEFERRED,
        blueprint TEXT NOT NULL,
        score TEXT NOT NULL,
        cut TEXT NOT NULL,
        passed INTEGER NOT NULL,
        gates TEXT NOT NULL,
        objectives TEXT NOT NULL,
        supervised_by TEXT REFERENCES signer (id) DEFERRABLE INITIALLY DEFERRED,
        recorded_at TEXT NOT NULL,
        replaced_by INTEGER REFERENCES event (seq) DEFERRABLE INITIALLY DEFERRED
    ) STRICT""",
    """
    CREATE TABLE certificate (
        code TEXT NOT NULL PRIMARY KEY,
        seq INTEGER NOT NULL REFERENCES event (seq) DEFERRABLE INITIALLY DEFERRED,
        last_seq INTEGER NOT NULL,
        ref TEXT NOT NULL REFERENCES enrollment (ref) DEFERRABLE INITIALLY DEFERRED,
        program TEXT NOT NULL,
        title TEXT NOT NULL,
        scope TEXT NOT NULL,
        course_version TEXT NOT NULL,
        course_hash TEXT NOT NULL,
        results TEXT NOT NULL,
        signer TEXT NOT NULL REFERENCES signer (id) DEFERRABLE INITIALLY DEFERRED,
        valid_from TEXT NOT NULL,
        valid_until TEXT NOT NULL,
        withdrawn_on TEXT,
        withdrawn_reason TEXT
    ) STRICT""",
    "CREATE INDEX form_ref ON form (ref)",
    "CREATE INDEX result_ref ON result (ref)",
    "CREATE INDEX result_form ON result (form)",
    "CREATE INDEX certificate_ref ON certificate (ref)",
)

# The guards make an accident impossible; against a person who drops them first there are the hashes
# and signatures. The insert guard also keeps two writers from ever hanging two events on one predecessor.
_FIRST_GUARDS: Final = (
    """
    CREATE TRIGGER event_is_never_changed BEFORE UPDATE ON event
    BEGIN SELECT RAISE(ABORT, 'an event is never changed'); END""",
    """
    CREATE TRIGGER event_is_never_deleted BEFORE DELETE ON event
    BEGIN SELECT RAISE(ABORT, 'an event is never deleted'); END""",
    """
    CREATE TRIGGER event_is_appended BEFORE INSERT ON event
    WHEN NEW.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM event)
        OR NEW.prev_hash IS NOT
            coalesce((SELECT hash FROM event ORDER BY seq DESC LIMIT 1), zeroblob(32))
    BEGIN SELECT RAISE(ABORT, 'an event goes to the end of the chain'); END""",
)

# A certificate granted before there were sign-offs rests on none.
_SIGN_OFFS: Final = (
    """
    CREATE TABLE signoff (
        seq INTEGER NOT NULL PRIMARY KEY REFERENCES event (seq) DEFERRABLE INITIALLY DEFERRED,
        last_seq INTEGER NOT NULL,
        ref TEXT NOT NULL REFERENCES enrollment (ref) DEFERRABLE INITIALLY DEFERRED,
        procedure TEXT NOT NULL,
        unit TEXT NOT NULL,
        done_on TEXT NOT NULL,
        watched_by TEXT NOT NULL REFERENCES signer (id) DEFERRABLE INITIALLY DEFERRED,
        remark TEXT NOT NULL,
        course_version TEXT NOT NULL,
        course_hash TEXT NOT NULL
    ) STRICT""",
    "CREATE INDEX signoff_ref ON signoff (ref)",
    "ALTER TABLE certificate ADD COLUMN signoffs TEXT NOT NULL DEFAULT '[]'",
)

_VOIDED_FORMS: Final = ("ALTER TABLE form ADD COLUMN voided_at TEXT", "ALTER TABLE form ADD COLUMN void_reason TEXT")

# Deferred also here: a duplicate may be enrolled after the person it is merged into, or before.
_MERGED_PEOPLE: Final = (
    "ALTER TABLE enrollment ADD COLUMN merged_into TEXT REFERENCES enrollment (ref) DEFERRABLE INITIALLY DEFERRED",
    "ALTER TABLE enrollment ADD COLUMN merge_reason TEXT",
    "CREATE INDEX enrollment_merged_into ON enrollment (merged_into)",
    "CREATE INDEX signer_ref ON signer (ref)",
)

_UNITS_AND_WITHDRAWALS: Final = (
    "ALTER TABLE signoff ADD COLUMN serial TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE signoff ADD COLUMN withdrawn_at TEXT",
    "ALTER TABLE signoff ADD COLUMN withdrawn_reason TEXT",
)

_EVIDENCE: Final = (
    """
    CREATE TABLE evidence (
        seq INTEGER NOT NULL PRIMARY KEY REFERENCES event (seq) DEFERRABLE INITIALLY DEFERRED,
        last_seq INTEGER NOT NULL,
        ref TEXT NOT NULL REFERENCES enrollment (ref) DEFERRABLE INITIALLY DEFERRED,
        topic TEXT NOT NULL,
        name TEXT NOT NULL,
        evidence TEXT NOT NULL,
        seen_on TEXT NOT NULL,
        seen_by TEXT NOT NULL REFERENCES signer (id) DEFERRABLE INITIALLY DEFERRED,
        course_version TEXT NOT NULL,
        course_hash TEXT NOT NULL,
        withdrawn_at TEXT,
        withdrawn_reason TEXT
    ) STRICT""",
    "CREATE INDEX evidence_ref ON evidence (ref)",
    "ALTER TABLE certificate ADD COLUMN quiz_evidence TEXT NOT NULL DEFAULT '{}'",
    "ALTER TABLE certificate ADD COLUMN signoff_evidence TEXT NOT NULL DEFAULT '{}'",
)

MIGRATIONS: Final = (
    Migration("first-tables", _FIRST_TABLES),
    Migration("guard-the-events", _FIRST_GUARDS),
    Migration("sign-offs", _SIGN_OFFS),
    Migration("voided-forms", _VOIDED_FORMS),
    Migration("merged-people", _MERGED_PEOPLE),
    Migration("units-and-withdrawals", _UNITS_AND_WITHDRAWALS),
    Migration("evidence", _EVIDENCE),
)
"""Every migration, in order. Append; never edit, never reorder."""


def recorded(connection: Connection) -> tuple[str, ...]:
    """Return the names of the migrations that the store records, in order; reads only."""
    exists = connection.exec_driver_sql("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'migration'")
    if exists.first() is None:
        return ()
    return tuple(connection.exec_driver_sql("SELECT name FROM migration ORDER BY position").scalars())


def unknown(names: Sequence[str], migrations: Sequence[Migration] = MIGRATIONS) -> tuple[str, ...]:
    """Return the recorded names that this program does not know, or that stand in another order than it knows."""
    known = [migration.name for migration in migrations]
    return tuple(name for position, name in enumerate(names) if known[position : position + 1] != [name])


def migrate(connection: Connection, migrations: Sequence[Migration] = MIGRATIONS) -> tuple[str, ...]:
    """Bring a store up to date.

    Parameters
    ----------
    connection : Connection
        Open for writing, in no transaction, its lock taken by each ``begin``.
    migrations : sequence of Migration
        What the program knows.

    Returns
    -------
    tuple of str
        The names of the migrations that ran now.
    """
    ran = []
    for position, migration in enumerate(migrations, start=1):
        with connection.begin():
            # Asked again inside the lock: another program may have run it since.
            if migration.name in recorded(connection):
                continue
            if position == 1:
                connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")
                connection.exec_driver_sql(
                    "CREATE TABLE migration (position INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE) STRICT"
                )
            for statement in migration.statements:
                connection.exec_driver_sql(statement)
            connection.exec_driver_sql("INSERT INTO migration VALUES (?, ?)", (position, migration.name))
            connection.exec_driver_sql(f"PRAGMA user_version = {position}")
            ran.append(migration.name)
    return tuple(ran)
