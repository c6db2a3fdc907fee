"""The catalogue of misconceptions: what a trainee believes who gives a certain wrong answer.

A wrong option that an author writes names one by id. A wrong option that is drawn from data gets one by the relation in
which it stands to what is right: the catalogue says which misconception a relation shows. Naming them lets a trainee
hear what to unlearn, and a trainer see which belief a class shares.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from courseware.content.documents import Document
from courseware.content.fields import Fields
from courseware.content.problems import Problems
from courseware.content.provenance import Provenance, read_provenance
from courseware.content.source import Source
from courseware.content.words import say
from courseware.quiz.form import Belief

RELATIONS: Final[Mapping[str, str]] = {
    "complaint-ignored": "the customer's own words rule the repair out",
    "feed-not-checked": "what feeds the blamed part is what failed",
    "cleared-part-changed": "a reading on the sheet finds the blamed part sound",
    "symptom-alone": "the complaint alone makes it likely, and a reading rules it out",
    "reading-overlooked": "it would be likely without one of the readings",
    "minutes-not-counted": "the check tells something, and little for its minutes",
    "known-already": "the check would read the same for every repair that is left",
    "settled-too-early": "another repair explains the readings too",
    "held-open": "a reading rules out a repair that is held open",
    "other-rules-danger": "the danger is that of another rule",
    "taken-too-low": "the reading is taken for a lower one than it is",
    "taken-too-high": "the reading is taken for a higher one than it is",
    "would-not-show": "the fault would not show what is found",
    "would-show-too": "a fault that would show it as well is left out",
    "step-left-out": "a step that has to come first is left out",
    "step-too-early": "a step that has to come later is put first",
    "wrong-power-state": "the check is made in the other state of the power",
}
"""How a drawn wrong option stands to what is right, by the word that the catalogue uses."""


@dataclass(frozen=True, slots=True)
class Misconception:
    """One entry of the catalogue.

    Attributes
    ----------
    id, believes, instead, lesson : str
        As in :class:`~courseware.quiz.form.Belief`.
    relation : str
        The relation of a drawn wrong option that shows it; empty if only authors name it.
    provenance : Provenance
        Origin and review.
    """

    id: str
    believes: str
    instead: str
    lesson: str
    relation: str
    provenance: Provenance

    @property
    def belief(self) -> Belief:
        """Return what a form's key keeps of it."""
        return Belief(self.id, self.believes, self.instead, self.lesson)


def read_misconceptions(documents: Iterable[Document], problems: Problems) -> tuple[Misconception, ...]:
    """Read the catalogue from its documents; two entries for one relation are a fault."""
    found = tuple(one for document in documents for one in _entries(document, problems))
    first: dict[str, Misconception] = {}
    for one in found:
        known = first.setdefault(one.relation, one)
        if one.relation and known is not one:
            problems.add(
                one.provenance.source,
                where_of(one),
                say("quiz.relation-twice", relation=one.relation, other=known.id, at=known.provenance.source),
                advice=say("quiz.relation-twice-try"),
            )
    return found


def _entries(document: Document, problems: Problems) -> Iterator[Misconception]:
    top = document.fields("", problems)
    for fields in top.children("misconceptions", say("quiz.a-misconception")):
        yield Misconception(
            fields.identifier(),
            fields.text("believes"),
            fields.text("instead"),
            fields.text("lesson"),
            fields.choice("relation", RELATIONS, ""),
            read_provenance(fields),
        )
        fields.finish()
    top.finish()


def where_of(misconception: Misconception) -> str:
    """Return how messages call an entry of the catalogue."""
    return f"{say('quiz.a-misconception')} '{misconception.id}'"


@dataclass(frozen=True, slots=True)
class Named:
    """A misconception that a template names: its id, and where."""

    id: str
    source: Source


def named(fields: Fields) -> Named | None:
    """Read the optional key ``misconception`` of a wrong answer; whether it exists is held when all is loaded."""
    found = fields.text("misconception", "")
    return Named(found, fields.source_of("misconception")) if found else None


def hold_all_or_none(fields: Fields, wrong: Iterable[Named | None]) -> None:
    """Report an item that names the misconception behind some of its wrong answers and not behind others."""
    told = [one is not None for one in wrong]
    if any(told) and not all(told):
        fields.fault(
            fields.source,
            say("quiz.some-unnamed", count=told.count(False), all=len(told)),
            advice=say("quiz.some-unnamed-try"),
        )
