"""A record's growing years laid under the one planned: the same day of each of them."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from math import nan
from operator import add

from sowtide.days import GrowingYear

LONGEST_YEAR = 367
"""A leap year, and a day to spare for a leap day that the planned year has and another has not."""


class Years:
    """Where the days of a growing year lie in a record of many.

    Parameters
    ----------
    first
        The record's first day.
    seasons
        The growing years of the record that are used, by the year that names each.
    year
        The growing year planned.
    """

    __slots__ = ("_days", "_march", "bases", "leaps", "midsummers", "seasons")

    def __init__(self, first: date, seasons: tuple[int, ...], year: GrowingYear) -> None:
        self.seasons = seasons
        of = [GrowingYear(season, year.south) for season in seasons]
        self.bases = tuple((each.first - first).days for each in of)
        """Index of each year's first day."""
        self.midsummers = tuple((each.midsummer - first).days for each in of)
        """Index of each year's midsummer."""
        self._march = _march(year)
        self._days = (year.last - year.first).days + 1
        self.leaps = tuple(_march(each) - self._march for each in of)
        """Days by which each year's days from 1 March on are later than the planned year's."""

    @classmethod
    def laid_out(cls, bases: tuple[int, ...], seasons: tuple[int, ...], year: GrowingYear) -> Years:
        """Return years whose days already follow the planned year's calendar.

        Parameters
        ----------
        bases
            Index of each year's first day.
        seasons, year
            As for the class.
        """
        years = cls(year.first, seasons, year)
        years.bases = bases
        to_midsummer = (year.midsummer - year.first).days
        years.midsummers = tuple(base + to_midsummer for base in bases)
        years.leaps = (0,) * len(bases)
        return years

    @property
    def days(self) -> int:
        """Days of the planned growing year."""
        return self._days

    def laid_under(self, leap: int, of_year: list[int]) -> list[int]:
        """Return figures of other years' days as those of the planned growing year's days.

        Parameters
        ----------
        leap
            What `leaps` says of these years. [days]
        of_year
            One for each of their days from the first on, and some to spare.
        """
        if not leap:
            return of_year[: self._days]
        return of_year[: self._march] + of_year[self._march + leap : self._days + leap]

    def light_of(self, light: Sequence[float], days: int) -> list[float]:
        """Return the light of each day of the record, 1 outside of the years.

        Parameters
        ----------
        light
            That of each day of the growing year planned. [0–1]
        days
            How many days the record has.
        """
        found = [1.0] * days
        # Light is short after midsummer only, so that a leap day lies before all of it.
        for begin in map(add, self.bases, self.leaps):
            first, stop = max(-begin, 0), min(len(light), days - begin)
            found[begin + first : begin + stop] = light[first:stop]
        return found

    def of_year(self, number: int, readings: Sequence[float]) -> Sequence[float]:
        """Return what one year has on the days of the planned one, NaN beyond the record.

        Parameters
        ----------
        number
            Which of the years.
        readings
            One for each day of the record.
        """
        base, march, days = self.bases[number], self._march, self._days
        later = base + self.leaps[number]
        if base >= 0 and later + days <= len(readings):
            return [*readings[base : base + march], *readings[later + march : later + days]]
        places = (*range(base, base + march), *range(later + march, later + days))
        return [readings[at] if 0 <= at < len(readings) else nan for at in places]

    def indices(self, offset: int) -> list[int]:
        """Return where a day lies in each of the years.

        Parameters
        ----------
        offset
            The day, counted from the planned growing year's first. [days]
        """
        if offset < self._march:
            return [base + offset for base in self.bases]
        return [base + offset + leap for base, leap in zip(self.bases, self.leaps, strict=True)]


def _march(year: GrowingYear) -> int:
    """Days from a growing year's first day to 1 March: before it lies the leap day, if any."""
    return (date(year.last.year, 3, 1) - year.first).days
