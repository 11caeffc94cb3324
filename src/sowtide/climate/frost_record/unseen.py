"""Days without a reading, and whether a frost could hide in them.

A missing day in June hides no frost of −7 °C where April never had one. A frost could hide in a
day unless ten years or more have a reading of that day of the year, and no year was as cold within
45 days of it. The ten years and the 45 days are sowtide's own.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from datetime import date, timedelta
from math import inf

from sowtide.days import short_day

YEARS = 10
"""Readings of a day of the year that it takes to know what it can bring. [years]"""

AROUND = 45
"""How near in the year a frost must have been seen for another to be possible. [days]"""

_LEAP = 366


class Unseen:
    """The days that a record does not show.

    Parameters
    ----------
    lows
        Daily minima, not a number where there is none. [°C]
    first
        The day of the first.
    goes_on
        Whether the record goes on behind the last of them.
    """

    def __init__(self, lows: Sequence[float], first: date, *, goes_on: bool) -> None:
        self._lows = lows
        self._first = first
        self._goes_on = goes_on
        self._missing = [day for day, low in enumerate(lows) if low != low]
        self._coldest: tuple[float, ...] = ()

    def reason(self, days: range, threshold: float) -> str | None:
        """Say why it is not known whether any of some days had a frost; None where it is known.

        Parameters
        ----------
        days
            Days that had none as far as the record shows, counted from its first.
        threshold
            The highest reading that is a frost. [°C]
        """
        length = len(self._lows)
        begin, end = (min(days[0], days[-1]), max(days[0], days[-1]) + 1) if days else (0, 0)
        if self._could_freeze(range(max(begin, length), end), threshold):
            last = self._name(length - 1)
            return f"days after {last} are not used" if self._goes_on else f"ends on {last}"
        if self._could_freeze(range(begin, min(end, 0)), threshold):
            return f"begins on {self._name(0)}"
        missing = self._missing[bisect_left(self._missing, begin) : bisect_left(self._missing, end)]
        hiding = self._could_freeze(missing, threshold)
        if not hiding:
            return None
        if len(hiding) == 1:
            return f"no reading on {self._name(hiding[0])}"
        return f"no reading on {len(hiding)} days, the first {self._name(hiding[0])}"

    def _could_freeze(self, days: Sequence[int], threshold: float) -> list[int]:
        """Return those of some days that could have been as cold as a threshold."""
        if not days:
            return []
        if not self._coldest:
            self._coldest = self._known()
        first = self._first.toordinal()
        return [day for day in days if self._coldest[_place(first + day)] <= threshold]

    def _known(self) -> tuple[float, ...]:
        """Return the coldest seen around each day of the year; without end where it is unknown."""
        coldest, years = [inf] * _LEAP, [0] * _LEAP
        year = self._first.year - (self._first.month < 3)
        begin = date(year, 3, 1).toordinal() - self._first.toordinal()
        while begin < len(self._lows):
            year += 1
            end = date(year, 3, 1).toordinal() - self._first.toordinal()
            for place, low in enumerate(self._lows[max(begin, 0) : end], max(-begin, 0)):
                if low == low:
                    years[place] += 1
                    coldest[place] = min(coldest[place], low)
            begin = end
        years[-1] = years[-2]  # 29 February is known as 28 February is
        round_the_year = coldest[-AROUND:] + coldest + coldest[:AROUND]
        return tuple(
            min(round_the_year[place : place + 2 * AROUND + 1]) if number >= YEARS else -inf
            for place, number in enumerate(years)
        )

    def _name(self, day: int) -> str:
        named = self._first + timedelta(days=day)
        return f"{short_day(named)} {named.year}"


def _place(ordinal: int) -> int:
    """Return a day's place in the year, from 1 March on, so that 29 February is the last."""
    day = date.fromordinal(ordinal)
    return ordinal - date(day.year - (day.month < 3), 3, 1).toordinal()
