"""What grading finds: a mark for each item, the score, the safety gate, and whether the form is passed."""

from collections.abc import Mapping
from dataclasses import dataclass

from courseware.quiz.form import Belief


@dataclass(frozen=True, slots=True)
class Broken:
    """A safety rule that an answer breaks.

    Attributes
    ----------
    rule, signal_word, reason : str
        The rule's title, its ANSI Z535 signal word, and why it holds.
    """

    rule: str
    signal_word: str
    reason: str


@dataclass(frozen=True, slots=True)
class ItemMark:
    """The mark for one item.

    Attributes
    ----------
    number, kind, objective, template
        As in the key.
    points : float
        Points given [-], from 0 to ``of``.
    of : int
        Points for a right answer [-].
    right : bool
        Whether the answer has all points.
    answered : bool
        False if it was left blank.
    gate_broken : Broken or None
        The first safety rule that the answer breaks.
    chosen : tuple of str
        The answer in words: the text of the option, the number as written, the steps in the order given.
    right_answer : tuple of str
        The right answer in the same form; of several allowed orders, one.
    feedback : tuple of str
        What rules the answer out, then why the right one is right; only the latter if the answer is right.
    lesson : str
        Lesson and section to read again.
    beliefs : tuple of Belief
        The misconceptions that the answer shows, each once; empty if it is right or nothing is known.
    """

    number: int
    kind: str
    objective: str
    template: str
    points: float
    of: int
    right: bool
    answered: bool
    gate_broken: Broken | None
    chosen: tuple[str, ...]
    right_answer: tuple[str, ...]
    feedback: tuple[str, ...]
    lesson: str
    beliefs: tuple[Belief, ...] = ()


@dataclass(frozen=True, slots=True)
class Tally:
    """Points [-] given and points that could be had."""

    points: float
    of: int


@dataclass(frozen=True, slots=True)
class Result:
    """The outcome of one form.

    Attributes
    ----------
    form : str
        Form number.
    marks : tuple of ItemMark
        One an item, in order.
    points : float
        Points given [-].
    of : int
        Points that could be had [-].
    percent : float
        Score [%], rounded to a tenth for people; the decision is made on the exact value.
    needed : int
        Least score to pass [%].
    gate_broken : tuple of int
        Numbers of the items whose answer breaks a safety rule.
    gate_counts : bool
        Whether a broken gate fails the form.
    passed : bool
        Score reached, and no gate broken that counts.
    by_objective : mapping of str to Tally
        Points for each objective, by its id.
    """

    form: str
    marks: tuple[ItemMark, ...]
    points: float
    of: int
    percent: float
    needed: int
    gate_broken: tuple[int, ...]
    gate_counts: bool
    passed: bool
    by_objective: Mapping[str, Tally]
