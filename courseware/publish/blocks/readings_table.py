"""What each check reads with each fault, from the model: repairs down, checks across.

Passing::

    ```readings-table
    unit: bench-siphon
    caption: What the checks read on a siphon unit
    checks: [control-light, transformer-output]
    faults: [transformer-open, gap-wide]
    ```

The first row is a healthy unit; each fault is shown at its worst grade. Failing: a check that the
unit has nothing for; a fault that the unit cannot have.
"""

from dataclasses import dataclass

import numpy as np
from markupsafe import Markup

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.heater.checks import Check
from courseware.heater.faults import Change, FaultMode
from courseware.heater.readings import shown, true_values, verdict_probabilities
from courseware.heater.simulate import Case, Run, simulate
from courseware.heater.unit import Unit
from courseware.publish.pages import render_part
from courseware.publish.prose import Prose
from courseware.publish.teaching import Reader, View


@dataclass(frozen=True, slots=True)
class Cell:
    """One reading, and whether its verdict is another than on a healthy unit."""

    text: str
    differs: bool


@dataclass(frozen=True, slots=True)
class Row:
    """One fault with the repair that ends it, and its reading of each check."""

    fault: str
    repair: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class ReadingsTable:
    """The whole table of one unit."""

    id: str
    caption: Prose
    unit: str
    checks: tuple[str, ...]
    rows: tuple[Row, ...]

    @property
    def prose(self) -> tuple[Prose, ...]:
        """Return the caption."""
        return (self.caption,)

    @property
    def answers(self) -> Markup:
        """Return nothing: a table asks nothing."""
        return Markup()

    def html(self, view: View) -> Markup:
        """Return the table; on a phone it scrolls inside its frame."""
        return render_part("blocks/readings-table.html.j2", block=self, view=view)


def load(fields: Fields, reader: Reader) -> ReadingsTable:
    """Read ``unit``, ``caption``, ``checks`` and ``faults``, and take the readings from the model."""
    trade = reader.teaching.trade
    unit = trade.units.get(fields.reference("unit", "unit", trade.units))
    caption = reader.line(fields, "caption")
    checks = [trade.checks[name] for name in fields.references("checks", "check", trade.checks) if name in trade.checks]
    faults = [trade.faults[name] for name in fields.references("faults", "fault", trade.faults) if name in trade.faults]
    if unit is None or not reader.sound:
        return ReadingsTable(reader.next_id("readings"), caption, "", (), ())
    for thing, key in [(check, "checks") for check in checks] + [(fault, "faults") for fault in faults]:
        if not thing.applies_to(unit):
            fields.fault(fields.source_of(key), say("publish.not-on-unit", id=thing.id, unit=unit.id))
    fitting = [check for check in checks if check.applies_to(unit)]
    present = [fault for fault in faults if fault.applies_to(unit)]
    repairs = [trade.repairs[fault.repair].title if fault.repair in trade.repairs else "" for fault in present]
    return ReadingsTable(
        reader.next_id("readings"), caption, unit.title, tuple(check.title for check in fitting),
        _rows(unit, fitting, present, repairs),
    )  # fmt: skip


def _rows(unit: Unit, checks: list[Check], faults: list[FaultMode], repairs: list[str]) -> tuple[Row, ...]:
    cases: list[Case] = [(), *(((fault, max(fault.severities)),) for fault in faults)]
    columns = [_column(check, run) for check, run in zip(checks, _runs(unit, checks, cases), strict=True)]
    names = [(say("publish.healthy"), say("publish.no-repair")), *zip((f.title for f in faults), repairs, strict=True)]
    return tuple(
        Row(fault, repair, tuple(column[place] for column in columns)) for place, (fault, repair) in enumerate(names)
    )


def _runs(unit: Unit, checks: list[Check], cases: list[Case]) -> list[Run]:
    """Return the run that each check is read from; checks that arrange the unit alike share one."""
    made: list[tuple[tuple[Change, ...], Run]] = []
    found = []
    for check in checks:
        run = next((run for changes, run in made if changes == check.changes), None)
        if run is None:
            run = simulate(unit, cases, check.changes)
            made.append((check.changes, run))
        found.append(run)
    return found


def _column(check: Check, run: Run) -> list[Cell]:
    values = true_values(run.unit, check, run)
    verdicts = np.argmax(verdict_probabilities(run.unit, check, run), axis=1)
    return [
        Cell(shown(run.unit, check, None if np.isnan(value) else float(value)), bool(verdict != verdicts[0]))
        for value, verdict in zip(values, verdicts, strict=True)
    ]
