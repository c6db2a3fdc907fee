from datetime import UTC, date, datetime, timedelta, timezone

import pytest

from courseware.records.moments import add_months, day_of, is_day, is_stamp, stamp


def test_a_moment_is_written_in_utc_whatever_zone_it_came_in() -> None:
    evening = datetime(2026, 12, 31, 20, 30, 15, tzinfo=timezone(timedelta(hours=-5)))
    assert stamp(evening) == "2027-01-01T01:30:15Z"
    assert day_of(stamp(evening)) == date(2027, 1, 1)


def test_text_order_is_time_order() -> None:
    moments = [datetime(2026, 1, 1, tzinfo=UTC) + timedelta(seconds=97 * 3571 * n) for n in range(300)]
    assert sorted(map(stamp, reversed(moments))) == [stamp(moment) for moment in moments]


def test_a_moment_without_a_zone_is_our_mistake() -> None:
    with pytest.raises(ValueError, match="the moment has no time zone"):
        stamp(datetime(2026, 11, 25))  # noqa: DTZ001 - what is refused


@pytest.mark.parametrize("value", ["2026-11-25T14:03:07Z", "2028-02-29T23:59:59Z"])
def test_stamps(value: str) -> None:
    assert is_stamp(value)


@pytest.mark.parametrize(
    "value",
    ["2026-11-25T14:03:07", "2026-11-25T14:03:07+00:00", "2026-11-25 14:03:07Z", "2026-02-29T00:00:00Z", "", None, 7,
     "2026-11-25T24:61:00Z", "2026-11-25T14:03:07Z\n"],
)  # fmt: skip
def test_no_stamps(value: object) -> None:
    assert not is_stamp(value)


def test_days() -> None:
    assert is_day("2028-02-29")
    assert not any(map(is_day, ["2026-02-29", "20261125", "2026-11-25T00:00:00Z", "", None, 20261125]))


@pytest.mark.parametrize(
    ("day", "months", "then"),
    [
        (date(2026, 11, 25), 24, date(2028, 11, 25)),
        (date(2026, 1, 31), 1, date(2026, 2, 28)),
        (date(2028, 1, 31), 1, date(2028, 2, 29)),
        (date(2026, 12, 31), 2, date(2027, 2, 28)),
        (date(2026, 11, 30), 12, date(2027, 11, 30)),
        (date(2026, 5, 5), 0, date(2026, 5, 5)),
    ],
)
def test_months_are_calendar_months(day: date, months: int, then: date) -> None:
    assert add_months(day, months) == then


def test_months_by_walking_the_calendar() -> None:
    # The second way: walk day by day, count the firsts of months passed, stop at the wanted day or the month's end.
    for start in (date(2027, 1, 29), date(2027, 8, 31), date(2028, 2, 29)):
        for months in range(30):
            walked, passed = start, 0
            while passed < months:
                walked += timedelta(days=1)
                passed += walked.day == 1
            while walked.day != start.day and (walked + timedelta(days=1)).month == walked.month:
                walked += timedelta(days=1)
            assert add_months(start, months) == walked
