"""Days from left to right on paper."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from sowtide.days import MONTHS, DateSpan
from sowtide.values import value

_WEEK = timedelta(days=7)


@value
class DayScale:
    """Days laid out over a width."""

    first: date
    """The first day."""
    days: int
    """How many. [days]"""
    width: float
    """How wide they are together. [mm]"""

    @property
    def beyond(self) -> date:
        """The day after the last."""
        return self.first + timedelta(days=self.days)

    @property
    def a_week(self) -> float:
        """How wide a week is. [mm]"""
        return 7 * self.width / self.days

    def at(self, day: date) -> float:
        """Return where a day begins, from the left; outside the scale its nearest end. [mm]"""
        past = min(max((day - self.first).days, 0), self.days)
        return past * self.width / self.days

    def holds(self, day: date) -> bool:
        """Say whether a day is shown."""
        return self.first <= day < self.beyond

    def weeks(self) -> Iterator[date]:
        """Yield the first day of each week."""
        day = self.first
        while day < self.beyond:
            yield day
            day += _WEEK

    def months(self) -> Iterator[tuple[date, str]]:
        """Yield the first day shown of each month and its name; a year's first says the year."""
        day = self.first
        while day < self.beyond:
            name = MONTHS[day.month - 1]
            begins = day == self.first or day.month == 1
            yield day, f"{name} {day.year}" if begins else name
            day = (day.replace(day=1) + timedelta(days=32)).replace(day=1)


def in_weeks(span: DateSpan, width: float) -> DayScale:
    """Return the scale of whole weeks that hold a span, the first beginning on its first day."""
    days = (span.last - span.first).days + 1
    return DayScale(span.first, -(-days // 7) * 7, width)
