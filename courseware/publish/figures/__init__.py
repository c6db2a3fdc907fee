"""Figures drawn from the model and the formulas: one file a kind, all listed here.

To add a kind, write a file with a ``load`` function and enter it in :data:`FIGURE_KINDS`.
"""

from collections.abc import Callable, Mapping
from typing import Final

from courseware.content.fields import Fields
from courseware.publish.figures import doubt_chart, quantity_curve, sequence_chart, what_is_left_chart
from courseware.publish.figures.base import Figure
from courseware.publish.teaching import Reader

FIGURE_KINDS: Final[Mapping[str, Callable[[Fields, Reader], Figure]]] = {
    "doubt-chart": doubt_chart.load,
    "quantity-curve": quantity_curve.load,
    "sequence-chart": sequence_chart.load,
    "what-is-left-chart": what_is_left_chart.load,
}
