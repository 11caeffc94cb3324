"""The growing year, days written without a year, and ISO weeks.

Days are whole calendar days without times or time zones, and n days from d is d + n: the day of
sowing or planting is day 0.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from enum import Enum

from sowtide.values import value

_A_DAY = timedelta(days=1)
_DAY = re.compile("[0-9]{4}-[0-9]{2}-[0-9]{2}")
_WEEK = re.compile("([0-9]{4})-W([0-9]{2})")

FIRST_YEAR, LAST_YEAR = 1900, 2200
"""Years that can be planned; others are slips of the pen, and dates end not far beyond them."""


class Half(Enum):
    """The half of the growing year a frost falls in."""

    SPRING = "spring"
    AUTUMN = "autumn"


@value
class MonthDay:
    """A day of the year as growers write it, ``07-30``, without a year."""

    month: int
    day: int

    @classmethod
    def of(cls, *, month: int, day: int) -> MonthDay:
        """Return a day that is written.

        Raises
        ------
        ValueError
            If no year has such a day.
        """
        date(2024, month, day)  # a leap year: 29 February is a day
        return cls(month, day)

    def __lt__(self, other: MonthDay) -> bool:
        return (self.month, self.day) < (other.month, other.day)

    def __str__(self) -> str:
        return f"{self.month:02}-{self.day:02}"

    def nearest(self, anchor: date) -> date:
        """Return this day of the year in the year that brings it nearest to `anchor`.

        Raises
        ------
        ValueError
            If it is 29 February and the nearest year has none.

        Examples
        --------
        >>> MonthDay(1, 3).nearest(date(2026, 10, 1))
        datetime.date(2027, 1, 3)
        """
        if (self.month, self.day) == (2, 29):
            year = min(
                range(anchor.year - 1, anchor.year + 2),
                key=lambda y: abs((date(y, 2, 28) - anchor).days),
            )
            return date(year, 2, 29)
        candidates = [date(anchor.year + n, self.month, self.day) for n in (-1, 0, 1)]
        return min(candidates, key=lambda day: abs((day - anchor).days))


@value
class DayRange:
    """A number of days known only to lie between two, both included. [days]"""

    low: int
    high: int

    def plus(self, days: int) -> DayRange:
        """Return the range moved by a number of days."""
        return DayRange(self.low + days, self.high + days)

    def __str__(self) -> str:
        return str(self.low) if self.low == self.high else f"{self.low}-{self.high}"


@value
class DateSpan:
    """Days from the first to the last, both included."""

    first: date
    last: date

    def __contains__(self, day: date) -> bool:
        return self.first <= day <= self.last

    @property
    def length(self) -> int:
        """How many days it holds. [days]"""
        return (self.last - self.first).days + 1

    def without(self, others: Iterable[DateSpan]) -> Iterator[DateSpan]:
        """Yield the parts of it outside some other spans, which are in order."""
        first = self.first
        for other in others:
            if other.first > self.last or other.last < first:
                continue
            if other.first > first:
                yield DateSpan(first, other.first - _A_DAY)
            first = other.last + _A_DAY
        if first <= self.last:
            yield DateSpan(first, self.last)


@value
class GrowingYear:
    """One year from midwinter to midwinter, named by the year its spring falls in.

    North of the equator it is the calendar year; south of it, 1 July to 30 June.
    """

    season: int
    """The year that names it."""
    south: bool
    """Whether the place lies south of the equator."""

    @property
    def first(self) -> date:
        """Its first day."""
        return date(self.season, 7, 1) if self.south else date(self.season, 1, 1)

    @property
    def last(self) -> date:
        """Its last day."""
        return date(self.season + 1, 6, 30) if self.south else date(self.season, 12, 31)

    @property
    def midsummer(self) -> date:
        """1 July, south of the equator 1 January."""
        return date(self.season + 1, 1, 1) if self.south else date(self.season, 7, 1)

    @property
    def spring_anchor(self) -> date:
        """1 April, south 1 October: the last frost is the day nearest to it."""
        return date(self.season, 10, 1) if self.south else date(self.season, 4, 1)

    @property
    def autumn_anchor(self) -> date:
        """1 October, south 1 April: the first frost is the day nearest to it."""
        return date(self.season + 1, 4, 1) if self.south else date(self.season, 10, 1)

    def __contains__(self, day: date) -> bool:
        return self._season_of(day) == self.season

    def holding(self, day: date) -> GrowingYear:
        """Return the growing year of the same hemisphere that a day lies in.

        Examples
        --------
        >>> GrowingYear(2026, south=True).holding(date(2026, 3, 1)).season
        2025
        """
        return GrowingYear(self._season_of(day), self.south)

    def lies_ahead(self, day: date) -> bool:
        """Say whether on a day it is the year to come: it begins within half a year.

        Examples
        --------
        >>> GrowingYear(2027, south=False).lies_ahead(date(2026, 11, 28))
        True
        """
        return 0 < (self.first - day).days <= 183

    def days_to(self, day: date) -> int:
        """Days from the beginning of this growing year to that of the one a day lies in. [days]

        Negative for a day before this year, 0 for one of its own.
        """
        if self._season_of(day) == self.season:
            return 0
        return (self.holding(day).first - self.first).days

    def offset(self, day: date) -> int:
        """Return which day of this growing year a day of any growing year is like. [days]

        Counted from 0. The last day of a leap year is like the last of a year without.

        Examples
        --------
        >>> GrowingYear(2026, south=False).offset(date(2024, 12, 31))
        364
        """
        if self._season_of(day) == self.season:
            return (day - self.first).days
        return min((day - self.holding(day).first).days, (self.last - self.first).days)

    def like(self, day: date, season: int) -> date:
        """Return the day of another growing year that a day of this hemisphere is like.

        29 February is like 28 February where there is none.

        Examples
        --------
        >>> GrowingYear(2026, south=False).like(date(2024, 2, 29), 1999)
        datetime.date(1999, 2, 28)
        """
        year = day.year - self.holding(day).season + season
        try:
            return day.replace(year=year)
        except ValueError:
            return date(year, 2, 28)

    def day(self, written: MonthDay) -> date:
        """Return that day in this growing year.

        Raises
        ------
        ValueError
            If it is 29 February and the growing year has none.

        Examples
        --------
        >>> GrowingYear(2026, south=True).day(MonthDay(3, 15))
        datetime.date(2027, 3, 15)
        """
        year = self.season
        if self.south and written.month < 7:
            year += 1
        return date(year, written.month, written.day)

    def _season_of(self, day: date) -> int:
        return day.year - (self.south and day.month < 7)


def day_of(text: str) -> date:
    """Return the day written ``2026-07-16``.

    Raises
    ------
    ValueError
        If it is not written so, or there is no such day in the years that can be planned.

    Examples
    --------
    >>> day_of("2026-07-16")
    datetime.date(2026, 7, 16)
    """
    if _DAY.fullmatch(text) is None:
        raise ValueError(f"not a day: {text}")
    return in_years_planned(date.fromisoformat(text))


def in_years_planned(day: date) -> date:
    """Return the day, if it lies in the years that can be planned.

    Raises
    ------
    ValueError
        If it does not.
    """
    if not FIRST_YEAR <= day.year <= LAST_YEAR:
        raise ValueError(f"{day.year:04} lies outside the years {FIRST_YEAR} to {LAST_YEAR}")
    return day


def monday_of(week: str) -> date:
    """Return the Monday of an ISO week written ``2026-W31``.

    Raises
    ------
    ValueError
        If it is not written so, that year has no such week, or it cannot be planned.

    Examples
    --------
    >>> monday_of("2026-W53")
    datetime.date(2026, 12, 28)
    """
    match = _WEEK.fullmatch(week)
    if match is None:
        raise ValueError(f"not an ISO week: {week}")
    return in_years_planned(date.fromisocalendar(int(match[1]), int(match[2]), 1))


def iso_week(day: date) -> str:
    """Return the ISO week that a day lies in, written ``2026-W31``.

    Examples
    --------
    >>> iso_week(date(2027, 1, 1))
    '2026-W53'
    """
    year, week, _ = day.isocalendar()
    return f"{year}-W{week:02}"


def week_name(first: date) -> str:
    """Return the ISO week of the Monday within the seven days from `first` on.

    Examples
    --------
    >>> week_name(date(2026, 12, 6))  # a week from Sunday to Saturday
    '2026-W50'
    """
    return iso_week(first + timedelta(days=-first.weekday() % 7))


def week_start(day: date, *, starts: int) -> date:
    """Return the first day of the week that `day` lies in.

    Parameters
    ----------
    day
        Any day of the week.
    starts
        The weekday a week starts with: 0 for Monday … 6 for Sunday.
    """
    return day - timedelta(days=(day.weekday() - starts) % 7)


MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def short_day(day: date) -> str:
    """Write a day without its year, such as ``16 Jul``.

    Examples
    --------
    >>> short_day(date(2026, 7, 16))
    '16 Jul'
    """
    return f"{day.day} {MONTHS[day.month - 1]}"


def short_span(first: date, last: date) -> str:
    """Write days, both ends included, without their years and as shortly as they can be.

    Examples
    --------
    >>> short_span(date(2026, 7, 9), date(2026, 7, 29))
    '9–29 Jul'
    >>> short_span(date(2026, 7, 9), date(2026, 8, 2))
    '9 Jul – 2 Aug'
    """
    if first == last:
        return short_day(last)
    if (first.year, first.month) == (last.year, last.month):
        return f"{first.day}–{short_day(last)}"
    return f"{short_day(first)} – {short_day(last)}"
