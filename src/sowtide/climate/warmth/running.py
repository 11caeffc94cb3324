"""Means over the last days, where days may be missing."""

from __future__ import annotations

from array import array
from collections.abc import Sequence
from itertools import accumulate, repeat
from math import floor, nan
from operator import eq, sub, truediv

from sowtide.units import ROUNDING_OF_SUMS


def running_mean(values: Sequence[float], days: int, *, missing: float) -> array[float]:
    """Mean of each day and the days before it, NaN where too many of them are missing.

    Days before the first one are missing, too. A mean is good to 1e-9, so a comparison with a
    limit that whole tenths may hit exactly has to allow for that.

    Parameters
    ----------
    values
        One for each day in order, NaN where missing.
    days
        How many days a mean is over, its own day included. [days]
    missing
        The largest share of them that may be missing; of a mean at least one day is there. [0–1]

    Raises
    ------
    ValueError
        If `days` is under 1, or `missing` not between 0 and 1.

    Examples
    --------
    >>> running_mean([2.0, 4.0, float("nan"), 8.0], 2, missing=0.5).tolist()
    [2.0, 3.0, 4.0, 8.0]
    """
    if days < 1:
        raise ValueError(f"a mean over {days} days")
    if not 0 <= missing <= 1:
        raise ValueError(f"{missing} is no share")
    least = max(days - floor(days * missing + ROUNDING_OF_SUMS), 1)
    before = [0.0] * (days - 1)  # so that each day has as many before it
    sums = [*before, *accumulate([each if each == each else 0.0 for each in values], initial=0.0)]
    means = array("d", map(truediv, map(sub, sums[days:], sums), repeat(days)))
    known = [*([0] * (days - 1)), *accumulate(map(eq, values, values), initial=0)]
    for day in _lacking(values, days):
        there = known[day + days] - known[day]
        means[day] = (sums[day + days] - sums[day]) / there if there >= least else nan
    return means


def _lacking(values: Sequence[float], days: int) -> set[int]:
    """Return the days of which not all that their mean is over are there."""
    missing = [day for day, each in enumerate(values) if each != each]
    return {
        day
        for gone in (*range(1 - days, 0), *missing)
        for day in range(max(gone, 0), min(gone + days, len(values)))
    }
