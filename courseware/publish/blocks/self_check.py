"""Questions at the end of a lesson, every option explained.

Passing::

    ```self-check
    questions:
      - ask: What stops the oil on a siphon unit?
        options:
          - {says: Taking the air away, right: true, because: The air draws the oil.}
          - {says: Turning the thermostat down, because: A reset can start it again.}
    ```

Failing: no right option or several; fewer than two; an option without ``because``.
"""

from dataclasses import dataclass

from markupsafe import Markup

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.publish.pages import render_part
from courseware.publish.prose import Prose
from courseware.publish.teaching import Reader, View


@dataclass(frozen=True, slots=True)
class Option:
    """One answer to choose, whether it is right, and why."""

    says: Prose
    right: bool
    because: Prose


@dataclass(frozen=True, slots=True)
class Question:
    """One question with its options."""

    ask: Prose
    options: tuple[Option, ...]


@dataclass(frozen=True, slots=True)
class SelfCheck:
    """The questions of one self-check."""

    id: str
    questions: tuple[Question, ...]

    @property
    def prose(self) -> tuple[Prose, ...]:
        """Return questions, options and explanations."""
        return tuple(
            prose
            for question in self.questions
            for prose in (
                question.ask,
                *(part for option in question.options for part in (option.says, option.because)),
            )
        )

    @property
    def answers(self) -> Markup:
        """Return the explained answers for the end of the paper."""
        return render_part("blocks/self-check-answers.html.j2", block=self)

    def html(self, view: View) -> Markup:
        """Return the questions; on the screen each answer unfolds below its question."""
        return render_part("blocks/self-check.html.j2", block=self, view=view)


def load(fields: Fields, reader: Reader) -> SelfCheck:
    """Read ``questions``, each with ``ask`` and ``options``."""
    questions = tuple(_question(entry, reader) for entry in fields.children("questions", say("publish.a-question")))
    return SelfCheck(reader.next_id("check"), questions)


def _question(entry: Fields, reader: Reader) -> Question:
    ask = reader.line(entry, "ask")
    options = tuple(_option(option, reader) for option in entry.children("options", say("publish.an-option")))
    right = sum(option.right for option in options)
    if options and (right != 1 or len(options) == 1):
        entry.fault(
            entry.source_of("options"), say("publish.options-found", options=len(options), right=right),
            say("publish.options-allowed"),
        )  # fmt: skip
    entry.finish()
    return Question(ask, options)


def _option(entry: Fields, reader: Reader) -> Option:
    option = Option(reader.line(entry, "says"), entry.flag("right", default=False), reader.line(entry, "because"))
    entry.finish()
    return option
