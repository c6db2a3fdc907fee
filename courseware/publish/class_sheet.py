"""The class sheet: how a class did on one quiz, what to teach again, and which questions to look at.

For the trainer alone: it holds names, and what is right.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import mean

from courseware.content.words import say
from courseware.grading.class_findings import concerns, frequent_wrong_answers, under_the_cut
from courseware.grading.class_results import (
    Attempt,
    ObjectiveResult,
    Question,
    alpha_of_objectives,
    beliefs,
    broken_rules,
    by_objective,
    by_question,
    first_attempts,
)
from courseware.grading.item_statistics import FEWEST, error_of_score
from courseware.publish.assets import number, static_text
from courseware.publish.class_sheet_figures import Bar, Cut, bars, pages_of
from courseware.publish.feedback import LessonPlace
from courseware.publish.figures.base import Figure
from courseware.publish.pages import Imprint, render


@dataclass(frozen=True, slots=True)
class ClassSheet:
    """Everything that a class sheet shows.

    Attributes
    ----------
    title : str
        What the quiz is called.
    on : str
        Date of the sheet, ISO 8601.
    chosen : str
        Which forms it counts, in words.
    attempts : tuple of Attempt
        Every form that it counts, at least one, in the order of marking.
    objectives : mapping of str to str
        Titles of the objectives by id; one that is missing is shown as it stands.
    taught : mapping of str to str
        Lesson reference of each objective by its id.
    places : mapping of str to LessonPlace
        By the key's lesson reference; one that is missing is shown as it stands.
    """

    title: str
    on: str
    chosen: str
    attempts: tuple[Attempt, ...]
    objectives: Mapping[str, str]
    taught: Mapping[str, str]
    places: Mapping[str, LessonPlace]


def class_sheet_page(sheet: ClassSheet, imprint: Imprint, *, root: str = "") -> str:
    """Return the class sheet as a web page; ``root`` is the way to the folder of the stylesheet."""
    return _render(sheet, imprint, root=root, paper=False)


def class_sheet_paper(sheet: ClassSheet, imprint: Imprint) -> str:
    """Return the class sheet as the page that its PDF is made from."""
    return _render(sheet, imprint, root="", paper=True)


def _render(sheet: ClassSheet, imprint: Imprint, *, root: str, paper: bool) -> str:
    first, questions = first_attempts(sheet.attempts), by_question(sheet.attempts)
    objectives, cut = by_objective(sheet.attempts), sheet.attempts[-1].standing.cut
    return render(
        "class_sheet.html.j2",
        imprint,
        sheet=sheet,
        title=say("publish_class.title", title=sheet.title),
        first=first,
        passed=sum(one.standing.passed for one in first),
        cut=cut,
        precision=_precision(first, cut),
        alpha=alpha_of_objectives(sheet.attempts),
        few=FEWEST,
        objectives=objectives,
        weak=under_the_cut(objectives, cut),
        held=beliefs(sheet.attempts),
        frequent=frequent_wrong_answers(questions),
        broken=broken_rules(sheet.attempts),
        questions=questions,
        numbers={question.template: place for place, question in enumerate(questions, start=1)},
        concerns=concerns(questions),
        without_answers=sum(one.answered is None for one in sheet.attempts),
        score_figures=_score_figures(sheet.attempts, cut),
        objective_figure=_objective_figure(objectives, sheet, cut),
        facility_figures=_facility_figures(questions),
        answer_figure=answer_figure,
        by_names=lambda broken: ", ".join(map(_named, broken.by)),
        number=number,
        whole=lambda value: f"{value:.0f}",
        hundredths=lambda value: f"{value:.2f}".replace("-", "−"),
        root=root,
        paper=paper,
        style=static_text("class_sheet.css"),
    )


def _precision(first: Sequence[Attempt], cut: float) -> tuple[int, float] | None:
    """Return the number of questions of a form, and the standard error [%] of a score at the cut."""
    sizes = [len(one.answered.form.items) for one in first if one.answered]
    fewest = min(sizes, default=0)
    return (fewest, 100 * error_of_score(cut / 100, fewest)) if fewest > 1 else None


def _score_figures(attempts: Sequence[Attempt], cut: float) -> tuple[Figure, ...]:
    ranked = sorted(attempts, key=lambda one: (-one.standing.score, one.person))
    rows = [Bar(_named(one), one.standing.score / 100, _score_says(one)) for one in ranked]
    mark = _cut(cut)
    average = mean(one.standing.score for one in attempts)
    title = say("publish_class.scores-title", count=len(rows), mean=f"{average:.0f}", cut=f"{cut:.0f}")
    return tuple(bars(title, run, mark, beside=True) for run in pages_of(rows))


def _named(attempt: Attempt) -> str:
    if attempt.number == 1:
        return attempt.person
    return say("publish_class.repeat", number=attempt.number, name=attempt.person)


def _score_says(attempt: Attempt) -> str:
    percent = say("publish_class.percent", percent=f"{attempt.standing.score:.0f}")
    return say("publish_class.unsafe-score", percent=percent) if attempt.standing.gates else percent


def _cut(cut: float) -> Cut:
    return Cut(cut / 100, say("publish_class.cut-at", cut=f"{cut:.0f}"))


def _objective_figure(objectives: Sequence[ObjectiveResult], sheet: ClassSheet, cut: float) -> Figure:
    rows = [
        Bar(
            say("publish_class.lettered", letter=chr(ord("A") + place), title=sheet.objectives.get(one.id, one.id)),
            one.mean / 100,
            say("publish_class.percent", percent=f"{one.mean:.0f}"),
        )
        for place, one in enumerate(objectives)
    ]
    return bars(say("publish_class.objectives-title", count=len(rows)), rows, _cut(cut))


def _facility_figures(questions: Sequence[Question]) -> tuple[Figure, ...]:
    rows = [
        Bar(
            say("publish_class.numbered", number=place, name=one.template),
            one.facility,
            say("publish_class.percent", percent=f"{100 * one.facility:.0f}"),
        )
        for place, one in enumerate(questions, start=1)
    ]
    title = say("publish_class.facility-title", count=len(rows))
    return tuple(bars(title, run) for run in pages_of(rows))


def answer_figure(question: Question) -> Figure:
    """Return the answers to one question as bars: the right one, the wrong ones, and those left blank."""

    def bar(words: str, times: int, *, bold: bool = False) -> Bar:
        says = say("publish_class.times-of", times=times, of=question.answers)
        return Bar(words, min(times / question.answers, 1), says, bold)

    rows = [bar(say("publish_class.right"), question.right, bold=True)]
    for one in question.wrong:
        words = say("publish_class.unsafe", name=one.wrong.name) if one.wrong.rule else one.wrong.name
        rows.append(bar(words, one.times))
    if question.blank:
        rows.append(bar(say("publish_class.blank"), question.blank))
    return bars(say("publish_class.answers-title", name=question.template, answers=question.answers), rows)
