"""The usual maximum of a day, from the monthly normals."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from sowtide.garden.site import Normals


def usual_high(normals: Normals | None) -> Callable[[date], float | None]:
    """Return what tells the usual maximum of a day [°C], straight between the middles of months.

    Without normals it is not known.
    """
    if normals is None:
        return lambda _: None
    from calendar import monthrange

    highs = normals.highs

    def of_day(day: date) -> float | None:
        length = monthrange(day.year, day.month)[1]
        past = (day.day - 0.5) / length - 0.5  # of a month, from its middle
        here = highs[day.month - 1]
        there = highs[(day.month - 1 + (1 if past > 0 else -1)) % 12]
        return here + abs(past) * (there - here)

    return of_day
