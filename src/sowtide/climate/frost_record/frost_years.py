"""The last and the first frost of every recorded year, and what they say together.

Years run from midsummer to midsummer, see `frost_search`.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from datetime import date
from math import inf, isinf

from sowtide.climate.medians import nearest_day, quantile
from sowtide.days import Half
from sowtide.values import value

NEVER = inf
"""Counted days of a first frost that never comes; of a last one, with a minus."""


@value
class YearsFrost:
    """The frost that decides one half of a growing year."""

    season: int
    """The year that names the growing year."""
    day: date | None
    """Its last frost (spring) or first (autumn), or None where there is none."""


@value
class LeftOut:
    """A half-year that is left out."""

    season: int
    """The year that names the growing year."""
    reason: str
    """Why, in words."""


@value
class HalfYears:
    """The frosts of one half of all growing years, at one temperature.

    Days are counted from 1 March (south of the equator too), so that no 29 February moves them.
    """

    half: Half
    """Spring: last frosts. Autumn: first frosts."""
    south: bool
    """Whether the place lies south of the equator."""
    years: tuple[YearsFrost, ...]
    """The half-years used, in order."""
    left_out: tuple[LeftOut, ...]
    """Those left out, in order."""
    counted: tuple[float, ...]
    """The frosts of those used in counted days, rising; never is minus infinity in spring and
    infinity in autumn. [days]"""

    @property
    def without_frost(self) -> int:
        """How many of the half-years used have no frost."""
        return sum(map(isinf, self.counted))

    def count(self, day: date, season: int) -> int:
        """Count a day of a growing year, or of the half-year beyond it. [days]"""
        return (day - counted_from(self.half, season, south=self.south)).days

    def day(self, counted: float, season: int) -> date | None:
        """Return counted days as a day of a growing year, to the nearest; None for never."""
        return nearest_day(counted_from(self.half, season, south=self.south), counted)

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
    """What a record says about frost at one temperature."""

    at: float
    """The temperature. [°C]"""
    spring: HalfYears
    autumn: HalfYears
    """The last and the first frosts."""
    lengths: tuple[SeasonLength, ...]
    """The frost-free season of each growing year with both halves used."""

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


def counted_from(half: Half, season: int, *, south: bool) -> date:
    """Return the day from which the days of a half-year are counted: 1 March of its own year."""
    return date(season + (south and half is Half.AUTUMN), 3, 1)
