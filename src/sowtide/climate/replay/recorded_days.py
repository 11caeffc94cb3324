"""The days of the recorded years that are replayed: what is worked out from them once."""

from __future__ import annotations

from array import array
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta
from functools import cached_property
from math import isinf, isnan

from sowtide.climate.answers import FruitSet, Need, Warmth
from sowtide.climate.average import DailyYear, average_year
from sowtide.climate.basis import SoFar
from sowtide.climate.frost_record import RecordYears
from sowtide.climate.medians import NEVER, median
from sowtide.climate.record import Record
from sowtide.climate.replay.ends import Ends
from sowtide.climate.replay.frozen import frozen_in
from sowtide.climate.replay.so_far import Laid, cut_out, known_until, lay_out, so_far
from sowtide.climate.replay.through import Through
from sowtide.climate.soil import GROUND_DAYS, HOT_WEEKS, Soil, soil_under
from sowtide.climate.warmth import (
    Barren,
    FruitGap,
    Gathered,
    HotOdds,
    Reached,
    Standing,
    Wintered,
    autumn_light,
    centred_means,
    days_until,
    gap_of,
    grown_by,
    hot_odds,
    hot_spans,
    missing_before,
    reached_in,
    running_mean,
    too_hot_to_set,
    wintered,
)
from sowtide.days import DateSpan, GrowingYear
from sowtide.garden.site import Site
from sowtide.reasons import Dated, Origin
from sowtide.units import FREEZING

_MISSING = 0.3
_AROUND = 5
"""Days before and after one over which its usual maximum is averaged: sowtide's own. [days]"""
_SUMMER = (30, 60)
"""Days before and after midsummer whose readings tell whether there were hot weeks. [days]"""


def recorded_days(
    years: RecordYears, year: GrowingYear, *, site: Site, origin: Origin, today: date | None
) -> RecordedDays:
    """Return the days of a record's years for a growing year planned.

    Parameters
    ----------
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
    record, seasons = years.record, years.seasons
    until, season = known_until(record, year, today), None
    if until is not None:
        laid = lay_out(record, seasons, year, until)
        come = so_far(record, seasons, year, until)
        season = RecordedDays(laid, year, record, site=site, origin=origin, so_far=come)
    laid = cut_out(record, seasons, year)
    return RecordedDays(laid, year, record, site=site, origin=origin, season=season)


class RecordedDays:
    """What the days of recorded years are like, laid out for one growing year planned.

    Parameters
    ----------
    laid
        The temperatures, and where the years lie in them.
    year
        The growing year planned.
    record
        The record that they are of.
    site
        The place.
    origin
        Where the record is named.
    so_far
        How far the season has come, where the record reaches into it.
    season
        The same years, each from the season's own days on; None where none of those are known.
    """

    def __init__(
        self,
        laid: Laid,
        year: GrowingYear,
        record: Record,
        *,
        site: Site,
        origin: Origin,
        so_far: SoFar | None = None,
        season: RecordedDays | None = None,
    ) -> None:
        self.knows_heat = self.knows_ground = True
        self.season: RecordedDays = season or self
        """The same years, each from the season's own days on, where they are known."""
        self.so_far: SoFar | None = season.so_far if season else so_far
        """How far the season has come, where the record reaches into it."""
        self._tmin, self._tmax = laid.tmin, laid.tmax
        self._year = year
        self._record = record
        self._site = site
        self._origin = origin
        self.years = laid.years
        """The years, and where they lie."""
        of_year = autumn_light(site.latitude, year)
        self.dim_from: int = next((day for day, share in enumerate(of_year) if share < 1), NEVER)
        """The first day of the growing year with less light than growth wants. [days]"""
        light = laid.years.light_of(of_year, len(laid.tmin))
        self.gathered = Gathered(self._tmin, self._tmax, light)
        """Their warmth."""
        self._ends: dict[tuple[float | None, int, date | None], Ends] = {}
        self._mean_over: dict[tuple[int, int], float | None] = {}
        self._highs: dict[int, float | None] = {}
        self._spans: dict[float, tuple[tuple[int, int] | None, ...]] = {}
        self._too_hot_to_set: dict[tuple[float | None, float | None], Sequence[int]] = {}
        self._soils: dict[date, Soil | None] = {}

    @property
    def hot_weeks(self) -> DateSpan | None:
        """The weeks too hot for cool-season crops: the grower's, else those of most years."""
        return self._site.too_hot if self._site.heat_known else self._usual_hot_weeks

    @property
    def hot_odds(self) -> HotOdds | None:
        """How sure the hot weeks are, by the record, whatever the grower wrote."""
        spans = self._hot_weeks_of_years
        return hot_odds(spans, self._year.first) if spans else None

    def soil(self, day: date) -> Soil | None:
        """Return what the soil is on a day, from the average of the years."""
        if day not in self._soils:
            air = self._average_year.ground[self._year.offset(day)]
            soil = Soil(soil_under(air, day, self._year), at_least=False)
            self._soils[day] = None if air != air else soil
        return self._soils[day]

    def warm_from(self, *, soil: float | None, nights: float | None) -> Dated | None:
        """Return the first day with soil and nights warm enough, or None where they always are."""
        return self._average_year.warm_from(soil=soil, nights=nights, origin=self._origin)

    @cached_property
    def missing(self) -> array[int]:
        """How many days before each have no temperatures. [days]"""
        return missing_before(self._tmin, self._tmax)

    @cached_property
    def _average_year(self) -> DailyYear:
        """The averages of the years."""
        lows = running_mean(self._tmin, GROUND_DAYS, missing=_MISSING)
        return average_year(self._ground, lows, self.years, self._year)

    def mean_over(self, first: date, days: int) -> float | None:
        """Return the mean temperature of some days, averaged over the years. [°C]"""
        key = self._year.offset(first), days
        if key not in self._mean_over:
            total, known = 0.0, 0
            for at in self.years.indices(key[0]):
                span = self._means[at : at + days]
                if isnan(sum(span)):
                    span = [mean for mean in span if mean == mean]
                total, known = sum(span, total), known + len(span)
            self._mean_over[key] = total / known if known else None
        return self._mean_over[key]

    def usual_high(self, day: date) -> float | None:
        """Return the mean maximum of the days around a day, averaged over the years. [°C]"""
        at = self._year.offset(day)
        if at not in self._highs:
            around = (
                self._tmax[max(index - _AROUND, 0) : index + _AROUND + 1]
                for index in self.years.indices(at)
            )
            known = [high for span in around for high in span if high == high]
            self._highs[at] = sum(known) / len(known) if known else None
        return self._highs[at]

    def ends_of(self, need: Need) -> Ends:
        """Return when such a crop is ended in each year."""
        seeds = None if need.seeds is None else need.seeds.day
        key = None if need.stands else need.killed_at, need.after_frost_days, seeds
        ends = self._ends.get(key)
        if ends is None:
            readings: Sequence[float] = self._ground if need.stands else self._tmin
            limit = FREEZING if need.stands else self._record.threshold(need.killed_at)
            days = [day for day, reading in enumerate(readings) if reading <= limit]
            ends = self._ends[key] = Ends(
                self._or_to_seed(days, seeds),
                self.years,
                missing=self.missing,
                later=need.after_frost_days,
            )
        return ends

    def _or_to_seed(self, days: list[int], seeds: date | None) -> list[int]:
        """Return days that end a crop, and those on which it runs to seed, in order."""
        if seeds is None:
            return days
        after = (seeds - self._year.first).days
        return sorted({*days, *self.years.indices(after)})

    def through(self, need: Need) -> Through | None:
        """Return what of such a crop frost leaves while it has no flowers; None where nothing."""
        if need.green is None:
            return None
        limit = self._record.threshold(need.green.killed_at)
        flowers = self.ends_of(need).days
        return Through(
            flowers,
            [day for day in flowers if self._tmin[day] <= limit],
            self.years,
            ripens=need.green.ripens,
            missing=self.missing,
        )

    def usual_end(self, need: Need) -> int | None:
        """Return the first day from midsummer on that ends such a crop in half of the years.

        Counted from the first day of the growing year; None where none does. [days]
        """
        return self._usual_end(self.ends_of(need))

    def usual_death(self, need: Need) -> int | None:
        """Return the first day from midsummer on that ends what is ripe when the ground freezes.

        As `usual_end`, of a crop that is picked again when the ground thaws.
        """
        limit = self._record.threshold(need.killed_at)
        killing = [day for day, low in enumerate(self._tmin) if low <= limit]
        frozen = frozen_in(self.ends_of(replace(need, seeds=None)).days, killing)
        days = self._or_to_seed(frozen, None if need.seeds is None else need.seeds.day)
        return self._usual_end(Ends(days, self.years, missing=self.missing, later=0))

    def _usual_end(self, ends: Ends) -> int | None:
        days = []
        for number, midsummer in enumerate(self.years.midsummers):
            known = ends.of(midsummer - 1, number)
            if known is not None:
                end, _ = known
                days.append(end if end >= NEVER else end - self.years.bases[number])
        found = median(days) if days else NEVER
        return None if found >= NEVER else found

    def hot_spans(self, limit: float) -> tuple[tuple[int, int] | None, ...]:
        """Return each year's first day over a limit [°C] and the day after its last, or None."""
        spans = self._spans.get(limit)
        if spans is None:
            spans = self._spans[limit] = hot_spans(self._centred, self.years, limit)
        return spans

    def span_in_each(self, span: DateSpan) -> tuple[tuple[int, int], ...]:
        """Return where a span of days lies in each year, half-open. [index]"""
        pairs = zip(self._indices(span.first), self._indices(span.last), strict=True)
        return tuple((first, last + 1) for first, last in pairs)

    def wintered(self, planted: date, need: Need, stand: Standing) -> Iterator[Wintered]:
        """Yield what each winter does to a wave; those with a gap in its time are left out."""
        assert need.warmth is not None
        heat, length = self.gathered.of(need.warmth), len(stand.bright)
        for at in self._indices(planted):
            if self._is_whole(at, at + length):
                yield wintered(at, stand, need.warmth, heat, self._means)

    def grown(self, planted: date, need: Need, stand: Standing) -> Iterator[float]:
        """Yield how far it is grown in each year when the short days begin; none without any."""
        if need.warmth is None or stand.short_from is None:
            return
        heat = self.gathered.of(need.warmth)
        for at in self._indices(planted):
            if self._is_whole(at, at + stand.short_from):
                yield grown_by(at, stand.short_from, stand, need.warmth, heat, self._means)

    def reached(self, warmth: Warmth, start: date) -> Reached | None:
        """Return when the warmth of `low` has gathered, over the years without a gap by then."""
        if self.season is not self:
            return self.season.reached(warmth, start)
        heat, days = self.gathered.of(warmth), []
        for begin, base in zip(self._indices(start), self.years.bases, strict=True):
            stop = base + self.years.days
            if begin < 0 or stop >= len(self.missing):
                continue
            after = days_until(heat, begin, warmth.low, stop=stop)
            if self._is_whole(begin, stop if isinf(after) else begin + int(after) + 1):
                days.append(after)
        return reached_in(days, start, years=True)

    def fruit_gap(
        self, flowers: DateSpan, *, high: float | None, low: float | None
    ) -> FruitGap | None:
        """Return when heat lets flowers set little fruit, over the years that tell of the days."""
        days = flowers.length
        begins = [at for at in self._indices(flowers.first) if self._is_whole(at, at + days)]
        return gap_of(self._dropping(high, low), begins, flowers.first, days, years=True)

    def barren(self, fruit_set: FruitSet) -> Barren | None:
        """Return the days without fruit in the years, as indices; None where none are."""
        hot = self._dropping(fruit_set.high, fruit_set.low)
        return Barren(hot, fruit_set.ripens) if hot else None

    def _dropping(self, high: float | None, low: float | None) -> Sequence[int]:
        key = (high, low)
        if key not in self._too_hot_to_set:
            self._too_hot_to_set[key] = too_hot_to_set(self._tmin, self._tmax, high=high, low=low)
        return self._too_hot_to_set[key]

    def _indices(self, day: date) -> list[int]:
        return self.years.indices(self._year.offset(day))

    def _is_whole(self, first: int, stop: int) -> bool:
        """Whether no day is missing from a first one to the one before another."""
        missing = self.missing
        return first >= 0 and stop < len(missing) and missing[stop] == missing[first]

    @property
    def _hot_weeks_of_years(self) -> list[tuple[int, int] | None]:
        """Each year's first hot day and the day after its last, counted from its first day.

        A year that lacks readings of its summer tells of none: it is left out.
        """
        spans = zip(self.hot_spans(HOT_WEEKS), self.years.bases, strict=True)
        return [
            None if span is None else (span[0] - base, span[1] - base)
            for number, (span, base) in enumerate(spans)
            if self._tells_of_summer(number)
        ]

    def _tells_of_summer(self, number: int) -> bool:
        midsummer = self.years.midsummers[number]
        begin, over = max(midsummer - _SUMMER[0], 0), midsummer + _SUMMER[1]
        if over >= len(self.missing):
            return False
        missing = self.missing[over] - self.missing[begin]
        return missing <= _MISSING * (over - begin)

    @cached_property
    def _usual_hot_weeks(self) -> DateSpan | None:
        spans = self._hot_weeks_of_years
        if not spans:
            return None
        begin = median([NEVER if span is None else span[0] for span in spans])
        over = median([-NEVER if span is None else span[1] for span in spans])
        if begin >= over:
            return None
        first = self._year.first
        return DateSpan(first + timedelta(days=begin), first + timedelta(days=over - 1))

    @cached_property
    def _means(self) -> list[float]:
        return [(low + high) / 2 for low, high in zip(self._tmin, self._tmax, strict=True)]

    @cached_property
    def _centred(self) -> Sequence[float]:
        return centred_means(self._means)

    @cached_property
    def _ground(self) -> Sequence[float]:
        return running_mean(self._means, GROUND_DAYS, missing=_MISSING)
