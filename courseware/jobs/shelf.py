"""The front pages: what lies behind each of the three doors.

The lists are read from the course, the records and the archive, never from the folders, so that a page names
exactly what the records know. Without a company the front pages list the lessons alone.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from datetime import date, datetime
from pathlib import Path
from typing import Final

from courseware.content.words import say
from courseware.heater.unit import Unit
from courseware.jobs.company import Company, archived_form, name_of
from courseware.jobs.course import Course
from courseware.jobs.press import Press
from courseware.jobs.sitting import sittings_open
from courseware.publish import index
from courseware.publish.feedback import LessonPlace
from courseware.publish.field_card import FieldCard
from courseware.publish.output import OutputFolders, addresses, write_style
from courseware.publish.pages import Imprint
from courseware.records.identity import Person
from courseware.records.people import people
from courseware.records.registers import Result, forms_out, results_of

LESSONS, QUIZZES, PAPERS, FEEDBACK, CERTIFICATES = "lessons", "quizzes", "papers", "feedback", "certificates"
CLASSES: Final = "classes"
CARDS: Final = "cards"
PRACTICE: Final = "practice/index.html"


def imprint_of(course: Course) -> Imprint:
    """Return what every page says of the course it belongs to."""
    return Imprint(course.title, course.version)


def write_front_pages(course: Course, company: Company | None, folders: OutputFolders, press: Press, on: date) -> None:
    """Write ``index.html`` and the pages behind the trainee's and the trainer's door.

    Parameters
    ----------
    course : Course
        Its lessons are listed.
    company : Company or None
        Its forms, results and certificates are listed.
    folders : OutputFolders
        Where the pages go.
    press : Press
        Writes them.
    on : date
        The day of the lists.
    """
    press.finish()  # the lists offer what is there
    imprint = imprint_of(course)
    for folder in folders.each():
        write_style(folder)
    lessons, forms = tuple(_lessons(course, folders.trainee)), tuple(_quizzes(company, folders.trainee))
    practice = PRACTICE if (folders.trainee / PRACTICE).is_file() else ""
    cards = tuple(_cards(course, folders.trainee))
    press.page(folders.trainee / "index.html", index.trainee_page(lessons, forms, imprint, practice, cards))
    press.page(folders.trainer / "index.html", _trainer_page(course, company, folders.trainer, on))
    doors = tuple(folder.name for folder in folders.each())
    press.page(folders.trainee.parent / "index.html", index.front_page(doors, imprint))


def _trainer_page(course: Course, company: Company | None, folder: Path, on: date) -> str:
    if company is None:
        return index.trainer_page((), (), (), imprint_of(course))
    standing = tuple(_standing(company))
    return index.trainer_page(
        tuple(_papers(company, folder)),
        tuple(now_out(company, on)),
        tuple(_feedback(company, standing, folder)),
        imprint_of(course),
        tuple(_classes(course, standing, folder)),
        sittings=tuple(sittings_open(company, folder)),
    )


def lesson_places(course: Course, folder: str) -> Mapping[str, LessonPlace]:
    """Return each lesson and section by the name that repairs and keys give it.

    ``folder`` is the way from the page that shows them to the lessons' pages.
    """
    places = {}
    for lesson in course.lessons:
        address = f"{folder}/{lesson.id}.html"
        places[lesson.id] = LessonPlace(lesson.title, address)
        for section in lesson.sections:
            title = say("jobs.lesson-section", lesson=lesson.title, section=section.title)
            places[f"{lesson.id}#{section.anchor}"] = LessonPlace(title, f"{address}#{section.anchor}")
    return places


def _lessons(course: Course, folder: Path) -> Iterator[index.LessonEntry]:
    for lesson in course.lessons:
        page, paper = addresses(folder, f"{LESSONS}/{lesson.id}")
        yield index.LessonEntry(
            lesson.title, lesson.summary, page, paper, lesson.minutes, lesson.provenance.status()
        )  # fmt: skip


def card_name(card: FieldCard, unit: Unit) -> str:
    """Return what the files of a field card of a unit are called."""
    return f"{card.id}-{unit.id}"


def _cards(course: Course, folder: Path) -> Iterator[index.SheetEntry]:
    for card in course.cards:
        for unit in course.trade.units.values():
            page, paper = addresses(folder, f"{CARDS}/{card_name(card, unit)}")
            if page:
                yield index.SheetEntry(card.title, unit.title, page, paper)


def _quizzes(company: Company | None, folder: Path) -> Iterator[index.QuizEntry]:
    if company is None:
        return
    for out in forms_out(company.store):
        form = archived_form(company, out.form)
        page, paper = addresses(folder, f"{QUIZZES}/{form.id}")
        minutes = sum(item.minutes for item in form.items)
        yield index.QuizEntry(form.id, form.title, page, paper, len(form.items), minutes)


def _papers(company: Company, folder: Path) -> Iterator[index.SheetEntry]:
    for out in forms_out(company.store):
        page, paper = addresses(folder, f"{PAPERS}/{out.form}")
        title = archived_form(company, out.form).title
        yield index.SheetEntry(f"{title} {out.form}", name_of(out.name), page, paper)


def _standing(company: Company) -> Iterator[tuple[Person, Result]]:
    """Yield every result that stands, with whose it is."""
    for person in people(company.store):
        for result in results_of(company.store, person.id):
            if result.replaced_by is None:
                yield person, result


def _feedback(company: Company, standing: Iterable[tuple[Person, Result]], folder: Path) -> Iterator[index.SheetEntry]:
    for person, result in standing:
        page, paper = addresses(folder, f"{FEEDBACK}/{result.form}")
        outcome = say("jobs.passed" if result.passed else "jobs.not-passed")
        about = say("jobs.feedback-about", name=person.name, outcome=outcome)
        yield index.SheetEntry(f"{archived_form(company, result.form).title} {result.form}", about, page, paper)


def _classes(course: Course, standing: Iterable[tuple[Person, Result]], folder: Path) -> Iterator[index.SheetEntry]:
    """Yield the class sheet of each quiz of which a form was graded, where it was made."""
    graded = Counter(result.blueprint for _, result in standing)
    for quiz in sorted(graded):
        page, paper = addresses(folder, f"{CLASSES}/{quiz}")
        if page:
            about = say("publish_class.listed-forms", count=graded[quiz])
            yield index.SheetEntry(quiz_title(course, quiz), about, page, paper)


def now_out(company: Company, on: date) -> Iterator[index.FormOut]:
    """Yield the forms that were handed out and have not come back, as pages list them."""
    for out in forms_out(company.store):
        issued = datetime.fromisoformat(out.issued_at).date()
        title = archived_form(company, out.form).title
        yield index.FormOut(out.form, title, name_of(out.name), issued.isoformat(), (on - issued).days)


def objective_titles(course: Course) -> Mapping[str, str]:
    """Return the title of each objective by its id."""
    return {objective.id: objective.title for objective in course.quizbank.objectives.values()}


def quiz_title(course: Course, quiz: str) -> str:
    """Return what a quiz is called; its id, if the course has it no more."""
    found = course.quizbank.blueprints.get(quiz)
    return found.title if found else quiz


def procedure_title(course: Course, procedure: str) -> str:
    """Return what a procedure is called; its id, if the course has it no more."""
    found = course.safework.procedures.get(procedure)
    return found.title if found else procedure


def unit_title(course: Course, unit: str) -> str:
    """Return what a unit is called; its id, if the course has it no more."""
    found = course.trade.units.get(unit)
    return found.title if found else unit
