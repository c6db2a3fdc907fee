"""The kinds of item templates: one file a kind, listed here."""

from collections.abc import Mapping
from typing import Final

from courseware.quiz.kinds import (
    choice,
    next_check,
    not_enough,
    numeric,
    ordering,
    reading_meaning,
    rule_hazard,
    scenario,
)
from courseware.quiz.kinds.base import ItemKind

ITEM_KINDS: Final[Mapping[str, ItemKind]] = {
    "scenario": scenario.KIND,
    "numeric": numeric.KIND,
    "choice": choice.KIND,
    "rule-hazard": rule_hazard.KIND,
    "reading-meaning": reading_meaning.KIND,
    "ordering": ordering.KIND,
    "next-check": next_check.KIND,
    "not-enough": not_enough.KIND,
}
"""By the word that a template gives as its kind."""
