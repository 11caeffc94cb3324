"""How hot a day gets: usually, by the monthly normals, or in a week as the grower expects it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

from sowtide.garden.site import Normals

_WEEK = timedelta(days=7)


def usual_high(
    normals: Normals | None, typed: tuple[date, float] | None = None
) -> Callable[[date], float | None]:
    """Return what tells the maximum of a day [°C], straight between the middles of months.

    Parameters
    ----------
    normals
        The normals; without them it is not known.
    typed
        The first day of a week, and what the grower expects in it in their place. [°C]
    """
    usual = _of_normals(normals) if normals is not None else None

    def of_day(day: date) -> float | None:
        if typed is not None and typed[0] <= day < typed[0] + _WEEK:
            return typed[1]
        return None if usual is None else usual(day)

    return of_day


def _of_normals(normals: Normals) -> Callable[[date], float]:
    from calendar import monthrange

    highs = normals.highs

    def of_day(day: date) -> float:
        length = monthrange(day.year, day.month)[1]
        past = (day.day - 0.5) / length - 0.5  # of a month, from its middle
        here = highs[day.month - 1]
        there = highs[(day.month - 1 + (1 if past > 0 else -1)) % 12]
        return here + abs(past) * (there - here)

    return of_day
