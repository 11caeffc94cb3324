"""When a crop may be planted: the earliest day, the safe runs of the growing year, the last day."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from functools import cached_property

from sowtide.climate.answers import Chances, Need, Outlook, Stretch
from sowtide.climate.questions import Climate
from sowtide.days import DateSpan, GrowingYear
from sowtide.garden.crop import Crop, Raised
from sowtide.garden.site import Site
from sowtide.reasons import OURS, Dated
from sowtide.schedule.sowing import (
    AutumnLimit,
    PlantedWhere,
    ToSeed,
    WarmSoil,
    autumn_limit,
    earliest_of,
    end_of_times,
    is_too_warm,
    spoils_root,
    times_of,
    to_seed_of,
    too_hot_for_roots,
)
from sowtide.schedule.waves.comes_to_little import heat_harms, stands_winter
from sowtide.schedule.waves.demands import need_of
from sowtide.schedule.waves.pick_gap import HeatHarm, pick_gap_of
from sowtide.schedule.waves.runs import Holds, runs_of
from sowtide.schedule.waves.stages import (
    Harvest,
    in_high_summer,
    picking_of,
    planted_on,
    stages_of,
)
from sowtide.schedule.waves.verdict import verdict_of
from sowtide.schedule.waves.wave import SAFE, Judged, LastSafe, Stages, Verdict
from sowtide.schedule.waves.wintering import wintering_of

_SOON_AFTER = 21
"""Days after the earliest on which a series still begins with its first safe day: ours. [days]"""


class Prospects:
    """One crop, raised one way, on one kind of ground: its safe days, and any planting judged.

    Parameters
    ----------
    crop, raised
        What is planted and how.
    climate, site, year
        Where and when.
    warm_soil
        The days on which its soil is too warm for seed.
    colder_by
        How much colder the bed is than the site; negative under a cover. [°C]
    """

    def __init__(
        self,
        crop: Crop,
        raised: Raised,
        *,
        climate: Climate,
        site: Site,
        year: GrowingYear,
        warm_soil: WarmSoil,
        colder_by: float,
    ) -> None:
        self.crop = crop
        self.raised = raised
        self._climate = climate
        self._site = site
        self._year = year
        self._warm_soil = warm_soil
        self.ground = colder_by
        """How much colder its bed is than the site, negative under a cover. [°C]"""
        self._colder_by = site.colder_by + colder_by
        self.need: Need = need_of(
            crop, raised, colder_by=self._colder_by, by_frost_alone=not self._knows_warmth
        )
        self.times = times_of(crop, climate, year, colder_by=self._colder_by)
        """The times of the year in which it is planted; none for any."""
        self._where = PlantedWhere(climate, site, year, self._colder_by)
        self.earliest: Dated
        self.earliest, shows = earliest_of(
            crop, raised, self._where, killed_at=self.need.killed_at, times=self.times
        )
        if crop.hardiness.is_tender:
            self.need = replace(self.need, shows=shows)
        self._to_seed = to_seed_of(crop, climate, site, year)
        if self._to_seed is not None:
            self.need = replace(self.need, seeds=self._to_seed.day)
        self._needs: dict[date, Need] = {}
        self._windows: tuple[DateSpan, ...] | None = None
        self._judged: dict[date, Judged] = {}

    def overwinters(self, planted: date) -> bool:
        """Whether a wave planted on a day stands over the winter.

        It does from midsummer on, and before it where even the fewest days to harvest run past the
        growing year: sprouting broccoli goes out in June to be cut in spring. What needs its winter
        always does.
        """
        if not self.crop.overwinters or self.crop.ready_about is not None:
            return self.crop.overwinters
        year = self._year.holding(planted)
        ripe = planted + timedelta(days=self.need.days.low)
        return planted >= year.midsummer or ripe > year.last

    def to_seed(self, planted: date) -> ToSeed | None:
        """Return when a planting runs to seed that stands the winter; None for what does not."""
        return self._to_seed and self._to_seed.later(self._year.days_to(planted))

    def need_on(self, planted: date) -> Need:
        """Return what a planting needs: what is picked in winter is picked till it runs to seed."""
        if self._to_seed is None or self.crop.cut_once:
            return self.need
        found = self._needs.get(planted)
        if found is None:
            outlook = self._climate.waves.outlook(planted_on(planted), self.need)
            found = self._needs[planted] = self._need_after(planted, outlook)
        return found

    def _need_after(self, planted: date, outlook: Outlook) -> Need:
        """Return what a planting needs, from what becomes of it if it is picked as usual."""
        to_seed = self.to_seed(planted)
        if to_seed is None or self.crop.cut_once:
            return self.need
        last = outlook.first_pick[1].day + timedelta(days=self.need.picking - 1)
        return self._through_winter if to_seed.stands_from(last) else self.need

    @cached_property
    def _through_winter(self) -> Need:
        """What a planting needs that is picked from autumn on until it runs to seed."""
        assert self._to_seed is not None
        assert self._to_seed.short_from is not None
        winter = (self._to_seed.day.day - self._to_seed.short_from).days
        return replace(self.need, picking=self.need.picking + winter)

    @cached_property
    def begins(self) -> Dated:
        """The day from which on a series is planted: the earliest, for a tender crop a safe one.

        Frosts of spring and of autumn together leave fewer years than those of spring alone.
        """
        first = next(iter(self.windows), None)
        days = 0 if first is None else (first.first - self.earliest.day).days
        if self.need.shows is None or not 0 < days <= _SOON_AFTER:
            return self.earliest
        text = "the first safe day: frosts of spring and autumn together"
        return self.earliest.then(days, "earliest", text, OURS)

    @property
    def windows(self) -> tuple[DateSpan, ...]:
        """The safe runs of the growing year, in order; first and last day included."""
        if self._windows is None:
            self._windows = self.days_with(self._is_safe, self._is_nearly_safe)
        return self._windows

    @cached_property
    def autumn(self) -> AutumnLimit | None:
        """The last day that light and soil allow, where they end before the frost and the year.

        Where its planting times are published they take the place of both.
        """
        if self.times:
            return end_of_times(self.crop, self.times, self._climate, self._site, self._year)
        sown = self.raised is Raised.DIRECT
        return autumn_limit(self.crop, self.need, self._climate, self._site, self._year, sown=sown)

    @property
    def _until(self) -> date:
        return self.autumn.day if self.autumn else self._year.last

    @property
    def minds_heat(self) -> bool:
        """Whether the heat of this place does it any harm: picked in it, in flower, or sown."""
        weather, need = self._climate.weather, self.need
        if self.hot_soil or (need.warm_limit is not None and weather.hot_weeks is not None):
            return True
        heat, days = need.fruit_set, DateSpan(self._year.first, self._year.last)
        if heat is None:
            return False
        return weather.fruit_gap(days, high=heat.high, low=heat.low) is not None

    def window_of(self, planted: date) -> DateSpan | None:
        """Return the safe run a day lies in, else the last one before it, else the first of all.

        A day of another growing year is looked up as the same day of this one.
        """
        planted -= timedelta(days=self._year.days_to(planted))
        before = [window for window in self.windows if window.first <= planted]
        return before[-1] if before else next(iter(self.windows), None)

    def _last_safe(self, planted: date) -> date | None:
        """Return the last day of that run, in the planting's growing year."""
        window = self.window_of(planted)
        return None if window is None else window.last + timedelta(days=self._year.days_to(planted))

    @property
    def _knows_warmth(self) -> bool:
        return self._climate.weather.mean_over(self._year.midsummer, 1) is not None

    def picked_from(self, planted: date) -> date | None:
        """Return the early first pick of a planting day in the middle of the years.

        None where no temperatures are known: then nobody can say how the days draw out or close up.
        """
        if not self._knows_warmth:
            return None
        return self._climate.waves.outlook(planted_on(planted), self.need).first_pick[0].day

    def judge_on(self, day: date) -> Judged:
        """Return what is to be thought of a planting that is asked about."""
        return self.judge(planted_on(day))

    def promise(self, planted: date) -> tuple[float, Verdict | None]:
        """Return what `judge` thinks of a planting day, its odds and verdict, and no more.

        A wave that stands over the winter has no verdict and is as good as any: odds of 1.
        """
        if self.overwinters(planted):
            return 1.0, None
        chances = self._climate.waves.chances(planted, self.need)
        return chances.odds, self._verdict(chances, planted)

    def judge(self, planted: Dated) -> Judged:
        """Date and judge a planting.

        Wherever many waves of a crop are planted on one day, they fare alike: one is thought
        through, and the others only have their dates counted from their own line of the file.
        """
        judged = self._judged.get(planted.day)
        if judged is not None:
            return judged.counted_anew(planted)
        judged = self._judged[planted.day] = self._judge(planted)
        return judged

    def judged_on(self, planted: date) -> Judged:
        """Judge a planting day where it is no matter from which line of the file it is counted."""
        found = self._judged.get(planted)
        return found or self.judge(Dated.on(planted, "room", "a planting day", OURS))

    def _judge(self, planted: Dated) -> Judged:
        if self.overwinters(planted.day):
            return self._judge_winter(planted)
        to_seed = self.to_seed(planted.day)
        outlook = self._climate.waves.outlook(planted, self.need)
        need = self._needs[planted.day] = self._need_after(planted.day, outlook)
        if need is not self.need:
            outlook = self._climate.waves.outlook(planted, need)
        picking = picking_of(planted, self.crop, outlook, year=self._year, to_seed=to_seed)
        verdict = self._verdict(outlook.chances, planted.day)
        pick_gap = pick_gap_of(planted.day, need, outlook, self._climate)
        years_on = timedelta(days=self._year.days_to(planted.day))
        waits = verdict is Verdict.TOO_EARLY and planted.day - years_on >= self.earliest.day
        return Judged(
            stages=self._stages(planted, picking),
            ended_by=picking.ended_by,
            end=picking.end,
            odds=outlook.chances.odds,
            expected_picking_days=outlook.expected_picking_days,
            odds_of_nothing=outlook.odds_of_nothing,
            margin=outlook.chances.margin,
            verdict=verdict,
            earliest=(self.begins if waits else self.earliest).day + years_on,
            safe_until=LastSafe(self._last_safe, planted.day),
            may_bolt=self.need.heat_ends
            and not self._climate.weather.knows_heat
            and in_high_summer(picking, self._year),
            years=outlook.years,
            spring_loss=outlook.chances.spring_loss,
            heat=self._heat(planted.day) if verdict is Verdict.TOO_HOT else None,
            pick_gap=pick_gap,
            winter_kills=verdict in (Verdict.WINTER, Verdict.CHANCY)
            and self._stands_winter(planted.day),
            to_seed=to_seed,
        )

    def _heat(self, planted: date) -> HeatHarm:
        """What heat does to a planting that is too hot."""
        if self._is_too_warm_for_seed(planted):
            return HeatHarm.SPOILS_SEED
        if self._spoils_root(planted):
            return HeatHarm.SPOILS_ROOT
        drops = self.need.fruit_set is not None and not self.need.heat_ends
        return HeatHarm.DROPS_FLOWERS if drops else HeatHarm.PICKED_IN_IT

    def _is_too_warm_for_seed(self, planted: date) -> bool:
        sown = self.raised is Raised.DIRECT
        return sown and is_too_warm(self.crop, self._climate.weather.soil(planted))

    def _spoils_root(self, planted: date) -> bool:
        return spoils_root(self.crop, self.need, planted, self._climate)

    def _judge_winter(self, planted: Dated) -> Judged:
        found = wintering_of(planted, self.crop, self.need, self._where)
        return Judged(
            self._stages(planted, found.picking),
            found.picking.ended_by,
            end=None,
            odds=None,
            expected_picking_days=None,
            odds_of_nothing=None,
            margin=None,
            verdict=None,
            earliest=min(planted.day, self._year.midsummer),
            safe_until=None,
            winter=found.winter,
            no_date=found.no_date,
        )

    def _stages(self, planted: Dated, picking: Harvest) -> Stages:
        soil = self._climate.weather.soil(planted.day) if self.raised is not Raised.TRAYS else None
        return stages_of(planted, self.crop, self.raised, picking, soil=soil)

    def days_with(self, holds: Holds, nearly: Holds | None = None) -> tuple[DateSpan, ...]:
        """Return the runs of days, from the earliest on, whose chances are good enough.

        Parameters
        ----------
        holds
            Whether chances are good enough; better ones always are, unless it is too hot.
        nearly
            Whether they are so near that a few days of them part no run; None if none are.
        """
        if self._until < self.earliest.day:
            return ()
        stretches = self._stretches(DateSpan(self.earliest.day, self._until))
        runs = runs_of(stretches, self._climate, self.need, holds, nearly)
        roots = too_hot_for_roots(self.crop, self.need, self._climate, self._year)
        cool = (part for run in runs for part in run.without(self.hot_soil))
        return tuple(part for run in cool for part in run.without(roots))

    @cached_property
    def hot_soil(self) -> tuple[DateSpan, ...]:
        """Runs of days of the growing year on which the soil is too warm for the seed."""
        return () if self.raised is Raised.TRAYS else self._warm_soil.too_warm_for(self.crop)

    def _stretches(self, days: DateSpan) -> Iterator[Stretch]:
        """Yield runs of days, inside its planting times, along which the chances only fall."""
        for time in self.times or (days,):
            first, last = max(time.first, days.first), min(time.last, days.last)
            if first <= last:
                yield from self._climate.waves.stretches(self.need, DateSpan(first, last))

    def _verdict(self, chances: Chances, planted: date) -> Verdict:
        planted -= timedelta(days=self._year.days_to(planted))
        early = planted < self.earliest.day
        late = planted > self._until
        in_time = not self.times or any(planted in time for time in self.times)
        if not early and (self._is_too_warm_for_seed(planted) or self._spoils_root(planted)):
            return Verdict.TOO_HOT
        verdict = self._verdict_of(chances, early=early)
        if verdict is Verdict.TOO_LATE and planted < self.begins.day:
            return Verdict.TOO_EARLY
        if verdict is Verdict.TOO_LATE and not late and self._heat_harms(planted):
            return Verdict.TOO_HOT
        if not early and (late or not in_time) and not chances.too_hot:
            dark = late and self._until < max((time.last for time in self.times), default=planted)
            other = not (in_time or dark or verdict is Verdict.TOO_LATE)
            return Verdict.NOT_ITS_TIME if other else Verdict.TOO_LATE
        near = verdict is Verdict.CHANCY and self._is_nearly_safe(chances)
        if near and any(planted in window for window in self.windows):
            return verdict_of(chances, early=early, sure=self._site.sure.nearly)
        if verdict is Verdict.TOO_LATE and self._stands_winter(planted):
            return Verdict.WINTER
        return verdict

    def _stands_winter(self, planted: date) -> bool:
        return stands_winter(planted, self.need, self._climate, self._site)

    def _heat_harms(self, planted: date) -> bool:
        """Whether it is heat that leaves little of a planting, not the end of the season.

        A crop that drops its flowers in it is safe again later in the growing year; any other is
        soon worth planting again.
        """
        if self.need.fruit_set is not None and any(each.first > planted for each in self.windows):
            return True
        of = planted, self.need, self._climate
        return self.minds_heat and heat_harms(*of, last=self._until, is_worth=self._is_worth)

    def _verdict_of(self, chances: Chances, *, early: bool) -> Verdict:
        return verdict_of(chances, early=early, sure=self._site.sure)

    def _is_safe(self, chances: Chances) -> bool:
        return self._verdict_of(chances, early=False) in SAFE

    def _is_nearly_safe(self, chances: Chances) -> bool:
        return verdict_of(chances, early=False, sure=self._site.sure.nearly) in SAFE

    def _is_worth(self, chances: Chances) -> bool:
        return self._verdict_of(chances, early=False) in (*SAFE, Verdict.CHANCY)
