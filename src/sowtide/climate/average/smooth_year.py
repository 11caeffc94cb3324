"""A smooth year of daily values from twelve monthly means.

The means are summed up from month to month, and a cubic spline laid through the sums that closes
upon itself over New Year; a day's value is what the spline rises by during that day. So every
month keeps its mean, whatever its length, and the days pass into each other without steps: the
histospline of Boneva, Kendall and Stefanov (Journal of the Royal Statistical Society B 33:1–70,
1971). The warmest day comes out a little warmer than the warmest month, as in real years.

A smooth year has 365 days from 1 January to 31 December. In a leap year 29 February lies between
its neighbours, which moves the mean of that month alone, by a fraction of a degree.
"""

from __future__ import annotations

from array import array
from collections.abc import Sequence
from datetime import date
from itertools import accumulate, pairwise

from sowtide.days import DateSpan

DAYS = 365
"""Days of a smooth year. [days]"""

_MONTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_STARTS = tuple(accumulate(_MONTHS, initial=0))
_FEBRUARY_ENDS = _STARTS[2]


def smooth_year(means: Sequence[float]) -> array[float]:
    """Daily values from 1 January to 31 December whose monthly means are those given.

    Parameters
    ----------
    means
        Twelve monthly means, January's first.

    Raises
    ------
    ValueError
        If they are not twelve.

    Examples
    --------
    >>> year = smooth_year([2, 3, 7, 12, 17, 22, 25, 24, 19, 13, 8, 3])
    >>> round(sum(year[31:59]) / 28, 9)
    3.0
    """
    if len(means) != len(_MONTHS):
        raise ValueError(f"{len(means)} monthly means")
    slopes = _slopes(means)
    values = array("d")
    for month, days in enumerate(_MONTHS):
        values.extend(_month(means[month], slopes[month], slopes[(month + 1) % 12], days))
    return values


def days_of(year: Sequence[float], span: DateSpan) -> array[float]:
    """Lay a smooth year along the days of any span, both ends included.

    29 February has the mean of the days on either side of it.

    Parameters
    ----------
    year
        Values of 365 days, 1 January's first.
    span
        The days.

    Raises
    ------
    ValueError
        If the year has not 365 days.
    """
    if len(year) != DAYS:
        raise ValueError(f"a smooth year of {len(year)} days")
    leap_day = (year[_FEBRUARY_ENDS - 1] + year[_FEBRUARY_ENDS]) / 2
    common = array("d", year)
    leap = common[:_FEBRUARY_ENDS] + array("d", [leap_day]) + common[_FEBRUARY_ENDS:]
    values = array("d")
    for number in range(span.first.year, span.last.year + 1):
        values += leap if (date(number + 1, 1, 1) - date(number, 1, 1)).days > DAYS else common
    before = (span.first - date(span.first.year, 1, 1)).days
    return values[before : before + span.length]


def _slopes(means: Sequence[float]) -> list[float]:
    """Return the spline's slope at the beginning of each month: what the value is there.

    A cubic spline's curvature is the same on both sides of a knot. Between months of `a` and `b`
    days with means `p` and `q`, and slopes `x` before, `y` at and `z` after the knot, that is

        b x + 2 (a + b) y + a z = 3 (b p + a q)

    for each of the twelve, in a circle.
    """
    rows = []
    for month in range(12):
        before, own = _MONTHS[month - 1], _MONTHS[month]
        row = [0.0] * 12
        row[month - 1] += own
        row[month] += 2 * (before + own)
        row[(month + 1) % 12] += before
        rows.append([*row, 3 * (own * means[month - 1] + before * means[month])])
    return _solved(rows)


def _solved(rows: list[list[float]]) -> list[float]:
    """Solve equations whose diagonal outweighs the rest of each row, so that no pivot is sought."""
    size = len(rows)
    for at, pivot in enumerate(rows):
        for row in rows[at + 1 :]:
            factor = row[at] / pivot[at]
            if factor:
                for column in range(at, size + 1):
                    row[column] -= factor * pivot[column]
    found = [0.0] * size
    for at in range(size - 1, -1, -1):
        known = sum([rows[at][column] * found[column] for column in range(at + 1, size)])
        found[at] = (rows[at][size] - known) / rows[at][at]
    return found


def _month(mean: float, begins: float, ends: float, days: int) -> list[float]:
    """Return the daily values of a month, from its mean and the slopes at both of its ends."""
    bend = begins + ends - 2 * mean
    turn = 3 * mean - 2 * begins - ends

    def risen(day: int) -> float:
        part = day / days
        return part * (begins + part * (turn + part * bend)) * days

    sums = [risen(day) for day in range(days + 1)]
    return [after - before for before, after in pairwise(sums)]
