"""The office's lists, made from the records as they are, with the course's titles."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from courseware.content.words import say
from courseware.jobs.company import name_of
from courseware.jobs.course import Course
from courseware.jobs.shelf import procedure_title, quiz_title, unit_title
from courseware.publish.office_table import Cell, Table
from courseware.records.evidence import Evidence, evidence_of
from courseware.records.identity import Person
from courseware.records.people import enrollment_days, people
from courseware.records.registers import Certificate, Result, all_certificates, certificates_of, forms_out, results_of
from courseware.records.signers import signers
from courseware.records.signoffs import signoffs_of
from courseware.records.store import Store
from courseware.records.vouched import Withdrawal

DUE_DAYS: Final = 60
"""How far ahead the office looks [days]."""

Row = tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Sources:
    """What lists are made from.

    Attributes
    ----------
    course : Course
        Gives the titles.
    store : Store
        The open records.
    on : date
        The day of the lists.
    within : int
        How far ahead the list of what falls due looks [days].
    only : Person or None
        The one person to list, whose name is then left out; everybody by default.
    """

    course: Course
    store: Store
    on: date
    within: int = DUE_DAYS
    only: Person | None = None

    def of_whom(self) -> tuple[Person, ...]:
        """Return the people to list."""
        return (self.only,) if self.only else tuple(sorted(people(self.store), key=_by_name))

    def certificates(self) -> tuple[Certificate, ...]:
        """Return their certificates; among everybody's also those of people who were erased."""
        return certificates_of(self.store, self.only.id) if self.only else all_certificates(self.store)


def certificates_list(at: Sources) -> Table:
    """Return every certificate ever granted: who holds what until when."""
    rows = [
        (name_of(one.name), one.title, one.valid_from.isoformat(), one.valid_until.isoformat(), _state(one, at.on),
         one.code, name_of(one.signer_name), one.course_version, one.seq)
        for one in sorted(at.certificates(), key=lambda each: (name_of(each.name).casefold(), each.seq))
    ]  # fmt: skip
    columns = ("name", "program", "from", "until", "state", "code", "granted-by", "version", "entry")
    return _table(at, "certificates", columns, rows)


def due_list(at: Sources) -> Table:
    """Return the certificates that end within so many days or have ended, and have not been renewed."""
    latest: dict[tuple[str | None, str], Certificate] = {}
    for one in at.certificates():
        if one.status(at.on) not in {"withdrawn", "erased"}:
            key = one.person_id, one.program
            latest[key] = max(latest.get(key, one), one, key=lambda each: each.valid_until)
    rows = []
    for one in sorted(latest.values(), key=lambda each: (each.valid_until, each.code)):
        days = (one.valid_until - at.on).days
        if days <= at.within:
            state = say("publish_office.due-soon" if days >= 0 else "publish_office.due-over")
            rows.append((name_of(one.name), one.title, one.valid_until.isoformat(), days, state, one.code))
    return _table(at, "due", ("name", "program", "until", "days", "state", "code"), rows)


def people_list(at: Sources) -> Table:
    """Return everybody who is enrolled."""
    active = {one.person_id for one in signers(at.store) if one.retired_at is None}
    since = enrollment_days(at.store)
    rows = [
        (one.name, one.id, one.email or "", since[one.id].isoformat(),
         say("publish_office.yes") if one.id in active else "")
        for one in at.of_whom()
    ]  # fmt: skip
    return _table(at, "people", ("name", "number", "email", "enrolled", "signer"), rows)


def results_list(at: Sources) -> Table:
    """Return every result, replaced ones too."""
    rows = [
        (person.name, quiz_title(at.course, one.blueprint), one.form, one.recorded_at[:10], one.score, one.cut,
         _outcome(one), _watcher(one), _standing(one), one.seq)
        for person in at.of_whom() for one in results_of(at.store, person.id)
    ]  # fmt: skip
    columns = ("name", "quiz", "form", "date", "score", "cut", "outcome", "supervised-by", "state", "entry")
    return _table(at, "results", columns, rows)


def sign_offs_list(at: Sources) -> Table:
    """Return every sign-off, also those taken back."""
    rows = [
        (person.name, procedure_title(at.course, one.work.procedure), unit_title(at.course, one.work.unit),
         one.work.serial, one.work.on.isoformat(), name_of(one.signer_name), one.work.remark, _counts(one.withdrawn),
         one.seq)
        for person in at.of_whom() for one in signoffs_of(at.store, person.id)
    ]  # fmt: skip
    columns = ("name", "procedure", "unit", "serial", "date", "watched-by", "remark", "state", "entry")
    return _table(at, "sign-offs", columns, rows)


def evidence_list(at: Sources) -> Table:
    """Return all evidence, also what was taken back."""
    rows = [
        (person.name, evidence_title(at.course, one.seen), one.seen.evidence, one.seen.seen_on.isoformat(),
         name_of(one.signer_name), _counts(one.withdrawn), one.seq)
        for person in at.of_whom() for one in evidence_of(at.store, person.id)
    ]  # fmt: skip
    return _table(at, "evidence", ("name", "on-what", "evidence", "date", "seen-by", "state", "entry"), rows)


def forms_list(at: Sources) -> Table:
    """Return every form that is out."""
    rows = [
        (name_of(one.name), quiz_title(at.course, one.blueprint), one.form, one.issued_at[:10])
        for one in forms_out(at.store) if at.only is None or one.person_id == at.only.id
    ]  # fmt: skip
    return _table(at, "forms", ("name", "quiz", "form", "since"), rows)


def training_list(at: Sources) -> Table:
    """Return each employee's dates of training in the control of hazardous energy, and who has none."""
    nothing = (say("publish_office.none-on-record"), "", "", "")
    rows = [(person.name, *row) for person in at.of_whom() for row in sorted(_trained(at, person)) or [nothing]]
    return _table(at, "training", ("name", "training", "shown-by", "date", "vouched-by"), rows)


LISTS: Final[Mapping[str, Callable[[Sources], Table]]] = {
    "certificates": certificates_list,
    "due": due_list,
    "people": people_list,
    "training": training_list,
    "results": results_list,
    "sign-offs": sign_offs_list,
    "evidence": evidence_list,
    "forms": forms_list,
}
"""Every list of the office, by name."""


def file_lists(at: Sources, person: Person) -> tuple[Table, ...]:
    """Return the lists of one person's file; the first is of their certificates."""
    alone = replace(at, only=person)
    return tuple(make(alone) for make in (certificates_list, results_list, sign_offs_list, evidence_list, forms_list))


def counted_as_training(course: Course) -> tuple[str, ...]:
    """Return the titles of the quizzes and procedures that the programs mark as training in energy control."""
    marked = _energy_control(course)
    quizzes = [quiz_title(course, name) for name in marked if name in course.quizbank.blueprints]
    procedures = [procedure_title(course, name) for name in marked if name in course.safework.procedures]
    return (*quizzes, *procedures)


def evidence_title(course: Course, seen: Evidence) -> str:
    """Return the title of the program or the procedure that evidence is about; its id, if the course has it no more."""
    if seen.topic == "procedure":
        return procedure_title(course, seen.name)
    program = course.programs.get(seen.name)
    return program.title if program else seen.name


def _trained(at: Sources, person: Person) -> Iterator[tuple[str, str, str, str]]:
    """Yield each training in energy control: what, how it was shown, the day, and who vouches for it."""
    marked = _energy_control(at.course)
    for result in results_of(at.store, person.id):
        stands = result.replaced_by is None and result.passed and result.supervised_by is not None
        if stands and result.blueprint in marked:
            title = quiz_title(at.course, result.blueprint)
            yield title, say("publish_office.by-quiz"), result.recorded_at[:10], name_of(result.supervisor_name)
    for signoff in signoffs_of(at.store, person.id):
        if signoff.withdrawn is None and signoff.work.procedure in marked:
            title = procedure_title(at.course, signoff.work.procedure)
            yield title, say("publish_office.by-sign-off"), signoff.work.on.isoformat(), name_of(signoff.signer_name)
    for entry in evidence_of(at.store, person.id):
        program = at.course.programs.get(entry.seen.name) if entry.seen.topic == "program" else None
        trains = program.energy_control if program else entry.seen.name in marked and entry.seen.topic == "procedure"
        if entry.withdrawn is None and trains:
            shown_by = say("publish_office.by-evidence", evidence=entry.seen.evidence)
            title = evidence_title(at.course, entry.seen)
            yield title, shown_by, entry.seen.seen_on.isoformat(), name_of(entry.signer_name)


def _energy_control(course: Course) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for program in course.programs.values() for name in program.energy_control))


def _table(at: Sources, name: str, columns: tuple[str, ...], rows: Sequence[Row]) -> Table:
    first = 1 if at.only else 0
    return Table(name, columns[first:], tuple(row[first:] for row in rows))


def _by_name(person: Person) -> tuple[str, str]:
    return person.name.casefold(), person.id


def _state(one: Certificate, on: date) -> str:
    status = one.status(on)
    if status == "withdrawn":
        return say("publish_office.state-withdrawn", on=one.withdrawn_on, reason=one.withdrawn_reason)
    return say(f"publish_pages.state-{status}")


def _outcome(one: Result) -> str:
    if one.passed:
        return say("publish_office.outcome-passed")
    return (
        say("publish_office.outcome-gate", rules=", ".join(one.gates))
        if one.gates
        else say("publish_office.outcome-failed")
    )


def _watcher(one: Result) -> str:
    return name_of(one.supervisor_name) if one.supervised_by else say("publish_office.nobody")


def _standing(one: Result) -> str:
    if one.replaced_by is None:
        return say("publish_office.state-stands")
    return say("publish_office.state-replaced", seq=one.replaced_by)


def _counts(withdrawn: Withdrawal | None) -> str:
    if withdrawn is None:
        return say("publish_office.state-stands")
    return say("publish_office.state-taken-back", on=withdrawn.at[:10], reason=withdrawn.reason)
