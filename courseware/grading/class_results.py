"""The results of a class on one quiz: who reached what, what was hard, what was answered wrongly and how often.

Scores and objectives are those that stand in the records, so that a mark changed by hand counts as changed. Counts by
question and by wrong answer come from the answers themselves, marked by the archived key. All counts rest on first
attempts: who answers a second form has read the feedback on the first.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from statistics import median

from courseware.grading.item_statistics import FEWEST, Discrimination, alpha, discrimination, facility
from courseware.grading.result import ItemMark, Result
from courseware.grading.wrong_answers import Wrong, wrong_in
from courseware.quiz.form import Belief, Form, Gate, Item, Key, KeyEntry


@dataclass(frozen=True, slots=True)
class Standing:
    """The marks of a form that stand in the records.

    Attributes
    ----------
    score, cut : float
        Reached and needed [%].
    passed : bool
        Whether the form was passed.
    gates : tuple of str
        Titles of the safety rules that the answers broke.
    objectives : mapping of str to float
        Reached for each objective [%], by its id.
    watched_by : str
        Name of the signer who watched; empty if nobody did.
    on : str
        Date of the first marking, ISO 8601.
    changed : bool
        Whether a mark was changed by hand after that.
    """

    score: float
    cut: float
    passed: bool
    gates: tuple[str, ...]
    objectives: Mapping[str, float]
    watched_by: str
    on: str
    changed: bool


@dataclass(frozen=True, slots=True)
class Answered:
    """The answers to a form, from the archive, with what the archived key makes of them."""

    form: Form
    key: Key
    given: Mapping[str, tuple[str, ...]]
    result: Result


@dataclass(frozen=True, slots=True)
class Attempt:
    """One form that one person answered.

    Attributes
    ----------
    person : str
        Name.
    number : int
        Which attempt of this person at the quiz [-], from 1.
    form : str
        Form number.
    standing : Standing
        The marks that stand.
    answered : Answered or None
        The answers; none if they are no longer in the archive.
    """

    person: str
    number: int
    form: str
    standing: Standing
    answered: Answered | None


@dataclass(frozen=True, slots=True)
class ObjectiveResult:
    """How the class did on one objective.

    Attributes
    ----------
    id : str
        The objective.
    mean : float
        Mean of what was reached [%].
    people, under : int
        How many were asked, and how many of them stayed under the cut [-].
    """

    id: str
    mean: float
    people: int
    under: int


@dataclass(frozen=True, slots=True)
class WrongAnswer:
    """A wrong answer to one question, and how often it was given.

    Attributes
    ----------
    wrong : Wrong
        What it stands for; where forms differ in what speaks against it, as on the first form that has it.
    times, strong : int
        How often it was given, and how often by the strong half [-].
    """

    wrong: Wrong
    times: int
    strong: int


@dataclass(frozen=True, slots=True)
class Question:
    """How the class did on one item template.

    Attributes
    ----------
    template, objective, lesson : str
        Its id, the objective it asks about, and the section that teaches it.
    asks : str
        The last line of its stem, as on the first form.
    forms, answers, right, blank : int
        Forms it stood on, times it was asked, answers with all points, and answers left blank [-].
    facility : float
        Mean share of its points that was reached [-].
    discrimination : Discrimination or None
        Against the rest of the form; none where it cannot be told.
    wrong : tuple of WrongAnswer
        The most frequent first.
    strong, strong_right : int
        Times the strong half was asked, and was right [-]. The strong half are those whose share of the points of all
        other questions is at or above the median.
    """

    template: str
    objective: str
    lesson: str
    asks: str
    forms: int
    answers: int
    right: int
    blank: int
    facility: float
    discrimination: Discrimination | None
    wrong: tuple[WrongAnswer, ...]
    strong: int
    strong_right: int

    @property
    def few(self) -> bool:
        """Say whether it stood on too few forms to judge it."""
        return self.forms < FEWEST


@dataclass(frozen=True, slots=True)
class BrokenRule:
    """A safety rule that answers broke: the gate as the key has it, and by whom, each attempt apart."""

    gate: Gate
    by: tuple[Attempt, ...]


@dataclass(frozen=True, slots=True)
class HeldBelief:
    """A misconception, how many answers show it, and of how many people [-]."""

    belief: Belief
    answers: int
    people: int


@dataclass(frozen=True, slots=True)
class _Seen:
    """The items of one template on one form: share of their points, share of all others (None: there are no others)."""

    share: float
    rest: float | None
    items: tuple[tuple[Item, KeyEntry, ItemMark, tuple[str, ...]], ...]

    def wrong(self) -> Iterator[Wrong]:
        for item, entry, _, given in self.items:
            yield from wrong_in(item, entry, given)


def first_attempts(attempts: Iterable[Attempt]) -> tuple[Attempt, ...]:
    """Return each person's first attempt."""
    return tuple(attempt for attempt in attempts if attempt.number == 1)


def by_objective(attempts: Sequence[Attempt]) -> tuple[ObjectiveResult, ...]:
    """Return how the class did on each objective, in the order in which the forms ask about them."""
    standings = [attempt.standing for attempt in first_attempts(attempts)]
    found = []
    for name in dict.fromkeys(name for standing in standings for name in standing.objectives):
        asked = [standing for standing in standings if name in standing.objectives]
        reached = [standing.objectives[name] for standing in asked]
        under = sum(standing.objectives[name] < standing.cut for standing in asked)
        found.append(ObjectiveResult(name, sum(reached) / len(reached), len(asked), under))
    return tuple(found)


def by_question(attempts: Sequence[Attempt]) -> tuple[Question, ...]:
    """Return how the class did on each item template, the hardest first."""
    seen: dict[str, list[_Seen]] = {}
    for answered in (attempt.answered for attempt in first_attempts(attempts)):
        for template, one in _seen(answered) if answered else ():
            seen.setdefault(template, []).append(one)
    questions = [_question(template, ones) for template, ones in seen.items()]
    return tuple(sorted(questions, key=lambda question: (question.facility, question.template)))


def broken_rules(attempts: Sequence[Attempt]) -> tuple[BrokenRule, ...]:
    """Return every safety rule that answers broke, repeats included, the one that most broke first."""
    gates = {gate.rule: gate for attempt in attempts if attempt.answered
             for entry in attempt.answered.key.entries for gate in entry.gates}  # fmt: skip
    rules = Counter(rule for attempt in attempts for rule in attempt.standing.gates)
    return tuple(
        BrokenRule(gates.get(rule, Gate((), rule, "WARNING", "")),
                   tuple(attempt for attempt in attempts if rule in attempt.standing.gates))
        for rule, _ in rules.most_common()
    )  # fmt: skip


def beliefs(attempts: Sequence[Attempt]) -> tuple[HeldBelief, ...]:
    """Return every misconception that answers show, the one that most people hold first."""
    held = [(wrong.belief, attempt.form)
            for attempt in first_attempts(attempts) if attempt.answered
            for _, seen in _seen(attempt.answered) for wrong in seen.wrong() if wrong.belief]  # fmt: skip
    found = {}
    for name in dict.fromkeys(belief.id for belief, _ in held):
        of_it = [(belief, form) for belief, form in held if belief.id == name]
        found[name] = HeldBelief(of_it[0][0], len(of_it), len({form for _, form in of_it}))  # a first form is a person
    return tuple(sorted(found.values(), key=lambda one: (-one.people, -one.answers, one.belief.id)))


def alpha_of_objectives(attempts: Sequence[Attempt]) -> float | None:
    """Return coefficient alpha [-] with the objectives as parts.

    None where it cannot be told: fewer forms than :data:`~courseware.grading.item_statistics.FEWEST`, forms whose
    objectives weigh differently, or scores that do not vary.
    """
    results = [attempt.answered.result for attempt in first_attempts(attempts) if attempt.answered]
    weights = {tuple(sorted((name, tally.of) for name, tally in result.by_objective.items())) for result in results}
    if len(results) < FEWEST or len(weights) != 1:
        return None
    ((*parts,),) = weights
    return alpha([[result.by_objective[name].points for name, _ in parts] for result in results])


def _seen(answered: Answered) -> Iterator[tuple[str, _Seen]]:
    rows = [
        (item, entry, mark, tuple(answered.given[str(item.number)]))
        for item, entry, mark in zip(answered.form.items, answered.key.entries, answered.result.marks, strict=True)
    ]
    total, of_all = sum(mark.points for _, _, mark, _ in rows), sum(mark.of for _, _, mark, _ in rows)
    for template, group in groupby(sorted(rows, key=lambda row: row[1].template), lambda row: row[1].template):
        items = tuple(group)
        points, of = sum(mark.points for _, _, mark, _ in items), sum(mark.of for _, _, mark, _ in items)
        yield template, _Seen(points / of, (total - points) / (of_all - of) if of_all > of else None, items)


def _question(template: str, seen: Sequence[_Seen]) -> Question:
    marks = [mark for one in seen for _, _, mark, _ in one.items]
    rests = [(one.share, one.rest) for one in seen if one.rest is not None]
    middle = median(rest for _, rest in rests) if rests else 0.0
    strong = [one for one in seen if one.rest is not None and one.rest >= middle]
    item, entry, _, _ = seen[0].items[0]
    return Question(
        template=template,
        objective=entry.objective,
        lesson=entry.lesson,
        asks=item.stem[-1],
        forms=len(seen),
        answers=len(marks),
        right=sum(mark.right for mark in marks),
        blank=sum(not mark.answered for mark in marks),
        facility=facility([mark.points / mark.of for mark in marks]),
        discrimination=discrimination([share for share, _ in rests], [rest for _, rest in rests]),
        wrong=_wrong_answers(seen, strong),
        strong=sum(len(one.items) for one in strong),
        strong_right=sum(mark.right for one in strong for _, _, mark, _ in one.items),
    )


def _wrong_answers(seen: Sequence[_Seen], strong: Sequence[_Seen]) -> tuple[WrongAnswer, ...]:
    given = [wrong for one in seen for wrong in one.wrong()]
    by_strong = Counter(wrong.name for one in strong for wrong in one.wrong())
    first = {wrong.name: wrong for wrong in reversed(given)}
    counts = Counter(wrong.name for wrong in given).most_common()
    return tuple(WrongAnswer(first[name], times, by_strong[name]) for name, times in counts)
