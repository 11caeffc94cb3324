"""The day on which so much warmth has gathered, over the years."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from datetime import date
from math import inf

from sowtide.climate.medians import nearest_day, quantile
from sowtide.units import ROUNDING_OF_SUMS
from sowtide.values import value

EARLY, LATE = 0.1, 0.9


@value
class Reached:
    """When a sum of warmth is reached."""

    day: date | None
    """The day by which it is in half of the years; None where it is in fewer."""
    early: date | None
    late: date | None
    """The days by which it is in one year of ten and in nine; None where it is in fewer."""
    years: int | None
    """How many recorded years these are of; None for one average year. [years]"""


def reached_in(days: Sequence[float], start: date, *, years: bool) -> Reached | None:
    """Return when a sum is reached; None where no year tells.

    Parameters
    ----------
    days
        Of each year, the days from the start until it is reached, infinite for never. [days]
    start
        The day from which they are counted, in the growing year planned.
    years
        Whether they are of recorded years, not of one average year.
    """
    rising = sorted(days)
    if not rising:
        return None

    def by(share: float) -> date | None:
        return nearest_day(start, quantile(rising, share))

    return Reached(by(0.5), by(EARLY), by(LATE), len(rising) if years else None)


def days_until(heat: Sequence[float], start: int, total: float, *, stop: int) -> float:
    """Return the days from a day until a sum of warmth is complete; infinite where not in time.

    Parameters
    ----------
    heat
        Degree-days gathered before each day, see `heat.accumulated`. [°C·d]
    start
        The day from which they are counted. [index]
    total
        The sum. [°C·d]
    stop
        The day after the last that counts. [index]
    """
    complete = bisect_left(heat, heat[start] + total - ROUNDING_OF_SUMS, start + 1, stop + 1)
    return inf if complete > stop else float(complete - 1 - start)
