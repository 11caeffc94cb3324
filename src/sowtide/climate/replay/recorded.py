"""A climate known by a daily record of minima and maxima: every recorded year is replayed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from functools import cached_property
from itertools import pairwise

from sowtide.climate.answers import Chances, EndedBy, Left, Need, Outlook, Warmth, Winter, YearTold
from sowtide.climate.basis import Basis, SoFar
from sowtide.climate.by_frosts import DatesClimate
from sowtide.climate.frost_record import FrostYears, RecordYears
from sowtide.climate.growth import UNRIPE_DAYS, for_want_of_light, in_warmth, range_end
from sowtide.climate.medians import NEVER, median
from sowtide.climate.replay.middle import Middle, middle_of
from sowtide.climate.replay.recorded_days import RecordedDays
from sowtide.climate.replay.run import HALF, Replay, Run
from sowtide.climate.replay.so_far import cut_out, known_until, lay_out, so_far
from sowtide.climate.soil import HOT_WEEKS, Soil, soil_under
from sowtide.climate.warmth import FruitGap, HotOdds, Reached, hot_odds, standing_of, winter_of
from sowtide.days import DateSpan, GrowingYear, Half
from sowtide.garden.site import Site
from sowtide.reasons import OURS, Dated, Origin


class RecordClimate:
    """A climate whose recorded years are replayed whole: their warmth and their frosts.

    Parameters
    ----------
    frosts
        The frosts of the same record.
    years
        The record's years; its record has maxima.
    year
        The growing year planned.
    site
        The place.
    origin
        Where the record is named.
    today
        The day from which on nothing of the planned year is known; None: whatever the record has.
    """

    def __init__(
        self,
        frosts: DatesClimate,
        years: RecordYears,
        year: GrowingYear,
        *,
        site: Site,
        origin: Origin,
        today: date | None = None,
    ) -> None:
        record = years.record
        assert record.tmax is not None
        self._so_far: SoFar | None = None
        self._frosts = frosts
        self._year = year
        self._site = site
        self._origin = origin
        until = known_until(record, year, today)
        if until is None:
            laid = cut_out(record, years.seasons, year)
        else:
            laid = lay_out(record, years.seasons, year, until)
            self._so_far = so_far(record, years.seasons, year, until)
        self._days = RecordedDays(laid, year, record, latitude=site.latitude)
        self._years = laid.years
        self._soils: dict[date, Soil | None] = {}
        self._replays: dict[int, tuple[Need, Replay]] = {}
        self._bright: dict[int, tuple[Need, Need]] = {}

    @property
    def basis(self) -> Basis:
        """What the answers rest on."""
        return self._frosts.basis

    @property
    def hot_weeks(self) -> DateSpan | None:
        """The weeks too hot for cool-season crops: the grower's, else those of most years."""
        return self._site.too_hot if self._site.heat_known else self._usual_hot_weeks

    @property
    def hot_odds(self) -> HotOdds | None:
        """How sure the hot weeks are, by the record, whatever the grower wrote."""
        spans = self._hot_weeks_of_years
        return hot_odds(spans, self._year.first) if spans else None

    @property
    def so_far(self) -> SoFar | None:
        """How far the season has come, where the record reaches into it."""
        return self._so_far

    def soil(self, day: date) -> Soil | None:
        """Return what the soil is on a day, from the average of the years."""
        if day not in self._soils:
            air = self._days.average_year.ground[self._year.offset(day)]
            soil = Soil(soil_under(air, day, self._year), at_least=False)
            self._soils[day] = None if air != air else soil
        return self._soils[day]

    def mean_over(self, first: date, days: int) -> float | None:
        """Return the mean temperature of some days, averaged over the years. [°C]"""
        return self._days.mean_over(first, days)

    def reached(self, warmth: Warmth, start: date) -> Reached | None:
        """Return when the warmth of `low` has gathered, over the years without a gap by then."""
        return self._days.reached(warmth, start)

    def fruit_gap(
        self, flowers: DateSpan, *, high: float | None, low: float | None
    ) -> FruitGap | None:
        """Return when heat lets flowers set little fruit, over the years that tell of the days."""
        return self._days.fruit_gap(flowers, high=high, low=low)

    def warm_from(self, *, soil: float | None, nights: float | None) -> Dated | None:
        """Return the first day with soil and nights warm enough, or None where they always are."""
        return self._days.average_year.warm_from(soil=soil, nights=nights, origin=self._origin)

    def frost_day(self, half: Half, *, at: float, share: float) -> Dated | None:
        """Return the day with that share of years beyond it, to the nearest day."""
        return self._frosts.frost_day(half, at=at, share=share)

    def frost_odds(self, half: Half, day: date, *, at: float) -> float:
        """Return the share of years with a frost later (spring) or earlier (autumn) than a day."""
        return self._frosts.frost_odds(half, day, at=at)

    def frost_years(self, at: float) -> FrostYears | None:
        """Return the frosts of each recorded year at a temperature. [°C]"""
        return self._frosts.frost_years(at)

    def safe_from_frost(self, *, at: float, share: float) -> Dated | None:
        """Return the first day after which frost comes in no more than that share of years."""
        return self._frosts.safe_from_frost(at=at, share=share)

    def frost_end(self, need: Need) -> Dated | None:
        """Return the day frost ends a crop in half of the years, or None where no frost does."""
        if not need.stands:
            return self._frosts.frost_end(need)
        days = self._days.usual_end(need)
        if days is None:
            return None
        text = f"the ground freezes, in half of {len(self._years.seasons)} years"
        return Dated.on(self._year.first, "frost-end", "the growing year begins", OURS).then(
            days, "frost-end", text, self._origin
        )

    def outlook(self, planted: Dated, need: Need) -> Outlook:
        """Return what becomes of a wave planted on a day, over all recorded years."""
        runs = tuple(self._replay(need).runs(self._year.offset(planted.day)))
        if not runs:
            return self._frosts.outlook(planted, need)
        middle = middle_of(runs)
        early, late = (
            self._first_pick(planted, need, middle, len(runs), late=late) for late in (False, True)
        )
        end, ended_by = self._end(planted, middle, len(runs), ripens=early[1])
        return Outlook(
            (early[0], late[0]),
            end,
            ended_by,
            middle.chances(runs, need),
            sum([run.picking for run in runs]) / len(runs),
            sum([run.nothing for run in runs]) / len(runs),
            len(runs),
        )

    def years_of(self, planted: date, need: Need) -> tuple[YearTold, ...]:
        """Return what each recorded year does to a wave, in order."""
        runs = self._replay(need).runs(self._year.offset(planted))
        return tuple(_told(run, self._year.like(planted, run.season)) for run in runs)

    def left(self, planted: date, need: Need, since: date) -> Left:
        """Return what a wave still has before it from a day on, over the years it stands then."""
        offset, after = self._year.offset(planted), (since - planted).days
        days, odds, years = self._replay(need).left(offset, after)
        return Left(days, odds, years) if years else self._frosts.left(planted, need, since)

    def winter(self, planted: Dated, need: Need) -> Winter | None:
        """Return how a wave gets on that stands over the winter, over all recorded years."""
        stand = standing_of(planted.day, self._site.latitude, self._year)
        told = self._days.wintered(planted.day, need, stand)
        return winter_of(planted, need, told, stand, units=self._site.units, years=True)

    def chances(self, planted: date, need: Need) -> Chances:
        """Return the chances of `outlook` alone, for a planting day."""
        replay, offset = self._replay(need), self._year.offset(planted)
        if self._site.sure.days is not None:  # margins decide
            runs = tuple(replay.runs(offset))
            return (
                middle_of(runs).chances(runs, need) if runs else self._frosts.chances(planted, need)
            )
        found = replay.prospects
        if not found.used[offset]:
            return self._frosts.chances(planted, need)
        return Chances(found.odds[offset], None, None, found.too_hot[offset] > HALF)

    def stretches(self, need: Need, days: DateSpan) -> tuple[DateSpan, ...]:
        """Split planting days, in order, into runs along which the odds only fall.

        Margins keep no such order: where they decide, each day stands alone.
        """
        first = days.first.toordinal()
        alone = self._site.sure.days is not None
        found = self._replay(need).prospects
        offset, count = self._year.offset(days.first), (days.last - days.first).days + 1
        if alone:
            turns: Sequence[int] = range(count)
        else:
            turns = [0, *found.turns(offset, offset + count)]
        return tuple(
            DateSpan(date.fromordinal(first + begin), date.fromordinal(first + over - 1))
            for begin, over in pairwise([*turns, count])
            if begin < over
        )

    def _replay(self, need: Need) -> Replay:
        found = self._replays.get(id(need))  # its need is kept with it: no other has its id
        if found is None:
            warmth = need.warmth
            assert warmth is not None
            replay = Replay(
                self._years,
                heat=self._days.gathered.of(warmth),
                ends=self._days.ends_of(need),
                hot=self._hot_of(need),
                need=need,
            )
            found = self._replays[id(need)] = (need, replay)
        return found[1]

    def _hot_of(self, need: Need) -> tuple[tuple[int, int] | None, ...]:
        if not need.heat_ends or need.warm_limit is None:
            return (None,) * len(self._years.seasons)
        if self._site.heat_known:
            hot = self._site.too_hot
            return self._days.span_in_each(hot) if hot else (None,) * len(self._years.seasons)
        return self._days.hot_spans(need.warm_limit)

    @property
    def _hot_weeks_of_years(self) -> list[tuple[int, int] | None]:
        """Each year's first hot day and the day after its last, counted from its first day."""
        spans = zip(self._days.hot_spans(HOT_WEEKS), self._years.bases, strict=True)
        return [None if span is None else (span[0] - base, span[1] - base) for span, base in spans]

    @cached_property
    def _usual_hot_weeks(self) -> DateSpan | None:
        spans = self._hot_weeks_of_years
        begin = median([NEVER if span is None else span[0] for span in spans])
        over = median([-NEVER if span is None else span[1] for span in spans])
        if begin >= over:
            return None
        first = self._year.first
        return DateSpan(first + timedelta(days=begin), first + timedelta(days=over - 1))

    def _first_pick(
        self, planted: Dated, need: Need, middle: Middle, years: int, *, late: bool
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
        if found >= NEVER:
            text += ": not ripe before it ends"
            return planted.then(middle.stops, "heat", text, OURS), False
        bright = self._in_full_light(planted.day, need, late=late)
        days = found if bright is None else min(bright, found)
        first = planted.then(days, "heat", text, need.days_origin)
        return for_want_of_light(first, found - days), True

    def _in_full_light(self, planted: date, need: Need, *, late: bool) -> int | None:
        """Days to the median first pick if no want of light held it back; None where none does."""
        warmth = need.warmth
        assert warmth is not None
        if warmth.in_full_light is warmth:
            return None
        bright = self._bright.get(id(need))  # its need is kept with it: no other has its id
        if bright is None:
            bright = need, replace(need, warmth=warmth.in_full_light)
            self._bright[id(need)] = bright
        runs = tuple(self._replay(bright[1]).runs(self._year.offset(planted)))
        middle = middle_of(runs)
        return middle.late if late else middle.early

    def _end(
        self, planted: Dated, middle: Middle, years: int, *, ripens: bool
    ) -> tuple[Dated | None, EndedBy | None]:
        frost, heat = middle.frost_end, middle.hot_end
        if heat < frost:
            text = f"heat spoils it in half of {years} years"
            return planted.then(heat, "too-hot", text, self._origin), EndedBy.HEAT
        if frost < NEVER:
            text = f"frost ends it in half of {years} years"
            return planted.then(frost, "frost-end", text, self._origin), EndedBy.FROST
        if ripens:
            return None, None
        text = "it is not ripe within the year"
        return planted.then(UNRIPE_DAYS, "heat", text, self._origin), EndedBy.TOO_COOL


def _told(run: Run, planted: date) -> YearTold:
    """Put what a year did on its own days."""
    end = min(run.frost_end, run.hot_end)
    first = (_day_of(planted, each) if each < end else None for each in (run.early, run.late))
    ended_by = EndedBy.HEAT if run.hot_end < run.frost_end else EndedBy.FROST
    return YearTold(
        run.season,
        (next(first), next(first)),
        _day_of(planted, end),
        None if end >= NEVER else ended_by,
        run.picking,
        run.worth,
    )


def _day_of(planted: date, days: int) -> date | None:
    return None if days >= NEVER else planted + timedelta(days=days)
