"""The last and the first frost of every recorded year, and what they say together.

Years run from midsummer to midsummer: a spring looks back from midsummer for its last frost and an
autumn forward for its first, at most a year, so that a first frost in January is still that of the
autumn before. A half-year without any counts as never. It is left out only where a day without a
reading could hide the frost that decides it.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from math import floor, inf, isinf

from sowtide.climate.half import Half
from sowtide.climate.record import Record
from sowtide.climate.unseen import Unseen
from sowtide.days import GrowingYear
from sowtide.values import value

NEVER = inf
"""Counted days of a first frost that never comes; of a last one, with a minus."""


@value
class YearsFrost:
    """The frost that decides one half of a growing year.

    Parameters
    ----------
    season
        The year that names the growing year.
    day
        Its last frost (spring) or first (autumn), or None where there is none.
    """

    season: int
    day: date | None


@value
class LeftOut:
    """A half-year that is left out.

    Parameters
    ----------
    season
        The year that names the growing year.
    reason
        Why, in words.
    """

    season: int
    reason: str


@value
class HalfYears:
    """The frosts of one half of all growing years, at one temperature.

    Days are counted from 1 March (south of the equator too), so that no 29 February moves them.

    Parameters
    ----------
    half
        Spring: last frosts. Autumn: first frosts.
    south
        Whether the place lies south of the equator.
    years
        The half-years used, in order.
    left_out
        Those left out, in order.
    counted
        The frosts of those used in counted days, rising; never is minus infinity in spring and
        infinity in autumn. [days]
    """

    half: Half
    south: bool
    years: tuple[YearsFrost, ...]
    left_out: tuple[LeftOut, ...]
    counted: tuple[float, ...]

    @property
    def without_frost(self) -> int:
        """How many of the half-years used have no frost."""
        return sum(map(isinf, self.counted))

    def count(self, day: date, season: int) -> int:
        """Count a day of a growing year, or of the half-year beyond it. [days]"""
        return (day - counted_from(self.half, season, south=self.south)).days

    def day(self, counted: float, season: int) -> date | None:
        """Return counted days as a day of a growing year, to the nearest; None for never."""
        if isinf(counted):
            return None
        start = counted_from(self.half, season, south=self.south)
        return start + timedelta(days=floor(counted + 0.5))

    def quantile(self, share: float) -> float:
        """Return the counted days that this share of years does not pass. [days]

        Straight between two years (numpy's default, Hyndman and Fan's definition 7); between a day
        and never it is never.

        Raises
        ------
        ValueError
            If no year is used.
        """
        return quantile(self.counted, share)

    def odds_later(self, counted: float) -> float:
        """Return the share of the years used with this frost later than a day. [0–1]

        Raises
        ------
        ValueError
            If no year is used.
        """
        return (self._number() - bisect_right(self.counted, counted)) / self._number()

    def odds_earlier(self, counted: float) -> float:
        """Return the share of the years used with this frost earlier than a day. [0–1]

        Raises
        ------
        ValueError
            If no year is used.
        """
        return bisect_left(self.counted, counted) / self._number()

    def _number(self) -> int:
        if not self.counted:
            raise ValueError("no year is used")
        return len(self.counted)


@value
class SeasonLength:
    """Days from the last frost of a growing year to its first; infinite where one never comes."""

    season: int
    days: float


@value
class FrostYears:
    """What a record says about frost at one temperature.

    Parameters
    ----------
    at
        The temperature. [°C]
    spring, autumn
        The last and the first frosts.
    lengths
        The frost-free season of each growing year with both halves used.
    """

    at: float
    spring: HalfYears
    autumn: HalfYears
    lengths: tuple[SeasonLength, ...]

    def of(self, half: Half) -> HalfYears:
        """Return one half."""
        return self.spring if half is Half.SPRING else self.autumn

    def length_quantile(self, share: float) -> float:
        """Return the length of season that this share of years does not pass. [days]

        Raises
        ------
        ValueError
            If no growing year has both halves used.
        """
        return quantile(sorted(length.days for length in self.lengths), share)


def frost_years(
    record: Record,
    *,
    at: float,
    south: bool,
    years: tuple[int, int] | None = None,
    until: date | None = None,
) -> FrostYears:
    """Return what a record says about frost at one temperature.

    Parameters
    ----------
    record
        The place's daily minima.
    at
        The temperature; a day at or below it, at the record's resolution, is a frost. [°C]
    south
        Whether the place lies south of the equator.
    years
        The first and the last growing year to use; all of the record unless set.
    until
        The last day to use; that of the record unless set.
    """
    return frosts_of(record, at=(at,), south=south, years=years, until=until)[0]


def frosts_of(
    record: Record,
    *,
    at: Iterable[float],
    south: bool,
    years: tuple[int, int] | None = None,
    until: date | None = None,
) -> tuple[FrostYears, ...]:
    """Return what a record says about frost at several temperatures, as `frost_years` does."""
    lows: Sequence[float] = record.tmin
    if until is not None and until < record.last:
        lows = record.tmin[: max((until - record.first).days + 1, 0)]
    unseen = Unseen(lows, record.first, goes_on=len(lows) < len(record.tmin))
    seasons = _seasons(record.first, len(lows), south=south, years=years)
    return tuple(
        _Search(lows, record, south=south, threshold=record.threshold(each), unseen=unseen).all(
            each, seasons
        )
        for each in at
    )


def counted_from(half: Half, season: int, *, south: bool) -> date:
    """Return the day from which the days of a half-year are counted: 1 March of its own year."""
    return date(season + (south and half is Half.AUTUMN), 3, 1)


def quantile(rising: Sequence[float], share: float) -> float:
    """Return a quantile, straight between two neighbours; between a day and never it is never.

    Raises
    ------
    ValueError
        If there is none.

    Examples
    --------
    >>> quantile([10, 20, 40], 0.75), quantile([10, inf], 0.5), quantile([-inf, 10], 1)
    (30.0, inf, 10)
    """
    if not rising:
        raise ValueError("no year is used")
    place = share * (len(rising) - 1)
    below = floor(place)
    part = place - below
    if part < 1e-9 or below + 1 == len(rising):
        return rising[below]
    low, high = rising[below], rising[below + 1]
    return low if isinf(low) else low + (high - low) * part


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

    def all(self, at: float, seasons: range) -> FrostYears:
        """Return both halves of all growing years, and the seasons between."""
        spring, autumn = self._half(Half.SPRING, seasons), self._half(Half.AUTUMN, seasons)
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
        return HalfYears(half, self._south, tuple(years), tuple(left_out), tuple(sorted(counted)))

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
