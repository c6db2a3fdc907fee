"""Grade responses: read them, mark them with the archived key, record the marks, write feedback and class sheets."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.grading.mark import grade
from courseware.grading.result import Result
from courseware.jobs.class_sheet import renew_class_sheets
from courseware.jobs.company import Company, archived_form, archived_key, signer_key
from courseware.jobs.desk import Desk
from courseware.jobs.feedback import Outcome, marks_of, write_feedback
from courseware.jobs.press import Press
from courseware.jobs.standing import form_out, holder_of
from courseware.publish.output import write_file
from courseware.quiz.answer_code import parse_answer_code
from courseware.quiz.base32 import read_as
from courseware.quiz.response import Response, read_response, response_bytes
from courseware.records.forms import ReceivedResponse, receive_response
from courseware.records.identity import Person
from courseware.records.people import find_person
from courseware.records.results import record_result


@dataclass(frozen=True, slots=True)
class Graded:
    """A response that was graded, whose it is, and to which quiz."""

    person: Person
    result: Result
    quiz: str


@dataclass(frozen=True, slots=True)
class HandedIn:
    """A response as it came in.

    Attributes
    ----------
    response : Response
        The answers.
    channel : str
        ``file``, ``typed`` or ``paper``.
    """

    response: Response
    channel: str


@dataclass(frozen=True, slots=True)
class Inbox:
    """What trainees handed in.

    Attributes
    ----------
    files : tuple of Path
        Response files that the quiz pages made.
    codes : tuple of str
        Answer codes that trainees typed.
    sheets : tuple of str
        Answer sheets on paper, typed in by the trainer as answer codes.
    """

    files: tuple[Path, ...] = ()
    codes: tuple[str, ...] = ()
    sheets: tuple[str, ...] = ()


def grade_inbox(desk: Desk, inbox: Inbox, supervised_by: str | None) -> Iterator[Graded | Refusal]:
    """Grade everything that was handed in; what cannot be graded does not stop the rest.

    Parameters
    ----------
    desk : Desk
        Who grades.
    inbox : Inbox
        What was handed in.
    supervised_by : str or None
        Person id of the signer who watched; none if nobody did.

    Yields
    ------
    Graded or Refusal
        One for each file, code and sheet, in that order: the marks, or why there are none.

    Raises
    ------
    Refusal
        If ``supervised_by`` is no active signer; then nothing is graded.
    """
    watcher = signer_key(desk.company, supervised_by) if supervised_by else None
    readers = [partial(read_file, path) for path in inbox.files]
    for channel, texts in (("typed", inbox.codes), ("paper", inbox.sheets)):
        readers.extend(partial(read_code, desk.company, text, channel) for text in texts)
    press, quizzes = desk.press(), []
    for read in readers:
        try:
            graded = grade_response(desk, press, read(), watcher)
        except Refusal as refusal:
            yield refusal
        else:
            quizzes.append(graded.quiz)
            yield graded
    renew_class_sheets(desk, press, quizzes)
    desk.renew_front_pages(press)


def read_file(path: Path) -> HandedIn:
    """Read a response file.

    Raises
    ------
    Refusal
        If it is no response or is damaged; the text names the file.
    """
    try:
        return HandedIn(read_response(path.read_bytes()), "file")
    except OSError as error:
        raise Refusal(say("jobs.in-file", file=path, found=error.strerror), say("jobs.in-file-try")) from error
    except Refusal as error:
        raise Refusal(say("jobs.in-file", file=path, found=error.found), error.advice) from error


def read_code(company: Company, code: str, channel: str) -> HandedIn:
    """Read a typed answer code (channel ``typed``), or an answer sheet typed in (channel ``paper``).

    Raises
    ------
    Refusal
        If the code is damaged or names no form that was issued.
    """
    words = code.split()
    form = archived_form(company, read_as(words[0]) if words else "")
    return HandedIn(parse_answer_code(code, form), channel)


def grade_response(desk: Desk, press: Press, handed_in: HandedIn, supervised_by: str | None) -> Graded:
    """Grade one response and record it.

    Parameters
    ----------
    desk : Desk
        Who grades. The course gives only the words on the feedback sheet; the marks come from the archived form and
        key alone.
    press : Press
        Takes the feedback sheet in hand.
    handed_in : HandedIn
        The response.
    supervised_by : str or None
        Key id of the signer who watched; none if nobody did.

    Raises
    ------
    Refusal
        If the form was not issued, has been answered before, or the response does not fit it.
    """
    company, response = desk.company, handed_in.response
    form, key = archived_form(company, response.form), archived_key(company, response.form)
    result = grade(form, key, response)
    person = find_person(company.store, holder_of(form_out(company, form.id)))
    data = response_bytes(response)
    received = ReceivedResponse(form.id, data, handed_in.channel, response.started, response.finished)
    with company.store.transaction():
        receive_response(company.store, received, company.key, desk.now)
        record_result(company.store, marks_of(result, supervised_by), company.key, desk.now)
    write_file(company.places.archive / f"{form.id}.response.json", data)
    on = desk.now.date().isoformat()
    write_feedback(desk, press, Outcome(form, result, person.name, on, supervised_by))
    return Graded(person, result, form.blueprint)
