"""The middle of what happened over the years, where it may never have happened."""

from __future__ import annotations

from collections.abc import Sequence

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
