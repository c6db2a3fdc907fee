"""Write the class sheet of a quiz: every graded form, or those that are chosen, from the records and the archive."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from itertools import groupby
from pathlib import Path

from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.grading.class_results import Answered, Attempt, Standing
from courseware.grading.mark import grade
from courseware.jobs.company import Company, archived_form, archived_key
from courseware.jobs.desk import Desk
from courseware.jobs.press import Press
from courseware.jobs.shelf import CLASSES, LESSONS, lesson_places, objective_titles, quiz_title
from courseware.publish.class_sheet import ClassSheet, class_sheet_page, class_sheet_paper
from courseware.quiz.response import read_response
from courseware.records.people import people
from courseware.records.registers import Result, results_of


@dataclass(frozen=True, slots=True)
class Choice:
    """Which graded forms a class sheet counts.

    Attributes
    ----------
    forms : tuple of str
        Form numbers; all if empty.
    since : date or None
        Only forms that were first marked on this day or later (UTC).
    """

    forms: tuple[str, ...] = ()
    since: date | None = None

    def takes(self, attempt: Attempt) -> bool:
        """Say whether an attempt is counted."""
        late_enough = self.since is None or date.fromisoformat(attempt.standing.on) >= self.since
        return late_enough and (not self.forms or attempt.form in self.forms)

    def words(self, attempts: Sequence[Attempt]) -> str:
        """Return what the sheet says of the choice."""
        count = len(attempts)
        if self.forms:
            return say("jobs.chosen-forms", count=count)
        return (
            say("jobs.chosen-since", count=count, day=self.since) if self.since else say("jobs.chosen-all", count=count)
        )

    @property
    def suffix(self) -> str:
        """Return what the file's name ends with, so that a choice never stands in place of the whole class."""
        return (f"-since-{self.since}" if self.since else "") + ("-chosen" if self.forms else "")


@dataclass(frozen=True, slots=True)
class Made:
    """A class sheet that was written: its page, how many forms it counts [-], what to install for PDF (or empty)."""

    page: Path
    forms: int
    no_pdf: str


def write_class_sheet(desk: Desk, quiz: str, choice: Choice) -> Made:
    """Write the class sheet of a quiz as page and paper, and list it on the trainer's page.

    Parameters
    ----------
    desk : Desk
        Whose records and archive; the course gives only titles and places.
    quiz : str
        Id of the blueprint.
    choice : Choice
        Which forms to count.

    Raises
    ------
    Refusal
        If no form of the quiz was graded, or none of those chosen; the text names what there is.
    """
    attempts = attempts_at(desk.company, quiz)
    chosen = tuple(attempt for attempt in attempts if choice.takes(attempt))
    _hold_choice(desk.company, quiz, choice, attempts, chosen)
    press = desk.press()
    page = _write(desk, press, quiz, choice, chosen)
    desk.renew_front_pages(press)
    return Made(page, len(chosen), press.no_pdf)


def renew_class_sheets(desk: Desk, press: Press, quizzes: Iterable[str]) -> None:
    """Write the class sheets of some quizzes anew, each over every graded form, after forms were marked."""
    for quiz in dict.fromkeys(quizzes):
        attempts = attempts_at(desk.company, quiz)
        if attempts:
            _write(desk, press, quiz, Choice(), attempts)


def attempts_at(company: Company, quiz: str) -> tuple[Attempt, ...]:
    """Return every graded form of a quiz, in the order of marking; those of people who were erased are left out."""
    found = [
        one
        for person in people(company.store)
        for one in _attempts_of(company, person.name, results_of(company.store, person.id), quiz)
    ]
    return tuple(attempt for _, attempt in sorted(found, key=lambda one: one[0]))


def _attempts_of(company: Company, name: str, results: Sequence[Result], quiz: str) -> Iterator[tuple[int, Attempt]]:
    """Yield one person's attempts, each with the number of the event that first marked it."""
    mine = sorted((result for result in results if result.blueprint == quiz), key=lambda one: (one.form, one.seq))
    forms = [tuple(group) for _, group in groupby(mine, lambda one: one.form)]
    for number, marked in enumerate(sorted(forms, key=lambda group: group[0].seq), start=1):
        form = marked[0].form
        yield marked[0].seq, Attempt(name, number, form, _standing(marked), _answered(company, form))


def _standing(marked: Sequence[Result]) -> Standing:
    last = marked[-1]
    return Standing(
        score=float(last.score),
        cut=float(last.cut),
        passed=last.passed,
        gates=last.gates,
        objectives={name: float(share) for name, share in last.objectives.items()},
        watched_by=last.supervisor_name or "",
        on=datetime.fromisoformat(marked[0].recorded_at).date().isoformat(),
        changed=len(marked) > 1,
    )


def _answered(company: Company, form_id: str) -> Answered | None:
    """Return what was answered, marked anew; nothing where the archive has lost form, key or answers."""
    try:
        form, key = archived_form(company, form_id), archived_key(company, form_id)
        response = read_response((company.places.archive / f"{form_id}.response.json").read_bytes())
        return Answered(form, key, response.answers, grade(form, key, response))
    except (Refusal, OSError):
        return None


def _hold_choice(
    company: Company, quiz: str, choice: Choice, attempts: Sequence[Attempt], chosen: Sequence[Attempt]
) -> None:
    if not attempts:
        graded = {
            result.blueprint for person in people(company.store) for result in results_of(company.store, person.id)
        }
        advice = (
            say("jobs.class-quizzes-are", known=", ".join(sorted(graded))) if graded else say("jobs.class-none-try")
        )
        raise Refusal(say("jobs.class-none", quiz=quiz), advice)
    for form in choice.forms:
        if all(form != attempt.form for attempt in attempts):
            known = ", ".join(attempt.form for attempt in attempts)
            raise Refusal(say("jobs.class-no-form", form=form, quiz=quiz), say("jobs.class-forms-are", known=known))
    if not chosen:
        last = max(attempt.standing.on for attempt in attempts)
        raise Refusal(say("jobs.class-none-since", quiz=quiz, day=choice.since), say("jobs.class-last", day=last))


def _write(desk: Desk, press: Press, quiz: str, choice: Choice, attempts: tuple[Attempt, ...]) -> Path:
    course = desk.course
    taught: Mapping[str, str] = {one.id: one.lesson for one in course.quizbank.objectives.values()}
    sheet = ClassSheet(
        quiz_title(course, quiz), desk.now.date().isoformat(), choice.words(attempts), attempts,
        objective_titles(course), taught, lesson_places(course, f"../../trainee/{LESSONS}"),
    )  # fmt: skip
    folder, stem = desk.folders.trainer / CLASSES, f"{quiz}{choice.suffix}"
    press.page(folder / f"{stem}.html", class_sheet_page(sheet, desk.imprint, root="../"))
    press.paper(folder / f"{stem}.pdf", class_sheet_paper(sheet, desk.imprint))
    return folder / f"{stem}.html"
