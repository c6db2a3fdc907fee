"""The form that a trainee gets and the key that the company keeps, and the bytes of both.

The two are apart from birth: nothing in a form says which answer is right, nor does the order of
its options or the choice of its tags. A form with its key can be graded for ever, whatever has become
of the question bank since. Keys of the first format, which named no misconceptions, are read as they were written.
"""

import hashlib
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from typing import Any, Final

from courseware.content.canonical import canonical
from courseware.content.refusal import Refusal
from courseware.content.words import say
from courseware.quiz.canonical import canonical_bytes, parsed

FORM_FORMAT: Final = "courseware/form/1"
KEY_FORMAT: Final = "courseware/key/2"
OLD_KEY_FORMAT: Final = "courseware/key/1"
"""The format before wrong answers named the misconception behind them."""


class FormError(Refusal):
    """A form or key that cannot be used; its text tells the user why and what to try."""


@dataclass(frozen=True, slots=True)
class Option:
    """One answer to choose, or one step to put in order.

    Attributes
    ----------
    tag : str
        Three Crockford base-32 characters; unique in the form, and any two tags differ in at least two places.
    text : str
        What the trainee reads.
    """

    tag: str
    text: str


@dataclass(frozen=True, slots=True)
class Exhibit:
    """What a question gives to read: a title and rows of (label, value)."""

    title: str
    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Item:
    """One question, exactly what a trainee may see.

    Attributes
    ----------
    number : int
        Place in the form [-], from 1.
    kind : str
        How it is answered: ``scenario`` and ``choice`` by one tag, ``multiple-choice`` by one tag or more, ``numeric``
        by a number, ``ordering`` by all its tags.
    objective : str
        Id of the objective it asks about.
    stem : tuple of str
        Paragraphs; the last one asks.
    exhibit : Exhibit or None
        Readings, given values.
    options : tuple of Option
        In the order to show; empty for ``numeric``.
    unit : str
        Unit in which a number is to be given; empty for the others and for a number without unit.
    minutes : int
        Time to allow [min].
    """

    number: int
    kind: str
    objective: str
    stem: tuple[str, ...]
    exhibit: Exhibit | None
    options: tuple[Option, ...]
    unit: str
    minutes: int


@dataclass(frozen=True, slots=True)
class Form:
    """A quiz as issued: the items that one trainee answers.

    Attributes
    ----------
    id : str
        Form number, as printed and typed.
    blueprint, title, course_version : str
        What it was drawn from.
    items : tuple of Item
        In order.
    instructions : tuple of str
        Paragraphs shown before the first item.
    format : str
        ``courseware/form/1``.
    """

    id: str
    blueprint: str
    title: str
    course_version: str
    items: tuple[Item, ...]
    instructions: tuple[str, ...]
    format: str = FORM_FORMAT


@dataclass(frozen=True, slots=True)
class PassRule:
    """When a form is passed.

    Attributes
    ----------
    percent : int
        Least score, in percent [%] of all points.
    safety_gate : bool
        Whether an answer that breaks a safety rule fails the form whatever the score.
    """

    percent: int
    safety_gate: bool


@dataclass(frozen=True, slots=True)
class Gate:
    """An answer that breaks a safety rule.

    Attributes
    ----------
    tags : tuple of str
        One tag: choosing it breaks the rule; leaving it out does, if it is one of several right ones. Two tags: the
        rule is broken when the second comes before the first.
    rule : str
        Title of the rule.
    signal_word : str
        DANGER, WARNING or CAUTION (ANSI Z535).
    reason : str
        Why the rule holds.
    """

    tags: tuple[str, ...]
    rule: str
    signal_word: str
    reason: str


@dataclass(frozen=True, slots=True)
class Belief:
    """A misconception that a wrong answer shows, as the catalogue had it when the form was drawn.

    Attributes
    ----------
    id : str
        Its name in the catalogue; wrong answers are grouped by it.
    believes : str
        What the trainee takes to be true, as a sentence.
    instead : str
        Why that is wrong, and what is so.
    lesson : str
        Lesson and section that sets it right.
    """

    id: str
    believes: str
    instead: str
    lesson: str


@dataclass(frozen=True, slots=True)
class KeyEntry:
    """What is right for one item, and what to say about each answer.

    Attributes
    ----------
    number, kind, objective
        As in the item.
    template : str
        Id of the item template. It stands here, not in the form, so that a form does not point into the bank.
    points : int
        Points [-] for a right answer.
    right : tuple of str
        The right tag; for ``multiple-choice`` all right tags; for ``ordering`` all tags in one allowed order; for
        ``numeric`` (value, tolerance) in the item's unit, as decimal text.
    because : str
        Why it is right.
    lesson : str
        Lesson and section to read again: ``ignition-test#isolate``.
    feedback : mapping of str to str
        What rules a given answer out, by its tag; for ``numeric`` by a wrong value that a known slip leads to; for
        ``multiple-choice`` by the right tags too: why each belongs to the answer.
    pairs : tuple of (str, str)
        ``ordering``: (earlier, later) for every two steps whose order matters.
    gates : tuple of Gate
        Answers that break a safety rule.
    misconceptions : mapping of str to Belief
        What a wrong answer shows, by the same names as ``feedback``: choosing a wrong tag, leaving out a right one of
        several, writing a value that a known slip leads to.
    """

    number: int
    kind: str
    objective: str
    template: str
    points: int
    right: tuple[str, ...]
    because: str
    lesson: str
    feedback: Mapping[str, str] = field(default_factory=dict)
    pairs: tuple[tuple[str, str], ...] = ()
    gates: tuple[Gate, ...] = ()
    misconceptions: Mapping[str, Belief] = field(default_factory=dict)

    @property
    def safety(self) -> bool:
        """Say whether an answer to this item can break a safety rule."""
        return bool(self.gates)


@dataclass(frozen=True, slots=True)
class Key:
    """The answers to one form; leaves the company's machine only sealed.

    Attributes
    ----------
    form : str
        Id of the form.
    form_sha256 : str
        SHA-256 of the form's bytes, hexadecimal: a key fits one form only.
    rule : PassRule
        As the blueprint said when the form was drawn.
    entries : tuple of KeyEntry
        One an item, in order.
    format : str
        ``courseware/key/2``; an archived key may still be ``courseware/key/1``, which has no misconceptions.
    """

    form: str
    form_sha256: str
    rule: PassRule
    entries: tuple[KeyEntry, ...]
    format: str = KEY_FORMAT


def form_bytes(form: Form) -> bytes:
    """Return the form as canonical JSON; these bytes are archived and hashed."""
    return canonical_bytes(form)


def form_sha256(form: Form) -> str:
    """Return the SHA-256 of the form's bytes, hexadecimal."""
    return hashlib.sha256(form_bytes(form)).hexdigest()


def key_bytes(key: Key) -> bytes:
    """Return the key as canonical JSON of its format; seal them before they are written anywhere."""
    if key.format != OLD_KEY_FORMAT:
        return canonical_bytes(key)
    raw = asdict(key)
    for entry in raw["entries"]:
        del entry["misconceptions"]
    return canonical(raw)


def form_from_bytes(data: bytes) -> Form:
    """Read a form back.

    Raises
    ------
    FormError
        If the bytes are not those of a form, down to the last one.
    """
    try:
        raw = parsed(data)
        form = Form(**{**raw, "items": tuple(map(_item, raw["items"])), "instructions": tuple(raw["instructions"])})
    except (ValueError, TypeError, KeyError, AttributeError) as error:
        raise FormError(say("quiz.form-unreadable"), say("quiz.from-archive")) from error
    if form.format != FORM_FORMAT or form_bytes(form) != data:
        raise FormError(say("quiz.form-unreadable"), say("quiz.from-archive"))
    return form


def key_from_bytes(data: bytes) -> Key:
    """Read a key back, of this format or the one before it.

    Raises
    ------
    FormError
        If the bytes are not those of a key, down to the last one.
    """
    try:
        raw = parsed(data)
        key = Key(**{**raw, "rule": PassRule(**raw["rule"]), "entries": tuple(map(_entry, raw["entries"]))})
    except (ValueError, TypeError, KeyError, AttributeError) as error:
        raise FormError(say("quiz.key-unreadable"), say("quiz.from-archive")) from error
    if key.format not in (KEY_FORMAT, OLD_KEY_FORMAT) or key_bytes(key) != data:
        raise FormError(say("quiz.key-unreadable"), say("quiz.from-archive"))
    return key


def _item(raw: Mapping[str, Any]) -> Item:
    exhibit = raw["exhibit"]
    return Item(
        **{
            **raw,
            "stem": tuple(raw["stem"]),
            "exhibit": None if exhibit is None else Exhibit(exhibit["title"], _pairs(exhibit["rows"])),
            "options": tuple(Option(**option) for option in raw["options"]),
        }
    )


def _entry(raw: Mapping[str, Any]) -> KeyEntry:
    gates = tuple(Gate(**{**gate, "tags": tuple(gate["tags"])}) for gate in raw["gates"])
    beliefs = {name: Belief(**belief) for name, belief in raw.get("misconceptions", {}).items()}
    return KeyEntry(
        **{
            **raw,
            "right": tuple(raw["right"]),
            "pairs": _pairs(raw["pairs"]),
            "gates": gates,
            "misconceptions": beliefs,
        }
    )


def _pairs(raw: list[list[str]]) -> tuple[tuple[str, str], ...]:
    return tuple((first, second) for first, second in raw)
