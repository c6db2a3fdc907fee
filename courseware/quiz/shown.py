"""What forms have shown already, so that a form in the place of a leaked one asks something else."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Final

from courseware.quiz.fit import ORDERING, SEVERAL
from courseware.quiz.form import Exhibit, Form, Item, Key
from courseware.quiz.kinds.base import Drawn

Question = tuple[tuple[str, ...], Exhibit | None, tuple[str, ...]]
"""A question as a reader would know it again: what it asks, what it gives to read, and all that is judged one by one.

That is the steps to be put in order, or the options of which every one that applies is chosen.
"""


@dataclass(frozen=True, slots=True)
class Shown:
    """Questions that are known outside, and the templates that they were drawn from."""

    templates: frozenset[str] = field(default_factory=frozenset)
    questions: frozenset[Question] = field(default_factory=frozenset)

    def has(self, drawn: Drawn) -> bool:
        """Say whether a question has been shown."""
        judged = [one.text for one in drawn.options] if drawn.pairs or drawn.several else ()
        return _question(drawn.stem, drawn.exhibit, judged) in self.questions


NOTHING: Final = Shown()


def shown_by(forms: Iterable[tuple[Form, Key]]) -> Shown:
    """Return what some forms show."""
    pairs = tuple(forms)
    return Shown(
        frozenset(entry.template for _, key in pairs for entry in key.entries),
        frozenset(_of_item(item) for form, _ in pairs for item in form.items),
    )


def repeated(form: Form, shown: Shown) -> tuple[int, ...]:
    """Return the numbers of the items of a form that have been shown."""
    return tuple(item.number for item in form.items if _of_item(item) in shown.questions)


def _of_item(item: Item) -> Question:
    judged = [one.text for one in item.options] if item.kind in (ORDERING, SEVERAL) else ()
    return _question(item.stem, item.exhibit, judged)


def _question(stem: tuple[str, ...], exhibit: Exhibit | None, judged: Sequence[str]) -> Question:
    return stem, exhibit, tuple(sorted(judged))
