"""What becomes of a wave by a daily record of minima and maxima: every year is replayed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

from sowtide.climate.answers import Chances, EndedBy, Left, Need, Outlook, Stretch, Winter, YearTold
from sowtide.climate.by_frosts import FatesByFrosts
from sowtide.climate.fate import Borne
from sowtide.climate.growth import (
    NO_FRUIT,
    UNRIPE_DAYS,
    for_want_of_fruit,
    for_want_of_light,
    in_warmth,
    range_end,
)
from sowtide.climate.medians import NEVER
from sowtide.climate.replay.middle import Middle, middle_of
from sowtide.climate.replay.prospect import HALF
from sowtide.climate.replay.recorded_days import RecordedDays
from sowtide.climate.replay.replays import Replays
from sowtide.climate.replay.run import Run
from sowtide.climate.warmth import standing_of, winter_of
from sowtide.days import DateSpan, GrowingYear
from sowtide.garden.site import Site
from sowtide.reasons import OURS, Dated, Origin


class ReplayedFates:
    """What becomes of waves in recorded years that are replayed whole: their warmth and frosts.

    Planting days are judged by the years alone; what is planted goes on in each of them from the
    season's own days so far, where they are known.

    Parameters
    ----------
    days
        The days of the years.
    year
        The growing year planned.
    by_frosts
        What is said of a wave that no recorded year tells of.
    site
        The place.
    origin
        Where the record is named.
    """

    def __init__(
        self,
        days: RecordedDays,
        year: GrowingYear,
        *,
        by_frosts: FatesByFrosts,
        site: Site,
        origin: Origin,
    ) -> None:
        self._by_frosts = by_frosts
        self._year = year
        self._site = site
        self._origin = origin
        self._years = days.years
        self._past = Replays(days, site)
        self._season = self._past if days.season is days else Replays(days.season, site)

    def frost_end(self, need: Need) -> Dated | None:
        """Return the day frost ends a crop in half of the years, or None where no frost does."""
        if not need.stands:
            return self._by_frosts.frost_end(need)
        days = self._past.days.usual_end(replace(need, seeds=None))
        if days is None:
            return None
        text = f"the ground freezes, in half of {len(self._years.seasons)} years"
        return Dated.on(self._year.first, "frost-end", "the growing year begins", OURS).then(
            days, "frost-end", text, self._origin
        )

    def outlook(self, planted: Dated, need: Need) -> Outlook:
        """Return what becomes of a wave planted on a day, over all recorded years."""
        runs = tuple(self._season.of(need).runs(self._year.offset(planted.day)))
        if not runs:
            return self._by_frosts.outlook(planted, need)
        middle = middle_of(runs)
        bright = self._in_full_light(planted.day, need, runs, middle)
        early, late = (
            self._first_pick(planted, need, middle, bright, years=len(runs), late=late)
            for late in (False, True)
        )
        end, ended_by = self._end(planted, need, middle, len(runs), ripens=early[1])
        return Outlook(
            first_pick=(early[0], late[0]),
            end=end,
            ended_by=ended_by,
            chances=middle.chances(runs, need),
            expected_picking_days=sum([run.picking for run in runs]) / len(runs),
            odds_of_nothing=sum([run.nothing for run in runs]) / len(runs),
            years=len(runs),
            waited=middle.waited,
        )

    def years_of(self, planted: date, need: Need) -> tuple[YearTold, ...]:
        """Return what each recorded year does to a wave, in order."""
        runs = self._season.of(need).runs(self._year.offset(planted))
        seeds = self._to_seed(planted, need)
        return tuple(_told(run, self._year.like(planted, run.season), seeds) for run in runs)

    def borne(self, planted: date, need: Need) -> tuple[Borne, ...]:
        """Return when a wave bears in each recorded year, in order."""
        found = tuple(self._season.of(need).borne(self._year.offset(planted)))
        return found or self._by_frosts.borne(planted, need)

    def left(self, planted: date, need: Need, since: date) -> Left:
        """Return what a wave still has before it from a day on, over the years it stands then."""
        offset, after = self._year.offset(planted), (since - planted).days
        days, odds, years = self._season.of(need).left(offset, after)
        return Left(days, odds, years) if years else self._by_frosts.left(planted, need, since)

    def winter(self, planted: Dated, need: Need) -> Winter | None:
        """Return how a wave gets on that stands over the winter, over all recorded years."""
        stand = standing_of(planted.day, self._site.latitude, self._year)
        told = self._season.days.wintered(planted.day, need, stand)
        return winter_of(planted, need, told, stand, units=self._site.units, years=True)

    def grown_enough(self, planted: date, need: Need, share: float) -> float | None:
        """Return the share of years in which it is grown far enough when the short days begin."""
        stand = standing_of(planted, self._site.latitude, self._year)
        told = list(self._past.days.grown(planted, need, stand))
        return sum(grown >= share for grown in told) / len(told) if told else None

    def chances(self, planted: date, need: Need) -> Chances:
        """Return the chances of `outlook` alone, for a planting day."""
        replay, offset = self._past.of(need), self._year.offset(planted)
        if self._site.sure.days is not None:  # margins decide
            runs = tuple(replay.runs(offset))
            if runs:
                return middle_of(runs).chances(runs, need)
            return self._by_frosts.chances(planted, need)
        found = replay.prospects
        if not found.used[offset]:
            return self._by_frosts.chances(planted, need)
        return Chances(found.odds[offset], None, None, found.too_hot[offset] > HALF)

    def least(self, need: Need, days: range) -> Chances:
        """Return the chances of the last day of a stretch."""
        return self.chances(date.fromordinal(days[-1]), need)

    def stretches(self, need: Need, days: DateSpan) -> tuple[Stretch, ...]:
        """Split planting days, in order, into runs along which the odds only fall. [ordinals]

        Margins keep no such order: where they decide, each day stands alone.
        """
        first = days.first.toordinal()
        alone = self._site.sure.days is not None
        found = self._past.of(need).prospects
        offset, count = self._year.offset(days.first), (days.last - days.first).days + 1
        if alone:
            turns: Sequence[int] = range(count)
        else:
            turns = [0, *found.turns(offset, offset + count)]
        return tuple(
            Stretch(range(first + begin, first + over))
            for begin, over in pairwise([*turns, count])
            if begin < over
        )

    def _first_pick(
        self,
        planted: Dated,
        need: Need,
        middle: Middle,
        bright: Middle,
        *,
        years: int,
        late: bool,
    ) -> tuple[Dated, bool]:
        """Count the median first pick; whether it ripens at all in half of the years.

        What does not is dated on the day that ends it, or a year on where nothing does.
        """
        warmth = need.warmth
        assert warmth is not None
        found = middle.late if late else middle.early
        total = warmth.high if late else warmth.low
        units = self._site.units
        text = (
            f"{range_end(need, late=late)}, {in_warmth(warmth, total, units)}, "
            f"median of {years} years"
        )
        ripe = middle.ripe_late if late else middle.ripe_early
        if found >= NEVER:
            text += ": " + ("not ripe before it ends" if ripe >= NEVER else NO_FRUIT)
            return planted.then(middle.stops, "heat", text, OURS), False
        ripe = min(ripe, found)
        days = min(bright.ripe_late if late else bright.ripe_early, ripe)
        first = planted.then(days, "heat", text, need.days_origin)
        return for_want_of_fruit(for_want_of_light(first, ripe - days), found - ripe), True

    def _in_full_light(
        self, planted: date, need: Need, runs: Sequence[Run], middle: Middle
    ) -> Middle:
        """Return the middle of the years if no want of light held the crop back.

        Where most years pick it before the light falls short, that is the middle as it is.
        """
        warmth = need.warmth
        assert warmth is not None
        if warmth.in_full_light is warmth:
            return middle
        offset = self._year.offset(planted)
        dim = self._season.days.dim_from - offset
        if 2 * sum([run.late <= dim for run in runs]) > len(runs):
            return middle
        return middle_of(tuple(self._season.in_full_light(need).runs(offset)))

    def _end(
        self, planted: Dated, need: Need, middle: Middle, years: int, *, ripens: bool
    ) -> tuple[Dated | None, EndedBy | None]:
        frost, heat = middle.frost_end, middle.hot_end
        if heat < frost:
            if need.heat_ends:
                text = f"heat spoils it in half of {years} years"
                return planted.then(heat, "too-hot", text, self._origin), EndedBy.HEAT
            text = f"{NO_FRUIT}, in half of {years} years"
            return planted.then(heat, "fruit-set", text, self._origin), EndedBy.HEAT
        if need.thaws and ripens:
            return self._thawed(planted, need, years)
        if _is_day(frost, self._to_seed(planted.day, need)):
            return self._seeds(planted.day, need), EndedBy.SEED
        if frost < NEVER:
            text = f"frost ends it in half of {years} years"
            return planted.then(frost, "frost-end", text, self._origin), EndedBy.FROST
        if ripens:
            return None, None
        text = "it is not ripe within the year"
        return planted.then(UNRIPE_DAYS, "heat", text, self._origin), EndedBy.TOO_COOL

    def _thawed(
        self, planted: Dated, need: Need, years: int
    ) -> tuple[Dated | None, EndedBy | None]:
        """The day that ends what is ripe when the ground freezes, and what does."""
        days = self._past.days.usual_death(need)
        if days is None:
            return None, None
        left = max(days - self._year.offset(planted.day), 1)
        if _is_day(left, self._to_seed(planted.day, need)):
            return self._seeds(planted.day, need), EndedBy.SEED
        text = f"it is killed, or frozen in until it is, in half of {years} years"
        return planted.then(left, "frost-end", text, self._origin), EndedBy.FROST

    def _to_seed(self, planted: date, need: Need) -> int:
        """Days from planting to the day on which it runs to seed, `NEVER` for what does not."""
        if need.seeds is None:
            return NEVER
        return (need.seeds.day - self._year.first).days - self._year.offset(planted)

    def _seeds(self, planted: date, need: Need) -> Dated:
        """The day on which what is planted in any growing year runs to seed."""
        assert need.seeds is not None
        years_on = self._year.days_to(planted)
        if not years_on:
            return need.seeds
        return need.seeds.then(years_on, "to-seed", "the same day of its own growing year", OURS)


def _told(run: Run, planted: date, seeds: int) -> YearTold:
    """Put what a year did on its own days; it runs to seed so many days from planting. [days]"""
    end = min(run.frost_end, run.hot_end, run.spring_frost)
    first = (_day_of(planted, each) if each < end else None for each in (run.early, run.late))
    ended_by = EndedBy.SEED if _is_day(run.frost_end, seeds) else EndedBy.FROST
    if run.hot_end == end:
        ended_by = EndedBy.HEAT
    return YearTold(
        season=run.season,
        first_pick=(next(first), next(first)),
        end=_day_of(planted, end),
        ended_by=None if end >= NEVER else ended_by,
        picking_days=run.picking,
        worth=run.worth,
    )


def _is_day(days: int, known: int) -> bool:
    """Whether an end is a known day, but for a leap day; not where that never comes. [days]"""
    return known < NEVER and abs(days - known) <= 1


def _day_of(planted: date, days: int) -> date | None:
    return None if days >= NEVER else planted + timedelta(days=days)
