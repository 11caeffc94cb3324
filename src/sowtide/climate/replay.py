"""Every recorded year replayed for one crop: when it ripens there, and what ends it.

Growth is counted in warmth from the planting day itself; the first pick is the day after the heat
is complete. Each year has its own warmth, its own hot weeks and its own frost.
"""

from __future__ import annotations

from array import array
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from functools import cached_property
from operator import add

from sowtide.climate.fate import fate_of, picking_left, picking_until
from sowtide.climate.gathered import totals_of
from sowtide.climate.medians import NEVER
from sowtide.climate.outlook import Need
from sowtide.climate.sweep import Sweep
from sowtide.climate.years import Years
from sowtide.values import value

_LONGEST_YEAR = 367
"""A leap year, and a day to spare for a leap day that the planned year has and this has not."""


@value
class Run:
    """What one recorded year does to one planting. Days are counted from the planting day.

    Parameters
    ----------
    season
        The growing year.
    early, late
        First pick at the two ends of the range of days to harvest; `NEVER` where it never ripens.
    hot_end
        The day on which heat ends it, or `NEVER`.
    frost_end
        The day on which frost does, or `NEVER`.
    worth
        Share of the range that is picked for its worthwhile days. [0–1]
    picking
        Mean picking days over the range. [days]
    nothing
        Share of the range that is not picked at all. [0–1]
    too_hot
        Whether heat takes all of it, or of an autumn wave more than half.
    """

    season: int
    early: int
    late: int
    hot_end: int
    frost_end: int
    worth: float
    picking: float
    nothing: float
    too_hot: bool


@value
class Prospect:
    """What each planting day of the growing year promises.

    Parameters
    ----------
    odds
        Mean share of the range that is picked for its worthwhile days. [0–1]
    too_hot
        Share of the years in which it is too hot. [0–1]
    used
        Years that say something of the day. [years]
    """

    odds: list[float]
    too_hot: list[float]
    used: list[int]


class Replay:
    """The recorded years as one crop meets them.

    Parameters
    ----------
    years
        The growing years.
    heat
        Degree-days gathered before each day of the record, see `heat.accumulated`. [°C·d]
    missing
        Days without temperatures before each day of the record.
    ends
        Indices of the days in order on which the crop is ended where it stands, see `Need`.
    hot
        First hot day and the day after the last of each year, as indices; None where it has none
        or heat does the crop no harm.
    need
        What the crop needs; its warmth is set.
    """

    def __init__(
        self,
        years: Years,
        *,
        heat: array[float],
        missing: Sequence[int],
        ends: Sequence[int],
        hot: tuple[tuple[int, int] | None, ...],
        need: Need,
    ) -> None:
        assert need.warmth is not None
        self._years = years
        self._heat = heat
        self._missing = missing
        self._ends = ends
        self._hot = hot
        self._need = need
        self._warmth = need.warmth
        self._totals = totals_of(need.warmth)
        self._last = len(missing) - 1
        self._sweep = Sweep(heat, self._totals, need)

    def runs(self, offset: int) -> Iterator[Run]:
        """Yield what each year does to a planting; years with gaps that matter are left out.

        Parameters
        ----------
        offset
            The planting day, counted from the planned growing year's first. [days]
        """
        for number, planted in enumerate(self._years.indices(offset)):
            end = self._end(planted, number)
            until = min(end, self._years.midsummers[number] + 366)
            if planted < 0 or until > self._last or self._missing[until] > self._missing[planted]:
                continue
            yield self._run(planted, number, end)

    def left(self, offset: int, since: int) -> tuple[float, float, int]:
        """Return the mean picking days from a day on, the share of years with any, and the years.

        The years are those in which it stands on that day.

        Parameters
        ----------
        offset
            The planting day, counted from the planned growing year's first. [days]
        since
            The first day that counts, counted from the planting day. [days]
        """
        days, some, years = 0, 0, 0
        for number, planted in enumerate(self._years.indices(offset)):
            end = self._end(planted, number)
            until = min(end, self._years.midsummers[number] + 366)
            if planted < 0 or until > self._last or self._missing[until] > self._missing[planted]:
                continue
            fate = fate_of(self._picks(planted, until), self._need, self._hot[number])
            gone = end if fate.hot_end is None else min(end, fate.hot_end)
            if gone <= planted + since:
                continue
            of_year = picking_left(fate, self._need, end, planted + since)
            days, some, years = days + of_year[0], some + of_year[1], years + 1
        parts = max(years * len(self._totals), 1)
        return days / parts, some / parts, years

    @cached_property
    def prospects(self) -> Prospect:
        """What each day of the growing year promises, all years together."""
        days = self._years.days
        worth, too_hot, used = [0] * days, [0] * days, [0] * days
        for number in range(len(self._years.seasons)):
            of_year = [self._years.laid_under(number, each) for each in self._sweep_year(number)]
            worth, too_hot, used = (
                list(map(add, sofar, what))
                for sofar, what in zip((worth, too_hot, used), of_year, strict=True)
            )
        parts = len(self._totals)
        shares = [max(years, 1) for years in used]
        return Prospect(
            [each / parts / years for each, years in zip(worth, shares, strict=True)],
            [each / years for each, years in zip(too_hot, shares, strict=True)],
            used,
        )

    def _sweep_year(self, number: int) -> tuple[list[int], list[int], list[int]]:
        """Return of each day of a recorded year: parts worth while, if too hot, if used."""
        first = self._years.bases[number]
        stop = first + _LONGEST_YEAR
        worth, too_hot, used = [0] * _LONGEST_YEAR, [0] * _LONGEST_YEAR, [0] * _LONGEST_YEAR
        for begin, over, end in self._segments(first, stop, self._years.midsummers[number]):
            until = min(end, self._years.midsummers[number] + 366)
            if until > self._last:
                continue
            begin = max(begin, self._after_gap(until), 0)
            if begin >= over:
                continue
            useful = until if end >= NEVER else end - self._need.before_frost
            used[begin - first : over - first] = [1] * (over - begin)
            if useful - begin < self._warmth.least:
                continue  # frost after frost: nothing ripens between them
            counts, hot = self._sweep.year(begin, over, useful, self._hot[number])
            worth[begin - first : over - first] = counts
            too_hot[begin - first : over - first] = hot
        return worth, too_hot, used

    def _segments(self, first: int, stop: int, midsummer: int) -> Iterator[tuple[int, int, int]]:
        """Yield runs of planting days, half-open, with the day that ends their plants."""
        ends, later = self._ends, self._need.after_frost_days
        at = bisect_left(ends, midsummer)
        while first < stop:
            frost = ends[at] if at < len(ends) and ends[at] < midsummer + 366 else NEVER
            over = min(frost, stop)
            if over > first:
                yield first, over, frost if frost >= NEVER else frost + later
                first = over
            at += 1

    def _after_gap(self, until: int) -> int:
        """The first day from which no day misses its temperatures, up to a day."""
        return bisect_left(self._missing, self._missing[until], 0, until)

    def _end(self, planted: int, number: int) -> int:
        """The first day from midsummer on, after the planting day, that ends it in a year."""
        midsummer = self._years.midsummers[number]
        ends = self._ends
        at = bisect_left(ends, max(midsummer, planted + 1))
        if at < len(ends) and ends[at] < midsummer + 366:
            return ends[at] + self._need.after_frost_days
        return NEVER

    def _run(self, planted: int, number: int, end: int) -> Run:
        picks = self._picks(planted, min(end, self._years.midsummers[number] + 366))
        hot = self._hot[number]
        if hot is not None and picks[0] < hot[1]:
            return self._run_in_heat(picks, planted, number, end)
        need, parts = self._need, len(picks)
        picked = bisect_left(picks, end)
        return Run(
            self._years.seasons[number],
            _since(picks[0], planted),
            _since(picks[-1], planted),
            NEVER,
            _since(end, planted),
            bisect_right(picks, end - need.before_frost) / parts,
            self._picking_days(picks, picked, end) / parts,
            1 - picked / parts,
            False,
        )

    def _picking_days(self, picks: list[int], picked: int, end: int) -> int:
        """Picking days summed over the parts that are picked at all. [days]"""
        picking = self._need.picking
        if self._need.stands:
            return picked * picking
        whole = min(bisect_right(picks, end - picking), picked)
        return whole * picking + (picked - whole) * end - sum(picks[whole:picked])

    def _run_in_heat(self, picks: list[int], planted: int, number: int, end: int) -> Run:
        need = self._need
        fate = fate_of(picks, need, self._hot[number])
        parts = fate.count
        worth = sum(pick + need.before_frost - 1 < end for pick in fate.worthwhile(need))
        picked = sum(pick < end for pick in fate.picks)
        return Run(
            self._years.seasons[number],
            _since(max(picks[0], fate.waits), planted),
            _since(max(picks[-1], fate.waits), planted),
            NEVER if fate.hot_end is None else fate.hot_end - planted,
            _since(end, planted),
            worth / parts,
            picking_until(fate, need, end) / parts,
            1 - picked / parts,
            fate.too_hot,
        )

    def _picks(self, planted: int, stop: int) -> list[int]:
        """First picks for every part of the range, `NEVER` where not before `stop`."""
        heat, start = self._heat, self._heat[planted]
        low = planted + self._warmth.least
        picks = []
        for total in self._totals:
            pick = max(bisect_left(heat, start + total - 1e-9, planted, stop + 1), low)
            picks.append(pick if pick <= stop else NEVER)
        return picks


def _since(index: int, planted: int) -> int:
    return NEVER if index >= NEVER else index - planted
