"""What a trainer should do about the results of a class: what to teach again, and which questions to look at.

A finding names what was seen and the count it rests on. With few answers it stays a hint; it never says that a question
is bad, but what to look at.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from courseware.grading.class_results import ObjectiveResult, Question, WrongAnswer

#: A wrong answer is worth a word in class from so many times and this share of the answers [-]; common practice,
#: no source.
WORTH_TIMES: Final = 2
WORTH_SHARE: Final = 0.25
#: That so many and more were asked [-] before "nobody was right" or "the strong half chose it" says anything.
LEAST_ASKED: Final = 3


@dataclass(frozen=True, slots=True)
class Frequent:
    """A wrong answer that many gave, and the question it was given to."""

    question: Question
    answer: WrongAnswer


@dataclass(frozen=True, slots=True)
class Concern:
    """A reason to look at a question.

    Attributes
    ----------
    question : Question
        Which one.
    reason : str
        ``nobody-right``; ``strong-wrong``: the strong half gave one wrong answer more often than the right one;
        ``negative``: who did well on the rest did worse on it.
    answer : WrongAnswer or None
        The wrong answer of ``strong-wrong``.
    hint : bool
        Whether chance alone may be behind it: too few forms, or an interval of the discrimination that holds zero.
    """

    question: Question
    reason: str
    answer: WrongAnswer | None
    hint: bool


def under_the_cut(objectives: Sequence[ObjectiveResult], cut: float) -> tuple[ObjectiveResult, ...]:
    """Return the objectives whose mean is under the cut [%], the weakest first."""
    return tuple(sorted((one for one in objectives if one.mean < cut), key=lambda one: one.mean))


def frequent_wrong_answers(questions: Sequence[Question]) -> tuple[Frequent, ...]:
    """Return the wrong answers that are worth a word in class, the most frequent first."""
    found = [
        Frequent(question, answer)
        for question in questions
        for answer in question.wrong
        if answer.times >= max(WORTH_TIMES, WORTH_SHARE * question.answers)
    ]
    return tuple(sorted(found, key=lambda one: -one.answer.times))


def concerns(questions: Sequence[Question]) -> tuple[Concern, ...]:
    """Return the questions to look at; one that gives two reasons stands there twice."""
    return tuple(concern for question in questions for concern in _concerns(question))


def _concerns(question: Question) -> Iterator[Concern]:
    if question.right == 0 and question.answers >= LEAST_ASKED:
        yield Concern(question, "nobody-right", None, question.few)
    favourite = max(question.wrong, key=lambda one: one.strong, default=None)
    if favourite and question.strong >= LEAST_ASKED and favourite.strong > question.strong_right:
        yield Concern(question, "strong-wrong", favourite, question.few)
    against = question.discrimination
    if against and against.r < 0:
        yield Concern(question, "negative", None, against.chance)
