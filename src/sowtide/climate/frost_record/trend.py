"""Whether the frosts of a record move over the years, and how fast.

The rate is the median of the slopes between all pairs of years (Theil, 1950; Sen, Journal of the
American Statistical Association 63:1379, 1968): a single odd year hardly moves it. Whether it is
more than chance is judged by Mann and Kendall's test, ties counted (Kendall, Rank Correlation
Methods, 1975). Both take years as independent of each other, and say nothing of years to come.
"""

from __future__ import annotations

from collections import Counter
from itertools import combinations
from math import erfc, sqrt
from statistics import median

from sowtide.climate.frost_record.frost_years import HalfYears
from sowtide.values import value

FEWEST = 20
"""Years with a frost below which no trend is looked for. [years]"""

SURE = 0.05
"""Chance of such a trend in years without any, at or below which it is taken for one."""

_MOST_WITHOUT = 0.1
"""Share of years without a frost above which dates alone say too little."""


@value
class Trend:
    """How the frosts of one half of the year move."""

    days_per_decade: float
    """Later with the years where it is positive, earlier where negative. [days/decade]"""
    chance: float
    """How often years without any trend show one as strong, in either direction. [0–1]"""
    years: int
    """How many years with a frost it rests on."""

    @property
    def is_sure(self) -> bool:
        """Whether it is more than chance would bring."""
        return self.chance <= SURE and self.days_per_decade != 0


def trend(half: HalfYears) -> Trend | None:
    """Return how the frosts of one half of the year move; None where too few years tell.

    Years without a frost have no date and are left out; where they are more than a tenth, the
    dates that are left would mislead.
    """
    points = [
        (year.season, half.count(year.day, year.season))
        for year in half.years
        if year.day is not None
    ]
    if len(points) < FEWEST or len(points) < (1 - _MOST_WITHOUT) * len(half.years):
        return None
    pairs = list(combinations(points, 2))
    slope = median([(later - day) / (to - since) for (since, day), (to, later) in pairs])
    rising = sum((later > day) - (later < day) for (_, day), (_, later) in pairs)
    return Trend(slope * 10, _chance(rising, [day for _, day in points]), len(points))


def _chance(rising: int, days: list[int]) -> float:
    """Return the chance of so many more rising than falling pairs, or more, in either direction.

    Parameters
    ----------
    rising
        Pairs of years that rise less those that fall.
    days
        The days of all years.
    """
    spread = _variance(len(days)) - sum(map(_variance, Counter(days).values()))
    if spread == 0:
        return 1.0
    deviate = max(abs(rising) - 1, 0) / sqrt(spread)
    return erfc(deviate / sqrt(2))


def _variance(number: int) -> float:
    return number * (number - 1) * (2 * number + 5) / 18
