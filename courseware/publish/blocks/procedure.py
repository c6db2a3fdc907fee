"""A procedure as the lesson teaches it; loading carries it out, on every unit, against the never-rules.

Passing::

    ```procedure
    procedure: ignition-test
    parts:
      - title: Lock out
        steps:
          - {step: read, how: The tag tells who was here last.}
          - {step: tell}
      ...                     # every step of the procedure, in an allowed order
    ```

A step without ``how`` shows the procedure's own note.

Failing, with the line of the step: a step that the procedure does not have; a step left out; an order
in which a rule is broken, a step cannot be done, or comes before one that must come first.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from courseware.content.fields import Fields
from courseware.content.problems import listed
from courseware.content.source import Source
from courseware.content.words import say
from courseware.heater.unit import Unit
from courseware.publish.pages import render_part
from courseware.publish.prose import Prose
from courseware.publish.teaching import Reader, Teaching, View
from courseware.safework.gates import gates
from courseware.safework.judge import judge
from courseware.safework.model import SIGNAL_WORDS, Procedure
from courseware.safework.work import Breach, steps_on, work_on


@dataclass(frozen=True, slots=True)
class Row:
    """One step: its title, how to do it, its number on each unit (None: not done there).

    ``early`` is the gravest signal word of the rules that doing the step too early would break; empty if none.
    """

    title: str
    early: str
    how: Markup
    numbers: tuple[int | None, ...]


@dataclass(frozen=True, slots=True)
class JobSheet:
    """A procedure with the lesson's own words: units, parts with their rows, and how many rules it was run against."""

    title: str
    summary: str
    units: tuple[Unit, ...]
    parts: tuple[tuple[Prose, tuple[Row, ...]], ...]
    rules: int
    prose: tuple[Prose, ...]

    @property
    def answers(self) -> Markup:
        """Return nothing: a procedure asks nothing."""
        return Markup()

    def html(self, view: View) -> Markup:
        """Return the procedure as a sheet to work from."""
        return render_part("blocks/procedure.html.j2", block=self, view=view)


@dataclass(frozen=True, slots=True)
class Listed:
    """A step as the lesson lists it: its id, the lesson's words (None: the note is shown), its place."""

    step: str
    how: Prose | None
    source: Source


Part = tuple[Prose, tuple[Listed, ...]]


def load(fields: Fields, reader: Reader) -> JobSheet:
    """Read ``procedure`` and ``parts``, and carry the steps out on every unit."""
    teaching = reader.teaching
    known = teaching.safework.procedures
    procedure = known.get(fields.reference("procedure", "procedure", known))
    parts = tuple(_part(entry, procedure, reader) for entry in fields.children("parts", say("publish.a-part")))
    steps = [step for _, listed_steps in parts for step in listed_steps]
    prose = tuple(piece for title, _ in parts for piece in [title]) + tuple(step.how for step in steps if step.how)
    here = {step.id for step in procedure.steps} if procedure else set()
    if procedure is None or not reader.sound or not here.issuperset(step.step for step in steps):
        return JobSheet("", "", (), (), 0, prose)
    units = tuple(unit for unit in teaching.trade.units.values() if steps_on(procedure, unit))
    for unit in units:
        _carry_out(fields, (teaching, procedure, unit), steps)
    rows = _rows(teaching, procedure, units, parts)
    return JobSheet(procedure.title, procedure.summary, units, rows, len(teaching.safework.rules), prose)


def _part(entry: Fields, procedure: Procedure | None, reader: Reader) -> Part:
    title, steps = reader.line(entry, "title"), []
    names = {step.id for step in procedure.steps} if procedure else set()
    for one in entry.children("steps", say("publish.a-step")):
        name = one.reference("step", "step", names) if procedure else one.text("step")
        steps.append(Listed(name, reader.paragraphs(one, "how") if one.has("how") else None, one.source))
        one.finish()
    entry.finish()
    return title, tuple(steps)


def _carry_out(fields: Fields, job: tuple[Teaching, Procedure, Unit], steps: Sequence[Listed]) -> None:
    """Judge the lesson's order on one unit, and report what is wrong at the step's own line."""
    teaching, procedure, unit = job
    here = {step.id for step in steps_on(procedure, unit)}
    order = [step.step for step in steps if step.step in here]
    judgement = judge(teaching.safework, teaching.trade, unit, procedure, order)
    if judgement.missing:
        fields.fault(
            fields.source_of("parts"), say("publish.steps-missing", unit=unit.title, steps=listed(judgement.missing)),
            advice=say("publish.steps-missing-try", procedure=procedure.source),
        )  # fmt: skip
    if judgement.breach:
        lines = {step.step: step.source for step in steps}
        place = lines.get(judgement.breach.step_id, fields.source_of("parts"))
        advice = say("publish.step-breach-try", procedure=procedure.source)
        fields.fault(place, _words(judgement.breach, unit), advice=advice)


def _words(breach: Breach, unit: Unit) -> str:
    if breach.rule is None:
        return say("publish.step-wrong", step=breach.step_id, unit=unit.title, reason=breach.reason)
    return say(
        "publish.step-breaks-rule", step=breach.step_id, unit=unit.title, word=breach.rule.signal_word,
        rule=breach.rule.title, reason=breach.reason,
    )  # fmt: skip


def _rows(
    teaching: Teaching, procedure: Procedure, units: Sequence[Unit], parts: Sequence[Part]
) -> tuple[tuple[Prose, tuple[Row, ...]], ...]:
    steps = {step.id: step for step in procedure.steps}
    numbers: list[dict[str, int]] = []
    for unit in units:
        here = {step.id for step in steps_on(procedure, unit)}
        order = [one.step for _, listing in parts for one in listing if one.step in here]
        numbers.append({name: place for place, name in enumerate(order, start=1)})
    early = _early(teaching, procedure, units)

    def row(one: Listed) -> Row:
        title = teaching.safework.actions[steps[one.step].action].title
        how = one.how.html if one.how else Markup("<p>{}</p>").format(steps[one.step].note)
        shown = how if one.how or steps[one.step].note else Markup()
        return Row(title, early.get(one.step, ""), shown, tuple(found.get(one.step) for found in numbers))

    done = {name for found in numbers for name in found}  # a step that no unit of the bank needs is not shown
    return tuple((title, tuple(row(one) for one in listing if one.step in done)) for title, listing in parts)


def _early(teaching: Teaching, procedure: Procedure, units: Sequence[Unit]) -> dict[str, str]:
    """Return for each step the gravest signal word of the rules that keep it from coming too early."""
    found: dict[str, str] = {}
    for unit in units:
        for (_, later), rule in gates(work_on(teaching.safework, teaching.trade, unit, procedure)).items():
            found[later] = min(found.get(later, rule.signal_word), rule.signal_word, key=SIGNAL_WORDS.index)
    return found
