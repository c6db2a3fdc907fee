"""Amounts in documents: a number and a unit, as a technician writes them, kept in SI."""

from courseware.content.fields import Fields
from courseware.content.problems import shown
from courseware.content.tree import Scalar, describe
from courseware.content.words import say
from courseware.heater.parts.base import Setting
from courseware.physics import units


def read_amount(fields: Fields, key: str, unit: str, default: float | None = None) -> float:
    """Read an amount such as ``0.14 in`` or ``10 psig``; a plain number where the SI unit is empty.

    Parameters
    ----------
    fields : Fields
        The mapping that has the key.
    key : str
        Its name.
    unit : str
        SI unit of what it measures; empty for a plain number.
    default : float | None
        Value [unit] where the key is missing; None: it is required.

    Returns
    -------
    float
        The amount [unit]; a stand-in if it was faulty.
    """
    stand_in = default if default is not None else 0.0
    node = fields.node(key, required=default is None)
    if node is None:
        return stand_in
    allowed = say("content.a-number") if not unit else say("heater.amount-allowed", example=f"1 {unit}")
    if not isinstance(node, Scalar) or isinstance(node.value, bool) or not isinstance(node.value, str | int | float):
        fields.fault(node.source, say("content.wrong-type", key=key, found=describe(node)), allowed)
        return stand_in
    if isinstance(node.value, int | float):
        if unit:
            fields.fault(node.source, say("heater.amount-bare", key=key, found=node.written), allowed)
        return float(node.value)
    found = _read(node.value, unit)
    if isinstance(found, float):
        return found
    fields.fault(node.source, say(found, key=key, found=shown(node.value)), allowed)
    return stand_in


def read_measured(fields: Fields, key: str) -> tuple[float, str]:
    """Read an amount of any kind; return it in SI, with the unit it was written in."""
    node = fields.node(key)
    if isinstance(node, Scalar) and isinstance(node.value, int | float) and not isinstance(node.value, bool):
        return float(node.value), ""
    try:
        value, unit = units.parse(fields.text(key))
    except units.UnitError:
        allowed = say("heater.amount-allowed", example="108 V")
        fields.fault(
            fields.source_of(key), say("heater.amount-unreadable", key=key, found=shown(fields.text(key))), allowed
        )
        return 0.0, ""
    return units.to_si(value, unit), unit


def _read(text: str, unit: str) -> float | str:
    """Return the amount in SI, or the key of the message that says what is wrong with it."""
    try:
        value, written = units.parse(text)
    except units.UnitError:
        return "heater.amount-unreadable"
    if not units.same_dimension(written, unit):
        return "heater.amount-wrong-kind"
    return units.to_si(value, written)


def hold_amount(fields: Fields, key: str, found: float, setting: Setting) -> None:
    """Record a fault if the amount under a key lies outside the range of the setting it is for."""
    if not setting.low <= found <= setting.high:
        low, high, wrong = (plain(value, setting.unit) for value in (setting.low, setting.high, found))
        fields.fault(
            fields.source_of(key), say("heater.amount-out-of-range", key=key, found=wrong),
            say("content.range-between", low=low, high=high),
        )  # fmt: skip


def plain(value: float, unit: str) -> str:
    """Return an amount with its unit as a document would have it: ``0.004 m``."""
    return f"{value:.6g} {unit}".strip()
