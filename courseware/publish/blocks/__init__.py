"""Lesson blocks: one file a kind, all listed here.

A block stands in a lesson as a fenced code block whose info string is the kind and whose body is
YAML. To add a kind, write a file with a ``load`` function and enter it in :data:`BLOCK_KINDS`.
"""

from collections.abc import Callable, Mapping
from typing import Final

from courseware.content.fields import Fields
from courseware.publish.blocks import (
    caution,
    complaints_table,
    figure,
    never_rules,
    procedure,
    readings_table,
    self_check,
    what_is_left,
    work_order,
    worked_example,
)
from courseware.publish.teaching import Block, Reader

BLOCK_KINDS: Final[Mapping[str, Callable[[Fields, Reader], Block]]] = {
    "caution": caution.load,
    "complaints-table": complaints_table.load,
    "figure": figure.load,
    "never-rules": never_rules.load,
    "procedure": procedure.load,
    "readings-table": readings_table.load,
    "self-check": self_check.load,
    "what-is-left": what_is_left.load,
    "work-order": work_order.load,
    "worked-example": worked_example.load,
}
