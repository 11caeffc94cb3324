"""Counts for each day of the growing year planned, added up over the recorded years."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import accumulate
from operator import add

from sowtide.climate.warmth import LONGEST_YEAR, Years


class Tally:
    """Counts for each day, which come year by year and mostly in runs of days that are alike.

    Years that lie in the same way to the leap day of the planned year are counted together, and
    laid under it only once.
    """

    __slots__ = ("_changes", "_singly", "_years")

    def __init__(self, years: Years) -> None:
        self._years = years
        leaps = set(years.leaps)
        # What each day has more than the day before it, and what comes to it alone.
        self._changes = {leap: [0] * (LONGEST_YEAR + 1) for leap in leaps}
        self._singly = {leap: [0] * LONGEST_YEAR for leap in leaps}

    def add_run(self, number: int, first: int, stop: int, count: int) -> None:
        """Add a count to each day of a run.

        Parameters
        ----------
        number
            Which of the years.
        first, stop
            The days, half-open. [index]
        count
            What to add. [1]
        """
        base = self._years.bases[number]
        changes = self._changes[self._years.leaps[number]]
        changes[first - base] += count
        changes[stop - base] -= count

    def add_each(self, number: int, first: int, counts: list[int]) -> None:
        """Add counts to days in order, the first of them given as an index."""
        at = first - self._years.bases[number]
        singly = self._singly[self._years.leaps[number]]
        stop = at + len(counts)
        singly[at:stop] = map(add, singly[at:stop], counts)

    def totals(self) -> list[int]:
        """Return the sums for the days of the planned growing year."""
        totals: Iterable[int] = [0] * self._years.days
        for leap, changes in self._changes.items():
            of_years = list(map(add, accumulate(changes), self._singly[leap]))
            totals = map(add, totals, self._years.laid_under(leap, of_years))
        return list(totals)
