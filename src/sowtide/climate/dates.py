"""A climate known by frost dates only: averages, a table of shares of years, or no frost at all."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from itertools import accumulate

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

_REACH = 400
"""How far a survival table reaches beyond the growing year on both sides. [days]"""


class _Survival:
    """P(end > day) for every day, one temperature and one thing that frost does.

    Parameters
    ----------
    frost
        First frosts, or None where nothing ends a wave.
    at
        Killing temperature. [°C]
    later
        Days from the frost to the end. [days]
    year
        The growing year.
    """

    def __init__(
        self, frost: FrostHalf | None, *, at: float, later: int, year: GrowingYear
    ) -> None:
        self.start = year.first.toordinal() - _REACH
        days = range(self.start, year.last.toordinal() + _REACH)
        if frost is None:
            self.chance = [1.0] * len(days)
        else:
            self.chance = [1 - frost.odds(day + 1 - later, at=at) for day in days]
        self._sums = [0.0, *accumulate(self.chance)]

    def beyond(self, day: int) -> float:
        """P(end > day)."""
        return self.chance[min(max(day - self.start, 0), len(self.chance) - 1)]

    def expected(self, first: int, days: int) -> float:
        """Sum of P(end > day) over some days from the first on. [days]"""
        low = min(max(first - self.start, 0), len(self.chance))
        high = min(low + days, len(self.chance))
        return self._sums[high] - self._sums[low] + (days - (high - low)) * self.chance[-1]


@dataclass(frozen=True, slots=True)
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

    picks: list[int]
    late: int
    waits: int
    hot_end: int | None
    too_hot: bool


@dataclass(frozen=True, slots=True)
class _Tally:
    """What the days of a range come to, averaged."""

    odds: float
    expected: float
    nothing: float


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
        self._ends: dict[tuple[float, AfterFrost], Dated | None] = {}
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
        """Return the day frost ends a crop in half of the years; None where no frost does."""
        key = (need.killed_at, need.after_frost)
        if key not in self._ends:
            self._ends[key] = self._make_end(need)
        return self._ends[key]

    def outlook(self, planted: Dated, need: Need) -> Outlook:
        """Return what becomes of a wave planted on a day."""
        fate = self._fate(planted.day.toordinal(), need)
        end = self.frost_end(need)
        ended_by = None if end is None else EndedBy.FROST
        if fate.hot_end is not None and (end is None or fate.hot_end < end.day.toordinal()):
            end = Dated.on(
                date.fromordinal(fate.hot_end), "too-hot", "the hot weeks begin", self._hot_origin
            )
            ended_by = EndedBy.HEAT
        tally = self._tally(fate, need)
        early, late = (
            self._explain(planted, days, need, which=which, waits=fate.waits)
            for days, which in ((need.days.low, "early end"), (need.days.high, "late end"))
        )
        return Outlook(
            (early, late),
            end,
            ended_by,
            self._chances(fate, need, tally.odds),
            tally.expected,
            tally.nothing,
        )

    def chances_by_day(self, need: Need, days: DateSpan) -> tuple[Chances, ...]:
        """Return the chances of `outlook` for each planting day of a span, in order."""
        result = []
        for day in range(days.first.toordinal(), days.last.toordinal() + 1):
            fate = self._fate(day, need)
            result.append(self._chances(fate, need, self._tally(fate, need).odds))
        return tuple(result)

    def _fate(self, planted: int, need: Need) -> _Fate:
        """First picks of a planting day, and what the hot weeks do to them."""
        allowances = self._allowances
        spring = allowances.spring_days(planted)
        picks = [
            plain + spring + allowances.fall_days(plain, planted=planted, cool=need.cool)
            for plain in range(planted + need.days.low, planted + need.days.high + 1)
        ]
        if self._hot is None or not need.heat_ends:
            return _Fate(picks, picks[-1], 0, None, False)
        begins, ends = self._hot.first.toordinal(), self._hot.last.toordinal()
        early, late = picks[0], picks[-1]
        if early > ends:
            return _Fate(picks, late, 0, None, False)
        if early >= begins and late > ends:  # an autumn wave: it waits for the heat to end
            return _Fate([max(pick, ends + 1) for pick in picks], late, ends + 1, None, False)
        return _Fate(picks, late, 0, begins, early >= begins)

    def _chances(self, fate: _Fate, need: Need, odds: float) -> Chances:
        frost = self.frost_end(need)
        after = fate.late + need.worthwhile
        return Chances(
            odds,
            None if frost is None else frost.day.toordinal() - after,
            None if fate.hot_end is None else fate.hot_end - after,
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

    def _make_end(self, need: Need) -> Dated | None:
        if self._autumn is None or need.after_frost is AfterFrost.STANDS:
            return None
        day = self._autumn.nearest_day(at=need.killed_at, share=0.5)
        frost = self._autumn.dated(day, at=need.killed_at, share=0.5)
        if need.after_frost is AfterFrost.BRING_IN:
            return frost.then(BRING_IN_DAYS, "frost-end", "it must be brought in before", OURS)
        return frost

    def _survival(self, need: Need) -> _Survival:
        key = (need.killed_at, need.after_frost)
        survival = self._survivals.get(key)
        if survival is None:
            stands = need.after_frost is AfterFrost.STANDS
            survival = self._survivals[key] = _Survival(
                None if stands else self._autumn,
                at=need.killed_at,
                later=BRING_IN_DAYS if need.after_frost is AfterFrost.BRING_IN else 0,
                year=self._year,
            )
        return survival

    def _tally(self, fate: _Fate, need: Need) -> _Tally:
        """Average over the range of days to harvest, every day of it equally likely."""
        survival = self._survival(need)
        odds = expected = nothing = 0.0
        for pick in fate.picks:
            picking = need.picking
            if fate.hot_end is not None:
                if pick >= fate.hot_end:
                    nothing += 1
                    continue
                picking = min(picking, fate.hot_end - pick)
            nothing += 1 - survival.beyond(pick)
            expected += survival.expected(pick, picking)
            if fate.hot_end is None or pick + need.worthwhile <= fate.hot_end:
                odds += survival.beyond(pick + need.worthwhile - 1)
        count = len(fate.picks)
        return _Tally(odds / count, expected / count, nothing / count)


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
