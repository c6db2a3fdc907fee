"""The values of safe work: what may be done, what must never be, and in which orders."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from courseware.content.provenance import Provenance
from courseware.content.source import Source

SIGNAL_WORDS: Final = ("DANGER", "WARNING", "CAUTION")
"""ANSI Z535.4: death or serious injury will, death or serious injury could, minor or moderate injury could result."""

ALWAYS: Final = "always"
HAND_BACK: Final = "hand-back"
"""A rule's moment, and the tag of the action that hands the unit back to its owner."""

State = Mapping[str, str]
"""A state of the job: the value of each variable of the unit, and of each derived fact where it is known."""


@dataclass(frozen=True, slots=True)
class Action:
    """One thing a technician does.

    Attributes
    ----------
    id, title : str
        Name in the data, and in words (imperative).
    needs : mapping of variable or derived fact to values
        What must hold for the action to be possible, or for it to come out as it should.
    effects : mapping of variable to value
        What it changes.
    tools, ppe, hazards : tuple of str
        What to have at hand, what to wear, what can hurt.
    tags : frozenset of str
        What kind of deed it is; rules name deeds by tag.
    source : Source
        Where it is written.
    """

    id: str
    title: str
    needs: Mapping[str, tuple[str, ...]]
    effects: Mapping[str, str]
    tools: tuple[str, ...]
    ppe: tuple[str, ...]
    hazards: tuple[str, ...]
    tags: frozenset[str]
    source: Source


@dataclass(frozen=True, slots=True)
class Condition:
    """A state and a kind of deed together.

    Attributes
    ----------
    state : mapping of variable or derived fact to values
        Every one of them must have one of its values; empty: any state.
    tags : frozenset of str
        The action must have all of them; empty: the state itself is meant, whoever brought it about.
    """

    state: Mapping[str, tuple[str, ...]]
    tags: frozenset[str]


@dataclass(frozen=True, slots=True)
class Rule:
    """Something that must never be.

    Attributes
    ----------
    id, title : str
        Name in the data, and the rule in words.
    signal_word : str
        One of :data:`SIGNAL_WORDS`.
    hazard : str
        What can hurt, in a few words.
    never : tuple of Condition
        Any one of them breaks the rule.
    at : str
        :data:`ALWAYS`, or :data:`HAND_BACK` for what must not be left behind.
    reason : str
        Why, in one or two sentences that a trainee is shown.
    provenance : Provenance
        The standard or practice it rests on, and its review.
    source : Source
        Where it is written.
    """

    id: str
    title: str
    signal_word: str
    hazard: str
    never: tuple[Condition, ...]
    at: str
    reason: str
    provenance: Provenance
    source: Source


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a procedure.

    Attributes
    ----------
    id : str
        Name inside the procedure.
    action : str
        What is done.
    after : tuple of str
        Steps that come before it; all are written above it.
    only_on : mapping of feature to value
        The units on which the step is done; empty for all.
    note : str
        How to do it here, or why it stands here.
    source : Source
        Where it is written.
    """

    id: str
    action: str
    after: tuple[str, ...]
    only_on: Mapping[str, str]
    note: str
    source: Source


@dataclass(frozen=True, slots=True)
class Procedure:
    """A job of work as a partial order of steps.

    Attributes
    ----------
    id, title, summary : str
        Name in the data, in words, and what it is for.
    start : mapping of variable to value
        How the job is found, where it differs from each variable's own start.
    done : mapping of variable or derived fact to values
        How the job must be left.
    steps : tuple of Step
        In one allowed order: the author's.
    lesson : str
        Where it is taught, as ``lesson#section``.
    provenance : Provenance
        Origin and review.
    source : Source
        Where it is written.
    """

    id: str
    title: str
    summary: str
    start: Mapping[str, str]
    done: Mapping[str, tuple[str, ...]]
    steps: tuple[Step, ...]
    lesson: str
    provenance: Provenance
    source: Source


@dataclass(frozen=True, slots=True)
class SafeWork:
    """All actions, rules and procedures, by id, and the provenance of each set of actions."""

    actions: Mapping[str, Action]
    rules: Mapping[str, Rule]
    procedures: Mapping[str, Procedure]
    provenance: tuple[Provenance, ...] = ()
