"""Grades a response: pure, from form, key and answers alone, so that an old form is graded as on its first day."""

from fractions import Fraction

from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.grading.markers import MARKERS
from courseware.grading.markers.base import Verdict
from courseware.grading.result import ItemMark, Result, Tally
from courseware.quiz.fit import fit
from courseware.quiz.form import Form, Item, Key, KeyEntry, form_sha256
from courseware.quiz.response import Response


def grade(form: Form, key: Key, response: Response) -> Result:
    """Grade one response.

    Parameters
    ----------
    form : Form
        As issued.
    key : Key
        The key drawn with it; it holds the pass rule of that day.
    response : Response
        From the HTML quiz, a typed code or a paper sheet.

    Raises
    ------
    Refusal
        If the key is not this form's.
    ResponseError
        If the response does not fit the form.
    """
    if key.form != form.id or key.form_sha256 != form_sha256(form):
        raise Refusal(say("grading.other-key", form=form.id, key=key.form), say("grading.other-key-try"))
    fit(form, response)
    graded = [
        (_marked(item, entry, response.answers[str(item.number)]), entry)
        for item, entry in zip(form.items, key.entries, strict=True)
    ]
    exact = [share * entry.points for (_, share), entry in graded]
    marks = tuple(mark for (mark, _), _ in graded)
    points, of = sum(exact, Fraction(0)), sum(entry.points for entry in key.entries)
    gate_broken = tuple(mark.number for mark in marks if mark.gate_broken is not None)
    gate_holds = not (key.rule.safety_gate and gate_broken)
    return Result(
        form=form.id,
        marks=marks,
        points=float(points),
        of=of,
        percent=round(float(100 * points / of), 1),
        needed=key.rule.percent,
        gate_broken=gate_broken,
        gate_counts=key.rule.safety_gate,
        passed=100 * points >= key.rule.percent * of and gate_holds,
        by_objective=tallies(marks),
    )


def _marked(item: Item, entry: KeyEntry, given: tuple[str, ...]) -> tuple[ItemMark, Fraction]:
    verdict = MARKERS[item.kind](item, entry, given)
    mark = ItemMark(
        number=item.number,
        kind=item.kind,
        objective=entry.objective,
        template=entry.template,
        points=float(verdict.share * entry.points),
        of=entry.points,
        right=verdict.share == 1,
        answered=bool(given),
        gate_broken=verdict.broken,
        chosen=verdict.chosen,
        right_answer=verdict.right_answer,
        feedback=_feedback(entry, verdict, answered=bool(given)),
        lesson=entry.lesson,
        beliefs=tuple(dict.fromkeys(belief for name, belief in entry.misconceptions.items() if name in verdict.shown)),
    )
    return mark, verdict.share


def _feedback(entry: KeyEntry, verdict: Verdict, *, answered: bool) -> tuple[str, ...]:
    lines = [] if answered else [say("grading.left-blank")]
    if verdict.broken is not None:
        said = verdict.broken
        lines.append(say("grading.gate-broken", word=said.signal_word, rule=said.rule, reason=said.reason))
    if verdict.share < 1:
        lines.extend(verdict.against)
    return (*lines, entry.because)


def tallies(marks: tuple[ItemMark, ...]) -> dict[str, Tally]:
    """Return the points of each objective, by its id."""
    found: dict[str, Tally] = {}
    for mark in marks:
        tally = found.get(mark.objective, Tally(0.0, 0))
        found[mark.objective] = Tally(tally.points + mark.points, tally.of + mark.of)
    return found
