"""The front pages: one with three doors, and one behind each for the trainee, the trainer and the office."""

from dataclasses import dataclass
from typing import Final

from courseware.content.words import say
from courseware.publish.assets import static_text
from courseware.publish.office_table import Table
from courseware.publish.pages import Imprint, render, screen_style

#: What a certificate can be on the office's page; the records say which.
STATES: Final = ("valid", "not-yet", "expired", "withdrawn", "erased")


@dataclass(frozen=True, slots=True)
class LessonEntry:
    """A lesson on the trainee's page.

    Attributes
    ----------
    title, summary : str
        What it is called, and what it is about (may be empty).
    page, paper : str
        Addresses of the page and of the PDF, relative to the trainee's folder; an empty one is not offered.
    minutes : int
        Time to allow [min].
    review : str
        Review status in words.
    """

    title: str
    summary: str
    page: str
    paper: str
    minutes: int
    review: str


@dataclass(frozen=True, slots=True)
class QuizEntry:
    """An issued form on the trainee's page.

    Attributes
    ----------
    form, title : str
        Form number, and what the quiz is called.
    page, paper : str
        Addresses of the page and of the PDF, relative to the trainee's folder; an empty one is not offered.
    questions : int
        Number of questions [-].
    minutes : int
        Time to allow [min].
    """

    form: str
    title: str
    page: str
    paper: str
    questions: int
    minutes: int


@dataclass(frozen=True, slots=True)
class SheetEntry:
    """A sheet on the trainer's or the office's page: an answer sheet, a proof, a feedback sheet, a certificate.

    Attributes
    ----------
    title, about : str
        What it is called, and whose or what it is.
    page, paper : str
        Addresses relative to the folder of the page that lists it; an empty one is not offered.
    """

    title: str
    about: str
    page: str
    paper: str


@dataclass(frozen=True, slots=True)
class Held:
    """A certificate on the office's page.

    Attributes
    ----------
    holder, program, code : str
        Who holds it, under which program, and the code that the records answer to.
    issued, expires : str
        Dates, ISO 8601.
    state : str
        One of :data:`STATES`.
    page, paper : str
        Addresses relative to the office's folder; an empty one is not offered.
    file : str
        Address of the holder's file; empty where there is none.
    """

    holder: str
    program: str
    code: str
    issued: str
    expires: str
    state: str
    page: str
    paper: str
    file: str = ""


@dataclass(frozen=True, slots=True)
class FormOut:
    """A form that was handed out and has not come back.

    Attributes
    ----------
    form, title, holder : str
        Form number, what the quiz is called, and who has it.
    issued : str
        Date, ISO 8601.
    days : int
        Days [-] since then.
    """

    form: str
    title: str
    holder: str
    issued: str
    days: int


@dataclass(frozen=True, slots=True)
class Register:
    """What the office's page shows.

    Attributes
    ----------
    company : str
        Name of the company.
    on : str
        Date of the page, ISO 8601.
    held : tuple of Held
        Certificates, in the order to show.
    out : tuple of FormOut
        Forms out, in the order to show.
    due : Table or None
        What falls due; none where there is no company yet.
    due_days : int
        How far ahead that looks [days].
    people : tuple of SheetEntry
        The file of each person.
    training : SheetEntry or None
        The training list.
    training_csv : str
        Address of the same list for a spreadsheet.
    """

    company: str
    on: str
    held: tuple[Held, ...]
    out: tuple[FormOut, ...]
    due: Table | None = None
    due_days: int = 0
    people: tuple[SheetEntry, ...] = ()
    training: SheetEntry | None = None
    training_csv: str = ""


def front_page(doors: tuple[str, ...], imprint: Imprint) -> str:
    """Return ``build/index.html``: a door for each folder, and a word on who it is for.

    Parameters
    ----------
    doors : tuple of str
        Those of ``trainee``, ``trainer`` and ``office`` that were built; the page borrows the first one's stylesheet.
    imprint : Imprint
        The course.
    """
    style = {"root": f"{doors[0]}/"} if doors else {"inline_style": screen_style("")}
    return _page("front", say("publish_pages.front-title"), imprint, doors=doors, **style)


def trainee_page(
    lessons: tuple[LessonEntry, ...],
    quizzes: tuple[QuizEntry, ...],
    imprint: Imprint,
    practice: str = "",
    cards: tuple[SheetEntry, ...] = (),
) -> str:
    """Return ``trainee/index.html``: lessons in order, practice, field cards, then the forms handed out.

    ``practice`` is the practice page's address relative to the trainee's folder; empty: it is not offered.
    """
    title = say("publish_pages.trainee-title")
    return _page("trainee", title, imprint, lessons=lessons, quizzes=quizzes, practice=practice, cards=cards)


def trainer_page(  # noqa: PLR0913, PLR0917  # one for each list of the page
    sheets: tuple[SheetEntry, ...],
    out: tuple[FormOut, ...],
    feedback: tuple[SheetEntry, ...],
    imprint: Imprint,
    classes: tuple[SheetEntry, ...] = (),
    sittings: tuple[SheetEntry, ...] = (),
) -> str:
    """Return ``trainer/index.html``: answer sheets and proofs, what has not come back, class and feedback sheets."""
    title = say("publish_pages.trainer-title")
    return _page(
        "trainer", title, imprint, sheets=sheets, out=out, classes=classes, feedback=feedback, sittings=sittings
    )


def office_page(register: Register, imprint: Imprint) -> str:
    """Return ``office/index.html``: what falls due, who holds what until when, everybody's file, and forms out."""
    return _page("office", say("publish_pages.office-title"), imprint, register=register)


def _page(name: str, title: str, imprint: Imprint, **values: object) -> str:
    return render(f"{name}.html.j2", imprint, title=title, style=static_text("front.css"), **values)
