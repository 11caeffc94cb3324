"""Days, weeks and growing years, counted day by day."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

import pytest

from sowtide.days import (
    DateSpan,
    DayRange,
    GrowingYear,
    MonthDay,
    day_of,
    in_years_planned,
    iso_week,
    monday_of,
    short_span,
    week_name,
    week_start,
)

DAY = timedelta(days=1)
NORTH, SOUTH = GrowingYear(2026, south=False), GrowingYear(2026, south=True)
DAYS = [date(2022, 1, 1) + n * DAY for n in range(365 * 9)]
"""Nine years less two days, with the leap years 2024 and 2028."""


@pytest.mark.parametrize("year", [NORTH, SOUTH])
def test_each_day_lies_in_one_growing_year(year: GrowingYear) -> None:
    # North it is the calendar year, south it begins on 1 July.
    season, number = (2021, 183) if year.south else (2021, 364)
    for day in DAYS:
        begins = (day.month, day.day) == ((7, 1) if year.south else (1, 1))
        season, number = (season + 1, 0) if begins else (season, number + 1)
        held = year.holding(day)
        assert (held.season, held.south) == (season, year.south)
        assert held.first + number * DAY == day
        assert (day in held, day in year) == (True, season == 2026)
        # 31 December, or 30 June, of a leap year is like that of a year without.
        assert year.offset(day) == min(number, 364)
        assert year.days_to(day) == (held.first - year.first).days


@pytest.mark.parametrize(
    ("year", "first", "last", "midsummer", "spring", "autumn"),
    [
        (NORTH, "2026-01-01", "2026-12-31", "2026-07-01", "2026-04-01", "2026-10-01"),
        (SOUTH, "2026-07-01", "2027-06-30", "2027-01-01", "2026-10-01", "2027-04-01"),
    ],
)
def test_a_growing_year(
    year: GrowingYear, first: str, last: str, midsummer: str, spring: str, autumn: str
) -> None:
    assert (str(year.first), str(year.last)) == (first, last)
    assert str(year.midsummer) == midsummer
    assert (str(year.spring_anchor), str(year.autumn_anchor)) == (spring, autumn)


@pytest.mark.parametrize(
    ("day", "year", "season", "like"),
    [
        (date(2026, 3, 1), NORTH, 2020, date(2020, 3, 1)),
        (date(2026, 12, 31), NORTH, 2027, date(2027, 12, 31)),
        (date(2024, 2, 29), NORTH, 2028, date(2028, 2, 29)),
        (date(2024, 2, 29), NORTH, 2026, date(2026, 2, 28)),
        (date(2026, 8, 1), SOUTH, 2020, date(2020, 8, 1)),
        (date(2027, 3, 1), SOUTH, 2020, date(2021, 3, 1)),
        (date(2026, 3, 1), SOUTH, 2020, date(2021, 3, 1)),
    ],
)
def test_a_day_is_like_one_of_another_year(
    day: date, year: GrowingYear, season: int, like: date
) -> None:
    assert year.like(day, season) == like


@pytest.mark.parametrize(
    ("year", "written", "day"),
    [
        (NORTH, MonthDay(6, 30), date(2026, 6, 30)),
        (SOUTH, MonthDay(6, 30), date(2027, 6, 30)),
        (SOUTH, MonthDay(7, 1), date(2026, 7, 1)),
        (SOUTH, MonthDay(12, 31), date(2026, 12, 31)),
    ],
)
def test_a_day_without_its_year_lies_in_the_growing_year(
    year: GrowingYear, written: MonthDay, day: date
) -> None:
    assert year.day(written) == day


@pytest.mark.parametrize(
    ("day", "ahead"),
    [
        (date(2026, 7, 1), False),  # 184 days before 2027
        (date(2026, 7, 2), True),
        (date(2026, 12, 31), True),
        (date(2027, 1, 1), False),
    ],
)
def test_the_year_to_come_begins_within_half_a_year(day: date, ahead: bool) -> None:
    assert GrowingYear(2027, south=False).lies_ahead(day) == ahead


@pytest.mark.parametrize(
    ("written", "anchor", "day"),
    [
        (MonthDay(1, 3), date(2026, 10, 1), date(2027, 1, 3)),
        (MonthDay(12, 30), date(2026, 4, 1), date(2025, 12, 30)),
        (MonthDay(10, 1), date(2026, 10, 1), date(2026, 10, 1)),
        (MonthDay(4, 2), date(2026, 10, 1), date(2026, 4, 2)),  # 182 days; 3 April 2027 is 183
        (MonthDay(2, 29), date(2024, 4, 1), date(2024, 2, 29)),
        (MonthDay(2, 29), date(2023, 10, 1), date(2024, 2, 29)),
        (MonthDay(2, 29), date(2024, 8, 1), date(2024, 2, 29)),
    ],
)
def test_the_nearest_day_of_a_date_without_its_year(
    written: MonthDay, anchor: date, day: date
) -> None:
    assert written.nearest(anchor) == day


@pytest.mark.parametrize("anchor", [date(2026, 4, 1), date(2025, 10, 1), date(2024, 10, 1)])
def test_the_nearest_29_february_may_be_none(anchor: date) -> None:
    with pytest.raises(ValueError, match="day"):
        MonthDay(2, 29).nearest(anchor)


def test_days_without_a_year_are_in_order_and_written_in_two_digits() -> None:
    days = [MonthDay(1, 2), MonthDay(1, 12), MonthDay(2, 1), MonthDay(10, 1)]
    assert sorted([days[2], days[0], days[3], days[1]]) == days
    assert [str(day) for day in days] == ["01-02", "01-12", "02-01", "10-01"]


def test_ranges_of_days() -> None:
    assert (str(DayRange(7, 7)), str(DayRange(7, 9))) == ("7", "7-9")
    assert DayRange(7, 9).plus(3) == DayRange(10, 12)


def test_what_is_left_of_a_span_without_others() -> None:
    whole = DateSpan(date(2026, 6, 5), date(2026, 6, 14))
    assert whole.length == 10
    for first in range(1, 20):
        for last in range(first, 20):
            for beyond in (last + 2, last + 6):
                others = [
                    DateSpan(date(2026, 6, first), date(2026, 6, last)),
                    DateSpan(date(2026, 6, beyond), date(2026, 6, beyond + 2)),
                ]
                gone = {*range(first, last + 1), beyond, beyond + 1, beyond + 2}
                left = [day for day in range(5, 15) if day not in gone]
                found = list(whole.without(others))
                assert [
                    day.day
                    for span in found
                    for day in (span.first + n * DAY for n in range(span.length))
                ] == left
                assert all(each.first in whole and each.last in whole for each in found)
                # No two of them touch: what is left in a row is one span.
                assert all(b.first - a.last > DAY for a, b in pairwise(found))


def test_weeks_are_those_of_the_calendar() -> None:
    for day in DAYS:
        year, week, weekday = day.isocalendar()
        assert iso_week(day) == f"{year}-W{week:02}"
        assert monday_of(iso_week(day)) == day - (weekday - 1) * DAY
        for starts in range(7):
            first = week_start(day, starts=starts)
            assert first.weekday() == starts
            assert first <= day < first + 7 * DAY
            monday = next(d for n in range(7) if (d := first + n * DAY).weekday() == 0)
            assert week_name(first) == iso_week(monday)


@pytest.mark.parametrize(
    ("first", "last", "said"),
    [
        ("2026-07-09", "2026-07-09", "9 Jul"),
        ("2026-07-09", "2026-07-10", "9–10 Jul"),
        ("2026-07-31", "2026-08-01", "31 Jul – 1 Aug"),
        ("2026-07-09", "2027-07-10", "9 Jul – 10 Jul"),
        ("2026-12-31", "2027-01-01", "31 Dec – 1 Jan"),
    ],
)
def test_a_span_is_written_shortly(first: str, last: str, said: str) -> None:
    assert short_span(day_of(first), day_of(last)) == said


@pytest.mark.parametrize("text", ["1900-01-01", "2200-12-31"])
def test_years_that_can_be_planned(text: str) -> None:
    assert str(day_of(text)) == text


@pytest.mark.parametrize(
    "text", ["1899-12-31", "2201-01-01", "2026-7-01", "20260701", "2026-02-29", "2026-07-01 "]
)
def test_what_is_no_day_that_can_be_planned(text: str) -> None:
    with pytest.raises(ValueError, match=r"not a day|lies outside|day is out of range|must be in"):
        day_of(text)


def test_weeks_that_cannot_be_planned() -> None:
    assert monday_of("2026-W53") == date(2026, 12, 28)
    for week in ("2025-W53", "2026-W54", "2026-W00", "2026-W1", "1899-W20", "2201-W20"):
        with pytest.raises(ValueError, match=r"."):
            monday_of(week)
    assert in_years_planned(date(2026, 1, 1)) == date(2026, 1, 1)
