"""The kinds of item templates: one file a kind, listed here."""

from collections.abc import Mapping
from typing import Final

from courseware.quiz.kinds import (
    before_step,
    check_state,
    choice,
    faults_behind,
    multiple_choice,
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
    "multiple-choice": multiple_choice.KIND,
    "faults-behind": faults_behind.KIND,
    "before-step": before_step.KIND,
    "check-state": check_state.KIND,
    "rule-hazard": rule_hazard.KIND,
    "reading-meaning": reading_meaning.KIND,
    "ordering": ordering.KIND,
    "next-check": next_check.KIND,
    "not-enough": not_enough.KIND,
}
"""By the word that a template gives as its kind."""
