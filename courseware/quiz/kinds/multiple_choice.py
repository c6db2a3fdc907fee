"""Every one that applies, as an author wrote it: two or more right options, and what is wrong about the others."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from courseware.content.fields import Fields
from courseware.content.words import say
from courseware.heater.load import Trade
from courseware.quiz.fit import SEVERAL
from courseware.quiz.item_writing import faults_of_several, faults_of_stem
from courseware.quiz.kinds.base import Drawn, ItemKind, Materials, Wanted
from courseware.quiz.kinds.choice import WrittenOption, named_by, read_option
from courseware.quiz.misconceptions import Named, hold_all_or_none
from courseware.safework.model import SafeWork

if TYPE_CHECKING:
    import random


@dataclass(frozen=True, slots=True)
class WrittenSeveral:
    """A question with its options as written, the right ones first.

    Attributes
    ----------
    stem : tuple of str
        Paragraphs; the last one asks.
    right, wrong : tuple of WrittenOption
        Of a right one ``breaks`` and ``misconception`` are about leaving it out.
    """

    stem: tuple[str, ...]
    right: tuple[WrittenOption, ...]
    wrong: tuple[WrittenOption, ...]


def load(fields: Fields, _trade: Trade, safework: SafeWork) -> WrittenSeveral:
    """Read ``stem``, ``right`` and ``wrong``, both lists of options."""
    stem = fields.texts("stem")
    right, wrong = (
        tuple(read_option(child, safework, may_name=True) for child in fields.children(key, say("quiz.an-option")))
        for key in ("right", "wrong")
    )
    hold_all_or_none(fields, [option.misconception for option in wrong])
    found = faults_of_stem(stem) + faults_of_several(
        stem, [option.text for option in right], [option.text for option in wrong]
    )
    for fault in found:
        fields.fault(fields.source, fault, advice=say("quiz.writing-try"))
    return WrittenSeveral(stem, right, wrong)


def draw(body: WrittenSeveral, made_from: Materials, _rng: "random.Random", _wanted: Wanted) -> Drawn:
    """Return the question; only the places of its options are left to chance."""
    return Drawn(
        identity=_identity(body),
        stem=body.stem,
        because=say("quiz.several-because", count=len(body.right)),
        options=tuple(option.drawn(made_from) for option in (*body.right, *body.wrong)),
        several=tuple(range(len(body.right))),
    )


def _identity(body: WrittenSeveral) -> str:
    return "multiple-choice|" + " ".join(body.stem)


def claims(body: WrittenSeveral) -> frozenset[str]:
    """Return the one question that the template is."""
    return frozenset([_identity(body)])


def names(body: WrittenSeveral) -> tuple[Named, ...]:
    """Return the misconceptions that the options name."""
    return named_by((*body.right, *body.wrong))


KIND: Final = ItemKind(SEVERAL, load, draw, claims, names)
