"""The demonstration: the whole job once, with an invented company and three invented trainees.

Everything that is random elsewhere is drawn from one seed here, so that two demonstrations on the same day make the
same pages, byte for byte. Its keys are therefore no secret: it is nobody's company.
"""

import hashlib
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from itertools import count
from pathlib import Path
from typing import Final

from faker import Faker

from courseware.content.folders import shipped_course
from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.jobs.build import build_course, sound_course
from courseware.jobs.certify import Certified, certify
from courseware.jobs.company import Beginning, Company, Places, begin_company, open_company
from courseware.jobs.desk import Desk
from courseware.jobs.grade import Graded, Inbox, grade_inbox
from courseware.jobs.issue import issue_quiz
from courseware.jobs.new import copy_course
from courseware.jobs.press import Told
from courseware.jobs.shelf import QUIZZES
from courseware.jobs.signoff import Seen, sign_off_work
from courseware.jobs.studied import Answers, careless_answers, form_on_page, studied_answers
from courseware.jobs.verify import verify_records
from courseware.publish.output import write_file
from courseware.quiz.answer_code import make_answer_code
from courseware.quiz.form import Form
from courseware.quiz.response import make_response, response_bytes
from courseware.records.identity import Person
from courseware.records.keys import signing_key_from_seed
from courseware.records.people import enroll
from courseware.records.verify import Verification

SEED: Final = "courseware demonstration 1"
MARK: Final = "made-by-courseware-demo"
COMPANY: Final = "company"
TRAINEES: Final = 3


@dataclass(frozen=True, slots=True)
class Shown:
    """What a demonstration did.

    Attributes
    ----------
    start : Path
        The page to open first.
    outcomes : tuple of Graded or Refusal
        What became of each response, in the order of the trainees.
    certified : tuple of Certified or Refusal
        What became of each application for a certificate.
    verification : Verification
        Of the records at the end.
    no_pdf : str
        What to install for PDF; empty if all papers were made.
    """

    start: Path
    outcomes: tuple[Graded | Refusal, ...]
    certified: tuple[Certified | Refusal, ...]
    verification: Verification
    no_pdf: str


def run_demo(out: Path, now: datetime, tell: Told) -> Shown:
    """Run the whole job once.

    Parameters
    ----------
    out : Path
        Where to write; what an earlier demonstration made there is replaced, anything else is refused.
    now : datetime
        The day of the demonstration, with a time zone.
    tell : callable
        Receives a line for each step and each file.

    Raises
    ------
    Refusal
        If ``out`` holds something that no demonstration made.
    """
    _clear(out)
    places, salts, fake = Places(out / COMPANY, out), _salts(), Faker("en_US")
    fake.seed_instance(SEED)
    tell(say("jobs.demo-company"))
    copy_course(shipped_course(), places.folder)
    write_file(places.folder / MARK, b"")
    key = signing_key_from_seed(_seeded("key"))
    first = begin_company(places.folder, Beginning(fake.company(), fake.name(), "", _seeded("secret"), key, salts), now)
    tell(say("jobs.demo-build"))
    course = sound_course(places.folder)
    with open_company(places, salts=salts) as company:
        built = build_course(course, company, out, now.date(), tell)
        desk, people = Desk.at(course, company, now, tell), _enroll(company, fake, now)
        outcomes, certified = _sit(desk, people, first.id)
    return Shown(built.start, outcomes, certified, verify_records(places.folder, None), built.no_pdf)


def _sit(
    desk: Desk, people: tuple[Person, ...], supervisor: str
) -> tuple[tuple[Graded | Refusal, ...], tuple[Certified | Refusal, ...]]:
    """Let everybody take the quiz of the one program, grade, sign the first one's work off, and certify."""
    (program,) = desk.course.programs.values()
    desk.tell(say("jobs.demo-issue"))
    issue = issue_quiz(desk, program.blueprints[0], [person.id for person in people])
    desk.tell(say("jobs.demo-answer"))
    inbox = _hand_in(desk, [one.form.id for one in issue.forms])
    desk.tell(say("jobs.demo-grade"))
    outcomes = tuple(grade_inbox(desk, inbox, supervisor))
    desk.tell(say("jobs.demo-sign-off"))
    for procedure in program.signoffs:
        sign_off_work(desk, people[0].id, Seen(procedure, next(iter(desk.course.trade.units)), by=supervisor))
    desk.tell(say("jobs.demo-certify"))
    return outcomes, tuple(_certified(desk, person, program.id) for person in people)


def _hand_in(desk: Desk, form_ids: list[str]) -> Inbox:
    """Answer three forms from their pages: one well, one against a rule of safe work, one damaged on the way.

    The first comes as the file that the page saves, the second as a typed answer code, the third as a file again.
    """
    forms = [_handed_out(desk, form_id) for form_id in form_ids]
    right = _file(forms[0], studied_answers(forms[0], desk.stock.materials))
    code = make_answer_code(forms[1], careless_answers(forms[1], desk.stock.materials))
    answers = studied_answers(forms[2], desk.stock.materials)
    sent, arrived = answers["1"][0], "*" + answers["1"][0][1:]
    damaged = _file(forms[2], answers).replace(sent.encode(), arrived.encode())
    handed_in = desk.company.places.folder / "handed-in"
    paths = (handed_in / f"answers-{forms[0].id}.json", handed_in / f"answers-{forms[2].id}.json")
    for path, data in zip(paths, (right, damaged), strict=True):
        write_file(path, data)
    return Inbox(files=paths, codes=(code,))


def _handed_out(desk: Desk, form_id: str) -> Form:
    """Return what a trainee's page shows: the trainees' folder is the only place that is looked into."""
    return form_on_page((desk.folders.trainee / QUIZZES / f"{form_id}.html").read_text(encoding="utf-8"))


def _file(form: Form, answers: Answers) -> bytes:
    return response_bytes(make_response(form.id, answers))


def _certified(desk: Desk, person: Person, program: str) -> Certified | Refusal:
    try:
        return certify(desk, person.id, program)
    except Refusal as refusal:
        return refusal


def _enroll(company: Company, fake: Faker, now: datetime) -> tuple[Person, ...]:
    names = [fake.unique.name() for _ in range(TRAINEES)]
    addresses = [f"{name.split()[-1].lower()}@example.com" for name in names]
    return tuple(
        enroll(company.store, name, address, company.key, now) for name, address in zip(names, addresses, strict=True)
    )


def _clear(out: Path) -> None:
    """Make room for a demonstration; a folder that is not its own is left alone."""
    mark = out / COMPANY / MARK
    if (out / COMPANY).exists() and not mark.is_file():
        raise Refusal(say("jobs.demo-not-ours", folder=out / COMPANY), say("jobs.demo-not-ours-try"))
    for name in (COMPANY, "trainee", "trainer", "office"):
        shutil.rmtree(out / name, ignore_errors=True)


def _seeded(what: str) -> bytes:
    return hashlib.sha256(f"{SEED} {what}".encode()).digest()


def _salts() -> Callable[[], bytes]:
    numbers = count(1)
    return lambda: _seeded(f"salt {next(numbers)}")
