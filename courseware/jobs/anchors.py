"""Everything that names the lesson where it is taught: each name must lead to a section that there is."""

from collections.abc import Iterable, Iterator

from courseware.content.problems import Problems, listed, nearest
from courseware.content.source import Source
from courseware.content.words import say
from courseware.heater.load import Trade
from courseware.publish.lesson import Lesson
from courseware.quiz.bank import QuizBank
from courseware.quiz.misconceptions import where_of
from courseware.safework.model import SafeWork


def hold_anchors(
    trade: Trade, safework: SafeWork, quizbank: QuizBank, lessons: Iterable[Lesson], problems: Problems
) -> None:
    """Report every ``lesson#section`` that leads nowhere.

    Parameters
    ----------
    trade, safework, quizbank : Trade, SafeWork, QuizBank
        What names lessons.
    lessons : iterable of Lesson
        The lessons that there are.
    problems : Problems
        Receives one fault for each name that leads nowhere.
    """
    known = {lesson.id for lesson in lessons}
    known |= {f"{lesson.id}#{anchor}" for lesson in lessons for anchor in lesson.anchors}
    for where, source, name in _names(trade, safework, quizbank):
        if name and name not in known:
            sections = [one for one in known if one.startswith(name.partition("#")[0] + "#")]
            problems.add(
                source, where, say("jobs.no-section", name=name), listed(sections or known), nearest(name, known)
            )


def _names(trade: Trade, safework: SafeWork, quizbank: QuizBank) -> Iterator[tuple[str, Source, str]]:
    """Yield what names a lesson, where it is written, and the name."""
    for repair in trade.repairs.values():
        yield say("jobs.repair", id=repair.id), repair.provenance.source, repair.lesson
    for check in trade.checks.values():
        yield say("jobs.check", id=check.id), check.provenance.source, check.lesson
    for procedure in safework.procedures.values():
        yield say("jobs.procedure", id=procedure.id), procedure.source, procedure.lesson
    for objective in quizbank.objectives.values():
        yield say("jobs.objective", id=objective.id), objective.provenance.source, objective.lesson
    for template in quizbank.templates.values():
        yield say("jobs.template", id=template.id), template.provenance.source, template.lesson
    for misconception in quizbank.misconceptions.values():
        yield where_of(misconception), misconception.provenance.source, misconception.lesson
