"""Verification: every event and every row recomputed, and the first that differs named.

In this order, because each step rests on the one before:

1. the file: SQLite's own check, the schema, and the guards on the events;
2. the chain: numbers without gaps, moments in order, hashes, signatures by signers registered *at that point*,
   and the law of each kind (:mod:`courseware.records.kinds`);
3. the saved head, if there is one: nothing was cut off, and the past is the same past;
4. the projections, rebuilt from the events alone, column by column;
5. the people: each is one whom the chain knows, by the name it knows.
"""

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import ColumnClause, ColumnElement, Connection, column, delete, insert, select, table

from courseware.content.words import say
from courseware.records.book import MemoryBook, columns_of, key_name, key_of
from courseware.records.errors import BadEventError, EntryRefusedError, ForeignFileError, with_advice
from courseware.records.events import GENESIS, Event, Head, Sealed, unseal
from courseware.records.export import read_line
from courseware.records.identity import identity_of, ref_of
from courseware.records.keys import key_id
from courseware.records.kinds import apply, company
from courseware.records.ledger import MAY_STEP_BACK
from courseware.records.store import Store, schema_of, schema_of_program
from courseware.records.tables import PROJECTIONS, EnrollmentRow, EventRow, Row, SignerRow


@dataclass(frozen=True, slots=True)
class Verification:
    """What a verification found.

    Attributes
    ----------
    events : int
        How many events hold [-], from the first.
    head : Head
        The last event that holds; to be saved outside the store if all is well.
    first_bad : int or None
        Number [-] of the first event that does not hold, or that a wrong row belongs to; none if all hold,
        or if no event is to blame (a damaged file, a row out of nowhere).
    reason, advice : str
        What is wrong, and what to do; empty if nothing is.
    """

    events: int
    head: Head
    first_bad: int | None = None
    reason: str = ""
    advice: str = ""

    @property
    def ok(self) -> bool:
        """Say whether everything holds."""
        return not self.reason

    def report(self) -> str:
        """Return the finding for a person."""
        if self.ok:
            return say("records.verified", events=self.events, hash=self.head.hash.hex())
        return with_advice(self.reason, self.advice)


class Chain:
    """The chain as far as it has been verified, and the projections that it makes.

    Parameters
    ----------
    saved : Head, optional
        A head saved earlier, which the chain must pass through.
    trusted : collection of bytes, optional
        The only public keys that may have signed; any registered one by default.
    """

    def __init__(self, saved: Head | None = None, trusted: Collection[bytes] | None = None) -> None:
        self.book = MemoryBook()
        self.head = Head(0, GENESIS)
        self._at = ""
        self._saved = saved
        self._trusted = None if trusted is None else {key_id(public) for public in trusted}

    def follow(self, events: Iterable[Sealed]) -> None:
        """Verify events one by one, to the end; BadEventError at the first that does not hold."""
        for sealed in events:
            self._add(sealed)
        if self.head.seq == 0:
            raise BadEventError(None, "chain-empty")
        if self._saved is not None and self._saved.seq > self.head.seq:
            raise BadEventError(self.head.seq + 1, "chain-cut", saved=self._saved.seq, last=self.head.seq)

    def _add(self, sealed: Sealed) -> None:
        event = unseal(sealed, self.head, self._public_key)
        if self._trusted is not None and event.signer not in self._trusted:
            raise BadEventError(event.seq, "event-untrusted", signer=event.signer)
        if event.at < self._at and event.kind != MAY_STEP_BACK:
            raise BadEventError(event.seq, "event-early", at=event.at, last=self._at)
        try:
            apply(event, self.book)
        except EntryRefusedError as error:
            raise BadEventError(event.seq, "event-unlawful", kind=event.kind, reason=error.message) from error
        self.head, self._at = Head(event.seq, sealed.hash), event.at
        if self._saved is not None and self._saved.seq == event.seq and self._saved != self.head:
            raise BadEventError(event.seq, "chain-rewritten", saved=self._saved.seq)

    def _public_key(self, event: Event) -> bytes | None:
        """Return the key that the chain itself has registered; the first event brings its own."""
        signer = self.book.find(SignerRow, event.signer)
        if signer is not None:
            return bytes.fromhex(signer.public_key)
        brought = event.body.get("public_key") if event.seq == 1 and event.kind == company.BEGUN.name else None
        if not company.BEGUN.fields["public_key"].holds(brought):
            return None
        assert isinstance(brought, str)
        public = bytes.fromhex(brought)
        return public if key_id(public) == event.signer else None


def verify(store: Store, saved: Head | None = None) -> Verification:
    """Recompute everything in the store.

    Parameters
    ----------
    store : Store
        The records.
    saved : Head, optional
        A head saved earlier; without one, events cut off the end cannot be noticed.

    Raises
    ------
    BusyStoreError
        If another program holds the file for too long.
    """
    chain = Chain(saved)
    try:
        with store.reading() as session:
            connection = session.connection()
            _hold_file(connection)
            chain.follow(_stored(connection))
            _hold_projections(chain.book, connection)
            _hold_people(chain.book, connection)
    except (BadEventError, ForeignFileError) as error:
        return _found(chain, error)
    return Verification(chain.head.seq, chain.head)


def verify_lines(
    lines: Iterable[str], public_keys: Collection[bytes] | None = None, saved: Head | None = None
) -> Verification:
    """Verify exported events without the database.

    Parameters
    ----------
    lines : iterable of str
        JSON lines from :func:`courseware.records.export.event_lines`.
    public_keys : collection of bytes, optional
        The signers' public keys, 32 bytes each, got from the signers themselves: without them the check shows
        that the chain holds together, not whose it is.
    saved : Head, optional
        A head saved earlier.
    """
    chain = Chain(saved, public_keys)
    try:
        chain.follow(read_line(line, number) for number, line in enumerate(lines, start=1))
    except BadEventError as error:
        return _found(chain, error)
    return Verification(chain.head.seq, chain.head)


def rebuild(store: Store) -> int:
    """Make every projection again from the events, for a store whose events hold but whose tables differ.

    Returns
    -------
    int
        How many rows were written [-].

    Raises
    ------
    BadEventError
        If the events do not hold; nothing is changed.
    """
    chain = Chain()
    written = 0
    with store.transaction() as session:
        connection = session.connection()
        chain.follow(_stored(connection))
        for projection in reversed(PROJECTIONS):
            connection.execute(delete(projection))
        for projection in PROJECTIONS:
            names = columns_of(projection)
            rows = [{name: getattr(row, name) for name in names} for row in chain.book.every(projection)]
            if rows:
                connection.execute(insert(projection), rows)
            written += len(rows)
    return written


def _found(chain: Chain, error: BadEventError | ForeignFileError) -> Verification:
    first_bad = error.seq if isinstance(error, BadEventError) else None
    return Verification(chain.head.seq, chain.head, first_bad, error.message, error.advice)


def _stored(connection: Connection) -> Iterator[Sealed]:
    """Yield the events as the file has them; a number below 1 comes last, so that the gap it left is noticed first."""
    seq: ColumnClause[int] = column("seq")
    return (Sealed(*row) for row in _rows(connection, EventRow, seq < 1, seq))


def _rows(connection: Connection, row: type[Row], *order: ColumnElement[Any]) -> Iterable[Sequence[Any]]:
    """Select a table's columns without their types: a damaged value arrives as it is, not as an error."""
    columns: list[ColumnClause[Any]] = [column(name) for name in columns_of(row)]
    return connection.execute(select(*columns).select_from(table(row.__tablename__)).order_by(*order))


def _hold_file(connection: Connection) -> None:
    found = connection.exec_driver_sql("PRAGMA integrity_check").scalars().all()
    if found != ["ok"]:
        raise BadEventError(None, "file-damaged", found=found[0])
    ours, theirs = schema_of_program(), schema_of(connection)
    for name in sorted(ours.keys() | theirs.keys()):
        if ours.get(name) != theirs.get(name):
            raise BadEventError(None, "schema-differs", name=name)


def _hold_projections(book: MemoryBook, connection: Connection) -> None:
    """Compare every table, and raise the difference that belongs to the earliest event."""
    wrong = [error for projection in PROJECTIONS for error in _differences(projection, book, connection)]
    if wrong:
        raise min(wrong, key=lambda error: (error.seq is None, error.seq))


def _differences(projection: type[Row], book: MemoryBook, connection: Connection) -> Iterator[BadEventError]:
    names = columns_of(projection)
    key_column = names.index(key_name(projection))
    right = {key_of(row): tuple(getattr(row, name) for name in names) for row in book.every(projection)}
    found = {row[key_column]: tuple(row) for row in _rows(connection, projection)}
    told = {"table": projection.__tablename__}
    for key, row in right.items():
        seq = row[names.index("last_seq")]
        if key not in found:
            yield BadEventError(seq, "row-missing", key=key, **told)
        for name, should, is_ in zip(names, row, found.get(key, row), strict=True):
            if should != is_:
                yield BadEventError(seq, "row-differs", key=key, column=name, found=is_, should=should, **told)
    for key in found.keys() - right.keys():
        yield BadEventError(None, "row-extra", key=key, **told)


def _hold_people(book: MemoryBook, connection: Connection) -> None:
    rows = connection.exec_driver_sql("SELECT id, ref, name, email, salt FROM person ORDER BY id")
    present = set()
    for person_id, ref, name, email, salt in rows:
        enrollment = book.find(EnrollmentRow, ref)
        if enrollment is None or enrollment.erased_at is not None or ref_of(salt, person_id) != ref:
            raise BadEventError(None, "person-extra", person=person_id)
        if identity_of(salt, name, email) != enrollment.identity:
            raise BadEventError(enrollment.last_seq, "person-altered", person=person_id)
        present.add(ref)
    for enrollment in book.every(EnrollmentRow, erased_at=None):
        if enrollment.ref not in present:
            raise BadEventError(enrollment.seq, "person-missing", ref=enrollment.ref)
