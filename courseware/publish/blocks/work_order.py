"""A call as it reaches the technician: the work order with the customer's words and what was found.

Passing::

    ```work-order
    customer: Tri-County Fleet
    unit: bench-siphon
    complaint: no-heat
    says: The red light is on again.
    found: Fan runs, no flame, control locked out.
    ```

``complaint`` is the id of a complaint in the bank, ``unit`` that of a unit profile; both are shown by title.
"""

from dataclasses import dataclass

from markupsafe import Markup

from courseware.content.fields import Fields
from courseware.publish.pages import render_part
from courseware.publish.prose import Prose
from courseware.publish.teaching import Reader, View


@dataclass(frozen=True, slots=True)
class WorkOrder:
    """One call: who, which unit, what the customer says, what the technician finds."""

    customer: Prose
    unit: str
    complaint: str
    says: Prose
    found: Prose

    @property
    def prose(self) -> tuple[Prose, ...]:
        """Return the customer's words and the findings."""
        return self.says, self.found

    @property
    def answers(self) -> Markup:
        """Return nothing: a work order asks nothing."""
        return Markup()

    def html(self, view: View) -> Markup:
        """Return the work order."""
        return render_part("blocks/work-order.html.j2", block=self, view=view)


def load(fields: Fields, reader: Reader) -> WorkOrder:
    """Read customer, unit, complaint, the customer's words and the findings."""
    trade = reader.teaching.trade
    complaints = {complaint.id: complaint.title for complaint in trade.complaints}
    unit = trade.units.get(fields.reference("unit", "unit", trade.units))
    complaint = fields.reference("complaint", "complaint", complaints)
    return WorkOrder(
        reader.line(fields, "customer"), unit.title if unit else "", complaints.get(complaint, ""),
        reader.paragraphs(fields, "says"), reader.paragraphs(fields, "found"),
    )  # fmt: skip
