"""The chances of all planting days of a year at once, by the heat gathered on its last useful day.

A planting succeeds in a year as far as its picks come early enough. What needs some heat is picked
by a day if that much is gathered between planting and that day: so the share of a range that
succeeds is one look-up, and along the days it only falls.
"""

from __future__ import annotations

from array import array
from bisect import bisect_right
from collections.abc import Sequence

from sowtide.climate.outlook import Need, Warmth

_ROUNDING = 1e-9


class Sweep:
    """Counts how many parts of a crop's range succeed, for runs of planting days.

    Parameters
    ----------
    heat
        Degree-days gathered before each day of the record. [°C·d]
    totals
        The heat that each part of the range needs, in order. [°C·d]
    need
        What the crop needs; its warmth is set.
    """

    def __init__(self, heat: array[float], totals: Sequence[float], need: Need) -> None:
        assert need.warmth is not None
        self._heat = heat
        self._totals = totals
        self._need = need
        self._warmth: Warmth = need.warmth
        self._parts = len(totals)

    def year(
        self, first: int, stop: int, useful: int, hot: tuple[int, int] | None
    ) -> tuple[list[int], list[int]]:
        """Return for each planting day the parts that are worth while, and whether it is too hot.

        Parameters
        ----------
        first, stop
            The planting days, half-open, that one frost ends. [index]
        useful
            The last day on which a first pick is early enough for the frost. [index]
        hot
            First hot day of the year and the day after its last; None without any. [index]
        """
        if hot is None:
            return self._picked(first, stop, useful), [0] * (stop - first)
        begins, over = hot
        need, parts = self._need, self._parts
        before_heat = self._first_without(first, stop, begins - 1)  # from here none is ripe before
        after_heat = self._first_without(first, stop, over - 1)  # from here all are ripe after
        waiting = self._first_short(first, stop, over - 1)  # from here some are ripe after
        waiting = min(max(waiting, before_heat), after_heat)
        worth = self._picked(first, before_heat, min(begins - need.worthwhile, useful))
        worth += [0] * (waiting - before_heat)
        too_hot = [0] * (before_heat - first) + [1] * (waiting - before_heat)
        keeps = need.holds_in_heat if need.picking == 1 else need.picking - need.worthwhile
        lost = self._picked(waiting, after_heat, over - keeps - 1)
        late = self._picked(waiting, after_heat, useful)
        if over > useful:
            worth += [0] * (after_heat - waiting)
        else:
            worth += [max(by - gone, 0) for by, gone in zip(late, lost, strict=True)]
        too_hot += [int(2 * (parts - gone) < parts) for gone in lost]
        worth += self._picked(after_heat, stop, useful)
        too_hot += [0] * (stop - after_heat)
        return worth, too_hot

    def _picked(self, first: int, stop: int, day: int) -> list[int]:
        """Return how many parts are ripe by a day, for planting days in order, half-open."""
        if first >= stop:
            return []
        cut = min(max(day - self._warmth.least + 1, first), stop)
        if cut == first:
            return [0] * (stop - first)
        heat, totals = self._heat, self._totals
        by = heat[day] + _ROUNDING
        all_ripe = bisect_right(heat, by - totals[-1], first, cut)
        some_ripe = bisect_right(heat, by - totals[0], all_ripe, cut)
        return [
            *([self._parts] * (all_ripe - first)),
            *[bisect_right(totals, by - heat[planted]) for planted in range(all_ripe, some_ripe)],
            *([0] * (stop - some_ripe)),
        ]

    def _first_without(self, first: int, stop: int, day: int) -> int:
        """Return the first planting day of which nothing is ripe by a day."""
        cut = min(max(day - self._warmth.least + 1, first), stop)
        return bisect_right(self._heat, self._heat_by(day) - self._totals[0], first, cut)

    def _first_short(self, first: int, stop: int, day: int) -> int:
        """Return the first planting day of which not all is ripe by a day."""
        cut = min(max(day - self._warmth.least + 1, first), stop)
        return bisect_right(self._heat, self._heat_by(day) - self._totals[-1], first, cut)

    def _heat_by(self, day: int) -> float:
        return (self._heat[day] if day >= 0 else 0.0) + _ROUNDING
