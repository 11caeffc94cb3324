"""The middle and other shares of what happened over the years, where it may never have."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from math import floor, isinf

from sowtide.units import ROUNDING_OF_SUMS

NEVER = 1 << 40
"""Days to what does not happen; with a minus, since it never happened. [days]"""


def median(days: Sequence[int]) -> int:
    """Return the median, halves up; between a day and never it is never.

    Examples
    --------
    >>> median([4, 9, 5]), median([4, 5, 9, 9]), median([4, NEVER]) == NEVER
    (5, 7, True)
    """
    rising = sorted(days)
    middle, odd = divmod(len(rising), 2)
    if odd:
        return rising[middle]
    low, high = rising[middle - 1], rising[middle]
    if high >= NEVER:
        return NEVER
    return low if low <= -NEVER else (low + high + 1) // 2


def quantile(rising: Sequence[float], share: float) -> float:
    """Return a quantile, straight between two neighbours; between a day and never it is never.

    Raises
    ------
    ValueError
        If there is none.

    Examples
    --------
    >>> never = float("inf")
    >>> quantile([10, 20, 40], 0.75), quantile([10, never], 0.5), quantile([-never, 10], 1)
    (30.0, inf, 10)
    """
    if not rising:
        raise ValueError("no year is used")
    place = share * (len(rising) - 1)
    below = floor(place)
    part = place - below
    if part < ROUNDING_OF_SUMS or below + 1 == len(rising):
        return rising[below]
    low, high = rising[below], rising[below + 1]
    return low if isinf(low) else low + (high - low) * part


def nearest_day(start: date, counted: float) -> date | None:
    """Return the day so many days after another, to the nearest, halves up; None for never."""
    return None if isinf(counted) else start + timedelta(days=floor(counted + 0.5))
