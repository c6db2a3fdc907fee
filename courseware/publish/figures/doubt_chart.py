"""What each next check is expected to tell, for each minute it takes: one bar a check, the best first.

Passing::

    kind: doubt-chart
    unit: bench-siphon
    faults: {tank-empty: 1}
    checks: [blower-turns]
    compare: [tank-level, strainer-bowl]

The call is read as in the lesson block ``what-is-left``, and stands where its ``checks`` have brought it. The doubt is
the entropy of the repairs needed; a check takes away its expected information (see :mod:`courseware.diagnosis.gain`).
Failing: a check to compare that the unit has nothing for or that is made already.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.publish.calls import read_call
from courseware.publish.figures.base import WIDTH, Figure, Table, joined, line, rectangle, text
from courseware.publish.numbers import read_case
from courseware.publish.teaching import Reader

ROW: Final = 42.0
SIZE: Final = 14.0
ROOM: Final = 100.0
"""Width [user units] kept for the number at the end of the longest bar."""


@dataclass(frozen=True, slots=True)
class Bar:
    """One check: its words, the share of the doubt it takes away [%], and the same for a minute [%/min]."""

    title: str
    minutes: str
    percent: float
    per_minute: float


def load(fields: Fields, reader: Reader) -> Figure:
    """Read the call and the checks to compare; a fault leaves the figure empty."""
    teaching = reader.teaching
    case = read_case(fields, teaching.trade)
    call = read_call(fields, teaching.trade, teaching.signatures, case, sound=reader.sound)
    names = fields.references("compare", "check", teaching.trade.checks)
    if call is None:
        return Figure.nothing()
    stage = call.stages[-1]
    found = {gain.check: gain for gain in stage.gains}
    for name in names:
        if name in teaching.trade.checks and name not in found:
            unit = call.signatures.space.unit.id
            fields.fault(fields.source_of("compare"), say("publish.check-not-left", check=name, unit=unit))
    bars = [
        Bar(
            call.signatures.check(name).title,
            f"{found[name].minutes:g}",
            100 * found[name].bits / stage.doubt,
            100 * found[name].per_minute / stage.doubt,
        )
        for name in names
        if name in found and stage.doubt > 0
    ]
    return _figure(sorted(bars, key=lambda bar: -bar.per_minute)) if bars else Figure.nothing()


def _figure(bars: Sequence[Bar]) -> Figure:
    told = [
        say("publish.doubt-bar", title=bar.title, percent=f"{bar.percent:.0f}", minutes=bar.minutes) for bar in bars
    ]
    rows = tuple(
        (
            say("publish.doubt-row", title=bar.title, minutes=bar.minutes),
            f"{bar.percent:.0f} %",
            say("publish.doubt-per-minute", percent=f"{bar.per_minute:.1f}"),
        )
        for bar in bars
    )
    longest = max(bar.per_minute for bar in bars)
    shapes = []
    for place, (bar, row) in enumerate(zip(bars, rows, strict=True)):
        y, length = ROW * place, bar.per_minute / longest * (WIDTH - ROOM)
        shapes += [
            text(8, y + 16, f"{row[0]}: {row[1]}", size=SIZE),
            rectangle(2, y + 22, length, 14),
            text(length + 8, y + 34, row[2], size=SIZE),
        ]
    foot = ROW * len(bars)
    shapes += [line(2, 0, 2, foot), text(2, foot + 18, say("publish.doubt-axis"), size=SIZE)]
    head = (say("publish.check"), say("publish.doubt-head"), say("publish.doubt-minute-head"))
    return Figure(say("publish.doubt-title", bars="; ".join(told)), foot + 26, joined(shapes), Table(head, rows))
