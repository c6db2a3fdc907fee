"""A formula of the registry drawn along one of its parameters, with marked points and a limit.

Passing::

    kind: quantity-curve
    quantity: transformer-secondary-voltage
    along: {parameter: line_voltage, from: 90 V, to: 125 V, unit: V, step: 10}
    given: {rated_line_voltage: 120 V, rated_secondary_voltage: 10 kV}
    unit: kV
    step: 1
    marks:
      - {at: 100 V, says: weak line}
    limit: {value: 9 kV, says: least for a spark}

``step`` is the distance between two figures on an axis, in the axis's unit. ``limit`` may be left out.
Failing: a parameter that the quantity does not have; a measure of another kind; a range outside the formula's.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np
from markupsafe import Markup

from courseware.content.fields import Fields
from courseware.content.problems import listed, nearest
from courseware.content.words import say
from courseware.physics.quantities import QUANTITIES
from courseware.physics.units import from_si, same_dimension, show, write
from courseware.publish.figures.base import WIDTH, Figure, Table, curve, dot, joined, line, text
from courseware.publish.numbers import measure
from courseware.publish.teaching import Reader

LEFT, RIGHT, TOP, BOTTOM = 52.0, 14.0, 28.0, 46.0
HEIGHT: Final = 270.0
POINTS: Final = 60
SMALLEST_STEP: Final = 1e-6
MOST_DIGITS: Final = 6


@dataclass(frozen=True, slots=True)
class Axis:
    """One axis: its unit, its ends [unit] and the distance [unit] between its figures."""

    title: str
    unit: str
    low: float
    high: float
    step: float

    def ticks(self) -> tuple[float, ...]:
        """Return the figures on the axis [unit]."""
        first = math.ceil(self.low / self.step - 1e-9)
        last = math.floor(self.high / self.step + 1e-9)
        return tuple(place * self.step for place in range(first, last + 1))

    @property
    def digits(self) -> int:
        """Return how many decimals [-] the figures on the axis need; points along it are written with as many."""
        return next((n for n in range(MOST_DIGITS) if math.isclose(round(self.step, n), self.step)), MOST_DIGITS)

    @property
    def read_to(self) -> int:
        """Return how many decimals [-] a point of the curve is read to: one at least."""
        return max(1, self.digits)

    def along(self, value: float, start: float, end: float) -> float:
        """Return where a value [unit] lies between two coordinates."""
        return start + (value - self.low) / (self.high - self.low) * (end - start)


@dataclass(frozen=True, slots=True)
class Chart:
    """A curve [SI, SI] with marked points [SI, SI, words] and a level [SI, words] across it."""

    x: Axis
    y: Axis
    points: Sequence[tuple[float, float]]
    marked: Sequence[tuple[float, float, str]]
    level: tuple[float, str] | None

    def figure(self) -> Figure:
        """Return the drawing with its title and its table."""
        rows = [
            (says, show(x, self.x.unit, self.x.digits), show(y, self.y.unit, self.y.read_to))
            for x, y, says in self.marked
        ]
        if self.level is not None:
            rows.append((self.level[1], "", show(self.level[0], self.y.unit, self.y.read_to)))
        points = "; ".join(f"{says}: {', '.join(filter(None, values))}" for says, *values in rows)
        title = say("publish.curve-title", quantity=self.y.title, along=self.x.title, points=points)
        return Figure(
            title, HEIGHT, self._shapes(), Table((say("publish.point"), self.x.title, self.y.title), tuple(rows))
        )

    def _place(self, x: float, y: float) -> tuple[float, float]:
        """Return the coordinates of a point [SI, SI]."""
        across = self.x.along(from_si(x, self.x.unit), LEFT, WIDTH - RIGHT)
        return across, self.y.along(from_si(y, self.y.unit), HEIGHT - BOTTOM, TOP)

    def _shapes(self) -> Markup:
        shapes = self._grid()
        if self.level is not None:
            height = self._place(self.points[0][0], self.level[0])[1]
            shapes.append(line(LEFT, height, WIDTH - RIGHT, height, "limit"))
            shapes.append(text(LEFT + 6, height - 6, self.level[1]))
        shapes.append(curve([self._place(*point) for point in self.points]))
        for x, y, says in self.marked:
            across, up = self._place(x, y)
            words = f"{says}: {show(y, self.y.unit, self.y.read_to)}"
            # right of the middle the words go to the left of the dot, and on the side where the curve is not
            late = across > WIDTH / 2
            beside, anchor = (across - 9, "end") if late else (across + 9, "start")
            height = up - 7 if late != self._falls(x) else up + 16
            shapes += [dot(across, up), text(beside, height, words, anchor=anchor, bold=True)]
        return joined(shapes)

    def _falls(self, x: float) -> bool:
        """Say whether the curve goes down at a point [SI]."""
        ahead = (y2 < y1 for (_, y1), (x2, y2) in pairwise(self.points) if x2 >= x)
        return next(ahead, self.points[-1][1] < self.points[-2][1])

    def _grid(self) -> list[Markup]:
        right, bottom = WIDTH - RIGHT, HEIGHT - BOTTOM
        shapes = []
        for tick in self.x.ticks():
            x = self.x.along(tick, LEFT, right)
            shapes += [
                line(x, TOP, x, bottom, "grid"),
                text(x, bottom + 18, write(tick, "", self.x.digits), anchor="middle"),
            ]
        for tick in self.y.ticks():
            y = self.y.along(tick, bottom, TOP)
            shapes += [
                line(LEFT, y, right, y, "grid"),
                text(LEFT - 7, y + 4.5, write(tick, "", self.y.digits), anchor="end"),
            ]
        shapes += [line(LEFT, bottom, right, bottom), line(LEFT, TOP, LEFT, bottom)]
        shapes.append(text((LEFT + right) / 2, HEIGHT - 8, f"{self.x.title}, {self.x.unit}", anchor="middle"))
        shapes.append(text(4, 12, self.y.unit, bold=True))
        return shapes


def load(fields: Fields, reader: Reader) -> Figure:
    """Read the figure and draw it; a fault leaves it empty."""
    before = len(reader.problems)
    quantity = QUANTITIES.get(fields.reference("quantity", "quantity", QUANTITIES))
    along, given, limit = fields.child("along"), fields.child("given"), fields.child("limit", required=False)
    marks = list(fields.children("marks", say("publish.a-mark"), required=False))
    unit, step = fields.text("unit"), fields.number("step", low=SMALLEST_STEP)
    if quantity is None or along is None or given is None:
        return Figure.nothing()
    kinds = {parameter.name: parameter.unit for parameter in quantity.parameters}
    name = along.choice("parameter", kinds)
    ends = _measure(along, "from", kinds.get(name)), _measure(along, "to", kinds.get(name))
    x_unit, x_step = along.text("unit"), along.number("step", low=SMALLEST_STEP)
    rest = _rest(given, {key: kind for key, kind in kinds.items() if key != name})
    wanted = [(_measure(mark, "at", kinds.get(name)), mark.text("says")) for mark in marks]
    level = (_measure(limit, "value", quantity.unit), limit.text("says")) if limit else None
    for entry in (along, given, *marks, *([limit] if limit else [])):
        entry.finish()
    if len(reader.problems) > before:
        return Figure.nothing()

    def of(at: float) -> float:
        return float(quantity.function(**rest, **{name: at}))

    try:
        points = [(float(at), of(float(at))) for at in np.linspace(*ends, POINTS)]
        marked = [(at, of(at), says) for at, says in wanted]
    except ValueError as error:
        fields.fault(fields.source_of("along"), str(error), advice=say("publish.out-of-range-try"))
        return Figure.nothing()
    heights = [from_si(y, unit) for y in [y for _, y in points] + ([level[0]] if level else [])]
    low, high = math.floor(min(heights) / step) * step, math.ceil(max(heights) / step) * step
    meaning = next(parameter.meaning for parameter in quantity.parameters if parameter.name == name)
    x_axis = Axis(meaning, x_unit, from_si(ends[0], x_unit), from_si(ends[1], x_unit), x_step)
    return Chart(x_axis, Axis(quantity.title, unit, low, high, step), points, marked, level).figure()


def _measure(entry: Fields, key: str, kind: str | None) -> float:
    words = entry.text(key)
    try:
        value, unit = measure(words)
    except ValueError as error:
        if words:
            entry.fault(entry.source_of(key), str(error), say("publish.a-measure"))
        return 0.0
    if kind is not None and not same_dimension(unit, kind):
        entry.fault(
            entry.source_of(key),
            say("publish.not-given", key=key, found=words),
            say("publish.a-given", unit=kind or "%"),
        )
    return value


def _rest(given: Fields, kinds: Mapping[str, str]) -> dict[str, float]:
    """Read the parameters that stay as they are [SI]."""
    for name in given.entries().keys() - kinds.keys():
        given.fault(
            given.source_of(name), say("publish.unknown-parameter", key=name), listed(kinds), nearest(name, kinds)
        )
    return {name: _measure(given, name, kind) for name, kind in kinds.items()}
