"""A climate known by frost dates only: averages, a table of shares of years, or no frost at all."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial
from itertools import pairwise
from math import ceil, floor

from sowtide.climate.allowance import Allowances
from sowtide.climate.curve import ASSUMED_SPREAD
from sowtide.climate.frost import DAYS_PER_DEGREE_F, FrostHalf
from sowtide.climate.outlook import Basis, Chances, EndedBy, Half, Need, Outlook
from sowtide.days import DateSpan, GrowingYear
from sowtide.garden.model import AfterFrost, FallAllowance, FrostDates, Site
from sowtide.reasons import OURS, Dated, Origin

FREEZING = 0.0
"""[°C]"""

BRING_IN_DAYS = 14
"""Days after the frost on which a crop that is brought in must be off the ground. [days]"""

_CERTAIN = 8.5
"""Standard deviations from which on a share of years is none or all, to a float's last digit."""


class _Survival:
    """P(end > day), for one temperature and one thing that frost does.

    Parameters
    ----------
    frost
        First frosts, or None where nothing ends a wave.
    at
        Killing temperature. [°C]
    later
        Days from the frost to the end. [days]

    Attributes
    ----------
    end
        The day of the end in half of the years, counted; None where nothing ends a wave.
    """

    def __init__(self, frost: FrostHalf | None, *, at: float, later: int) -> None:
        self._start = date.max.toordinal()
        self._chance: list[float] = []
        self.end: Dated | None = None
        if frost is None:
            return
        curve = frost.curve(at)
        first, last = floor(curve.day(-_CERTAIN)), ceil(curve.day(_CERTAIN))
        self._start = first + later
        self._chance = [1 - frost.odds(day + 1, at=at) for day in range(first, last)]
        self.end = frost.dated(frost.nearest_day(at=at, share=0.5), at=at, share=0.5)
        if later:
            self.end = self.end.then(later, "frost-end", "it must be brought in before", OURS)

    def total(self, first: int, days: int) -> float:
        """Sum of P(end > day) over some days from the first on. [days]"""
        low = first - self._start
        if low >= 0:
            return sum(self._chance[low : low + days])
        certain = min(-low, days)
        return certain + sum(self._chance[: days - certain])

    def over(self, picks: Sequence[int], days: int) -> float:
        """Sum of P(end > pick + days) over some picks; cheap where they follow day upon day."""
        if isinstance(picks, range):
            return self.total(picks.start + days, len(picks))
        chance, beyond = self._chance, len(self._chance)
        at = [pick + days - self._start for pick in picks]
        return sum([1.0 if day < 0 else chance[day] if day < beyond else 0.0 for day in at])


@dataclass(slots=True)
class _Fate:
    """When a planting day's wave would first be picked, and what the hot weeks do to it.

    Parameters
    ----------
    picks
        First pick for each day of the range of days to harvest, as ordinals.
    late
        The last of them, hot weeks not waited for.
    waits
        The day before which an autumn wave is not picked; 0 where it need not wait.
    hot_end
        The day on which heat ends it, or None.
    too_hot
        Whether its first pick lies in the hot weeks.
    """

    picks: Sequence[int]
    late: int
    waits: int = 0
    hot_end: int | None = None
    too_hot: bool = False

    def before_heat(self, days: int) -> Sequence[int]:
        """Return the first picks from which so many days are left until heat ends it."""
        if self.hot_end is None:
            return self.picks
        latest = self.hot_end - days
        return [pick for pick in self.picks if pick <= latest]


class DatesClimate:
    """A climate that rests on dates and knows no temperatures.

    Parameters
    ----------
    frost
        Frost dates, warmest temperature first; empty where there is no frost.
    year
        The growing year.
    allowance
        Extra days late in the season.
    too_hot
        The grower's hot weeks, or None.
    too_hot_origin
        Where they are written.
    """

    def __init__(
        self,
        frost: tuple[FrostDates, ...],
        year: GrowingYear,
        *,
        allowance: FallAllowance,
        too_hot: DateSpan | None = None,
        too_hot_origin: Origin = OURS,
    ) -> None:
        self._spring = FrostHalf(Half.SPRING, frost) if frost else None
        self._autumn = FrostHalf(Half.AUTUMN, frost) if frost else None
        self._year = year
        self._hot = too_hot
        self._hot_origin = too_hot_origin
        self._allowance_origin = allowance.origin
        self._allowances = Allowances(
            allowance.days,
            allowance.always,
            self._spring.nearest_day(at=FREEZING, share=0.5) if self._spring else None,
            self._autumn.nearest_day(at=FREEZING, share=0.5) if self._autumn else None,
        )
        self._survivals: dict[tuple[float, AfterFrost], _Survival] = {}
        self._basis = _basis(frost, allowance, hot_known=too_hot is not None)

    @property
    def basis(self) -> Basis:
        """What the answers rest on."""
        return self._basis

    @property
    def hot_weeks(self) -> DateSpan | None:
        """The weeks too hot for cool-season crops, as the grower wrote them."""
        return self._hot

    def frost_day(self, half: Half, *, at: float, share: float) -> Dated | None:
        """Return the day with that share of years beyond it, to the nearest day."""
        frost = self._half(half)
        if frost is None:
            return None
        return frost.dated(frost.nearest_day(at=at, share=share), at=at, share=share)

    def frost_odds(self, half: Half, day: date, *, at: float) -> float:
        """Return the share of years with a frost later (spring) or earlier (autumn) than a day."""
        frost = self._half(half)
        return 0.0 if frost is None else frost.odds(day.toordinal(), at=at)

    def safe_from_frost(self, *, at: float, share: float) -> Dated | None:
        """Return the first day after which frost comes in no more than that share of years."""
        if self._spring is None:
            return None
        return self._spring.dated(self._spring.first_safe(at=at, share=share), at=at, share=share)

    def frost_end(self, need: Need) -> Dated | None:
        """Return the day frost ends a crop, or stops its growth, in half of the years."""
        return self._survival(need).end

    def outlook(self, planted: Dated, need: Need) -> Outlook:
        """Return what becomes of a wave planted on a day."""
        fate = self._fate(planted.day.toordinal(), need)
        survival = self._survival(need)
        end = survival.end
        if need.stands and end is not None and fate.picks[0] < end.day.toordinal():
            end = None  # it is ripe by then, and stands
        ended_by = None if end is None else EndedBy.FROST
        if fate.hot_end is not None and (end is None or fate.hot_end < end.day.toordinal()):
            end = Dated.on(
                date.fromordinal(fate.hot_end), "too-hot", "the hot weeks begin", self._hot_origin
            )
            ended_by = EndedBy.HEAT
        early, late = (
            self._explain(planted, days, need, which=which, waits=fate.waits)
            for days, which in ((need.days.low, "early end"), (need.days.high, "late end"))
        )
        return Outlook(
            (early, late),
            end,
            ended_by,
            self._chances(fate, need, survival),
            _expected(fate, need, survival),
            1 - survival.over(fate.before_heat(1), 0) / len(fate.picks),
        )

    def chances(self, planted: date, need: Need) -> Chances:
        """Return the chances of `outlook` alone, for a planting day."""
        return self._chances(self._fate(planted.toordinal(), need), need, self._survival(need))

    def stretches(self, need: Need, days: DateSpan) -> tuple[DateSpan, ...]:
        """Split planting days, in order, into runs along which the chances only fall.

        A later planting is never picked earlier, and so never fares better, except where the fall
        allowance stops and where the hot weeks change what becomes of it.
        """
        first, stop = days.first.toordinal(), days.last.toordinal() + 1
        if first >= stop:
            return ()
        frosted = self._allowances.first_frost
        cut = stop if frosted is None else min(max(frosted + 1, first), stop)
        turns = {first, cut, stop}
        if self._hot is not None and need.heat_ends:
            for run in (range(first, cut), range(cut, stop)):
                turns.update(run.start + days for days in self._hot_turns(run, need, self._hot))
        return tuple(
            DateSpan(date.fromordinal(one), date.fromordinal(other - 1))
            for one, other in pairwise(sorted(turns))
        )

    def _hot_turns(self, planted: range, need: Need, hot: DateSpan) -> Iterator[int]:
        """Yield how many days in the hot weeks begin to do something else to a wave. [days]"""
        begins, after = hot.first.toordinal(), hot.last.toordinal() + 1
        low, high = need.days.low, need.days.high
        for days, bound in ((low, begins), (high, after), (low, after)):
            pick = partial(self._allowances.pick, days=days, cool=need.cool)
            yield bisect_left(planted, bound, key=pick)

    def _fate(self, planted: int, need: Need) -> _Fate:
        """First picks of a planting day, and what the hot weeks do to them."""
        picks = self._allowances.picks(planted, need.days, cool=need.cool)
        early, late = picks[0], picks[-1]
        if self._hot is None or not need.heat_ends:
            return _Fate(picks, late)
        begins, ends = self._hot.first.toordinal(), self._hot.last.toordinal()
        if early > ends:
            return _Fate(picks, late)
        if early >= begins and late > ends:  # an autumn wave: it waits for the heat to end
            return _Fate([max(pick, ends + 1) for pick in picks], late, ends + 1)
        return _Fate(picks, late, 0, begins, early >= begins)

    def _chances(self, fate: _Fate, need: Need, survival: _Survival) -> Chances:
        """Odds averaged over the range of days to harvest, every day of it equally likely."""
        frost = survival.end
        worth = survival.over(fate.before_heat(need.worthwhile), need.before_frost - 1)
        return Chances(
            worth / len(fate.picks),
            None if frost is None else frost.day.toordinal() - (fate.late + need.before_frost),
            None if fate.hot_end is None else fate.hot_end - (fate.late + need.worthwhile),
            fate.too_hot,
        )

    def _half(self, half: Half) -> FrostHalf | None:
        return self._spring if half is Half.SPRING else self._autumn

    def _explain(self, planted: Dated, days: int, need: Need, *, which: str, waits: int) -> Dated:
        """Count the first pick of one number of days to harvest."""
        words = need.days_text if need.days.low == need.days.high else f"{need.days_text}, {which}"
        day = planted.day.toordinal()
        first = planted.then(days, "stages", words, need.days_origin)
        fall = self._allowances.fall_days(day + days, planted=day, cool=need.cool)
        if fall:
            first = first.then(fall, "fall-allowance", "fall allowance", self._allowance_origin)
        spring = self._allowances.spring_days(day)
        if spring:
            first = first.then(
                spring, "spring-allowance", "slow growth before the last frost", OURS
            )
        wait = waits - first.day.toordinal()
        if wait > 0:
            first = first.then(wait, "too-hot", "the hot weeks end first", self._hot_origin)
        return first

    def _survival(self, need: Need) -> _Survival:
        key = (need.killed_at, need.after_frost)
        survival = self._survivals.get(key)
        if survival is None:
            survival = self._survivals[key] = _Survival(
                self._autumn,
                at=need.killed_at,
                later=BRING_IN_DAYS if need.after_frost is AfterFrost.BRING_IN else 0,
            )
        return survival


def _expected(fate: _Fate, need: Need, survival: _Survival) -> float:
    """Mean picking days over the range of days to harvest. [days]"""
    total, stands = 0.0, need.stands
    for pick in fate.before_heat(1):
        days = need.picking if fate.hot_end is None else min(need.picking, fate.hot_end - pick)
        total += survival.total(pick, 1) * days if stands else survival.total(pick, days)
    return total / len(fate.picks)


def _basis(frost: tuple[FrostDates, ...], allowance: FallAllowance, *, hot_known: bool) -> Basis:
    assumed = []
    kind = "none"
    if frost:
        lengths = [len(side) for entry in frost for side in (entry.last, entry.first)]
        kind = "averages" if max(lengths) == 1 else "table"
        if 1 in lengths:
            assumed.append(f"frost dates spread by {ASSUMED_SPREAD:g} days")
        assumed.append(f"{DAYS_PER_DEGREE_F:g} days for each °F beyond the temperatures given")
        if allowance.always:
            assumed.append(f"{allowance.days} days of fall allowance on every wave")
        else:
            assumed.append(f"a fall allowance of up to {allowance.days} days")
    if not hot_known:
        assumed.append("no hot weeks known")
    return Basis(kind, "none", tuple(assumed), None)


def climate_of(site: Site, year: GrowingYear) -> DatesClimate:
    """Return the climate that a site's file describes."""
    return DatesClimate(
        site.frost,
        year,
        allowance=site.fall_allowance,
        too_hot=site.too_hot,
        too_hot_origin=site.too_hot_origin,
    )
