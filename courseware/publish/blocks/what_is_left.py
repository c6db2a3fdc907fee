"""What is still possible after each reading of a call, and the best next check: repairs down, readings across.

Passing::

    ```what-is-left
    caption: From the customer's words to the repair
    unit: bench-siphon
    faults: {tank-empty: 1}
    checks: [blower-turns, tank-level]
    ```

The complaint and the readings are those of the model with the faults on the unit; ``premise`` is ``one`` (as when it is
left out) or ``one-or-two``. Failing: a check that the unit has nothing for; readings that no fault can give.
"""

from dataclasses import dataclass

from markupsafe import Markup

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.publish.calls import Call, Stage, of_hundred, read_call
from courseware.publish.numbers import read_case
from courseware.publish.pages import render_part
from courseware.publish.prose import Prose
from courseware.publish.teaching import Reader, View


@dataclass(frozen=True, slots=True)
class Column:
    """One stage of the call: what was done and read, the minutes so far, and the next check to make."""

    head: str
    reading: str
    minutes: str
    following: str


@dataclass(frozen=True, slots=True)
class WhatIsLeft:
    """The whole table: the stages across, the repairs down with their share of a hundred calls at each stage."""

    id: str
    caption: Prose
    unit: str
    premise: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, tuple[str, ...]], ...]

    @property
    def prose(self) -> tuple[Prose, ...]:
        """Return the caption; checks, readings and repairs are the bank's."""
        return (self.caption,)

    @property
    def answers(self) -> Markup:
        """Return nothing: a table asks nothing."""
        return Markup()

    def html(self, view: View) -> Markup:
        """Return the table; on a phone it scrolls inside its frame."""
        return render_part("blocks/what-is-left.html.j2", block=self, view=view)


def load(fields: Fields, reader: Reader) -> WhatIsLeft:
    """Read ``caption`` and the call, and work it."""
    caption, teaching = reader.line(fields, "caption"), reader.teaching
    case = read_case(fields, teaching.trade)
    call = read_call(fields, teaching.trade, teaching.signatures, case, sound=reader.sound)
    name = reader.next_id("left")
    if call is None:
        return WhatIsLeft(name, caption, "", "", (), ())
    unit = call.signatures.space.unit.title
    return WhatIsLeft(
        name, caption, unit, call.premise.words(), tuple(_column(call, stage) for stage in call.stages), rows_of(call)
    )


def rows_of(call: Call) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return each repair with its share at every stage, of a hundred calls; what has no row of its own comes last."""
    rows = [
        (call.repair_title(repair), tuple(of_hundred(stage.shares[repair]) for stage in call.stages))
        for repair in call.repairs
    ]
    if any(of_hundred(call.others(stage)) != of_hundred(0.0) for stage in call.stages):
        rows.append((say("publish.share-others"), tuple(of_hundred(call.others(stage)) for stage in call.stages)))
    return tuple(rows)


def _column(call: Call, stage: Stage) -> Column:
    if stage.best is not None:
        title = call.signatures.check(stage.best.check).title
        following = say("publish.next-check", title=title, minutes=f"{stage.best.minutes:g}")
    else:
        following = say("publish.next-none" if not stage.settled else "publish.next-settled")
    return Column(
        stage.check or say("publish.customer-says"),
        stage.reading,
        say("publish.minutes", minutes=f"{stage.total:g}"),
        following,
    )
