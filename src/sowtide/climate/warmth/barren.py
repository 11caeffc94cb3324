"""The days on which there is nothing to pick, since heat dropped the flowers of their fruit."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence

from sowtide.climate.medians import NEVER
from sowtide.values import value


class Barren:
    """Days without fruit: those on which flowers drop, moved on by the days to the pick.

    Parameters
    ----------
    dropped
        The days on which flowers set no fruit, in order. [index or ordinal]
    ripens
        Days from a flower to the pick of its fruit. [days]
    """

    def __init__(self, dropped: Sequence[int], ripens: int) -> None:
        self._days = [day + ripens for day in dropped]

    def __bool__(self) -> bool:
        return bool(self._days)

    def of(self, first: int, stop: int) -> list[int]:
        """Return the days without fruit from a first one to the one before another."""
        return self._days[bisect_left(self._days, first) : bisect_left(self._days, stop)]

    def count(self, first: int, stop: int) -> int:
        """Return how many days without fruit there are, half-open. [days]"""
        if stop <= first:
            return 0
        return bisect_left(self._days, stop) - bisect_left(self._days, first)

    def picked(self, first: int, stop: int) -> int:
        """Return how many days there is something to pick, half-open. [days]"""
        if stop <= first:
            return 0
        return stop - first - bisect_left(self._days, stop) + bisect_left(self._days, first)

    def nth(self, first: int, number: int) -> int:
        """Return the day with fruit of a number, counted from a first day on; the first is 1.

        Examples
        --------
        >>> Barren([0, 1, 5], 10).nth(9, 1), Barren([0, 1, 5], 10).nth(9, 2)
        (9, 12)
        """
        days, begun = self._days, bisect_left(self._days, first)
        soonest = day = first + number - 1
        while (later := soonest + bisect_left(days, day + 1, begun) - begun) > day:
            day = later
        return day

    def last(self, first: int, stop: int) -> int | None:
        """Return the last day with fruit, half-open; None where there is none."""
        for day in range(stop - 1, first - 1, -1):
            if not self.count(day, day + 1):
                return day
        return None

    def spans(self, first: int, stop: int) -> Iterator[tuple[int, int]]:
        """Yield the runs of days without fruit, half-open, that lie in a span that is half-open."""
        begin = None
        days = self.of(first, stop)
        for at, day in enumerate(days):
            begin = day if begin is None else begin
            if at + 1 == len(days) or days[at + 1] > day + 1:
                yield begin, day + 1
                begin = None


@value
class LeftByHeat:
    """The picking of a wave whose flowers heat may have dropped."""

    early: int
    late: int
    """First pick at the two ends of the range; `NEVER` where nothing sets."""
    end: int
    """The day from which on there is nothing more to pick; `NEVER` where picking days end it."""


def left_by_heat(early: int, late: int, picking: int, barren: Barren) -> LeftByHeat:
    """Return what heat on its flowers leaves of a picking.

    Parameters
    ----------
    early, late
        First pick at the two ends of the range without heat.
    picking
        How long it can be picked. [days]
    barren
        The days without fruit.
    """
    stop = late + picking
    last = barren.last(early, stop)
    if last is None:
        return LeftByHeat(NEVER, NEVER, early)
    sets = barren.nth(late, 1)
    return LeftByHeat(
        barren.nth(early, 1),
        sets if sets < stop else NEVER,
        last + 1 if last + 1 < stop else NEVER,
    )
