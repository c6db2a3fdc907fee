"""The feedback sheet: what a trainee got right, what rules the other answers out, and what to read again."""

from collections.abc import Mapping
from dataclasses import dataclass

from courseware.content.words import say
from courseware.grading.result import ItemMark, Result
from courseware.publish.assets import number, static_text
from courseware.publish.pages import Imprint, render
from courseware.quiz.form import Form


@dataclass(frozen=True, slots=True)
class LessonPlace:
    """A section of a lesson to read again.

    Attributes
    ----------
    title : str
        Lesson and section, in words.
    address : str
        Way to it from the feedback page; empty where the lesson is not at hand.
    """

    title: str
    address: str


@dataclass(frozen=True, slots=True)
class ChangedMark:
    """A mark that a signer changed by hand.

    Attributes
    ----------
    number : int
        Number of the question [-].
    before, points : float
        Points before and since [-].
    on : str
        When, ISO 8601.
    by, reason : str
        Who decided it, and why.
    """

    number: int
    before: float
    points: float
    on: str
    by: str
    reason: str


@dataclass(frozen=True, slots=True)
class FeedbackSheet:
    """Everything that a feedback sheet shows.

    Attributes
    ----------
    form : Form
        The form as issued.
    result : Result
        What grading found.
    trainee : str
        Name of the person.
    on : str
        Date of the result, ISO 8601.
    supervised_by : str
        Name of the signer who watched; empty if nobody did.
    places : mapping of str to LessonPlace
        By the key's lesson reference (``ignition-test#isolate``); one that is missing is shown as it stands.
    objectives : mapping of str to str
        Titles of the objectives by id; one that is missing is shown as it stands.
    changes : tuple of ChangedMark
        Marks that were changed by hand, in their order.
    """

    form: Form
    result: Result
    trainee: str
    on: str
    supervised_by: str
    places: Mapping[str, LessonPlace]
    objectives: Mapping[str, str]
    changes: tuple[ChangedMark, ...] = ()


def feedback_page(sheet: FeedbackSheet, imprint: Imprint, *, root: str = "") -> str:
    """Return the feedback sheet as a web page; ``root`` is the way to the folder of the stylesheet."""
    return _render(sheet, imprint, root=root, paper=False)


def feedback_paper(sheet: FeedbackSheet, imprint: Imprint) -> str:
    """Return the feedback sheet as HTML for the PDF maker."""
    return _render(sheet, imprint, root="", paper=True)


def _render(sheet: FeedbackSheet, imprint: Imprint, *, root: str, paper: bool) -> str:
    wrong = (mark.lesson for mark in sheet.result.marks if not mark.right)
    return render(
        "feedback.html.j2",
        imprint,
        sheet=sheet,
        title=say("publish_pages.feedback-title", title=sheet.form.title),
        form=sheet.form,
        result=sheet.result,
        places=sheet.places,
        objectives=sheet.objectives,
        again=tuple(dict.fromkeys(wrong)),  # each once, in the order of the questions
        number=number,
        verdict=_verdict,
        root=root,
        paper=paper,
        style=static_text("papers.css"),
    )


def _verdict(mark: ItemMark) -> str:
    """Return the catalogue key for how an item went."""
    if mark.right:
        return "publish_pages.feedback-right"
    if not mark.answered:
        return "publish_pages.feedback-blank"
    return "publish_pages.feedback-partly" if mark.points > 0 else "publish_pages.feedback-wrong"
