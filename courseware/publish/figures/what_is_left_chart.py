"""How the readings of a call shift the blame: for each repair a row of bars, one for each stage of the call.

Passing::

    kind: what-is-left-chart
    unit: bench-siphon
    faults: {tank-empty: 1}
    checks: [blower-turns, tank-level]

The call is read as in the lesson block ``what-is-left``. A bar is as long as the share of the calls that need the
repair.
"""

from typing import Final

from markupsafe import Markup

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.publish.calls import Call, of_hundred, read_call
from courseware.publish.figures.base import WIDTH, Figure, Table, joined, line, rectangle, text
from courseware.publish.numbers import read_case
from courseware.publish.teaching import Reader

KEY: Final = 21.0
HEAD: Final = 24.0
ROW: Final = 42.0
GAP: Final = 8.0
SMALL: Final = 13.5
NARROW: Final = 0.5
"""Mean width of a letter, of its height [-]."""


def load(fields: Fields, reader: Reader) -> Figure:
    """Read the call, work it and draw it; a fault leaves the figure empty."""
    teaching = reader.teaching
    case = read_case(fields, teaching.trade)
    call = read_call(fields, teaching.trade, teaching.signatures, case, sound=reader.sound)
    return Figure.nothing() if call is None else _figure(call)


def _figure(call: Call) -> Figure:
    heads = [say("publish.left-chart-start"), *(str(place) for place in range(1, len(call.stages)))]
    columns = [
        say("publish.left-chart-key", number=head, check=f"{stage.check}, {stage.reading}") if stage.check else head
        for head, stage in zip(heads, call.stages, strict=True)
    ]
    rows = tuple(
        (call.repair_title(repair), *(of_hundred(stage.shares[repair]) for stage in call.stages))
        for repair in call.repairs
    )
    told = [
        say(
            "publish.left-chart-stage",
            head=column,
            shares=", ".join(
                f"{call.repair_title(one)} {of_hundred(stage.shares[one])}" for one in _leading(call, place)
            ),
        )
        for place, (column, stage) in enumerate(zip(columns, call.stages, strict=True))
    ]
    title = say("publish.left-chart-title", stages="; ".join(told))
    top = KEY * (len(columns) - 1) + HEAD + GAP
    height = top + ROW * len(rows) + GAP
    shapes = [*_key(columns[1:]), *_bars(call, heads, top)]
    return Figure(title, height, joined(shapes), Table((say("publish.repair"), *columns), rows))


def _leading(call: Call, place: int) -> list[str]:
    """Return the three repairs with the largest shares at a stage."""
    shares = call.stages[place].shares
    return sorted((one for one in call.repairs if shares[one] > 0), key=lambda one: -shares[one])[:3]


def _key(columns: list[str]) -> list[Markup]:
    """Return what was done at each stage, one line each, in letters small enough for the width."""
    return [text(2, KEY * place + 16, words, size=_size(words)) for place, words in enumerate(columns)]


def _size(words: str) -> float:
    return min(SMALL, (WIDTH - 4) / (NARROW * len(words)))


def _bars(call: Call, heads: list[str], top: float) -> list[Markup]:
    width = (WIDTH - 4) / len(heads)
    longest = width - GAP - 2.5 * SMALL  # room for the number at the end of the longest bar
    shapes = [text(2 + width * place, top - GAP, head, bold=True) for place, head in enumerate(heads)]
    largest = max(stage.shares[repair] for stage in call.stages for repair in call.repairs)
    for row, repair in enumerate(call.repairs):
        y = top + ROW * row
        words = call.repair_title(repair)
        shapes += [line(0, y, WIDTH, y, "grid"), text(2, y + 15, words, size=_size(words))]
        for place, stage in enumerate(call.stages):
            x, share = 2 + width * place, stage.shares[repair]
            length = share / largest * longest
            shapes += [rectangle(x, y + 22, length, 13), text(x + length + 3, y + 33, of_hundred(share), size=SMALL)]
    return shapes
