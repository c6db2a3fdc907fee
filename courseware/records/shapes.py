"""What may stand in the fields of an event's body."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final

from courseware.records.moments import is_day, is_stamp

LONGEST_TEXT: Final = 200
"""Most characters [-] of a text in an event."""
CHANNELS: Final = frozenset({"file", "typed", "paper"})
"""How a response came back: a response file, an answer code typed by the trainee, a paper sheet typed in."""

TOPICS: Final = frozenset({"program", "procedure"})
"""What evidence can be about."""

_PERCENT: Final = re.compile(r"100|[1-9]?\d(\.\d?[1-9])?")
_ITEM: Final = re.compile(r"[1-9]\d{0,2}")
_POINTS: Final = re.compile(r"(0|[1-9]\d{0,2})(\.\d?[1-9])?")


@dataclass(frozen=True, slots=True)
class Shape:
    """What a field may hold.

    Attributes
    ----------
    says : str
        Key of its description in ``records.toml``.
    holds : callable
        Says whether a value is of this shape.
    """

    says: str
    holds: Callable[[Any], bool]


def _text(value: Any) -> bool:
    return isinstance(value, str) and 0 < len(value) <= LONGEST_TEXT and value == value.strip() and value.isprintable()


def _hex(digits: int) -> Callable[[Any], bool]:
    pattern = re.compile(rf"[0-9a-f]{{{digits}}}")
    return lambda value: isinstance(value, str) and pattern.fullmatch(value) is not None


def _count(value: Any) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and value > 0


def _percent(value: Any) -> bool:
    return isinstance(value, str) and _PERCENT.fullmatch(value) is not None


def _points(value: Any) -> bool:
    return (
        isinstance(value, dict)
        and value != {}
        and all(
            _ITEM.fullmatch(item) and isinstance(points, str) and _POINTS.fullmatch(points)
            for item, points in value.items()
        )
    )


def _list_of(holds: Callable[[Any], bool]) -> Callable[[Any], bool]:
    return lambda value: (
        isinstance(value, list) and all(holds(item) for item in value) and len(set(value)) == len(value)
    )


TEXT: Final = Shape("a-text", _text)
TEXT_OR_EMPTY: Final = Shape("a-text-or-empty", lambda value: value == "" or _text(value))
TEXTS: Final = Shape("a-list-of-texts", _list_of(_text))
DIGEST: Final = Shape("a-digest", _hex(64))
KEY_ID: Final = Shape("a-key-id", _hex(32))
KEY_ID_OR_NONE: Final = Shape("a-key-id-or-none", lambda value: value is None or _hex(32)(value))
SEQ_OR_NONE: Final = Shape("a-seq-or-none", lambda value: value is None or _count(value))
SEQS_OR_NONE: Final = Shape("a-list-of-seqs-or-none", lambda value: _list_of(_count)(value) and value == sorted(value))
SEQ_BY_NAME: Final = Shape(
    "a-map-of-seqs",
    lambda value: (
        isinstance(value, dict) and value != {} and all(_text(name) and _count(seq) for name, seq in value.items())
    ),
)
SEQ: Final = Shape("a-seq", _count)
TOPIC: Final = Shape("a-topic", lambda value: isinstance(value, str) and value in TOPICS)
SEQS: Final = Shape("a-list-of-seqs", lambda value: _list_of(_count)(value) and value == sorted(value) != [])
FLAG: Final = Shape("a-flag", lambda value: isinstance(value, bool))
DAY: Final = Shape("a-day", is_day)
MOMENT_OR_EMPTY: Final = Shape("a-moment-or-empty", lambda value: value == "" or is_stamp(value))
PERCENT: Final = Shape("a-percent", _percent)
PERCENTS: Final = Shape(
    "a-map-of-percents",
    lambda value: isinstance(value, dict) and all(_text(name) and _percent(share) for name, share in value.items()),
)
POINTS_BY_ITEM: Final = Shape("a-map-of-points", _points)
CHANNEL: Final = Shape("a-channel", lambda value: isinstance(value, str) and value in CHANNELS)
