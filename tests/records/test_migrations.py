import re
import sqlite3
from contextlib import closing
from pathlib import Path
from string import Template

import pytest
from sqlalchemy import Connection, Engine, NullPool, create_engine, event, inspect
from sqlalchemy.exc import OperationalError

from courseware.records.ledger import begin
from courseware.records.migrations import APPLICATION_ID, MIGRATIONS, Migration, migrate, recorded, unknown
from courseware.records.people import enroll
from courseware.records.results import record_result
from courseware.records.store import Store, open_store, schema_of, schema_of_program
from courseware.records.tables import Row
from courseware.records.verify import verify
from tests.records.story import FIRST, NINE, answered, passed, salts

ONE = Migration("one", ("CREATE TABLE a (x INTEGER)", "CREATE TABLE b (x INTEGER)"))
TWO = Migration("two", ("ALTER TABLE a ADD COLUMN y INTEGER",))
COPY = Template("INSERT INTO $table ($columns) SELECT $columns FROM new.$table")
BROKEN = Migration("broken", ("CREATE TABLE c (x INTEGER)", "CREATE TABLE a (x INTEGER)"))


@pytest.fixture
def engine(tmp_path: Path) -> Engine:
    made = create_engine(f"sqlite+pysqlite:///{tmp_path / 'm.db'}", poolclass=NullPool)

    @event.listens_for(made, "connect")
    def _set_up(driver: object, _record: object) -> None:
        driver.isolation_level = None  # type: ignore[attr-defined]  # the driver's connection has no public type

    @event.listens_for(made, "begin")
    def _begin(connection: Connection) -> None:
        connection.exec_driver_sql("BEGIN IMMEDIATE")

    return made


def tables(engine: Engine) -> list[str]:
    return sorted(inspect(engine).get_table_names())


def test_each_runs_once_and_is_recorded(engine: Engine) -> None:
    with engine.connect() as connection:
        assert migrate(connection, [ONE]) == ("one",)
        assert migrate(connection, [ONE]) == ()
        assert migrate(connection, [ONE, TWO]) == ("two",)
        with connection.begin():
            assert recorded(connection) == ("one", "two")
            assert connection.exec_driver_sql("PRAGMA user_version").scalar_one() == 2
            assert connection.exec_driver_sql("PRAGMA application_id").scalar_one() == APPLICATION_ID
    assert tables(engine) == ["a", "b", "migration"]


def test_one_that_fails_leaves_nothing_and_no_record(engine: Engine) -> None:
    with engine.connect() as connection:
        migrate(connection, [ONE])
        with pytest.raises(OperationalError, match="table a already exists"):
            migrate(connection, [ONE, BROKEN, TWO])
        with connection.begin():
            assert recorded(connection) == ("one",)
            assert connection.exec_driver_sql("PRAGMA user_version").scalar_one() == 1
    assert tables(engine) == ["a", "b", "migration"]


def test_asking_changes_nothing(engine: Engine) -> None:
    with engine.connect() as connection, connection.begin():
        assert recorded(connection) == ()
    assert tables(engine) == []


def test_what_a_program_does_not_know_is_named() -> None:
    assert unknown(("one", "two"), [ONE, TWO]) == ()
    assert unknown(("one",), [ONE, TWO]) == ()
    assert unknown(("one", "two", "three"), [ONE, TWO]) == ("three",)
    assert unknown(("two", "one"), [ONE, TWO]) == ("two", "one")


def test_names_are_unique() -> None:
    assert len({migration.name for migration in MIGRATIONS}) == len(MIGRATIONS)


def test_the_schema_is_that_of_the_typed_rows(told: Store) -> None:
    with told.reading() as session:
        found = inspect(session.connection())
        assert set(found.get_table_names()) == {*Row.metadata.tables, "migration"}
        for name, table in Row.metadata.tables.items():
            columns = {
                column["name"]: (affinity(str(column["type"])), column["nullable"])
                for column in found.get_columns(name)
            }
            assert columns == {
                column.name: (affinity(str(column.type)), bool(column.nullable)) for column in table.columns
            }
            assert found.get_pk_constraint(name)["constrained_columns"] == [c.name for c in table.primary_key.columns]
            references = {
                (key["constrained_columns"][0], key["referred_table"], key["referred_columns"][0])
                for key in found.get_foreign_keys(name)
            }
            assert references == {
                (key.parent.name, key.column.table.name, key.column.name) for key in table.foreign_keys
            }


def affinity(type_name: str) -> str:
    return {"VARCHAR": "TEXT", "BOOLEAN": "INTEGER"}.get(type_name, type_name)


def test_every_table_is_strict() -> None:
    tables_made = [sql for migration in MIGRATIONS for sql in migration.statements if "CREATE TABLE" in sql]
    assert len(tables_made) == len(Row.metadata.tables)
    assert all(re.search(r"\) STRICT$", sql) for sql in tables_made)


@pytest.mark.parametrize("known", range(2, len(MIGRATIONS)))
def test_older_records_are_brought_up_to_date_with_all_that_is_in_them(
    engine: Engine, tmp_path: Path, known: int
) -> None:
    """Records as an older version of this program left them: its tables, and only entries that it knew."""
    with open_store(tmp_path / "new.db", create=True, salts=salts()) as store:
        begin(store, "Northfield Heater Service", "Ann Reyes", FIRST, NINE)
        person = enroll(store, "Jo Okafor", "jo@example.com", FIRST, NINE)
        answered(store, person.id, "7K3Q", lambda: NINE)
        record_result(store, passed("7K3Q"), FIRST, NINE)
    with engine.connect() as connection:
        migrate(connection, MIGRATIONS[:known])
        with connection.begin():
            found = inspect(connection)
            names = {name: [one["name"] for one in found.get_columns(name)] for name in found.get_table_names()}
    with closing(sqlite3.connect(tmp_path / "m.db")) as old:
        old.execute("ATTACH ? AS new", (str(tmp_path / "new.db"),))
        for name in names.keys() - {"migration"}:
            old.execute(COPY.substitute(table=name, columns=", ".join(names[name])))
        old.commit()
    with open_store(tmp_path / "m.db") as store:
        assert verify(store).events == 5
        with store.reading() as session:
            assert recorded(session.connection()) == tuple(migration.name for migration in MIGRATIONS)
            assert schema_of(session.connection()) == schema_of_program()
