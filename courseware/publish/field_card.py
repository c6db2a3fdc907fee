"""Field cards as content: what a trainee on a ride-along has in the pocket, one document, filled in for each unit.

The document chooses and orders; the numbers come from the unit. In a line of the sequence, ``{control.trial s}`` stands
for a setting of the unit, in that unit of measure. Passing::

    format: courseware/field-card/1
    id: ride-along
    title: Field card
    sequence:
      - {state: trial, says: "Trial: spark and oil. Flame within {control.trial s}."}
    readings: [line-voltage]
    procedure: {id: lockout, until: proved}
    rules: [hands-in-live-unit]
    emergency:
      - {title: Fire, says: [Leave. Call 911.]}
    blanks: [Technical desk]
    origin: common practice, no source

Failing: a setting that a unit lacks, or in a measure of another kind; a digit in a line of the sequence that is not so
filled in; a state that a healthy start of the unit does not come to, or in another order.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from courseware.content.documents import Document, unique_ids
from courseware.content.fields import Fields
from courseware.content.problems import Problems, listed, nearest
from courseware.content.provenance import Provenance, read_provenance
from courseware.content.source import Source
from courseware.content.words import say
from courseware.heater.job import check_only_on, read_only_on
from courseware.heater.load import Trade
from courseware.heater.simulate import simulate, timeline
from courseware.heater.unit import Unit
from courseware.physics.units import UNITS, same_dimension, show
from courseware.safework.model import SafeWork

FIELD_CARD_KINDS: Final = ("field-card",)
_VALUE: Final = re.compile(r"\{([a-z0-9_]+)\.([a-z0-9_]+) ([^{} ]+)\}")


@dataclass(frozen=True, slots=True)
class CardLine:
    """A line of the sequence: the control's state it belongs to (or none), its words, the units that have it."""

    state: str
    says: str
    only_on: Mapping[str, str]
    source: Source


@dataclass(frozen=True, slots=True)
class Emergency:
    """What to do when it has gone wrong: a title, and a line for each thing to do."""

    title: str
    says: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FieldCard:
    """A field card, before it is filled in for a unit.

    Attributes
    ----------
    id, title : str
        Name in the data, and what it is called.
    sequence : tuple of CardLine
        The sequence of operation, in order.
    readings : tuple of str
        Ids of the checks, in the order in which they are made.
    procedure, until : str
        Id of the lockout procedure, and of the step that ends its first part.
    rules : tuple of str
        Ids of the never-rules to show.
    emergency : tuple of Emergency
        In the order of the card.
    blanks : tuple of str
        What the company writes a telephone number beside.
    provenance : Provenance
        Origin and review.
    source : Source
        Where it is written.
    """

    id: str
    title: str
    sequence: tuple[CardLine, ...]
    readings: tuple[str, ...]
    procedure: str
    until: str
    rules: tuple[str, ...]
    emergency: tuple[Emergency, ...]
    blanks: tuple[str, ...]
    provenance: Provenance
    source: Source


def load_field_cards(
    documents: Iterable[Document], trade: Trade, safework: SafeWork, problems: Problems
) -> tuple[FieldCard, ...]:
    """Read every field card, and hold it to each unit it is made for.

    Parameters
    ----------
    documents : iterable of Document
        Of any kind; those of :data:`FIELD_CARD_KINDS` are read.
    trade : Trade
        Units and checks.
    safework : SafeWork
        Procedures and rules.
    problems : Problems
        Receives every fault found.
    """
    sound = not problems  # a start can only be simulated of units that are
    cards = []
    for document in documents:
        if document.kind in FIELD_CARD_KINDS:
            fields = document.fields(say("publish_card.kind"), problems)
            card = _card(fields, trade, safework)
            cards.append(card)
            for unit in trade.units.values() if sound else ():
                _hold_to_unit(fields, card, unit)
    unique_ids(((say("publish_card.kind"), card.id, card.source) for card in cards), problems)
    return tuple(cards)


def filled(text: str, unit: Unit) -> str:
    """Return a line with the unit's own values in place of ``{part.setting unit}``."""
    return _VALUE.sub(lambda found: _value(unit, *found.groups()), text)


def lines_on(card: FieldCard, unit: Unit) -> tuple[CardLine, ...]:
    """Return the lines of the sequence that a unit has."""
    return tuple(line for line in card.sequence if unit.fits(line.only_on))


def _value(unit: Unit, part: str, name: str, measured_in: str) -> str:
    value = unit.setting(part, name)
    assert value is not None, f"{part}.{name}"  # loading has held the card to the unit
    return show(value, measured_in, 0)


def _card(fields: Fields, trade: Trade, safework: SafeWork) -> FieldCard:
    procedure = fields.child("procedure")
    procedure_id = procedure.reference("id", "procedure", safework.procedures) if procedure else ""
    known = safework.procedures.get(procedure_id)
    until = procedure.reference("until", "step", {step.id for step in known.steps}) if procedure and known else ""
    if procedure:
        procedure.finish() if known else procedure.entries()
    card = FieldCard(
        id=fields.identifier(),
        title=fields.text("title"),
        sequence=tuple(_line(one, trade) for one in fields.children("sequence", say("publish_card.a-line"))),
        readings=fields.references("readings", "check", trade.checks),
        procedure=procedure_id,
        until=until,
        rules=fields.references("rules", "rule", safework.rules),
        emergency=tuple(_emergency(one) for one in fields.children("emergency", say("publish_card.an-emergency"))),
        blanks=fields.texts("blanks"),
        provenance=read_provenance(fields),
        source=fields.source,
    )
    fields.finish()
    return card


def _line(fields: Fields, trade: Trade) -> CardLine:
    line = CardLine(fields.text("state", ""), fields.text("says"), read_only_on(fields), fields.source)
    check_only_on(line.only_on, trade.units, line.source, fields.where, fields.problems)
    if re.search(r"\d", _VALUE.sub("", line.says)):
        fields.fault(fields.source_of("says"), say("publish_card.digit"), advice=say("publish_card.digit-try"))
    fields.finish()
    return line


def _emergency(fields: Fields) -> Emergency:
    entry = Emergency(fields.text("title"), fields.texts("says"))
    fields.finish()
    return entry


def _hold_to_unit(fields: Fields, card: FieldCard, unit: Unit) -> None:
    """Hold every value to the unit, and the order of states to a healthy start of it."""
    passed = [state for _, state in timeline(simulate(unit, [()]))]
    still_to_come = iter(passed)
    for line in lines_on(card, unit):
        for part, name, measured_in in _VALUE.findall(line.says):
            _hold_value(fields, line, unit, (part, name, measured_in))
        if line.state and line.state not in still_to_come:  # looking for it leaves what comes after it
            states = ", ".join(passed)
            found = say("publish_card.not-in-order", unit=unit.id, state=line.state, states=states)
            fields.fault(line.source, found)


def _hold_value(fields: Fields, line: CardLine, unit: Unit, value: tuple[str, str, str]) -> None:
    part, name, measured_in = value
    kinds = {f"{one.id}.{setting.name}": setting.unit for one in unit.parts for setting in one.behaviour.settings}
    full = f"{part}.{name}"
    if full not in kinds:
        same = {known for known in kinds if known.startswith(f"{part}.")} or {one.id for one in unit.parts}
        found = say("publish_card.no-setting", unit=unit.id, name=full)
        fields.fault(line.source, found, listed(same), nearest(full, kinds))
    elif measured_in not in UNITS or not same_dimension(measured_in, kinds[full]):
        fields.fault(line.source, say("publish_card.wrong-measure", name=full, unit=measured_in))
