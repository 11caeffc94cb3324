"""The days of the years too hot for flowers to set fruit: the mean of a week above a limit."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from datetime import date, timedelta

from sowtide.climate.medians import median
from sowtide.climate.warmth.running import running_mean
from sowtide.units import ROUNDING_OF_MEANS
from sowtide.values import value

DAYS = 7
"""Days that the means are over, as many before the day as after it. [days]"""

_MISSING = 0.3


@value
class FruitGap:
    """Days on which heat lets flowers set little fruit."""

    first: date
    last: date
    """The first and the last of them, in the middle of the years that have any."""
    share: float
    """Share of the years that have any. [0–1]"""
    years: int | None
    """How many recorded years that is of; None for one average year. [years]"""


def too_hot_to_set(
    tmin: Sequence[float], tmax: Sequence[float], *, high: float | None, low: float | None
) -> Sequence[int]:
    """Return the days, in order, around which the week's maxima or minima are over a limit.

    Parameters
    ----------
    tmin, tmax
        Temperatures of the days, not a number where missing. [°C]
    high, low
        Limits of the means of maxima and of minima; None for none. [°C]
    """
    days: set[int] = set()
    for readings, limit in ((tmax, high), (tmin, low)):
        if limit is not None:
            means = running_mean(readings, DAYS, missing=_MISSING)
            over = limit + ROUNDING_OF_MEANS
            days.update(day - DAYS // 2 for day, mean in enumerate(means) if mean > over)
    return sorted(days)


def gap_of(
    hot: Sequence[int], begins: Sequence[int], first: date, days: int, *, years: bool
) -> FruitGap | None:
    """Return the days too hot to set fruit while a crop is in flower; None where no year has any.

    Parameters
    ----------
    hot
        The days that are too hot, in order.
    begins
        In each year, the day on which the flowers open. [index]
    first
        The same day in the growing year planned.
    days
        How many days they are open that can still be picked. [days]
    years
        Whether they are recorded years, not one average year.
    """
    firsts, lasts = [], []
    for begin in begins:
        inside = slice(bisect_left(hot, begin), bisect_left(hot, begin + days))
        if hot[inside]:
            firsts.append(hot[inside][0] - begin)
            lasts.append(hot[inside][-1] - begin)
    if not firsts:
        return None
    return FruitGap(
        first + timedelta(days=median(firsts)),
        first + timedelta(days=median(lasts)),
        len(firsts) / len(begins),
        len(begins) if years else None,
    )
