"""Never-rules shown from the data: signal word, rule and reason, so that a lesson cannot word them otherwise.

Passing::

    ```never-rules
    rules: [fuel-with-false-flame, reset-again]
    ```

Failing: a rule that the bank does not have.
"""

from dataclasses import dataclass

from markupsafe import Markup

from courseware.content.fields import Fields
from courseware.publish.pages import render_part
from courseware.publish.prose import Prose
from courseware.publish.teaching import Reader, View
from courseware.safework.model import SIGNAL_WORDS, Rule


@dataclass(frozen=True, slots=True)
class NeverRules:
    """Rules, gravest first."""

    rules: tuple[Rule, ...]

    @property
    def prose(self) -> tuple[Prose, ...]:
        """Return nothing: the words are the bank's, which has its own tests."""
        return ()

    @property
    def answers(self) -> Markup:
        """Return nothing: rules ask nothing."""
        return Markup()

    def html(self, view: View) -> Markup:
        """Return the list of rules."""
        return render_part("blocks/never-rules.html.j2", block=self, view=view)


def load(fields: Fields, reader: Reader) -> NeverRules:
    """Read ``rules``, a list of rule ids."""
    known = reader.teaching.safework.rules
    found = [known[name] for name in fields.references("rules", "rule", known) if name in known]
    return NeverRules(tuple(sorted(found, key=lambda rule: SIGNAL_WORDS.index(rule.signal_word))))
