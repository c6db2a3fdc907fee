"""The demonstration: three years of an invented company, with one old hand and a class of twelve.

Everything that is random elsewhere is drawn from one seed here, so that two demonstrations on the same day make the
same pages, byte for byte. Its keys are therefore no secret: it is nobody's company.
"""

import hashlib
import random
import shutil
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from itertools import count
from pathlib import Path
from typing import Final

from faker import Faker

from courseware.content.folders import shipped_course
from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.jobs.build import build_course, sound_course, write_practice
from courseware.jobs.certify import Certified, certify
from courseware.jobs.company import Beginning, Company, Places, archived_key, begin_company, open_company
from courseware.jobs.desk import Desk
from courseware.jobs.grade import Graded, Inbox, grade_inbox
from courseware.jobs.issue import Issued, issue_quiz
from courseware.jobs.new import copy_course
from courseware.jobs.press import Press, Told
from courseware.jobs.shelf import QUIZZES
from courseware.jobs.signoff import Seen, sign_off_work
from courseware.jobs.staff import Brought, enter_brought, merge_people
from courseware.jobs.trainees import Answers, Trainee, answers_of, form_on_page, right_answers
from courseware.jobs.verify import verify_records
from courseware.jobs.withdraw import take_back_sign_off
from courseware.publish.output import write_file
from courseware.quiz.answer_code import make_answer_code
from courseware.quiz.form import Form
from courseware.quiz.response import make_response, response_bytes
from courseware.records.identity import Person
from courseware.records.keys import signing_key_from_seed
from courseware.records.people import OnePerson, enroll
from courseware.records.signoffs import signoffs_of
from courseware.records.verify import Verification

SEED: Final = "courseware demonstration 2"
MARK: Final = "made-by-courseware-demo"
COMPANY: Final = "company"
PROGRAM: Final = "ignition-service"
NEXT_QUIZ: Final = "combustion"
STILL_OUT: Final = 3  # people who have the next quiz and have not handed it in
#: What each of the twelve knows [-] when the class begins.
KNOWS: Final = (0.97, 0.95, 0.92, 0.9, 0.87, 0.84, 0.8, 0.76, 0.7, 0.62, 0.5, 0.35)
MOST_BELIEFS: Final = 2
#: Days before the demonstration's own day on which things happen.
BEGUN, HIRED, SEEN = timedelta(1065), timedelta(40), timedelta(5)
QUIZ_DAYS: Final = (timedelta(33), timedelta(19))
AGAIN: Final = timedelta(7)  # after a quiz, for those who did not pass


@dataclass(frozen=True, slots=True)
class Shown:
    """What a demonstration did.

    Attributes
    ----------
    start : Path
        The page to open first.
    outcomes : tuple of Graded or Refusal
        What became of each response of the class, in the order of handing in.
    certified : tuple of Certified or Refusal
        What became of each application for a certificate, in the order of the class.
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


Class = Mapping[str, Trainee]  # person id to who they are


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
    beginning = Beginning(fake.company(), fake.name(), "", _seeded("secret"), key, salts)
    signer = begin_company(places.folder, beginning, now - BEGUN).id
    course = sound_course(places.folder)
    with open_company(places, salts=salts) as company:
        press = Press(tell)  # one for all: papers are made while the story goes on, and the lists at the end
        desk = replace(Desk.at(course, company, now, tell), shared=press)
        write_practice(course, desk.folders.trainee, press)
        _old_hand(replace(desk, now=now - BEGUN), fake, signer)
        people = _enroll(company, fake, len(KNOWS), now - HIRED)
        outcomes, certified = _class(desk, people, signer)
        _office_days(desk, fake, people, signer)
        tell(say("jobs.demo-build"))
        built = build_course(course, company, out, now.date(), press)
    return Shown(built.start, outcomes, certified, verify_records(places.folder, None), built.no_pdf)


def _old_hand(desk: Desk, fake: Faker, signer: str) -> None:
    """Certify one person so long ago that the certificate soon falls due."""
    desk.tell(say("jobs.demo-old-hand"))
    (person,) = _enroll(desk.company, fake, 1, desk.now)
    for quiz in desk.course.programs[PROGRAM].blueprints:
        issued = issue_quiz(desk, quiz, [person.id]).forms
        answered = [(one.form, right_answers(archived_key(desk.company, one.form.id))) for one in issued]
        list(grade_inbox(desk, _files(desk, answered), signer))
    _sign_off(desk, person.id, signer)
    certify(desk, person.id, PROGRAM)


def _class(
    desk: Desk, people: Sequence[Person], signer: str
) -> tuple[tuple[Graded | Refusal, ...], tuple[Certified | Refusal, ...]]:
    """Let the class take both quizzes, again where they failed, sign off who passed, and certify."""
    program, outcomes = desk.course.programs[PROGRAM], []
    trainees = _who_they_are(desk, people)
    for quiz, first_day in zip(program.blueprints, QUIZ_DAYS, strict=True):
        first = _sitting(replace(desk, now=desk.now - first_day), quiz, trainees, signer)
        failed = {one.person.id: trainees[one.person.id].taught_by(one.result) for one in _not_passed(first)}
        again = _sitting(replace(desk, now=desk.now - first_day + AGAIN), quiz, failed, signer)
        outcomes += [*first, *again]
    desk.tell(say("jobs.demo-sign-off"))
    passed = [one.person.id for one in outcomes if isinstance(one, Graded) and one.result.passed]
    for person in people:
        if passed.count(person.id) == len(program.blueprints):
            _sign_off(replace(desk, now=desk.now - SEEN), person.id, signer)
    desk.tell(say("jobs.demo-certify"))
    return tuple(outcomes), tuple(_certified(desk, person) for person in people)


def _office_days(desk: Desk, fake: Faker, people: Sequence[Person], signer: str) -> None:
    """Do what comes up in an office: an old card, somebody enrolled twice, a slip of the pen, a quiz still out."""
    desk.tell(say("jobs.demo-office"))
    (hired,) = _enroll(desk.company, fake, 1, desk.now)
    enter_brought(desk, hired.id, Brought(say("jobs.demo-evidence"), procedure="lockout", by=signer))
    store, key, twice = desk.company.store, desk.company.key, people[0]
    double = enroll(store, twice.name, f"{fake.user_name()}@example.com", key, desk.now)
    merge_people(desk, OnePerson(double.id, twice.id, say("jobs.demo-twice")))
    sign_off_work(desk, people[-1].id, Seen("lockout", next(iter(desk.course.trade.units)), by=signer))
    take_back_sign_off(desk, signoffs_of(store, people[-1].id)[-1].seq, say("jobs.demo-slip"))
    issue_quiz(desk, NEXT_QUIZ, [person.id for person in people[:STILL_OUT]])


def _who_they_are(desk: Desk, people: Sequence[Person]) -> Class:
    rng, known = random.Random(f"{SEED} class"), sorted(desk.course.quizbank.misconceptions)  # noqa: S311 - no secret
    return {
        person.id: Trainee(knows, frozenset(rng.sample(known, rng.randint(0, MOST_BELIEFS))))
        for person, knows in zip(people, KNOWS, strict=True)
    }


def _not_passed(outcomes: Sequence[Graded | Refusal]) -> Iterator[Graded]:
    return (one for one in outcomes if isinstance(one, Graded) and not one.result.passed)


def _sitting(desk: Desk, quiz: str, trainees: Class, signer: str) -> tuple[Graded | Refusal, ...]:
    """Issue a quiz to trainees, let them answer from their pages, and grade what they hand in."""
    desk.tell(say("jobs.demo-issue", quiz=desk.course.quizbank.blueprints[quiz].title, count=len(trainees)))
    issued = issue_quiz(desk, quiz, list(trainees)).forms
    desk.tell(say("jobs.demo-answer"))
    answered = [(form, _answers(desk, trainees[one.person.id], form)) for one, form in _handed_out(desk, issued)]
    desk.tell(say("jobs.demo-grade"))
    return tuple(grade_inbox(desk, _inbox(desk, answered), signer))


def _handed_out(desk: Desk, issued: Sequence[Issued]) -> list[tuple[Issued, Form]]:
    """Return what each trainee's page shows: the trainees' folder is the only place that is looked into."""
    pages = [(one, desk.folders.trainee / QUIZZES / f"{one.form.id}.html") for one in issued]
    return [(one, form_on_page(page.read_text(encoding="utf-8"))) for one, page in pages]


def _answers(desk: Desk, trainee: Trainee, form: Form) -> Answers:
    luck = random.Random(f"{SEED} {form.id}")  # noqa: S311 - the luck of an invented day, no secret
    return answers_of(trainee, form, archived_key(desk.company, form.id), luck)


def _inbox(desk: Desk, answered: Sequence[tuple[Form, Answers]]) -> Inbox:
    """Hand one in as a code, one on paper and the rest as files; one of these is damaged on the way at first."""
    if len(answered) < len(KNOWS):
        return _files(desk, answered)
    typed, written, damaged, *others = answered
    return Inbox(
        files=(_damaged(desk, *damaged), *_files(desk, [damaged, *others]).files),
        codes=(make_answer_code(*typed),),
        sheets=(make_answer_code(*written),),
    )


def _files(desk: Desk, answered: Sequence[tuple[Form, Answers]]) -> Inbox:
    return Inbox(
        files=tuple(_file(desk, form, response_bytes(make_response(form.id, given))) for form, given in answered)
    )


def _damaged(desk: Desk, form: Form, answers: Answers) -> Path:
    whole = response_bytes(make_response(form.id, answers))
    sent = answers["1"][0].encode()
    return _file(desk, form, whole.replace(sent, b"*" + sent[1:]), "-damaged")


def _file(desk: Desk, form: Form, data: bytes, ending: str = "") -> Path:
    path = desk.company.places.folder / "handed-in" / f"answers-{form.id}{ending}.json"
    write_file(path, data)
    return path


def _certified(desk: Desk, person: Person) -> Certified | Refusal:
    try:
        return certify(desk, person.id, PROGRAM)
    except Refusal as refusal:
        return refusal


def _sign_off(desk: Desk, person_id: str, signer: str) -> None:
    units = list(desk.course.trade.units)
    for number, procedure in enumerate(desk.course.programs[PROGRAM].signoffs):
        unit = units[number % len(units)]
        sign_off_work(desk, person_id, Seen(procedure, unit, by=signer, serial=f"{unit}-{person_id[-2:]}"))


def _enroll(company: Company, fake: Faker, many: int, now: datetime) -> tuple[Person, ...]:
    names = [fake.unique.name() for _ in range(many)]
    addresses = [f"{name.split()[-1].lower()}.{number}@example.com" for number, name in enumerate(names, 1)]
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
