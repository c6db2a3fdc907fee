"""How each kind of item is marked: one file a kind, listed here."""

from collections.abc import Mapping
from typing import Final

from courseware.grading.markers import choice, multiple_choice, numeric, ordering
from courseware.grading.markers.base import Marker

MARKERS: Final[Mapping[str, Marker]] = {
    "scenario": choice.mark,
    "choice": choice.mark,
    "multiple-choice": multiple_choice.mark,
    "numeric": numeric.mark,
    "ordering": ordering.mark,
}
"""By the kind that a form gives the item."""
