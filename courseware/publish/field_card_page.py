"""A field card filled in for one unit: a page, and one letter sheet to print on both sides and fold."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import inf, isinf, isnan
from typing import Final

from courseware.content.words import say
from courseware.heater.checks import Check
from courseware.heater.faults import Change
from courseware.heater.load import Trade
from courseware.heater.readings import band_of, decimals, edge, true_values
from courseware.heater.simulate import Run, simulate
from courseware.heater.unit import Unit
from courseware.physics.units import from_si, to_si, write
from courseware.publish.assets import static_text
from courseware.publish.field_card import Emergency, FieldCard, filled, lines_on
from courseware.publish.pages import Imprint, render
from courseware.safework.model import SIGNAL_WORDS, SafeWork
from courseware.safework.work import steps_on

#: What stands beside a customary unit, and with how many decimals [-].
_BESIDE: Final[Mapping[str, tuple[str, int]]] = {
    "psig": ("kPa", 0), "in": ("mm", 1), "degF": ("degC", 0), "inWC": ("Pa", 0), "inHg": ("kPa", 0), "gph": ("L/h", 1),
    "degF-net": ("degC-net", 0),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class CardSheet:
    """Everything that the card of one unit shows.

    Attributes
    ----------
    title, unit, review : str
        What the card and the unit are called, and the card's review status in words.
    sequence : tuple of str
        The sequence of operation, with the unit's times.
    readings : tuple of (str, str)
        Each check, and what a unit in order reads.
    lockout, back : tuple of str
        Steps up to the proof that the unit is dead, and the steps after it.
    rules : tuple of (str, tuple of str)
        Signal word and its rules, the gravest first.
    emergency : tuple of Emergency
        As in the document.
    blanks : tuple of str
        What a telephone number is written beside.
    """

    title: str
    unit: str
    review: str
    sequence: tuple[str, ...]
    readings: tuple[tuple[str, str], ...]
    lockout: tuple[str, ...]
    back: tuple[str, ...]
    rules: tuple[tuple[str, tuple[str, ...]], ...]
    emergency: tuple[Emergency, ...]
    blanks: tuple[str, ...]


def card_sheet(card: FieldCard, unit: Unit, trade: Trade, safework: SafeWork) -> CardSheet:
    """Fill a card in for a unit: times and bands are the unit's, steps and rules those of the bank."""
    procedure = safework.procedures[card.procedure]
    steps = [step.id for step in steps_on(procedure, unit)]
    titles = [safework.actions[step.action].title for step in steps_on(procedure, unit)]
    first = steps.index(card.until) + 1
    return CardSheet(
        title=card.title,
        unit=unit.title,
        review=card.provenance.status(),
        sequence=tuple(filled(line.says, unit) for line in lines_on(card, unit)),
        readings=tuple(_readings(unit, [trade.checks[name] for name in card.readings])),
        lockout=tuple(titles[:first]),
        back=tuple(titles[first:]),
        rules=tuple(_rules(safework, card.rules)),
        emergency=card.emergency,
        blanks=card.blanks,
    )


def field_card_page(sheet: CardSheet, imprint: Imprint, *, root: str = "") -> str:
    """Return the card as a web page; ``root`` is the way to the folder of the stylesheet."""
    return _render(sheet, imprint, root=root, paper=False)


def field_card_paper(sheet: CardSheet, imprint: Imprint) -> str:
    """Return the card as the page that its PDF is made from: two sides of a letter sheet, two panels each."""
    return _render(sheet, imprint, root="", paper=True)


def _render(sheet: CardSheet, imprint: Imprint, *, root: str, paper: bool) -> str:
    title = say("publish_card.title", card=sheet.title, unit=sheet.unit)
    style = static_text("field_card.css")
    return render("field_card.html.j2", imprint, sheet=sheet, title=title, style=style, root=root, paper=paper)


def _rules(safework: SafeWork, names: Sequence[str]) -> Iterator[tuple[str, tuple[str, ...]]]:
    rules = [safework.rules[name] for name in names]
    for word in SIGNAL_WORDS:
        of_it = tuple(rule.title for rule in rules if rule.signal_word == word)
        if of_it:
            yield word, of_it


def _readings(unit: Unit, checks: Sequence[Check]) -> Iterator[tuple[str, str]]:
    """Yield the reading of a unit in order for each check that it has; checks that arrange it alike share a run."""
    made: list[tuple[tuple[Change, ...], Run]] = []
    for check in (one for one in checks if one.applies_to(unit)):
        run = next((run for changes, run in made if changes == check.changes), None)
        if run is None:
            run = simulate(unit, [()], check.changes)
            made.append((check.changes, run))
        value = float(true_values(unit, check, run)[0])
        if not isnan(value):
            yield check.title, _in_order(unit, check, value)


def _in_order(unit: Unit, check: Check, value: float) -> str:
    """Return the band that a reading [unit of the check] lies in, in words."""
    band = band_of(unit, check, round(value / check.resolution))
    if not check.unit:
        return band.says
    low = edge(unit, check, band.low, missing=-inf) * check.resolution
    high = (edge(unit, check, band.high, missing=inf) - 1) * check.resolution  # the band ends one step below its edge
    key = "at-most" if isinf(low) else "at-least" if isinf(high) else "from-to"
    digits = decimals(check.resolution)
    ends = {"low": write(low, "", digits) if key == "from-to" else "", "high": ""}
    if not isinf(high):
        ends["high"] = write(high, check.unit, digits)
    if key == "at-least":
        ends["low"] = write(low, check.unit, digits)
    text = say(f"publish_card.{key}", **ends)
    return _with_si(text, check.unit, low, high)


def _with_si(text: str, measured_in: str, low: float, high: float) -> str:
    if measured_in not in _BESIDE:
        return text
    beside, digits = _BESIDE[measured_in]
    ends = [from_si(to_si(end, measured_in), beside) for end in (low, high) if not isinf(end)]
    first = [write(end, "", digits) for end in ends[:-1]]
    said = say("publish_card.range").join([*first, write(ends[-1], beside, digits)])
    return say("publish_card.beside", value=text, beside=said)
