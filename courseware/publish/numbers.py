"""The numbers of a lesson: each computed from the physics, read from a unit or the model, or cited.

The front matter names them::

    numbers:
      low-line: {value: 100 V, origin: the case that this lesson tells}
      low-spark:
        quantity: transformer-secondary-voltage
        given: {line_voltage: low-line, rated_line_voltage: 120 V, rated_secondary_voltage: 10 kV}
        show: {kV: 2}

      left: {call: left, unit: bay-siphon, faults: {transformer-open: 1}, checks: [blower-turns]}

A ``given`` is a measure or the name of a number above it. ``show`` and ``also`` name a unit and the
decimals to write; ``also`` puts SI beside the customary unit.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from courseware.content.fields import Fields
from courseware.content.problems import listed, nearest
from courseware.content.source import Source
from courseware.content.tree import Scalar
from courseware.content.words import say
from courseware.diagnosis.reasons import STANDING
from courseware.diagnosis.signatures import Signatures
from courseware.heater.load import Trade
from courseware.heater.readings import shown, true_values
from courseware.heater.simulate import Case, simulate
from courseware.heater.unit import Unit
from courseware.physics.quantities import QUANTITIES, Quantity, evaluate
from courseware.physics.units import UNITS, parse, same_dimension, show, to_si
from courseware.publish.calls import Call, of_hundred, read_call
from courseware.publish.teaching import Teaching

_FRACTION: Final = re.compile(r"(\d+)/(\d+) (.+)")


@dataclass(frozen=True, slots=True)
class Number:
    """One named number.

    Attributes
    ----------
    name : str
        How the text calls it.
    text : str
        How it is written: number and unit, SI beside where the author asked for it.
    value : float or None
        The value [SI]; None where it is no quantity, such as the number of a rule.
    unit : str or None
        A unit of the same kind; None where there is no value.
    how : str
        How it was computed, or where it was read, for the table at the lesson's end.
    source : Source
        Where it is written.
    """

    name: str
    text: str
    value: float | None
    unit: str | None
    how: str
    source: Source


def measure(text: str) -> tuple[float, str]:
    """Return the SI value and the unit of a measure such as ``8.3 kV`` or ``1/8 in``.

    Raises
    ------
    ValueError
        If the text is not a number and a known unit.
    """
    fraction = _FRACTION.fullmatch(text)
    if fraction:
        return to_si(int(fraction[1]) / int(fraction[2]), fraction[3]), fraction[3]
    value, unit = parse(text)
    return to_si(value, unit), unit


def read_numbers(fields: Fields, teaching: Teaching, *, sound: bool) -> dict[str, Number]:
    """Read the ``numbers`` of a lesson, in order, so that one may stand on those above it.

    Parameters
    ----------
    fields : Fields
        The lesson's front matter.
    teaching : Teaching
        The units and checks that numbers may be read from.
    sound : bool
        False if the bank has faults: then nothing is simulated.

    Returns
    -------
    dict of name to Number
        In the author's order; a number with a fault is in it, with its name as text.
    """
    found: dict[str, Number] = {}
    listing = fields.child("numbers", required=False)
    for name, node in (listing.entries() if listing else {}).items():
        entry = Fields(node, f"{fields.where}, number '{name}'", fields.problems)
        kinds = [kind for kind in NUMBER_KINDS if entry.has(kind)]
        if len(kinds) != 1:
            for key in entry.entries():
                entry.node(key)
            entry.fault(
                node.source,
                say("publish.number-kind", found=listed(kinds) or say("publish.nothing-of-these")),
                listed(NUMBER_KINDS),
            )
            found[name] = Number(name, name, None, None, "", node.source)
            continue
        text, value, unit, how = NUMBER_KINDS[kinds[0]](entry, Bank(teaching.trade, teaching.signatures, sound), found)
        entry.finish()
        found[name] = Number(name, text or name, value, unit, how, node.source)
    return found


@dataclass(frozen=True, slots=True)
class Bank:
    """What numbers are read from, and whether it is sound enough to simulate."""

    trade: Trade
    signatures: Callable[[str], Signatures]
    sound: bool


Made = tuple[str, float | None, str | None, str]
"""Text, SI value, unit and explanation of a number; a fault leaves the text empty."""


def _cited(entry: Fields, _bank: Bank, _above: Mapping[str, Number]) -> Made:
    text, origin = entry.text("value"), entry.text("origin")
    try:
        value, unit = measure(text)
    except ValueError as error:
        entry.fault(entry.source_of("value"), str(error), say("publish.a-measure"))
        return _beside(entry, None, None), None, None, origin
    return _tied(text.replace("-", "\N{MINUS SIGN}")) + _beside(entry, value, unit), value, unit, origin


def _text(entry: Fields, _bank: Bank, _above: Mapping[str, Number]) -> Made:
    return _tied(entry.text("text")), None, None, entry.text("origin")


def _computed(entry: Fields, _bank: Bank, above: Mapping[str, Number]) -> Made:
    name = entry.reference("quantity", "quantity", QUANTITIES)
    quantity = QUANTITIES.get(name)
    if quantity is None:
        entry.child("given")
        return _written(entry, None, None), None, None, ""
    given = _given(entry, quantity, above)
    how = say("publish.computed", title=quantity.title, formula=quantity.formula, origin=quantity.origin)
    value = None
    if len(given) == len(quantity.parameters):
        try:
            value = evaluate(name, given)
        except ValueError as error:
            entry.fault(entry.source_of("given"), str(error), advice=say("publish.out-of-range-try"))
    return _written(entry, value, quantity.unit), value, quantity.unit, how


def _given(entry: Fields, quantity: Quantity, above: Mapping[str, Number]) -> dict[str, float]:
    """Read what the quantity is computed from; a parameter with a fault is left out."""
    listing = entry.child("given")
    nodes = listing.entries() if listing else {}
    parameters = {parameter.name: parameter for parameter in quantity.parameters}
    for name in nodes.keys() - parameters.keys():
        entry.fault(
            nodes[name].source,
            say("publish.unknown-parameter", key=name),
            listed(parameters),
            nearest(name, parameters),
        )
    for name in parameters.keys() - nodes.keys():
        entry.fault(entry.source_of("given"), say("publish.missing-parameter", key=name), listed(parameters))
    found = {}
    for name in parameters.keys() & nodes.keys():
        node, unit = nodes[name], parameters[name].unit
        text = str(node.value) if isinstance(node, Scalar) else ""
        value = _measure_of(text, unit, above)
        if value is None:
            entry.fault(
                node.source, say("publish.not-given", key=name, found=text), say("publish.a-given", unit=unit or "%"),
                nearest(text, above),
            )  # fmt: skip
        else:
            found[name] = value
    return found


def _measure_of(text: str, unit: str, above: Mapping[str, Number]) -> float | None:
    """Return a measure, or the value of a number above, if it is of the wanted kind [SI of unit]."""
    if text in above:
        number = above[text]
        return number.value if number.unit is not None and same_dimension(number.unit, unit) else None
    try:
        value, found = measure(text)
    except ValueError:
        return None
    return value if same_dimension(found, unit) else None


def _setting(entry: Fields, bank: Bank, _above: Mapping[str, Number]) -> Made:
    unit = _unit(entry, bank.trade)
    where = entry.text("setting")
    settings = {
        f"{part.id}.{one.name}": (part.settings[one.name], one.unit, one.meaning)
        for part in (unit.parts if unit else ())
        for one in part.behaviour.settings
    }
    if unit is None or where not in settings:
        if unit:
            same = [known for known in settings if known.startswith(where.partition(".")[0] + ".")] or list(settings)
            found = say("publish.no-setting", unit=unit.id, found=where)
            entry.fault(entry.source_of("setting"), found, listed(same), nearest(where, settings))
        return _written(entry, None, None), None, None, ""
    value, kind, meaning = settings[where]
    how = say("publish.from-unit", unit=unit.title, what=meaning)
    return _written(entry, value, kind), value, kind, how


def _limit(entry: Fields, bank: Bank, _above: Mapping[str, Number]) -> Made:
    unit = _unit(entry, bank.trade)
    limits = unit.limits if unit else {}
    name = entry.reference("limit", "limit", limits) if unit else entry.text("limit")
    value = limits.get(name)
    how = say("publish.limit-of-unit", unit=unit.title if unit else "", what=name)
    return _written(entry, value, None), value, None, how


def _reading(entry: Fields, bank: Bank, _above: Mapping[str, Number]) -> Made:
    unit = _unit(entry, bank.trade)
    name = entry.reference("reading", "check", bank.trade.checks)
    case = read_case(entry, bank.trade)
    check = bank.trade.checks.get(name)
    if unit is None or check is None or case is None or not bank.sound:
        return "", None, None, ""
    if not check.applies_to(unit):
        entry.fault(entry.source_of("reading"), say("publish.check-not-on-unit", check=name, unit=unit.id))
        return "", None, None, ""
    value = float(true_values(unit, check, simulate(unit, [case], check.changes))[0])
    how = say("publish.from-model", check=check.title, unit=unit.title, case=case_words(case))
    return _tied(shown(unit, check, None if value != value else value)), None, None, how  # noqa: PLR0124 - nan: nothing to read


def _call(entry: Fields, bank: Bank, _above: Mapping[str, Number]) -> Made:
    tell = entry.choice("call", CALL_NUMBERS)
    repair = entry.reference("repair", "repair", bank.trade.repairs) if tell == "share" else ""
    case = read_case(entry, bank.trade)
    call = read_call(entry, bank.trade, bank.signatures, case, sound=bank.sound)
    if call is None or case is None or tell not in CALL_NUMBERS or repair not in {"", *call.signatures.space.repairs}:
        return "", None, None, ""
    made = say("publish.list-joint").join(stage.check for stage in call.stages[1:]) or say("publish.no-check")
    how = say("publish.from-call", unit=call.signatures.space.unit.title, case=case_words(case), checks=made)
    return _tied(CALL_NUMBERS[tell](call, repair)), None, None, how


CALL_NUMBERS: Final[Mapping[str, Callable[[Call, str], str]]] = {
    "left": lambda call, _: str(sum(share > STANDING for share in call.stages[-1].shares.values())),
    "minutes": lambda call, _: say("publish.minutes", minutes=f"{call.stages[-1].total:g}"),
    "share": lambda call, repair: say("publish.share", count=of_hundred(call.stages[-1].shares[repair])),
    "all-checks": lambda call, _: str(len(call.signatures.checks)),
    "all-minutes": lambda call, _: say(
        "publish.minutes", minutes=f"{sum(check.minutes for check in call.signatures.checks):g}"
    ),
}
"""What a lesson may tell of a call: the repairs left, the minutes so far, the share of a repair; of all checks of the
unit, how many there are and how long they take together."""


def read_case(fields: Fields, trade: Trade) -> Case | None:
    """Read the optional key ``faults: {fault id: severity}``; None, with a problem, if one is not sound."""
    listing = fields.child("faults", required=False)
    if listing is None:
        return ()
    before, found = len(fields.problems), []
    for name, node in listing.entries().items():
        listing.refer(node.source, "faults", "fault", name, trade.faults)
        severity = listing.number(name, low=0.0, high=1.0)
        if name in trade.faults:
            found.append((trade.faults[name], severity))
    return tuple(found) if len(fields.problems) == before else None


def case_words(case: Case) -> str:
    """Return a case in words: the titles of its faults, or that nothing is wrong."""
    return "; ".join(fault.title for fault, _ in case) or say("publish.healthy")


def _unit(entry: Fields, trade: Trade) -> Unit | None:
    return trade.units.get(entry.reference("unit", "unit", trade.units))


def _written(entry: Fields, value: float | None, kind: str | None) -> str:
    """Return the value [SI of kind] as ``show`` and ``also`` ask; kind None: any unit will do."""
    unit, digits = _unit_and_digits(entry, "show", kind, required=True)
    beside = _beside(entry, value, kind)
    return "" if value is None or unit is None else _tied(show(value, unit, digits)) + beside


def _beside(entry: Fields, value: float | None, kind: str | None) -> str:
    unit, digits = _unit_and_digits(entry, "also", kind, required=False)
    return "" if value is None or unit is None else f" ({_tied(show(value, unit, digits))})"


def _unit_and_digits(entry: Fields, key: str, kind: str | None, *, required: bool) -> tuple[str | None, int]:
    listing = entry.child(key, required=required)
    if listing is None:
        return None, 0
    units = list(listing.entries())
    if len(units) != 1:
        entry.fault(entry.source_of(key), say("publish.one-unit", key=key), say("publish.one-unit-allowed"))
        return None, 0
    digits = listing.integer(units[0], low=0, high=4)
    allowed = [unit for unit in UNITS if kind is None or same_dimension(unit, kind)]
    if units[0] in allowed:
        return units[0], digits
    listing.fault(listing.source_of(units[0]), say("publish.wrong-unit", found=units[0]), listed(allowed))
    return None, 0


def _tied(text: str) -> str:
    """Keep number and unit on one line; a reading in words may break."""
    return text.replace(" ", "\N{NO-BREAK SPACE}") if text.lstrip("\N{MINUS SIGN}")[:1].isdigit() else text


NUMBER_KINDS: Final[Mapping[str, Callable[[Fields, Bank, Mapping[str, Number]], Made]]] = {
    "value": _cited,
    "text": _text,
    "quantity": _computed,
    "setting": _setting,
    "limit": _limit,
    "reading": _reading,
    "call": _call,
}
"""Where a number may come from; the key in the front matter decides."""
