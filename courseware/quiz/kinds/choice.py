"""Single choice as an author wrote it: one right option, wrong ones with what is wrong about each."""

import random
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Final

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.heater.load import Trade
from courseware.quiz.item_writing import faults_of_key, faults_of_options, faults_of_stem, numbers_of
from courseware.quiz.kinds.base import Drawn, DrawnOption, ItemKind, Materials, Wanted, gate_of
from courseware.quiz.misconceptions import Named, hold_all_or_none, named
from courseware.safework.model import SafeWork


@dataclass(frozen=True, slots=True)
class WrittenOption:
    """An option, why it is right or wrong, the id of the rule that choosing it breaks, and what choosing it shows.

    ``breaks`` is empty where it breaks no rule, and ``misconception`` is None where none is named.
    """

    text: str
    because: str
    breaks: str
    misconception: Named | None

    def drawn(self, made_from: Materials) -> DrawnOption:
        """Return the option as it is offered."""
        return DrawnOption(
            self.text,
            self.because,
            gate_of(made_from.safework.rules[self.breaks]) if self.breaks else None,
            made_from.beliefs.get(self.misconception.id) if self.misconception else None,
        )


def named_by(options: Iterable[WrittenOption]) -> tuple[Named, ...]:
    """Return the misconceptions that options name, each with its place."""
    return tuple(option.misconception for option in options if option.misconception is not None)


@dataclass(frozen=True, slots=True)
class WrittenChoice:
    """A question with its options as written, the right one first."""

    stem: tuple[str, ...]
    options: tuple[WrittenOption, ...]


def load(fields: Fields, _trade: Trade, safework: SafeWork) -> WrittenChoice:
    """Read ``stem``, ``right`` and ``wrong``."""
    stem = fields.texts("stem")
    right = fields.child("right")
    options = [read_option(right, safework, may_name=False)] if right is not None else []
    wrong = [read_option(child, safework, may_name=True) for child in fields.children("wrong", say("quiz.an-option"))]
    hold_all_or_none(fields, [option.misconception for option in wrong])
    options += wrong
    texts = [option.text for option in options]
    # A list of numbers is put in order when it is drawn, so that the author need not mind it.
    found = (
        faults_of_stem(stem)
        + faults_of_options(_shown(texts))
        + faults_of_key(texts[0] if texts else "", texts[1:], stem)
    )
    for fault in found:
        fields.fault(fields.source, fault, advice=say("quiz.writing-try"))
    return WrittenChoice(stem, tuple(options))


def read_option(fields: Fields, safework: SafeWork, *, may_name: bool, unsafe: bool = False) -> WrittenOption:
    """Read ``text``, ``because``, ``breaks`` (an unsafe one must have it) and ``misconception``, if it may name one."""
    option = WrittenOption(
        fields.text("text"),
        fields.text("because"),
        fields.reference("breaks", say("quiz.a-rule"), safework.rules, None if unsafe else ""),
        named(fields) if may_name else None,
    )
    fields.finish()
    return option


def _shown(texts: list[str]) -> list[str]:
    numbers = numbers_of(texts)
    return [text for _, text in sorted(zip(numbers, texts, strict=True))] if numbers else texts


def draw(body: WrittenChoice, made_from: Materials, _rng: random.Random, _wanted: Wanted) -> Drawn:
    """Return the question; only the places of its options are left to chance."""
    shown = _shown([option.text for option in body.options])
    options = sorted(body.options, key=lambda option: shown.index(option.text))
    return Drawn(
        identity=_identity(body),
        stem=body.stem,
        because=body.options[0].because,
        options=tuple(
            replace(option.drawn(made_from), feedback="") if option is body.options[0] else option.drawn(made_from)
            for option in options
        ),
        right=options.index(body.options[0]),
        in_order=bool(numbers_of(shown)),
    )


def _identity(body: WrittenChoice) -> str:
    return "choice|" + " ".join(body.stem)


def claims(body: WrittenChoice) -> frozenset[str]:
    """Return the one question that the template is."""
    return frozenset([_identity(body)])


def names(body: WrittenChoice) -> tuple[Named, ...]:
    """Return the misconceptions that the wrong options name."""
    return named_by(body.options)


KIND: Final = ItemKind("choice", load, draw, claims, names)
