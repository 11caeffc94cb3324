"""How full one bed is on each day of a year, for looking ahead over whole stays."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from datetime import date

NEVER = date.max.toordinal()
"""A day that does not come. [ordinal]"""


class Level:
    """The area taken in one bed over time, as steps.

    Examples
    --------
    >>> bed = Level()
    >>> bed.add(10, 20, 4)
    >>> bed.add(15, 30, 5)
    >>> bed.peak(0, 15), bed.peak(0, 16), bed.peak(20, 40)
    (4, 9, 5)
    >>> bed.next_above(4, day=12), bed.next_above(5, day=17)
    ((15, 30), (17, 20))
    """

    __slots__ = ("_days", "_taken")

    def __init__(self) -> None:
        self._days = [-1]
        self._taken = [0]

    def add(self, first: int, until: int, area: int) -> None:
        """Take an area, or give it back if negative, over a half-open span. [ordinal], [µm²]"""
        begin, end = self._step(first), self._step(until)
        taken = self._taken
        for number in range(begin, end):
            taken[number] += area

    def peak(self, first: int, until: int) -> int:
        """Most area taken on a day of a half-open span, or on its first. [µm²]"""
        begin = bisect_right(self._days, first) - 1
        end = bisect_left(self._days, until)
        taken = self._taken
        return max(taken[begin:end]) if end > begin + 1 else taken[begin]

    def on(self, day: int) -> int:
        """Area taken on a day. [µm²]"""
        return self._taken[bisect_right(self._days, day) - 1]

    def next_above(self, area: int, *, day: int) -> tuple[int, int]:
        """Return the next days, half-open, on which more than an area is taken. [ordinal]

        Parameters
        ----------
        area
            The area. [µm²]
        day
            The day from which on it is looked at. [ordinal]
        """
        days, taken = self._days, self._taken
        number, count = bisect_right(days, day) - 1, len(days)
        while taken[number] <= area:
            number += 1
            if number == count:
                return NEVER, NEVER
        first = max(days[number], day)
        while taken[number] > area:
            number += 1
            if number == count:
                return first, NEVER
        return first, days[number]

    def changes(self, first: int, until: int) -> tuple[int, ...]:
        """Return the days after a first one and before another on which it changes. [ordinal]"""
        return tuple(self._days[bisect_right(self._days, first) : bisect_left(self._days, until)])

    def _step(self, day: int) -> int:
        """Return the number of the step that begins on a day; it is made if there is none."""
        number = bisect_left(self._days, day)
        if number == len(self._days) or self._days[number] != day:
            self._days.insert(number, day)
            self._taken.insert(number, self._taken[number - 1])
        return number
