"""What customers say, and which repairs can end it, from the model: repairs down by complaint, units across.

Passing::

    ```complaints-table
    caption: What the customer says, and what may be behind it
    units: [bench-siphon, bench-metered]
    ```

Every fault of the bank is put on each unit in each of its grades, alone, and the complaint that the model
tells is looked up. A complaint that no unit brings is left out. Failing: a unit that the bank does not have.
"""

from dataclasses import dataclass

from markupsafe import Markup

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.heater.load import Trade
from courseware.heater.readings import complaint_of
from courseware.heater.simulate import Case, simulate
from courseware.heater.unit import Unit
from courseware.publish.pages import render_part
from courseware.publish.prose import Prose
from courseware.publish.teaching import Reader, View


@dataclass(frozen=True, slots=True)
class Group:
    """One complaint: the customer's words, and the repairs that may end it, each with yes or no for each unit."""

    complaint: str
    says: str
    repairs: tuple[tuple[str, tuple[bool, ...]], ...]


@dataclass(frozen=True, slots=True)
class ComplaintsTable:
    """The whole table: the units across, one group of rows a complaint."""

    id: str
    caption: Prose
    units: tuple[str, ...]
    groups: tuple[Group, ...]

    @property
    def prose(self) -> tuple[Prose, ...]:
        """Return the caption; the words of complaints and repairs are the bank's."""
        return (self.caption,)

    @property
    def answers(self) -> Markup:
        """Return nothing: a table asks nothing."""
        return Markup()

    def html(self, view: View) -> Markup:
        """Return the table; on a phone it scrolls inside its frame."""
        return render_part("blocks/complaints-table.html.j2", block=self, view=view)


def load(fields: Fields, reader: Reader) -> ComplaintsTable:
    """Read ``caption`` and ``units``, and take the complaints from the model."""
    trade = reader.teaching.trade
    caption = reader.line(fields, "caption")
    units = [trade.units[name] for name in fields.references("units", "unit", trade.units) if name in trade.units]
    told = [_told(unit, trade) for unit in units] if reader.sound else []
    groups = []
    for complaint in trade.complaints:
        behind = [found.get(complaint.id, frozenset()) for found in told]
        titles = [say("publish.healthy"), *(repair.title for repair in trade.repairs.values())]
        marks = [(title, tuple(title in found for found in behind)) for title in titles]
        groups.append(Group(complaint.id, complaint.says, tuple(row for row in marks if any(row[1]))))
    shown = tuple(group for group in groups if group.repairs)
    return ComplaintsTable(reader.next_id("complaints"), caption, tuple(unit.title for unit in units), shown)


def _told(unit: Unit, trade: Trade) -> dict[str, frozenset[str]]:
    """Return the repairs behind each complaint that the unit brings; behind no fault, that nothing is wrong."""
    faults = [fault for fault in trade.faults.values() if fault.applies_to(unit)]
    cases: list[Case] = [(), *(((fault, grade),) for fault in faults for grade in fault.severities)]
    complaints = complaint_of(unit, trade.complaints, simulate(unit, cases))
    titles = [trade.repairs[case[0][0].repair].title if case else say("publish.healthy") for case in cases]
    pairs = list(zip(complaints, titles, strict=True))
    return {complaint: frozenset(title for other, title in pairs if other == complaint) for complaint in complaints}
