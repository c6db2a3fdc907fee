"""A figure drawn from the data it shows, with its table as the text alternative.

Passing::

    ```figure
    kind: sequence-chart
    caption: A healthy start
    ...                     # the rest is read by the figure kind
    ```

The kinds are those of :mod:`courseware.publish.figures`.
"""

from dataclasses import dataclass

from markupsafe import Markup

from courseware.content.fields import Fields
from courseware.publish.figures import FIGURE_KINDS
from courseware.publish.figures.base import Figure
from courseware.publish.pages import render_part
from courseware.publish.prose import Prose
from courseware.publish.teaching import Reader, View


@dataclass(frozen=True, slots=True)
class FigureBlock:
    """One figure: its id on the page, its caption, and what the figure kind drew."""

    id: str
    caption: Prose
    reads: Prose
    figure: Figure

    @property
    def prose(self) -> tuple[Prose, ...]:
        """Return the caption and what to see in the figure."""
        return self.caption, self.reads

    @property
    def answers(self) -> Markup:
        """Return nothing: a figure asks nothing."""
        return Markup()

    def html(self, view: View) -> Markup:
        """Return the figure with its table."""
        return render_part("blocks/figure.html.j2", block=self, view=view)


def load(fields: Fields, reader: Reader) -> FigureBlock:
    """Read ``kind``, ``caption``, ``reads`` (what to see in it) and what the kind itself needs."""
    kind = fields.choice("kind", FIGURE_KINDS)
    caption, reads = reader.line(fields, "caption"), reader.paragraphs(fields, "reads")
    figure = FIGURE_KINDS[kind](fields, reader) if kind in FIGURE_KINDS else None
    if figure is None:
        fields.entries()  # what the rest of the keys mean is unknown: one report is enough
    return FigureBlock(reader.next_id("figure"), caption, reads, figure or Figure.nothing())
