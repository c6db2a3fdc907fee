"""A small company's records with every kind of event in them. Everybody in it is invented."""

import itertools
import sqlite3
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing, contextmanager
from dataclasses import replace
from datetime import datetime, timedelta, timezone
from fractions import Fraction
from pathlib import Path
from string import Template
from typing import Final

from courseware.content.provenance import Provenance
from courseware.content.source import Source
from courseware.records.certificates import Application, Course, grant, withdraw
from courseware.records.evidence import Evidence, enter_evidence, withdraw_evidence
from courseware.records.forms import IssuedForm, ReceivedResponse, issue_form, receive_response, void_form
from courseware.records.keys import signing_key_from_seed
from courseware.records.ledger import begin, correct_clock
from courseware.records.people import OnePerson, correct, enroll, erase, merge
from courseware.records.program import Program
from courseware.records.results import Marks, record_result
from courseware.records.signers import add_signer, retire_signer
from courseware.records.signoffs import FieldWork, sign_off, withdraw_sign_off
from courseware.records.store import Store, open_store

FIRST: Final = signing_key_from_seed(b"first signer".ljust(32, b"."))
SECOND: Final = signing_key_from_seed(b"second signer".ljust(32, b"."))
STRANGER: Final = signing_key_from_seed(b"nobody we know".ljust(32, b"."))

OFFICE: Final = timezone(timedelta(hours=-5))
NINE: Final = datetime(2026, 11, 25, 9, 0, 0, tzinfo=OFFICE)
"""Nine in the morning at the office: 14:00 UTC."""
TODAY: Final = NINE.date()

_CHANGE: Final = Template("UPDATE $table SET $column = $value WHERE $key = ?")
_REMOVE: Final = Template("DELETE FROM $table WHERE $key = ?")
_PUT: Final = Template("INSERT INTO $table VALUES ($marks)")

HERE: Final = Source("question_bank/program.yaml", 2)
PROGRAM: Final = Program(
    "ignition-service", "Ignition service", ("Finds what is wrong with the ignition from readings",), ("ignition",),
    24, 12, False, Provenance("common practice, no source", "", "", HERE), HERE,
)  # fmt: skip
IN_THE_FIELD: Final = replace(PROGRAM, id="field-service", title="Field service", signoffs=("ignition-test",))
EXPERIENCED: Final = replace(
    IN_THE_FIELD, id="experienced", title="Experienced", quizzes_by_evidence=("ignition",),
    signoffs_by_evidence=("ignition-test",),
)  # fmt: skip
COURSE: Final = Course("0.1", "5e" * 32, ("fault 'transformer-open'",))

LAST: Final = 42
"""Number of the last event of the story."""


def salts() -> Callable[[], bytes]:
    """Return a source of salts that repeats."""
    numbers = itertools.count(1)
    return lambda: f"salt {next(numbers)}".encode().ljust(32, b".")


def clock(start: datetime = NINE) -> Callable[[], datetime]:
    """Return a clock that goes on by a minute each time it is read."""
    minutes = itertools.count()
    return lambda: start + timedelta(minutes=next(minutes))


def form(form_id: str, blueprint: str = "ignition") -> IssuedForm:
    return IssuedForm(
        form_id, blueprint, COURSE.version, COURSE.hash, f"form {form_id}".encode(), b"sealed " + form_id.encode()
    )


def passed(form_id: str, supervised_by: str | None = FIRST.id) -> Marks:
    return Marks(form_id, Fraction(9, 10), 0.8, passed=True, supervised_by=supervised_by)


def field_work(procedure: str = "ignition-test", watched_by: str = FIRST.id) -> FieldWork:
    return FieldWork(procedure, "siphon", TODAY, watched_by, COURSE.version, COURSE.hash, "judged the spark at once")


def evidence(topic: str = "procedure", name: str = "ignition-test") -> Evidence:
    return Evidence(
        topic, name, "card 4471 of a trade school, 2019", TODAY, FIRST.id, COURSE.version, COURSE.hash
    )  # fmt: skip


def answered(
    store: Store, person_id: str, form_id: str, now: Callable[[], datetime], blueprint: str = "ignition"
) -> None:
    """Issue a form, and take its answers in."""
    issue_form(store, person_id, form(form_id, blueprint), FIRST, now())
    receive_response(store, ReceivedResponse(form_id, b"answers to " + form_id.encode(), "file"), FIRST, now())


def tell(path: Path) -> None:
    """Write the story: every kind of event, every column of every table filled at least once."""
    now = clock()
    with open_store(path, create=True, salts=salts()) as store:
        begin(store, "Northfield Heater Service", "Ann Reyes", FIRST, now())  # 1
        bo = enroll(store, "Bo Lindqvist", "Bo.Lindqvist@example.com", FIRST, now())  # 2
        add_signer(store, bo.id, SECOND.public, FIRST, now())  # 3
        jo = enroll(store, "Jo Okafør", "jo@example.com", FIRST, now())  # 4
        correct(store, replace(jo, name="Jo Okafør-Lund"), SECOND, now())  # 5
        issue_form(store, jo.id, form("7K3Q"), FIRST, now())  # 6
        receive_response(
            store,
            ReceivedResponse("7K3Q", b"answers", "paper", "2026-11-25T13:00:00Z", "2026-11-25T13:40:00Z"),
            FIRST,
            now(),
        )  # 7
        wrong = record_result(
            store,
            Marks("7K3Q", 0.55, 0.8, passed=False, gates_broken=("fuel-safe-before-spark",), supervised_by=SECOND.id),
            FIRST,
            now(),
        )  # 8
        right = replace(
            passed("7K3Q", SECOND.id), objectives={"find-the-fault": Fraction(5, 6)}, replaces=wrong.seq,
            reason="the sheet was typed in one line too low",
        )  # fmt: skip
        record_result(store, right, FIRST, now())  # 9
        kim = enroll(store, "Kim Abara", "kim@example.com", FIRST, now())  # 10
        grant(store, Application(jo.id, PROGRAM, COURSE), FIRST, now())  # 11
        answered(store, kim.id, "9XA2", now)  # 12, 13
        record_result(store, passed("9XA2", None), FIRST, now())  # 14: nobody watched
        issue_form(store, kim.id, form("M4C7"), SECOND, now())  # 15
        issue_form(store, jo.id, form("T9PQ", "combustion"), SECOND, now())  # 16
        receive_response(store, ReceivedResponse("M4C7", b"typed", "typed"), SECOND, now())  # 17
        record_result(store, passed("M4C7"), SECOND, now())  # 18
        certificate = grant(store, Application(kim.id, PROGRAM, COURSE), SECOND, now())  # 19
        withdraw(store, certificate.code, "granted on another person's answers", SECOND, now())  # 20
        retire_signer(store, SECOND.id, "left the company", FIRST, now())  # 21
        erase(store, kim.id, FIRST, now())  # 22
        correct_clock(store, "the clock was an hour fast", FIRST, NINE)  # 23
        sign_off(store, jo.id, field_work(), FIRST, NINE)  # 24
        grant(store, Application(jo.id, IN_THE_FIELD, COURSE), FIRST, NINE)  # 25
        issue_form(store, jo.id, form("H5DW"), FIRST, NINE)  # 26
        void_form(store, "H5DW", "a photo of it went round", FIRST, NINE)  # 27
        _go_on(store, jo.id, lambda: NINE)


def _go_on(store: Store, jo: str, now: Callable[[], datetime]) -> None:
    """Take a sign-off back, enter experienced staff, find out that one of them was enrolled before, and end."""
    wrong = sign_off(store, jo, replace(field_work(), serial="unit 4, south bay"), FIRST, now())  # 28
    withdraw_sign_off(store, wrong.seq, "done on another day", FIRST, now())  # 29
    ike = enroll(store, "Ike Ferro", "ike@example.com", FIRST, now())  # 30
    enter_evidence(store, ike.id, evidence("program", EXPERIENCED.id), FIRST, now())  # 31
    mistaken = enter_evidence(store, ike.id, evidence(), FIRST, now())  # 32
    withdraw_evidence(store, mistaken.seq, "the card was another's", FIRST, now())  # 33
    enter_evidence(store, ike.id, evidence(), FIRST, now())  # 34
    grant(store, Application(ike.id, EXPERIENCED, COURSE), FIRST, now())  # 35
    again = enroll(store, "Ike Ferro", "i.ferro@example.com", FIRST, now())  # 36
    answered(store, again.id, "C8VN", now)  # 37, 38
    record_result(store, passed("C8VN"), FIRST, now())  # 39
    sign_off(store, again.id, field_work(), FIRST, now())  # 40
    merge(store, OnePerson(again.id, ike.id, "one card, two addresses"), FIRST, now())  # 41
    enroll(store, "Lee Park", "lee@example.com", FIRST, NINE + timedelta(seconds=30))  # 42


@contextmanager
def by_hand(path: Path) -> Iterator[sqlite3.Connection]:
    """Open the file as somebody would who means to change the past: guards off, and on again afterwards."""
    with closing(sqlite3.connect(path)) as file:
        file.execute("PRAGMA synchronous = OFF")  # a test need not survive a power failure
        guards = file.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
        for name, _ in guards:
            file.execute(f"DROP TRIGGER {name}")
        yield file
        for _, sql in guards:
            file.execute(sql)
        file.commit()


def change(file: sqlite3.Connection, row: tuple[str, str, object], column: str, value: object, as_: str = "?") -> None:
    """Set a column of the row (table, key column, key)."""
    table, key, is_ = row
    file.execute(_CHANGE.substitute(table=table, column=column, value=as_, key=key), (value, is_))


def remove(file: sqlite3.Connection, table: str, key: str, is_: object) -> None:
    """Delete the rows of a table with this key."""
    file.execute(_REMOVE.substitute(table=table, key=key), (is_,))


def put(file: sqlite3.Connection, table: str, values: Sequence[object]) -> None:
    """Insert a row."""
    file.execute(_PUT.substitute(table=table, marks=", ".join("?" * len(values))), values)
