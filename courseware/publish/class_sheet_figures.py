"""Bars for the class sheet: shares of one, each with its words and its value, and a mark where the cut is.

A bar is told by its length, its words and its value, never by its colour; the sheet's tables hold the same numbers.
"""

import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from markupsafe import Markup

from courseware.content.words import say
from courseware.publish.figures.base import WIDTH, Figure, Table, joined, line, rectangle, text

#: Bars of one figure [-]: so many names stay on one sheet of paper.
MOST_BARS: Final = 30
RIGHT: Final = 90.0
HEAD: Final = 26.0
FOOT: Final = 24.0
THICK: Final = 14.0
LETTERS: Final = 15.0
LINE: Final = 18.0
CHARACTERS: Final = 50
SIDE: Final = 150.0
SIDE_CHARACTERS: Final = 20


@dataclass(frozen=True, slots=True)
class Bar:
    """One bar: its words, its share of one [-], its value in words, and whether its words stand out."""

    words: str
    share: float
    says: str
    bold: bool = False


@dataclass(frozen=True, slots=True)
class Cut:
    """A mark across every bar: where it lies as a share of one [-], and its words."""

    share: float
    words: str


def bars(title: str, rows: Sequence[Bar], cut: Cut | None = None, *, beside: bool = False) -> Figure:
    """Return bars from nought to one hundred percent.

    Parameters
    ----------
    title : str
        What the figure shows, in one sentence.
    rows : sequence of Bar
        From top to bottom.
    cut : Cut, optional
        Marked on every bar.
    beside : bool
        Whether the words stand beside the bar, cut short where they are long, or above it in as many lines as it takes.
    """
    left = SIDE if beside else 4.0
    top = HEAD if cut else 6.0
    shapes: list[Markup] = []
    if cut:
        shapes.append(text(_across(cut.share, left), 15, cut.words, anchor="middle", size=LETTERS))
    for row in rows:
        lines = [] if beside else textwrap.wrap(row.words, CHARACTERS)
        shapes += [text(left, top + LINE * (place + 1) - 3, words, size=LETTERS, bold=row.bold)
                   for place, words in enumerate(lines)]  # fmt: skip
        top += LINE * len(lines) + (0 if beside else 3)
        shapes += _bar(row, left, top, cut)
        if beside:
            words = textwrap.shorten(row.words, SIDE_CHARACTERS, placeholder="…")
            shapes.append(text(left - 8, top + THICK - 2, words, anchor="end", size=LETTERS, bold=row.bold))
        top += THICK + 6
    shapes += _scale(left, top)
    return Figure(title, top + FOOT, joined(shapes), Table((), ()))


def pages_of(rows: Sequence[Bar]) -> Iterator[Sequence[Bar]]:
    """Yield the rows in runs that fit a sheet of paper."""
    for start in range(0, len(rows), MOST_BARS):
        yield rows[start : start + MOST_BARS]


def _across(share: float, left: float) -> float:
    return left + share * (WIDTH - RIGHT - left)


def _bar(row: Bar, left: float, top: float, cut: Cut | None) -> Iterator[Markup]:
    yield rectangle(left, top, WIDTH - RIGHT - left, THICK, "band")
    yield rectangle(left, top, _across(row.share, left) - left, THICK)
    yield text(WIDTH - RIGHT + 6, top + THICK - 2, row.says, size=LETTERS, bold=row.bold)
    if cut:  # longer than the bar is thick, so that it shows on a dark one too
        yield line(_across(cut.share, left), top - 3, _across(cut.share, left), top + THICK + 3)


def _scale(left: float, top: float) -> Iterator[Markup]:
    yield line(left, top, WIDTH - RIGHT, top)
    for percent in (0, 50, 100):
        x = _across(percent / 100, left)
        yield line(x, top, x, top + 4)
        anchor = {0: "start", 50: "middle", 100: "end"}[percent]
        yield text(x, top + 17, say("publish_class.percent", percent=percent), anchor=anchor, size=LETTERS)
