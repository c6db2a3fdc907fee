"""Times and dates as records write them: UTC to the second, and calendar dates."""

import calendar
import re
from datetime import UTC, date, datetime
from typing import Final

_STAMP: Final = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ")
_DAY: Final = re.compile(r"\d{4}-\d\d-\d\d")


def stamp(now: datetime) -> str:
    """Return a moment as text: UTC, to the second, of one length, so that text order is time order.

    Raises
    ------
    ValueError
        If ``now`` has no time zone: a caller's mistake.

    Examples
    --------
    >>> stamp(datetime(2026, 11, 25, 14, 3, 7, 999, tzinfo=UTC))
    '2026-11-25T14:03:07Z'
    """
    if now.tzinfo is None:
        raise ValueError("the moment has no time zone")
    return now.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def stamp_of(text: str) -> str:
    """Return a moment that somebody else's machine wrote in ISO 8601, as we write it; empty if it is none.

    Examples
    --------
    >>> stamp_of("2026-11-25T09:03:07.250-05:00"), stamp_of("nine o'clock"), stamp_of("2026-11-25T09:03:07")
    ('2026-11-25T14:03:07Z', '', '')
    """
    try:
        return stamp(datetime.fromisoformat(text))
    except (ValueError, OverflowError):
        return ""


def is_stamp(value: object) -> bool:
    """Say whether a value is the text of a moment that exists."""
    if not isinstance(value, str) or not _STAMP.fullmatch(value):
        return False
    try:
        datetime.fromisoformat(value)
    except ValueError:
        return False
    return True


def is_day(value: object) -> bool:
    """Say whether a value is the text of a calendar date that exists, such as 2026-11-25."""
    if not isinstance(value, str) or not _DAY.fullmatch(value):
        return False
    try:
        date.fromisoformat(value)
    except ValueError:
        return False
    return True


def day_of(moment: str) -> date:
    """Return the UTC date of a stamped moment."""
    return date.fromisoformat(moment[:10])


def add_months(day: date, months: int) -> date:
    """Return the same day of the month so many months later, or the month's last day if it has no such day.

    Parameters
    ----------
    day : date
        The day to start from.
    months : int
        Calendar months [-], 0 or more.

    Examples
    --------
    >>> add_months(date(2027, 11, 30), 3)
    datetime.date(2028, 2, 29)
    """
    years, month = divmod(day.month - 1 + months, 12)
    year = day.year + years
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))
