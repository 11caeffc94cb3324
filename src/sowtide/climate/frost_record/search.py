"""The search for the last and the first frost of every recorded year.

Years run from midsummer to midsummer: a spring looks back from midsummer for its last frost and an
autumn forward for its first, at most a year, so that a first frost in January is still that of the
autumn before. A half-year without any counts as never. It is left out only where a day without a
reading could hide the frost that decides it.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from math import inf

from sowtide.climate.frost_record.frost_years import (
    NEVER,
    FrostYears,
    HalfYears,
    LeftOut,
    SeasonLength,
    YearsFrost,
    counted_from,
)
from sowtide.climate.frost_record.unseen import Unseen
from sowtide.climate.record import Record
from sowtide.days import GrowingYear, Half


class FrostSearch:
    """The search for the frosts that decide, at one temperature after another.

    Parameters
    ----------
    record
        The place's daily minima.
    south
        Whether the place lies south of the equator.
    years
        The first and the last growing year to use; all of the record unless set.
    springs
        The same of springs, where they are others.
    until
        The last day to use; that of the record unless set.
    """

    def __init__(
        self,
        record: Record,
        *,
        south: bool,
        years: tuple[int, int] | None = None,
        springs: tuple[int, int] | None = None,
        until: date | None = None,
    ) -> None:
        lows: Sequence[float] = record.tmin
        if until is not None and until < record.last:
            lows = record.tmin[: max((until - record.first).days + 1, 0)]
        self._record = record
        self._south = south
        self._lows = lows
        self._unseen = Unseen(lows, record.first, goes_on=len(lows) < len(record.tmin))
        self._autumns = _seasons(record.first, len(lows), south=south, years=years)
        self._springs = _seasons(record.first, len(lows), south=south, years=springs or years)

    def at(self, at: float) -> FrostYears:
        """Return what the record says about frost at a temperature.

        A day at or below it, at the record's resolution, is a frost. [°C]
        """
        return _Search(
            self._lows,
            self._record,
            south=self._south,
            threshold=self._record.threshold(at),
            unseen=self._unseen,
        ).all(at, self._springs, self._autumns)


def _seasons(first: date, days: int, *, south: bool, years: tuple[int, int] | None) -> range:
    """Return the growing years that a record reaches into."""
    if days == 0:
        return range(0)
    year = GrowingYear(first.year, south)
    begin = year.holding(first).season
    end = year.holding(first + timedelta(days=days - 1)).season
    if years is not None:
        begin, end = max(begin, years[0]), min(end, years[1])
    return range(begin, end + 1)


class _Search:
    """The search for the frosts that decide, at one temperature."""

    def __init__(
        self,
        lows: Sequence[float],
        record: Record,
        *,
        south: bool,
        threshold: float,
        unseen: Unseen,
    ) -> None:
        self._lows = lows
        self._first = record.first
        self._south = south
        self._threshold = threshold
        self._unseen = unseen

    def all(self, at: float, springs: range, autumns: range) -> FrostYears:
        """Return both halves of all growing years, and the seasons between."""
        spring, autumn = self._half(Half.SPRING, springs), self._half(Half.AUTUMN, autumns)
        firsts = {year.season: year.day for year in autumn.years}
        lengths = [
            SeasonLength(year.season, _length(year.day, firsts[year.season]))
            for year in spring.years
            if year.season in firsts
        ]
        return FrostYears(at, spring, autumn, tuple(lengths))

    def _half(self, half: Half, seasons: range) -> HalfYears:
        years: list[YearsFrost] = []
        left_out: list[LeftOut] = []
        counted: list[float] = []
        never = -NEVER if half is Half.SPRING else NEVER
        for season in seasons:
            days = self._days(half, season)
            if days is None:
                continue
            found = self._frost(days)
            before = days if found is None else days[: days.index(found)]
            reason = self._unseen.reason(before, self._threshold)
            if reason is not None:
                left_out.append(LeftOut(season, reason))
                continue
            day = None if found is None else self._first + timedelta(days=found)
            years.append(YearsFrost(season, day))
            start = counted_from(half, season, south=self._south)
            counted.append(never if day is None else (day - start).days)
        return HalfYears(
            half=half,
            south=self._south,
            years=tuple(years),
            left_out=tuple(left_out),
            counted=tuple(sorted(counted)),
        )

    def _days(self, half: Half, season: int) -> range | None:
        """Return the year of days to look at, midsummer first, counted from the record's first.

        None where the record does not reach into that half of the growing year.
        """
        year = GrowingYear(season, self._south)
        midsummer = (year.midsummer - self._first).days
        begin, end = (year.first - self._first).days, (year.last - self._first).days
        if half is Half.SPRING:
            if begin >= len(self._lows) or midsummer <= 0:
                return None
            back = (_year_on(year.midsummer, -1) - self._first).days
            return range(midsummer - 1, back - 1, -1)
        if midsummer >= len(self._lows) or end < 0:
            return None
        return range(midsummer, (_year_on(year.midsummer, 1) - self._first).days)

    def _frost(self, days: range) -> int | None:
        """Return the first of the days at or below the threshold, as far as the record has them."""
        back = days.step < 0
        begin, end = (days[-1], days[0] + 1) if back else (days[0], days[-1] + 1)
        begin = max(begin, 0)
        lows = self._lows[begin : max(end, 0)]
        threshold = self._threshold
        towards = reversed(lows) if back else lows
        found = next((at for at, low in enumerate(towards) if low <= threshold), None)
        if found is None:
            return None
        return begin + (len(lows) - 1 - found if back else found)


def _length(last: date | None, first: date | None) -> float:
    return inf if last is None or first is None else (first - last).days


def _year_on(day: date, years: int) -> date:
    return day.replace(year=day.year + years)
