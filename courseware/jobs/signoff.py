"""Record a field sign-off: a procedure of the course, carried out on one of its units, with a signer watching."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date

from courseware.content.problems import listed, nearest
from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.jobs.company import signer_key
from courseware.jobs.desk import Desk
from courseware.jobs.shelf import procedure_title, unit_title
from courseware.records.identity import Person
from courseware.records.people import find_person
from courseware.records.signoffs import FieldWork, sign_off


@dataclass(frozen=True, slots=True)
class Seen:
    """What a signer saw.

    Attributes
    ----------
    procedure, unit : str
        Ids of the procedure, and of the unit that it was carried out on.
    on : date or None
        The day it was done; the desk's day by default.
    by : str or None
        Person id of the signer who watched; whoever's key is at the desk by default.
    remark : str
        What there is to say of it, naming nobody; may be empty.
    serial : str
        Serial number of the unit, or what its owner calls it, naming nobody; may be empty.
    """

    procedure: str
    unit: str
    on: date | None = None
    by: str | None = None
    remark: str = ""
    serial: str = ""


@dataclass(frozen=True, slots=True)
class SignedOff:
    """Who was signed off, and for what, by its titles."""

    person: Person
    procedure: str
    unit: str
    on: date


def sign_off_work(desk: Desk, person_id: str, seen: Seen) -> SignedOff:
    """Record that a person carried out a procedure.

    Parameters
    ----------
    desk : Desk
        Who records it; the entry names the course's version and fingerprint.
    person_id : str
        Who did it.
    seen : Seen
        What they did.

    Raises
    ------
    Refusal
        If there is no such person, procedure, unit or signer, or the rules of the records refuse it.
    """
    course, company = desk.course, desk.company
    hold_known("procedure", seen.procedure, course.safework.procedures)
    hold_known("unit", seen.unit, course.trade.units)
    watcher = signer_key(company, seen.by) if seen.by else company.key.id
    on = seen.on or desk.now.date()
    work = FieldWork(seen.procedure, seen.unit, on, watcher, course.version, course.hash, seen.remark, seen.serial)
    sign_off(company.store, person_id, work, company.key, desk.now)
    desk.renew_front_pages(desk.press())
    titles = procedure_title(course, seen.procedure), unit_title(course, seen.unit)
    return SignedOff(find_person(company.store, person_id), *titles, on)


def hold_known(kind: str, name: str, known: Collection[str]) -> None:
    """Refuse a name that the course does not have, with the nearest that it has."""
    if name not in known:
        advice = nearest(name, known) or say("jobs.known-are", known=listed(known))
        raise Refusal(say(f"jobs.no-{kind}", name=name), advice)
