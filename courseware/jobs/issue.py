"""Issue a quiz: one form a person, drawn under the company's secret, archived, recorded, written out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from courseware.jobs.company import archive_form
from courseware.jobs.desk import Desk
from courseware.jobs.press import Press
from courseware.jobs.shelf import PAPERS, QUIZZES
from courseware.jobs.sitting import write_sitting
from courseware.publish.quiz_page import quiz_page
from courseware.publish.quiz_paper import quiz_paper
from courseware.quiz.base32 import new_form_id
from courseware.quiz.chance import chance
from courseware.quiz.draw import draw_form
from courseware.quiz.form import Form
from courseware.quiz.shown import NOTHING, Shown, repeated
from courseware.records.forms import IssuedForm, issue_form
from courseware.records.identity import Person
from courseware.records.ledger import head
from courseware.records.people import find_person


@dataclass(frozen=True, slots=True)
class Issued:
    """A form that went out.

    Attributes
    ----------
    person : Person
        To whom.
    form : Form
        What.
    again : tuple of int
        Numbers of its items that were known outside and that the bank had no other for.
    """

    person: Person
    form: Form
    again: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Issue:
    """What was issued in one go, and what to install for PDF (empty if all papers were made)."""

    forms: tuple[Issued, ...]
    no_pdf: str


def issue_quiz(
    desk: Desk, blueprint: str, person_ids: Sequence[str], shown: Mapping[str, Shown] | None = None
) -> Issue:
    """Issue one form of a quiz to each person.

    Parameters
    ----------
    desk : Desk
        Who issues, from which course.
    blueprint : str
        Id of a graded blueprint.
    person_ids : sequence of str
        Who gets one; each is looked up before the first form is drawn.
    shown : mapping of str to Shown, optional
        What each of them knows already, by their id; it is asked only where the bank has nothing else.

    Returns
    -------
    Issue
        In the order of ``person_ids``.

    Raises
    ------
    Refusal
        If a person is not enrolled, or there is no such blueprint; then nothing is issued.
    """
    store, known = desk.company.store, shown or {}
    with store.transaction():  # all or none: a roster that fails half-way leaves no form half known
        persons = [find_person(store, one) for one in person_ids]
        issued = tuple(_issue(desk, blueprint, person, known.get(person.id, NOTHING)) for person in persons)
    press = desk.press()
    for one in issued:
        _write(desk, press, one.form)
    if issued:
        write_sitting(desk.company, desk.imprint, press, issued[0].form.id)
    desk.renew_front_pages(press)
    return Issue(issued, press.no_pdf)


def _issue(desk: Desk, blueprint: str, person: Person, shown: Shown) -> Issued:
    course, company = desk.course, desk.company
    # The number of the next event names this draw once and for all; the form's own number gives it away to nobody.
    place = str(head(company.store).seq + 1)
    form_id = new_form_id(chance(company.secret, "form number", place))
    form, key = draw_form(desk.stock, blueprint, form_id, company.secret, shown)
    data, sealed = archive_form(company, form, key)
    entry = IssuedForm(form_id, blueprint, course.version, course.hash, data, sealed)
    issue_form(company.store, person.id, entry, company.key, desk.now)
    return Issued(person, form, repeated(form, shown))


def _write(desk: Desk, press: Press, form: Form) -> None:
    trainee, trainer = desk.folders.trainee / QUIZZES, desk.folders.trainer / PAPERS
    press.page(trainee / f"{form.id}.html", quiz_page(form, desk.imprint))
    paper = quiz_paper(form, desk.imprint)
    press.paper(trainee / f"{form.id}.pdf", paper)
    press.paper(trainer / f"{form.id}.pdf", paper)
