"""Every recorded year replayed for one crop: when it ripens there, and what ends it.

Growth is counted in warmth from the planting day itself; the first pick is the day after the heat
is complete. Each year has its own warmth, its own hot weeks and its own frost.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from functools import cached_property
from typing import NamedTuple

from sowtide.climate.answers import Need
from sowtide.climate.fate import Borne, bearing, fate_of, picking_left, without_fruit
from sowtide.climate.medians import NEVER
from sowtide.climate.replay.ends import Ends, StandDays
from sowtide.climate.replay.prospect import Prospect
from sowtide.climate.replay.sweep import Sweep
from sowtide.climate.replay.tally import Tally
from sowtide.climate.replay.through import (
    RangePart,
    Through,
    borne_of,
    first_of,
    is_worthwhile,
    left_of,
)
from sowtide.climate.warmth import Barren, Years, left_by_heat, totals_of
from sowtide.units import ROUNDING_OF_SUMS


class Run(NamedTuple):
    """What one recorded year does to one planting. Days are counted from the planting day.

    Parameters
    ----------
    season
        The growing year.
    early, late
        First pick at the two ends of the range of days to harvest; `NEVER` where it never ripens.
    ripe_early, ripe_late
        The same, whether heat has dropped the flowers or not.
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
    spring_frost
        The day on which a frost of spring kills it, or `NEVER`.
    """

    season: int
    early: int
    late: int
    ripe_early: int
    ripe_late: int
    hot_end: int
    frost_end: int
    worth: float
    picking: float
    nothing: float
    too_hot: bool
    spring_frost: int = NEVER


class Replay:
    """The recorded years as one crop meets them.

    Parameters
    ----------
    years
        The growing years.
    heat
        Degree-days gathered before each day of the record, see `heat.accumulated`. [°C·d]
    ends
        The days on which the crop is ended in each year.
    hot
        First hot day and the day after the last of each year, as indices; None where it has none
        or heat does the crop no harm.
    need
        What the crop needs; its warmth is set.
    barren
        The days without fruit, since heat dropped their flowers; None where there are none.
    through
        What frost leaves of it while it has no flowers; None where it leaves nothing.
    """

    def __init__(
        self,
        years: Years,
        *,
        heat: Sequence[float],
        ends: Ends,
        hot: tuple[tuple[int, int] | None, ...],
        need: Need,
        barren: Barren | None = None,
        through: Through | None = None,
    ) -> None:
        assert need.warmth is not None
        self._years = years
        self._heat = heat
        self._ends = ends
        self._hot = hot
        self._barren = barren
        self._through = through
        self._need = need
        self._least = need.warmth.least
        self._totals = totals_of(need.warmth)
        self._before_frost = need.before_frost
        # With so many days from its first pick to its end, it loses nothing.
        self._longest = max(need.picking, need.worthwhile)
        self._all = 1.0, float(need.picking), 0.0
        self._sweep = Sweep(heat, self._totals, need, barren)
        self._springs = self._harmless_from()

    def runs(self, offset: int) -> Iterator[Run]:
        """Yield what each year does to a planting; years with gaps that matter are left out.

        Parameters
        ----------
        offset
            The planting day, counted from the planned growing year's first. [days]
        """
        ends = self._ends
        for number, planted in enumerate(self._years.indices(offset)):
            known = ends.of(planted, number)
            if known is None:
                continue
            run = self._run(planted, number, *known)
            if planted < self._springs[number]:
                frost = self._ends.lasts_of_spring[number] - planted
                run = run._replace(worth=0.0, picking=0.0, nothing=1.0, spring_frost=frost)
            yield run

    def _harmless_from(self) -> list[int]:
        """The first planting day of each year that no frost of spring kills. [index]"""
        shows = self._need.shows
        if shows is None:
            return [0] * len(self._years.seasons)
        return [last - shows for last in self._ends.lasts_of_spring]

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
            known = self._ends.of(planted, number)
            if known is None:
                continue
            end, until = known
            parts = self._through_frost(planted, number, end)
            if parts is not None:
                if max(part.end for part in parts) > planted + since:
                    of_year = left_of(parts, self._need, self._hot[number], planted + since)
                    days, some, years = days + of_year[0], some + of_year[1], years + 1
                continue
            picks = self._picks(planted, until)
            fate = fate_of(picks, self._need, self._hot[number], self._barren)
            gone = end if fate.hot_end is None else min(end, fate.hot_end)
            if planted < self._springs[number]:
                gone = end = min(gone, self._ends.lasts_of_spring[number])
            if gone <= planted + since:
                continue
            of_year = picking_left(fate, self._need, end, planted + since)
            days, some, years = days + of_year[0], some + of_year[1], years + 1
        count = max(years * len(self._totals), 1)
        return days / count, some / count, years

    def borne(self, offset: int) -> Iterator[Borne]:
        """Yield when a planting bears in each year; years with gaps that matter are left out.

        Parameters
        ----------
        offset
            The planting day, counted from the planned growing year's first. [days]
        """
        for number, planted in enumerate(self._years.indices(offset)):
            known = self._ends.of(planted, number)
            if known is None:
                continue
            end, until = known
            through = self._through_frost(planted, number, end)
            if through is not None:
                found = borne_of(through, self._need, self._hot[number], planted)
                yield Borne(self._years.seasons[number], found)
                continue
            picks = self._picks(planted, until)
            fate = fate_of(picks, self._need, self._hot[number], self._barren)
            if planted < self._springs[number]:
                end = planted
            parts = bearing(fate, self._need, picks, planted=planted, end=end)
            lost = without_fruit(fate, self._need, planted=planted)
            yield Borne(self._years.seasons[number], parts, lost)

    @cached_property
    def prospects(self) -> Prospect:
        """What each day of the growing year promises, all years together."""
        worth, too_hot = Tally(self._years), Tally(self._years)
        before, least = self._before_frost, self._least
        for stand in self._ends.stands:
            if stand.length - before < least:
                break  # frost after frost: nothing ripens between these and the rest
            useful = stand.until if stand.end >= NEVER else stand.end - before
            harmless = self._springs[stand.number]
            if harmless > stand.begin:
                if harmless >= stand.over:
                    continue
                stand = stand._replace(begin=harmless)
            if useful - stand.begin < least:
                continue
            hot = self._hot[stand.number]
            if hot is None or self._barren is None:
                self._sweep.add(stand, useful, hot, worth=worth, too_hot=too_hot)
            else:
                self._add_singly(stand, worth=worth, too_hot=too_hot)
        if self._through is not None:
            self._add_through(self._through, worth)
        parts, shares = len(self._totals), self._ends.divisors
        return Prospect(
            [each / parts / years for each, years in zip(worth.totals(), shares, strict=True)],
            self._shares_too_hot(too_hot),
            self._ends.used,
        )

    def _add_through(self, through: Through, worth: Tally) -> None:
        """Count the parts that come through a frost in leaf and are worth while after it."""
        for stand in self._ends.stands:
            for spell in through.spells(stand.number, stand.end):
                after = spell.after + through.ripens
                last = min(spell.end - self._before_frost, spell.until)
                if last > after:
                    counts = self._sweep.between(stand, after, last)
                    worth.add_each(stand.number, stand.begin, counts)

    def _add_singly(self, stand: StandDays, *, worth: Tally, too_hot: Tally) -> None:
        """Count what the sweep does for a crop that both hot weeks and dropped flowers harm."""
        number, first, parts = stand.number, stand.begin, len(self._totals)
        days = range(first, stand.over)
        runs = [self._run(day, number, stand.end, stand.until) for day in days]
        worth.add_each(number, first, [round(run.worth * parts) for run in runs])
        too_hot.add_each(number, first, [int(run.too_hot) for run in runs])

    def _shares_too_hot(self, too_hot: Tally) -> list[float]:
        shares = self._ends.divisors
        if not any(self._hot) and self._barren is None:
            return [0.0] * len(shares)
        return [each / years for each, years in zip(too_hot.totals(), shares, strict=True)]

    def _run(self, planted: int, number: int, end: int, until: int) -> Run:
        early, late = self._outer_picks(planted, until)
        parts = self._through_frost(planted, number, end) if late + self._longest > end else None
        if parts is not None:
            return self._run_through(parts, planted, number, end)
        hot = self._hot[number]
        in_heat = hot is not None and early < hot[1]
        hot_end = hot[0] if hot is not None and in_heat else NEVER
        drops = self._drops(early, min(late, until))
        if not drops and late + self._longest <= end and late + self._longest <= hot_end:
            shares = self._all  # neither frost nor heat takes any of it
        elif in_heat or drops:
            return self._run_in_heat(self._picks(planted, until), planted, number, end)
        elif early >= end:
            shares = 0.0, 0.0, 1.0
        else:
            shares = self._shares(self._picks(planted, until), end)
        first = _since(early, planted), _since(late, planted)
        return Run(
            self._years.seasons[number],
            *first,
            *first,
            _since(hot_end, planted),
            _since(end, planted),
            *shares,
            False,
        )

    def _through_frost(self, planted: int, number: int, frost: int) -> list[RangePart] | None:
        """Return the parts of a planting, some of which a frost meets in leaf; None without any."""
        spells = self._through.spells(number, frost) if self._through is not None else []
        if not spells or self._through is None:
            return None
        picks = self._picks(planted, spells[-1].until)
        return [RangePart(pick, self._through.end_of(pick, spells, frost)) for pick in picks]

    def _run_through(self, parts: list[RangePart], planted: int, number: int, frost: int) -> Run:
        need, hot, count = self._need, self._hot[number], len(parts)
        picked = [part for part in parts if first_of(part, need, hot) < part.end]
        fate = fate_of([part.pick for part in parts], need, hot)
        early, late = max(parts[0].pick, fate.waits), max(parts[-1].pick, fate.waits)
        if picked:
            early = max(picked[0].pick, fate.waits)
            late = late if picked[-1] is parts[-1] else NEVER
        first = _since(early, planted), _since(late, planted)
        return Run(
            self._years.seasons[number],
            *first,
            *first,
            _since(NEVER if fate.hot_end is None else fate.hot_end, planted),
            _since(max((part.end for part in picked), default=frost), planted),
            sum(is_worthwhile(part, need, hot) for part in parts) / count,
            left_of(parts, need, hot, 0)[0] / count,
            1 - len(picked) / count,
            fate.too_hot,
        )

    def _drops(self, early: int, late: int) -> bool:
        """Whether heat drops flowers of what would be picked."""
        barren = self._barren
        return barren is not None and barren.count(early, late + self._need.picking) > 0

    def _shares(self, picks: list[int], end: int) -> tuple[float, float, float]:
        """Return the share of the range worth while, the mean picking days, the share unpicked."""
        picked, parts = bisect_left(picks, end), len(picks)
        return (
            bisect_right(picks, end - self._before_frost) / parts,
            self._picking_days(picks, picked, end) / parts,
            1 - picked / parts,
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
        fate = fate_of(picks, need, self._hot[number], self._barren)
        parts = fate.count
        worth = bisect_left(sorted(fate.worthwhile(need)), end - self._before_frost + 1)
        picked = bisect_left(sorted(fate.first_picks(need)), end)
        early, late = max(picks[0], fate.waits), max(picks[-1], fate.waits)
        hot_end = NEVER if fate.hot_end is None else fate.hot_end
        ripe = _since(early, planted), _since(late, planted)
        if fate.barren is not None:
            ripe_by = max(pick for pick in (early, *picks) if pick < NEVER)
            setting = left_by_heat(early, ripe_by, need.picking, fate.barren)
            early = setting.early
            if late < NEVER:
                late, hot_end = setting.late, min(hot_end, setting.end)
            elif early >= NEVER:
                hot_end = min(hot_end, setting.end)
        return Run(
            self._years.seasons[number],
            _since(early, planted),
            _since(late, planted),
            *ripe,
            _since(hot_end, planted),
            _since(end, planted),
            worth / parts,
            picking_left(fate, need, end, 0)[0] / parts,
            1 - picked / parts,
            fate.too_hot,
        )

    def _outer_picks(self, planted: int, until: int) -> tuple[int, int]:
        """First picks at the two ends of the range, `NEVER` where not by a day."""
        heat, totals = self._heat, self._totals
        start, stop = heat[planted], until + 1
        early = bisect_left(heat, start + totals[0] - ROUNDING_OF_SUMS, planted, stop)
        early = max(early, planted + self._least)
        if early > until:
            return NEVER, NEVER
        late = bisect_left(heat, start + totals[-1] - ROUNDING_OF_SUMS, early, stop)
        return early, late if late <= until else NEVER

    def _picks(self, planted: int, until: int) -> list[int]:
        """First picks for every part of the range, `NEVER` where not by a day."""
        heat, start = self._heat, self._heat[planted]
        least = planted + self._least
        ripe, picks = planted, []
        for total in self._totals:
            # What needs more is ripe no sooner.
            ripe = bisect_left(heat, start + total - ROUNDING_OF_SUMS, ripe, until + 1)
            pick = max(ripe, least)
            picks.append(pick if pick <= until else NEVER)
        return picks


def _since(index: int, planted: int) -> int:
    return NEVER if index >= NEVER else index - planted
