"""How the readings of a call shift the blame: for each repair a row of bars, one for each stage that is shown.

Passing::

    kind: what-is-left-chart
    unit: bench-siphon
    faults: {tank-empty: 1}
    checks: [blower-turns, tank-level, strainer-bowl]
    columns: [tank-level, strainer-bowl]

The call is read as in the lesson block ``what-is-left``. ``columns`` names the checks after which the bars are drawn;
the start is drawn always. A bar is as long as the share of the calls that need the repair; repairs that never come to
much share one row. Failing: a column that is none of the checks, or more of them than there is room for.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
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


LEAST: Final = 0.1
"""A repair that never has this share [-] in a column is drawn with the others."""
MOST_COLUMNS: Final = 4
"""Columns beside the start that bars have room in [-]."""


@dataclass(frozen=True, slots=True)
class Column:
    """One stage as drawn: its number, what it says in the key, and the shares [-] by row."""

    head: str
    key: str
    shares: Mapping[str, float]


def load(fields: Fields, reader: Reader) -> Figure:
    """Read the call and its columns, work it and draw it; a fault leaves the figure empty."""
    teaching = reader.teaching
    case = read_case(fields, teaching.trade)
    call = read_call(fields, teaching.trade, teaching.signatures, case, sound=reader.sound)
    wanted = fields.texts("columns")
    made = [] if call is None else [check.id for check in call.checks]
    for name in wanted:
        if call is not None:
            fields.refer(fields.source_of("columns"), "columns", "check", name, made)
    if len(wanted) > MOST_COLUMNS:
        found = say("publish.many-columns", count=len(wanted))
        fields.fault(fields.source_of("columns"), found, say("publish.many-columns-allowed", most=MOST_COLUMNS))
    places = [0, *(made.index(name) + 1 for name in wanted if name in made)]
    return Figure.nothing() if call is None or len(places) <= len(wanted) else _figure(call, places)


def _figure(call: Call, places: Sequence[int]) -> Figure:
    kept = [one for one in call.repairs if max(call.stages[place].shares[one] for place in places) >= LEAST]
    titles = [*map(call.repair_title, kept), say("publish.share-others")]
    columns = [_column(call, kept, number, place) for number, place in enumerate(places)]
    rows = tuple((title, *(of_hundred(column.shares[title]) for column in columns)) for title in titles)
    told = [say("publish.left-chart-stage", head=column.key, shares=", ".join(_leading(column))) for column in columns]
    top = KEY * (len(columns) - 1) + HEAD + GAP
    shapes = [*_key([column.key for column in columns[1:]]), *_bars(titles, columns, top)]
    return Figure(
        say("publish.left-chart-title", stages="; ".join(told)),
        top + ROW * len(rows) + GAP,
        joined(shapes),
        Table((say("publish.repair"), *(column.key for column in columns)), rows),
    )


def _column(call: Call, kept: Sequence[str], number: int, place: int) -> Column:
    stage = call.stages[place]
    shares = {call.repair_title(one): stage.shares[one] for one in kept}
    shares[say("publish.share-others")] = max(1.0 - sum(shares.values()), 0.0)
    if place == 0:
        return Column(say("publish.left-chart-start"), say("publish.left-chart-start"), shares)
    key = "publish.left-chart-key-one" if place == 1 else "publish.left-chart-key"
    named = say("publish.left-chart-reading", check=stage.check, reading=stage.reading)
    reading = named if call.checks[place - 1].unit else stage.reading  # what is seen says itself what was looked at
    words = say(key, number=number, count=place, reading=reading)
    return Column(str(number), words, shares)


def _leading(column: Column) -> list[str]:
    """Return the three rows with the largest shares of a column, in words."""
    largest = sorted(column.shares.items(), key=lambda one: -one[1])[:3]
    return [f"{title} {of_hundred(share)}" for title, share in largest if share > 0]


def _key(columns: Sequence[str]) -> list[Markup]:
    """Return what was done up to each column, one line each, in letters small enough for the width."""
    return [text(2, KEY * place + 16, words, size=_size(words)) for place, words in enumerate(columns)]


def _size(words: str) -> float:
    return min(SMALL, (WIDTH - 4) / (NARROW * len(words)))


def _bars(titles: Sequence[str], columns: Sequence[Column], top: float) -> list[Markup]:
    width = (WIDTH - 4) / len(columns)
    longest = width - GAP - 2.5 * SMALL  # room for the number at the end of the longest bar
    largest = max(share for column in columns for share in column.shares.values())
    shapes = [text(2 + width * place, top - GAP, column.head, bold=True) for place, column in enumerate(columns)]
    for row, title in enumerate(titles):
        y = top + ROW * row
        shapes += [line(0, y, WIDTH, y, "grid"), text(2, y + 15, title, size=_size(title))]
        for place, column in enumerate(columns):
            x, share = 2 + width * place, column.shares[title]
            length = share / largest * longest
            shapes += [rectangle(x, y + 22, length, 13), text(x + length + 3, y + 33, of_hundred(share), size=SMALL)]
    return shapes
