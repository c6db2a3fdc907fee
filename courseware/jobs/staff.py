"""What the office does with people: enter what they bring with them, merge duplicates, retire a signer, erase."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from markupsafe import escape

from courseware.content.problems import listed, nearest
from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.jobs.company import signer_key
from courseware.jobs.desk import Desk
from courseware.jobs.lists import evidence_title
from courseware.jobs.signoff import hold_known
from courseware.records.evidence import Evidence, enter_evidence
from courseware.records.identity import Person
from courseware.records.people import OnePerson, erase, find_person, merge
from courseware.records.program import Program
from courseware.records.signers import retire_signer


@dataclass(frozen=True, slots=True)
class Brought:
    """What a person brings with them.

    Attributes
    ----------
    evidence : str
        What a signer saw of it, naming nobody.
    program, procedure : str or None
        What it is evidence of: one of the two.
    on : date or None
        The day on which it was seen; the desk's day by default.
    by : str or None
        Person id of the signer who saw it; whoever's key is at the desk by default.
    """

    evidence: str
    program: str | None = None
    procedure: str | None = None
    on: date | None = None
    by: str | None = None


@dataclass(frozen=True, slots=True)
class Entered:
    """Evidence that was entered.

    Attributes
    ----------
    person : Person
        Whose it is.
    title : str
        What the program or the procedure is called.
    seq : int
        Number [-] of the entry.
    takers : tuple of Program
        The programs that take it in the place of a quiz or a sign-off.
    """

    person: Person
    title: str
    seq: int
    takers: tuple[Program, ...]


def enter_brought(desk: Desk, person_id: str, brought: Brought) -> Entered:
    """Record evidence of what a person learned or did elsewhere.

    Raises
    ------
    Refusal
        If it is about no program and no procedure or about both, there is no such person, program, procedure or
        signer, or the rules of the records refuse it.
    """
    course, company = desk.course, desk.company
    if (brought.program is None) == (brought.procedure is None):
        raise Refusal(say("jobs.evidence-on-one"), say("jobs.evidence-on-one-try"))
    if brought.program is not None:
        topic, name = "program", brought.program
        hold_program(desk, name)
    else:
        topic, name = "procedure", str(brought.procedure)
        hold_known("procedure", name, course.safework.procedures)
    seer = signer_key(company, brought.by) if brought.by else company.key.id
    on = brought.on or desk.now.date()
    seen = Evidence(topic, name, brought.evidence, on, seer, course.version, course.hash)
    seq = enter_evidence(company.store, person_id, seen, company.key, desk.now).seq
    desk.renew_front_pages(desk.press())
    person = find_person(company.store, person_id)
    return Entered(person, evidence_title(course, seen), seq, tuple(_takers(desk, seen)))


def hold_program(desk: Desk, name: str) -> Program:
    """Return the program of this id; refused, with the nearest or all there are, if there is none."""
    programs = desk.course.programs
    if name not in programs:
        advice = nearest(name, programs) or say("jobs.programs-are", known=listed(programs))
        raise Refusal(say("jobs.no-program", program=name), advice)
    return programs[name]


def merge_people(desk: Desk, same: OnePerson) -> Person:
    """Record that somebody was enrolled twice; returns the one who stays.

    Raises
    ------
    Refusal
        If the two are no two people who can be one, see :func:`courseware.records.people.merge`.
    """
    person = merge(desk.company.store, same, desk.company.key, desk.now)
    desk.renew_front_pages(desk.press())
    return person


def retire(desk: Desk, person_id: str, reason: str) -> Person:
    """End a signer's use of their key; what it signed stays good.

    Raises
    ------
    Refusal
        If the person is no active signer, or the last one; or the reason is empty or names somebody.
    """
    company = desk.company
    retire_signer(company.store, signer_key(company, person_id), reason, company.key, desk.now)
    desk.renew_front_pages(desk.press())
    return find_person(company.store, person_id)


def erase_person(desk: Desk, person_id: str) -> Person:
    """Forget who a person is, and take away every page that names them; returns who it was.

    Raises
    ------
    Refusal
        If there is no such person, or they are an active signer.
    """
    store = desk.company.store
    person = find_person(store, person_id)
    erase(store, person.id, desk.company.key, desk.now)
    _drop_named(desk.folders.trainer, person.name)
    desk.renew_front_pages(desk.press())
    return person


def _drop_named(folder: Path, name: str) -> None:
    """Take away the trainer's sheets that name a person; those of a whole class can be made again."""
    wanted = escape(name).encode("utf-8")
    for page in folder.rglob("*.html"):
        if wanted in page.read_bytes():
            page.unlink()
            page.with_suffix(".pdf").unlink(missing_ok=True)


def _takers(desk: Desk, seen: Evidence) -> list[Program]:
    if seen.topic == "program":
        program = desk.course.programs[seen.name]
        return [program] if program.quizzes_by_evidence else []
    return [one for one in desk.course.programs.values() if seen.name in one.signoffs_by_evidence]
