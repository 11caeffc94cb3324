"""How a wave's harvest is spread over the days on which it is picked.

A wave that is picked again and again begins slowly and ends slowly: in the first and the last
quarter of its picking days it bears half as much a day as in the half between them. The shape is
sowtide's own: it makes a sixth of the harvest early, two thirds full and a sixth late. What stands
on over the winter after its usual picking days bears a quarter as much a day as in the full part:
it hardly grows in the short days. What is cut once is cut evenly over the days that it stands
without spoiling.
"""

from __future__ import annotations

from functools import cache

_EARLY, _LATE = 0.25, 0.75
"""Where the full part begins and ends, as shares of the picking days."""
_SLOW = 0.5
"""What a day of the early or the late part bears, beside one of the full part."""
_STANDING = 0.25
"""What a day bears on which it stands over the winter, beside one of the full part."""
_WHOLE = _EARLY * _SLOW + (_LATE - _EARLY) + (1 - _LATE) * _SLOW


@cache
def borne_before(days: int, *, at_once: bool, usual: int | None = None) -> tuple[float, ...]:
    """Return the share of a harvest that is borne before each of its days, and after the last.

    Parameters
    ----------
    days
        How many days it is spread over. [days]
    at_once
        Whether it is a crop cut once.
    usual
        How many of the days are its usual picking days; None for all. On the others it stands over
        the winter. [days]

    Examples
    --------
    >>> [round(share, 3) for share in borne_before(4, at_once=False)]
    [0.0, 0.167, 0.5, 0.833, 1.0]
    """
    if at_once:
        return tuple(day / days for day in range(days + 1))
    usual = days if usual is None else min(usual, days)
    whole = _WHOLE * usual + _STANDING * (days - usual)
    return tuple(_borne(day, usual) / whole for day in range(days + 1))


def _borne(day: int, usual: int) -> float:
    """Return what is borne before a day, in days of the full part. [days]"""
    part = min(day / usual, 1.0)
    early = min(part, _EARLY) * _SLOW
    full = max(min(part, _LATE) - _EARLY, 0.0)
    late = max(part - _LATE, 0.0) * _SLOW
    return (early + full + late) * usual + max(day - usual, 0) * _STANDING
