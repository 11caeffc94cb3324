"""How a wave's harvest is spread over the days on which it is picked.

A wave that is picked again and again begins slowly and ends slowly: in the first and the last
quarter of its picking days it bears half as much a day as in the half between them. The shape is
sowtide's own: it makes a sixth of the harvest early, two thirds full and a sixth late. What is cut
once is cut evenly over the days that it stands without spoiling.
"""

from __future__ import annotations

from functools import cache

_EARLY, _LATE = 0.25, 0.75
"""Where the full part begins and ends, as shares of the picking days."""
_SLOW = 0.5
"""What a day of the early or the late part bears, beside one of the full part."""
_WHOLE = _EARLY * _SLOW + (_LATE - _EARLY) + (1 - _LATE) * _SLOW


@cache
def borne_before(days: int, *, at_once: bool) -> tuple[float, ...]:
    """Return the share of a harvest that is borne before each of its days, and after the last.

    Parameters
    ----------
    days
        How many days it is spread over. [days]
    at_once
        Whether it is a crop cut once.

    Examples
    --------
    >>> [round(share, 3) for share in borne_before(4, at_once=False)]
    [0.0, 0.167, 0.5, 0.833, 1.0]
    """
    shares = (day / days for day in range(days + 1))
    return tuple(share if at_once else _share(share) for share in shares)


def _share(part: float) -> float:
    """Return the share borne in a first part of the picking days."""
    early = min(part, _EARLY) * _SLOW
    full = max(min(part, _LATE) - _EARLY, 0.0)
    late = max(part - _LATE, 0.0) * _SLOW
    return (early + full + late) / _WHOLE
