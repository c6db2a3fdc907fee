"""An example worked with computed numbers; its last steps may be left to the reader.

Passing::

    ```worked-example
    title: A weak spark on a weak line
    asks: Is the line or the transformer to blame?
    given:
      - {what: Line volts while it tries to light, value: "{low-line}"}
    steps:
      - work: Find the share of the rated line.
        result: "{low-share}"
      - work: Take the same share of the rated output.
        result: "{low-spark}"
        yours: true
    ```

``yours: true`` marks a step that is left to the reader. Only last steps may be (worked examples are
faded from the end: Renkl and Atkinson 2003).
"""

from dataclasses import dataclass

from markupsafe import Markup

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.publish.pages import render_part
from courseware.publish.prose import Prose
from courseware.publish.teaching import Reader, View


@dataclass(frozen=True, slots=True)
class WorkStep:
    """One step: what to do, what comes of it, and whether the reader does it."""

    work: Prose
    result: Prose
    yours: bool


@dataclass(frozen=True, slots=True)
class WorkedExample:
    """An example: what is asked, what is given, the steps."""

    id: str
    title: Prose
    asks: Prose
    given: tuple[tuple[Prose, Prose], ...]
    steps: tuple[WorkStep, ...]

    @property
    def prose(self) -> tuple[Prose, ...]:
        """Return all texts of the example."""
        given = (part for pair in self.given for part in pair)
        return (self.title, self.asks, *given, *(part for step in self.steps for part in (step.work, step.result)))

    @property
    def left(self) -> tuple[WorkStep, ...]:
        """Return the steps that are left to the reader."""
        return tuple(step for step in self.steps if step.yours)

    @property
    def answers(self) -> Markup:
        """Return the results of the steps left to the reader, for the end of the paper."""
        return render_part("blocks/worked-example-answers.html.j2", block=self) if self.left else Markup()

    def html(self, view: View) -> Markup:
        """Return the example as a bench card."""
        return render_part("blocks/worked-example.html.j2", block=self, view=view)


def load(fields: Fields, reader: Reader) -> WorkedExample:
    """Read ``title``, ``asks``, ``given`` and ``steps``."""
    title, asks = reader.line(fields, "title"), reader.paragraphs(fields, "asks")
    given = []
    for entry in fields.children("given", say("publish.a-given-value")):
        given.append((reader.line(entry, "what"), reader.line(entry, "value")))
        entry.finish()
    steps: list[WorkStep] = []
    for entry in fields.children("steps", say("publish.a-step")):
        step = WorkStep(reader.line(entry, "work"), reader.line(entry, "result"), entry.flag("yours", default=False))
        if steps and steps[-1].yours and not step.yours:
            entry.fault(entry.source, say("publish.gap-in-example"), say("publish.gap-in-example-allowed"))
        entry.finish()
        steps.append(step)
    return WorkedExample(reader.next_id("example"), title, asks, tuple(given), tuple(steps))
