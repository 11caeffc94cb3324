"""The chances of all planting days of a year at once, by the heat gathered on its last useful day.

A planting succeeds in a year as far as its picks come early enough. What needs some heat is picked
by a day if that much is gathered between planting and that day: so the share of a range that
succeeds is one look-up, and along the days it only falls.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from operator import add, sub

from sowtide.climate.answers import Need, Warmth
from sowtide.climate.replay.ends import StandDays
from sowtide.climate.replay.tally import Tally
from sowtide.climate.warmth import Barren
from sowtide.units import ROUNDING_OF_SUMS


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
    barren
        The days without fruit, since heat dropped their flowers; None where there are none.
    """

    def __init__(
        self,
        heat: Sequence[float],
        totals: Sequence[float],
        need: Need,
        barren: Barren | None = None,
    ) -> None:
        assert need.warmth is not None
        self._heat = heat
        self._totals = totals
        self._need = need
        self._warmth: Warmth = need.warmth
        self._parts = len(totals)
        self._barren = barren

    def add(
        self,
        stand: StandDays,
        useful: int,
        hot: tuple[int, int] | None,
        *,
        worth: Tally,
        too_hot: Tally,
    ) -> None:
        """Count for each planting day the parts that are worth while, and whether it is too hot.

        Parameters
        ----------
        stand
            The planting days, whose plants end on one day.
        useful
            The last day on which a first pick is early enough for that. [index]
        hot
            First hot day of the year and the day after its last; None without any. [index]
        worth, too_hot
            Take the counts.
        """
        number, first, stop = stand.number, stand.begin, stand.over
        if hot is None:
            missing = self._missing(stand)
            if missing:
                self._add_set(stand, useful, missing, worth=worth, too_hot=too_hot)
            else:
                self._add_picked(worth, number, first, stop, useful)
            return
        begins, over = hot
        need, until = self._need, stand.until
        before, by = min(begins - 1, until), min(over - 1, until)  # frost may come before heat
        before_heat = self._first_without(first, stop, before)  # from here none is ripe before
        after_heat = self._first_without(first, stop, by)  # from here all are ripe after
        waiting = self._first_short(first, stop, by)  # from here some are ripe after
        waiting = min(max(waiting, before_heat), after_heat)
        latest = min(begins - need.worthwhile, useful)
        self._add_picked(worth, number, first, before_heat, latest)
        too_hot.add_run(number, before_heat, waiting, 1)
        keeps = need.holds_in_heat if need.picking == 1 else need.picking - need.worthwhile
        lost = self._picked(waiting, after_heat, min(over - keeps - 1, until))
        if over <= useful:
            late = self._picked(waiting, after_heat, useful)
            counts = [max(by - gone, 0) for by, gone in zip(late, lost, strict=True)]
            worth.add_each(number, waiting, counts)
        parts = self._parts
        too_hot.add_each(number, waiting, [int(2 * (parts - gone) < parts) for gone in lost])
        self._add_picked(worth, number, after_heat, stop, useful)

    def _missing(self, stand: StandDays) -> list[int]:
        """The days without fruit among those on which a stand's plants may be picked."""
        if self._barren is None:
            return []
        return self._barren.of(
            stand.begin + self._warmth.least, min(stand.until, stand.end) + self._need.picking
        )

    def _add_set(
        self, stand: StandDays, useful: int, missing: list[int], *, worth: Tally, too_hot: Tally
    ) -> None:
        """Count what `add` does where heat drops flowers: first picks by the days they fall on.

        A first pick that meets days without fruit is worth while where enough others are left.
        """
        need, barren = self._need, self._barren
        assert barren is not None
        number, first, stop = stand.number, stand.begin, stand.over
        lasting = min(need.worthwhile, need.picking)
        before = min(need.before_frost, need.picking)
        meets = range(missing[0] - need.picking + 1, min(missing[-1], stand.until) + 1)
        good = [
            pick
            for pick in meets
            if barren.picked(pick, pick + need.picking) >= lasting
            and barren.nth(pick, before) + need.before_frost - before < stand.end
        ]
        lost = [pick for pick in meets if barren.picked(pick, pick + need.picking) < lasting]
        self._add_picked(worth, number, first, stop, min(meets.start - 1, useful))
        for counts in self._ripe_on(stand, good):
            worth.add_each(number, first, counts)
        if meets.stop <= useful:
            worth.add_each(number, first, self.between(stand, meets.stop - 1, useful))
        gone = [0] * (stop - first)
        for counts in self._ripe_on(stand, lost):
            gone = list(map(add, gone, counts))
        too_hot.add_each(number, first, [int(2 * each > self._parts) for each in gone])

    def _ripe_on(self, stand: StandDays, days: list[int]) -> Iterator[list[int]]:
        """Yield how many parts are ripe on some days in order, run by run of them.

        One number for each planting day.
        """
        begin = 0
        for at in range(1, len(days) + 1):
            if at == len(days) or days[at] > days[at - 1] + 1:
                yield self.between(stand, days[begin] - 1, days[at - 1])
                begin = at

    def between(self, stand: StandDays, after: int, by: int) -> list[int]:
        """Return how many parts are ripe after one day and by another, for each planting day."""
        late = self._picked(stand.begin, stand.over, by)
        return list(map(sub, late, self._picked(stand.begin, stand.over, after)))

    def _add_picked(self, tally: Tally, number: int, first: int, stop: int, day: int) -> None:
        """Count how many parts are ripe by a day, for planting days in order, half-open."""
        cut = min(day - self._warmth.least + 1, stop)
        if cut <= first:
            return
        all_ripe, some = self._ripe(first, cut, day)
        tally.add_run(number, first, all_ripe, self._parts)
        tally.add_each(number, all_ripe, some)

    def _picked(self, first: int, stop: int, day: int) -> list[int]:
        """Return how many parts are ripe by a day, for planting days in order, half-open."""
        cut = min(max(day - self._warmth.least + 1, first), stop)
        if cut <= first:
            return [0] * (stop - first)
        all_ripe, some = self._ripe(first, cut, day)
        none = stop - all_ripe - len(some)
        return [*([self._parts] * (all_ripe - first)), *some, *([0] * none)]

    def _ripe(self, first: int, stop: int, day: int) -> tuple[int, list[int]]:
        """Return the first planting day of which not all is ripe by a day, and the parts that are.

        One number for each planting day from there on, as long as anything is ripe.
        """
        heat, totals = self._heat, self._totals
        by = heat[day] + ROUNDING_OF_SUMS
        all_ripe = bisect_right(heat, by - totals[-1], first, stop)
        some_ripe = bisect_right(heat, by - totals[0], all_ripe, stop)
        return all_ripe, [bisect_right(totals, by - before) for before in heat[all_ripe:some_ripe]]

    def _first_without(self, first: int, stop: int, day: int) -> int:
        """Return the first planting day of which nothing is ripe by a day."""
        cut = min(max(day - self._warmth.least + 1, first), stop)
        return bisect_right(self._heat, self._heat_by(day) - self._totals[0], first, cut)

    def _first_short(self, first: int, stop: int, day: int) -> int:
        """Return the first planting day of which not all is ripe by a day."""
        cut = min(max(day - self._warmth.least + 1, first), stop)
        return bisect_right(self._heat, self._heat_by(day) - self._totals[-1], first, cut)

    def _heat_by(self, day: int) -> float:
        return (self._heat[day] if day >= 0 else 0.0) + ROUNDING_OF_SUMS
