"""A procedure as the lesson teaches it; loading carries it out, on every unit, against the never-rules.

Passing::

    ```procedure
    procedure: ignition-test
    steps:
      - {step: read-tag, how: Read the last service tag.}
      ...                     # every step of the procedure, in an allowed order
    ```

Failing, with the line of the step: a step that the procedure does not have; a step left out; an order
in which a rule is broken, a step cannot be done, or comes before one that must come first.
"""

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
class TaughtStep:
    """One row: the step's title, its signal word, how to do it, its number on each unit (None: not done there).

    ``early`` is the gravest signal word of the rules that doing the step too early would break; empty if none.
    """

    title: str
    early: str
    how: Prose
    numbers: tuple[int | None, ...]


@dataclass(frozen=True, slots=True)
class TaughtProcedure:
    """A procedure with the lesson's own words: units, rows, and how many rules it was run against."""

    title: str
    summary: str
    units: tuple[Unit, ...]
    rows: tuple[TaughtStep, ...]
    rules: int

    @property
    def prose(self) -> tuple[Prose, ...]:
        """Return how each step is done."""
        return tuple(row.how for row in self.rows)

    @property
    def answers(self) -> Markup:
        """Return nothing: a procedure asks nothing."""
        return Markup()

    def html(self, view: View) -> Markup:
        """Return the procedure as a sheet to work from."""
        return render_part("blocks/procedure.html.j2", block=self, view=view)


def load(fields: Fields, reader: Reader) -> TaughtProcedure:
    """Read ``procedure`` and ``steps``, and carry the steps out on every unit."""
    teaching = reader.teaching
    known = teaching.safework.procedures
    procedure = known.get(fields.reference("procedure", "procedure", known))
    names = {step.id for step in procedure.steps} if procedure else set()
    listing: list[tuple[str, Prose, Source]] = []
    for entry in fields.children("steps", say("publish.a-step")):
        name = entry.reference("step", "step", names) if procedure else entry.text("step")
        listing.append((name, reader.paragraphs(entry, "how"), entry.source))
        entry.finish()
    if procedure is None:
        return TaughtProcedure("", "", (), (), 0)
    units = tuple(unit for unit in teaching.trade.units.values() if steps_on(procedure, unit))
    lines = {name: source for name, _, source in reversed(listing)}
    for unit in units:
        _carry_out(fields, (teaching, procedure, unit), [name for name, _, _ in listing], lines)
    return TaughtProcedure(
        procedure.title,
        procedure.summary,
        units,
        _rows(teaching, procedure, units, listing),
        len(teaching.safework.rules),
    )


def _carry_out(
    fields: Fields, job: tuple[Teaching, Procedure, Unit], order: list[str], lines: dict[str, Source]
) -> None:
    """Judge the lesson's order on one unit, and report what is wrong at the step's own line."""
    teaching, procedure, unit = job
    here, known = {step.id for step in steps_on(procedure, unit)}, {step.id for step in procedure.steps}
    if not known.issuperset(order):
        return  # the dangling reference is already reported, and the rest cannot be judged
    judgement = judge(teaching.safework, teaching.trade, unit, procedure, [name for name in order if name in here])
    if judgement.missing:
        fields.fault(
            fields.source_of("steps"), say("publish.steps-missing", unit=unit.title, steps=listed(judgement.missing)),
            advice=say("publish.steps-missing-try", procedure=procedure.source),
        )  # fmt: skip
    if judgement.breach:
        place = lines.get(judgement.breach.step_id, fields.source_of("steps"))
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
    teaching: Teaching, procedure: Procedure, units: tuple[Unit, ...], listing: list[tuple[str, Prose, Source]]
) -> tuple[TaughtStep, ...]:
    steps = {step.id: step for step in procedure.steps}
    numbers: list[dict[str, int]] = []
    for unit in units:
        here = {step.id for step in steps_on(procedure, unit)}
        order = [name for name, _, _ in listing if name in here]
        numbers.append({name: place for place, name in enumerate(order, start=1)})
    early = _early(teaching, procedure, units)
    return tuple(
        TaughtStep(
            teaching.safework.actions[steps[name].action].title, early.get(name, ""), how,
            tuple(found.get(name) for found in numbers),
        )
        for name, how, _ in listing
        if name in steps
    )  # fmt: skip


def _early(teaching: Teaching, procedure: Procedure, units: tuple[Unit, ...]) -> dict[str, str]:
    """Return for each step the gravest signal word of the rules that keep it from coming too early."""
    found: dict[str, str] = {}
    for unit in units:
        for (_, later), rule in gates(work_on(teaching.safework, teaching.trade, unit, procedure)).items():
            found[later] = min(found.get(later, rule.signal_word), rule.signal_word, key=SIGNAL_WORDS.index)
    return found
