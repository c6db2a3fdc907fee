"""Work it out: a quantity of the physics registry, its given values drawn from a grid, its value the answer."""

import itertools
import math
import random
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.heater.load import Trade
from courseware.physics.quantities import QUANTITIES, Parameter, evaluate
from courseware.physics.ranges import RangeError
from courseware.physics.units import UNITS, from_si, same_dimension, to_si, write
from courseware.quiz.form import Exhibit
from courseware.quiz.item_writing import faults_of_stem
from courseware.quiz.kinds.base import Drawn, DrawnNumber, ItemKind, Materials, Wanted
from courseware.quiz.misconceptions import Named, hold_all_or_none, named
from courseware.safework.model import SafeWork

LARGEST_GRID: Final = 20_000
_KEPT: Final = 6  # significant digits of the key: more than any instrument, fewer than rounding noise


@dataclass(frozen=True, slots=True)
class Given:
    """Values [unit] that a parameter may be given, and the decimals they are shown with."""

    parameter: Parameter
    values: tuple[float, ...]
    unit: str
    digits: int

    def show(self, value: float) -> str:
        """Return a value as the exhibit writes it."""
        return write(value, self.unit, self.digits)


@dataclass(frozen=True, slots=True)
class Slip:
    """A wrong way to work it out: with other given values, or a factor at the end; what to say to it; what it shows."""

    instead: Mapping[str, float]
    factor: float
    says: str
    misconception: Named | None


@dataclass(frozen=True, slots=True)
class Numeric:
    """A calculation to ask for.

    Attributes
    ----------
    quantity : str
        Id in the registry.
    stem : tuple of str
        Paragraphs; the last one asks.
    given : tuple of Given
        One for each parameter, in the order of the registry.
    unit : str
        Unit of the answer.
    digits : int
        Decimals [-] with which the explanation shows it.
    tolerance : float
        An answer this far off [unit] is right.
    slips : tuple of Slip
        Known wrong ways.
    """

    quantity: str
    stem: tuple[str, ...]
    given: tuple[Given, ...]
    unit: str
    digits: int
    tolerance: float
    slips: tuple[Slip, ...]

    def grid(self) -> Iterator[tuple[float, ...]]:
        """Yield every set of given values [units of the givens]."""
        return itertools.product(*(given.values for given in self.given))


def load(fields: Fields, _trade: Trade, _safework: SafeWork) -> Numeric:
    """Read ``quantity``, ``stem``, ``given``, ``answer`` and ``slips``; every corner of the grid is tried."""
    quantity = QUANTITIES.get(fields.reference("quantity", say("quiz.a-quantity"), QUANTITIES))
    stem = fields.texts("stem")
    for fault in faults_of_stem(stem):
        fields.fault(fields.source_of("stem"), fault, advice=say("quiz.writing-try"))
    given = fields.child("given")
    answer = fields.child("answer")
    if quantity is None or given is None or answer is None:
        return Numeric("", stem, (), "", 0, 0.0, ())
    unit = _unit(answer, quantity.unit)
    body = Numeric(
        quantity.id,
        stem,
        tuple(_given(given, parameter) for parameter in quantity.parameters),
        unit,
        answer.integer("digits", low=0, high=6),
        answer.number("tolerance", low=1e-4),
        tuple(
            _slip(slip, quantity.parameters) for slip in fields.children("slips", say("quiz.a-slip"), required=False)
        ),
    )
    hold_all_or_none(fields, [slip.misconception for slip in body.slips])
    given.finish()
    answer.finish()
    if not len(fields.problems):
        _try_corners(fields, body)
    return body


def _unit(fields: Fields, si_unit: str) -> str:
    unit = fields.choice("unit", UNITS)
    if unit in UNITS and not same_dimension(unit, si_unit):
        fields.fault(fields.source_of("unit"), say("quiz.wrong-dimension", unit=unit, si=si_unit))
    return unit


def _given(fields: Fields, parameter: Parameter) -> Given:
    child = fields.child(parameter.name)
    if child is None:
        return Given(parameter, (), "", 0)
    unit = _unit(child, parameter.unit)
    digits = child.integer("digits", 0, low=0, high=6)
    if child.has("value"):
        values: tuple[float, ...] = (child.number("value"),)
    else:
        low, high, step = child.number("from"), child.number("to"), child.number("step", low=1e-4)
        count = math.floor((high - low) / step + 1e-9) + 1 if step > 0 else 0
        if not 1 < count <= LARGEST_GRID:
            child.fault(child.source, say("quiz.no-range", low=low, high=high, step=step))
        values = tuple(round(low + place * step, 9) for place in range(min(max(count, 1), LARGEST_GRID)))
    child.finish()
    return Given(parameter, values, unit, digits)


def _slip(fields: Fields, parameters: tuple[Parameter, ...]) -> Slip:
    instead: dict[str, float] = {}
    child = fields.child("instead", required=False)
    for parameter in parameters if child is not None else ():
        assert child is not None
        if child.has(parameter.name):
            value = child.child(parameter.name)
            assert value is not None
            instead[parameter.name] = _si(value.number("value"), _unit(value, parameter.unit))
            value.finish()
    if child is not None:
        child.finish()
    slip = Slip(instead, fields.number("factor", 1.0), fields.text("says"), named(fields))
    fields.finish()
    return slip


def _si(value: float, unit: str) -> float:
    return to_si(value, unit) if unit in UNITS else value


def _try_corners(fields: Fields, body: Numeric) -> None:
    size = math.prod(len(given.values) for given in body.given)
    if size > LARGEST_GRID:
        fields.fault(fields.source_of("given"), say("quiz.large-grid", size=size, limit=LARGEST_GRID))
        return
    corners = itertools.product(*(sorted({given.values[0], given.values[-1]}) for given in body.given))
    for corner in corners:
        try:
            evaluate(body.quantity, _in_si(body, corner))
        except RangeError as error:
            fields.fault(fields.source_of("given"), say("quiz.out-of-range", reason=error))


def _in_si(body: Numeric, values: tuple[float, ...]) -> dict[str, float]:
    pairs = zip(body.given, values, strict=True)
    return {given.parameter.name: to_si(value, given.unit) for given, value in pairs}


def draw(body: Numeric, made_from: Materials, rng: random.Random, _wanted: Wanted) -> Drawn:
    """Draw given values, and work the answer out."""
    values = tuple(rng.choice(given.values) for given in body.given)
    in_si = _in_si(body, values)
    value = from_si(evaluate(body.quantity, in_si), body.unit)
    shown = [(given, given.show(value)) for given, value in zip(body.given, values, strict=True)]
    quantity = QUANTITIES[body.quantity]
    slips = _slips(body, in_si, value)
    written = ", ".join(f"{given.parameter.symbol} = {text}" for given, text in shown)
    return Drawn(
        identity="|".join(["numeric", body.quantity, *(text for _, text in shown)]),
        stem=body.stem,
        because=say(
            "quiz.numeric-because", given=written, formula=quantity.formula, symbol=quantity.symbol,
            value=write(value, body.unit, body.digits),
        ),
        exhibit=Exhibit(say("quiz.given-values"), tuple((_label(given), text) for given, text in shown)),
        number=DrawnNumber(
            _decimal(value),
            _decimal(body.tolerance),
            {wrong: slip.says for wrong, slip in slips.items()},
            {
                wrong: made_from.beliefs[slip.misconception.id]
                for wrong, slip in slips.items()
                if slip.misconception and slip.misconception.id in made_from.beliefs
            },
        ),
        unit=write(0.0, body.unit, 0).removeprefix("0").strip(),
    )  # fmt: skip


def _label(given: Given) -> str:
    meaning = given.parameter.meaning
    return say("quiz.given-label", meaning=meaning[:1].upper() + meaning[1:], symbol=given.parameter.symbol)


def _slips(body: Numeric, in_si: Mapping[str, float], right: float) -> dict[str, Slip]:
    """Return the wrong values that known slips lead to, where no answer could be both right and such a slip."""
    found: dict[str, Slip] = {}
    for slip in body.slips:
        try:
            value = from_si(evaluate(body.quantity, {**in_si, **slip.instead}), body.unit) * slip.factor
        except RangeError:
            continue  # the slip leads to nothing that anybody would write down
        if abs(value - right) > 2 * body.tolerance:
            found.setdefault(_decimal(value), slip)
    return found


def _decimal(value: float) -> str:
    """Return a number as decimal text of at most six significant digits, without exponent."""
    text = format(Decimal(f"{value:.{_KEPT}g}"), "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def names(body: Numeric) -> tuple[Named, ...]:
    """Return the misconceptions that the slips name."""
    return tuple(slip.misconception for slip in body.slips if slip.misconception is not None)


KIND: Final = ItemKind("numeric", load, draw, named=names)
