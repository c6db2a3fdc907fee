"""A safety message with an ANSI Z535 signal word.

Passing::

    ```caution
    word: WARNING
    title: High voltage at the posts
    says: Keep hands and tools away while the transformer is on.
    ```

Failing: a word that is no signal word; a digit in the text that has no name.
"""

from dataclasses import dataclass
from typing import Final

from markupsafe import Markup

from courseware.content.fields import Fields
from courseware.publish.pages import render_part
from courseware.publish.prose import Prose
from courseware.publish.teaching import Reader, View
from courseware.safework.model import SIGNAL_WORDS

#: NOTICE is for what can hurt the machine, not a person (ANSI Z535.6).
WORDS: Final = (*SIGNAL_WORDS, "NOTICE")


@dataclass(frozen=True, slots=True)
class Caution:
    """One safety message: its signal word, its title, what to do and why."""

    word: str
    title: Prose
    says: Prose

    @property
    def prose(self) -> tuple[Prose, ...]:
        """Return title and message."""
        return self.title, self.says

    @property
    def answers(self) -> Markup:
        """Return nothing: a caution asks nothing."""
        return Markup()

    def html(self, view: View) -> Markup:
        """Return the safety block."""
        return render_part("blocks/caution.html.j2", block=self, view=view)


def load(fields: Fields, reader: Reader) -> Caution:
    """Read ``word``, ``title`` and ``says``."""
    return Caution(fields.choice("word", WORDS), reader.line(fields, "title"), reader.paragraphs(fields, "says"))
