"""The question bank: objectives, item templates and blueprints, as loaded."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from courseware.content.provenance import Provenance
from courseware.content.source import Source
from courseware.quiz.form import PassRule
from courseware.quiz.kinds import ITEM_KINDS
from courseware.quiz.kinds.base import ItemKind
from courseware.quiz.misconceptions import Misconception


@dataclass(frozen=True, slots=True)
class Objective:
    """What a trainee can do afterwards.

    Attributes
    ----------
    id, title : str
        Name in the data, and what the trainee can do, in words.
    lesson : str
        Where it is taught: ``lesson#section``.
    provenance : Provenance
        Origin and review.
    """

    id: str
    title: str
    lesson: str
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class Template:
    """Something that questions are drawn from.

    Attributes
    ----------
    id, kind : str
        Name in the data; key of ``ITEM_KINDS``.
    pool : str
        ``practice`` or ``graded``.
    objective : str
        Id of what it asks about.
    points, minutes : int
        Points for a right answer [-]; time to allow [min].
    lesson : str
        Lesson and section to read again, where the kind names none of its own.
    body : Any
        The kind's own part, made by its ``load``.
    provenance : Provenance
        Origin and review.
    """

    id: str
    kind: str
    pool: str
    objective: str
    points: int
    minutes: int
    lesson: str
    body: Any
    provenance: Provenance

    @property
    def behaviour(self) -> ItemKind:
        """Return the kind itself."""
        return ITEM_KINDS[self.kind]

    def claims(self) -> frozenset[str] | None:
        """Return the identities that belong to the pool because the template lists them; None: it lists none."""
        claims = self.behaviour.claims
        return None if claims is None else claims(self.body)


@dataclass(frozen=True, slots=True)
class Draw:
    """How many items of a form come from some templates, in turn."""

    templates: tuple[str, ...]
    items: int


@dataclass(frozen=True, slots=True)
class Blueprint:
    """What a form is made of and when it is passed.

    Attributes
    ----------
    id, title : str
        Name in the data, and what the form is called.
    pool : str
        ``graded``: drawn under the company's secret; ``practice``: anybody may draw it.
    instructions : tuple of str
        Paragraphs shown before the first item.
    rule : PassRule
        When it is passed.
    draws : tuple of Draw
        In the order of the form.
    provenance : Provenance
        Origin and review.
    """

    id: str
    title: str
    pool: str
    instructions: tuple[str, ...]
    rule: PassRule
    draws: tuple[Draw, ...]
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class QuizBank:
    """Everything that quizzes are drawn from, by id."""

    objectives: Mapping[str, Objective]
    templates: Mapping[str, Template]
    blueprints: Mapping[str, Blueprint]
    misconceptions: Mapping[str, Misconception] = field(default_factory=dict)

    def lesson_links(self) -> Iterator[tuple[str, Source]]:
        """Yield every reference to a lesson's section, with its place, so that the lessons can be held against them."""
        for objective in self.objectives.values():
            yield objective.lesson, objective.provenance.source
        for template in self.templates.values():
            yield template.lesson, template.provenance.source
        for misconception in self.misconceptions.values():
            yield misconception.lesson, misconception.provenance.source
