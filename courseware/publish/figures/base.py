"""What every figure kind makes, and the few shapes it is drawn with.

A shape carries its light colours as attributes, for paper, and a class, by which the stylesheet of the
screen gives it the colours of day or night. Nothing is told by colour alone.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from markupsafe import Markup

#: Width [user units] of every figure: with this, letters stay readable on a phone 360 px wide.
WIDTH: Final = 400.0
INK: Final = "#1c1f22"
GRID: Final = "#d8cfba"
BAND: Final = "#f5f0e2"


@dataclass(frozen=True, slots=True)
class Table:
    """The figure's data as text: the alternative for who cannot see it."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawn figure.

    Attributes
    ----------
    title : str
        What it shows, in one sentence.
    height : float
        Height [user units]; the width is :data:`WIDTH`.
    shapes : Markup
        The content of its SVG element.
    table : Table
        The same data as a table.
    """

    title: str
    height: float
    shapes: Markup
    table: Table

    @classmethod
    def nothing(cls) -> "Figure":
        """Return the stand-in for a figure that could not be read."""
        return cls("", 1.0, Markup(), Table((), ()))


def number(value: float) -> str:
    """Return a coordinate with one decimal, so that the same figure gives the same bytes everywhere."""
    return f"{round(value, 1) + 0.0:g}"


def rectangle(x: float, y: float, width: float, height: float, kind: str = "bar") -> Markup:
    """Return a filled box: ``bar`` for what is on, ``band`` for a stretch of time or range behind it."""
    fill = INK if kind == "bar" else BAND
    return Markup('<rect class="fig-{}" x="{}" y="{}" width="{}" height="{}" fill="{}"/>').format(
        kind, number(x), number(y), number(width), number(height), fill
    )


def line(x1: float, y1: float, x2: float, y2: float, kind: str = "axis") -> Markup:
    """Return a straight line: ``axis``, ``grid`` or ``limit`` (dashed)."""
    stroke, dashes = (GRID, "") if kind == "grid" else (INK, ' stroke-dasharray="6 4"' if kind == "limit" else "")
    return Markup('<line class="fig-{}" x1="{}" y1="{}" x2="{}" y2="{}" stroke="{}" stroke-width="1.5"{}/>').format(
        kind, number(x1), number(y1), number(x2), number(y2), stroke, Markup(dashes)  # noqa: S704 - one of two constants
    )  # fmt: skip


def curve(points: Sequence[tuple[float, float]]) -> Markup:
    """Return a line through points."""
    path = " ".join(f"{number(x)},{number(y)}" for x, y in points)
    return Markup('<polyline class="fig-curve" points="{}" fill="none" stroke="{}" stroke-width="2.5"/>').format(
        path, INK
    )


def dot(x: float, y: float) -> Markup:
    """Return a marked point."""
    return Markup('<circle class="fig-dot" cx="{}" cy="{}" r="4.5" fill="{}"/>').format(number(x), number(y), INK)


def text(  # noqa: PLR0913 - a place, the words, and how they lie
    x: float, y: float, words: str, *, anchor: str = "start", size: float = 15.0, bold: bool = False
) -> Markup:
    """Return words; ``anchor`` is start, middle or end, ``size`` [user units]."""
    weight = Markup(' font-weight="700"') if bold else ""
    place = Markup('x="{}" y="{}" text-anchor="{}" font-size="{}"').format(number(x), number(y), anchor, number(size))
    return Markup('<text class="fig-text" {} font-family="Course Sans" fill="{}"{}>{}</text>').format(
        place, INK, weight, words
    )


def joined(shapes: Sequence[Markup]) -> Markup:
    """Return the shapes in drawing order."""
    return Markup("\n").join(shapes)
