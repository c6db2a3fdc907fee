"""A roster: the people of a class in one table, CSV or XLSX, read with every fault at once, told by row and column."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from courseware.content.problems import Problems
from courseware.content.source import Source
from courseware.content.table import Columns, Row, read_table
from courseware.content.words import say
from courseware.jobs.desk import Desk
from courseware.jobs.issue import Issue, issue_quiz
from courseware.records.errors import EntryRefusedError
from courseware.records.identity import Person, clean_email, clean_name
from courseware.records.people import enroll, people

COLUMNS: Final = Columns(("name", "email"), others=True)


@dataclass(frozen=True, slots=True)
class RosterIssue:
    """What was issued to the people of a roster, and who of them was enrolled for it."""

    enrolled: tuple[Person, ...]
    issue: Issue


@dataclass(frozen=True, slots=True)
class Entry:
    """One person of a roster: name and e-mail as the records would keep them, and where the e-mail stands."""

    name: str
    email: str
    source: Source
    where: str


def issue_to_roster(desk: Desk, blueprint: str, path: Path) -> RosterIssue:
    """Enroll whoever of a roster is new, and issue one form of a quiz to each: all, or nobody.

    Parameters
    ----------
    desk : Desk
        Who issues.
    blueprint : str
        Id of a graded blueprint.
    path : Path
        A table with the columns ``name`` and ``email``; other columns are left alone. An e-mail that is enrolled
        already means that person.

    Raises
    ------
    ContentError
        If there is any fault in the file; with all of them, and nothing is recorded.
    Refusal
        If there is no such blueprint; nothing is recorded.
    """
    store, problems = desk.company.store, Problems()
    entries = tuple(read_roster(path, problems))
    known = {person.email: person for person in people(store) if person.email}
    _hold_names(entries, known, problems)
    problems.raise_if_any()
    with store.transaction():
        new = tuple(
            enroll(store, one.name, one.email, desk.company.key, desk.now) for one in entries if one.email not in known
        )
        by_email = known | {person.email: person for person in new if person.email}
        issue = issue_quiz(desk, blueprint, [by_email[one.email].id for one in entries])
    return RosterIssue(new, issue)


def read_roster(path: Path, problems: Problems) -> Iterator[Entry]:
    """Yield each sound entry of a roster; what is wrong with the others goes to ``problems``."""
    seen: dict[str, int] = {}
    for row in read_table(path, COLUMNS, problems):
        entry = _entry(row, problems)
        if entry is None:
            continue
        if entry.email in seen:
            found = say("jobs.roster-twice", email=entry.email, row=seen[entry.email])
            problems.add(entry.source, entry.where, found, advice=say("jobs.roster-twice-try"))
        else:
            seen[entry.email] = row.source.line
            yield entry


def _entry(row: Row, problems: Problems) -> Entry | None:
    """Return the entry of a row, if name and e-mail are such; each fault of the row is told."""
    faults = len(problems)
    clean = []
    for column, cleaned in (("name", clean_name), ("email", clean_email)):
        try:
            clean.append(cleaned(row.texts[column]))
        except EntryRefusedError as error:
            problems.add(row.source, row.where(column), error.message, advice=error.advice)
    if len(problems) > faults:
        return None
    name, email = clean
    assert name is not None
    assert email is not None
    return Entry(name, email, row.source, row.where("email"))


def _hold_names(entries: tuple[Entry, ...], known: Mapping[str, Person], problems: Problems) -> None:
    """Report an e-mail that belongs to somebody of another name: one of the two is mistyped."""
    for one in entries:
        person = known.get(one.email)
        if person is not None and person.name.casefold() != one.name.casefold():
            found = say("jobs.roster-other", email=one.email, person=person.id, name=person.name, given=one.name)
            problems.add(one.source, one.where, found, advice=say("jobs.roster-other-try"))
