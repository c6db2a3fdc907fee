"""A number as a trainee writes it: comma or point, with or without its unit; what can be read two ways is refused."""

import re
from typing import Final

from courseware.content.words import say
from courseware.physics.units import UnitError, from_si, parse, same_dimension, to_si
from courseware.quiz.form import Item
from courseware.quiz.response import ResponseError

_WRITTEN: Final = re.compile(r"(?P<sign>[-+\u2212]?)\s*(?P<digits>[0-9][0-9.,]*|[.,][0-9]+)\s*(?P<unit>[^0-9.,\s].*)?")
_MINUS: Final = ("-", "\u2212")
_PLAIN: Final = re.compile(r"[0-9]*[.,]?[0-9]*")
_GROUPS: Final = re.compile(r"[1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]*)?")
_GROUPS_BY_POINT: Final = re.compile(r"[1-9][0-9]{0,2}(?:\.[0-9]{3}){2,}|[1-9][0-9]{0,2}(?:\.[0-9]{3})+,[0-9]*")
_TWO_WAYS: Final = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")


def read_number(text: str, item: Item) -> float:
    """Read the answer to a numeric item.

    Parameters
    ----------
    text : str
        As written: ``8.5``, ``8,5 kV``, ``-0.02``, ``1,234.5``, ``8330 V``.
    item : Item
        The item it answers; its unit counts where none is written.

    Returns
    -------
    float
        The value in the item's unit [item.unit].

    Raises
    ------
    ResponseError
        If it is no number, can be read two ways (``1,600``), or is in a unit of another kind.
    """
    written = _WRITTEN.fullmatch(text.strip())
    digits = written["digits"] if written else ""
    if _TWO_WAYS.fullmatch(digits):
        thousands, decimal = digits.replace(",", ""), digits.replace(",", ".")
        raise ResponseError(
            say("quiz.two-ways", number=item.number, found=text, thousands=thousands, decimal=decimal),
            say("quiz.two-ways-try", thousands=thousands, decimal=decimal),
        )
    value = _value(digits)
    if written is None or value is None:
        unit = f" {item.unit}" if item.unit else ""
        raise ResponseError(say("quiz.no-number", number=item.number, found=text), say("quiz.no-number-try", unit=unit))
    signed = -value if written["sign"] in _MINUS else value
    return _in_unit_of(item, signed, (written["unit"] or "").strip(), text)


def number_part(text: str) -> str:
    """Return a written number without its unit, as it stands; text that is no number comes back without spaces.

    Examples
    --------
    >>> number_part("-8,5 kV")
    '-8,5'
    """
    written = _WRITTEN.fullmatch(text.strip())
    return written["sign"] + written["digits"] if written else "".join(text.split())


def _value(digits: str) -> float | None:
    if _GROUPS.fullmatch(digits):
        return float(digits.replace(",", ""))
    if _GROUPS_BY_POINT.fullmatch(digits):
        return float(digits.replace(".", "").replace(",", "."))
    if digits and _PLAIN.fullmatch(digits):
        return float(digits.replace(",", "."))
    return None


def _in_unit_of(item: Item, value: float, unit: str, text: str) -> float:
    if not unit or _plain(unit) == _plain(item.unit):
        return value
    if not item.unit:
        raise ResponseError(say("quiz.no-unit", number=item.number, found=text), say("quiz.no-unit-try"))
    try:
        (_, given), (_, asked) = parse(f"1 {unit}"), parse(f"1 {item.unit}")
        if same_dimension(given, asked):
            return from_si(to_si(value, given), asked)
    except UnitError:
        pass  # told below, like a unit of another kind
    raise ResponseError(
        say("quiz.other-unit", number=item.number, found=text, unit=item.unit),
        say("quiz.other-unit-try", unit=item.unit),
    )


def _plain(unit: str) -> str:
    """Return a unit's letters: ``kv`` and ``F`` are plain enough for kV, for °F, and for °F net."""
    return unit.casefold().replace("°", "").removesuffix(" net")
