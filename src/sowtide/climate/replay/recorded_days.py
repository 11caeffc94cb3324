"""The days of the recorded years that are replayed: what is worked out from them once."""

from __future__ import annotations

from array import array
from collections.abc import Iterator, Sequence
from datetime import date
from functools import cached_property
from math import isinf

from sowtide.climate.answers import Need, Warmth
from sowtide.climate.average import DailyYear, average_year
from sowtide.climate.medians import NEVER, median
from sowtide.climate.record import Record
from sowtide.climate.replay.ends import Ends
from sowtide.climate.replay.so_far import Laid
from sowtide.climate.soil import GROUND_DAYS
from sowtide.climate.sunlight import autumn_light
from sowtide.climate.warmth import (
    FruitGap,
    Gathered,
    Reached,
    Standing,
    Wintered,
    centred_means,
    days_until,
    gap_of,
    hot_spans,
    missing_before,
    reached_in,
    running_mean,
    too_hot_to_set,
    wintered,
)
from sowtide.days import DateSpan, GrowingYear
from sowtide.units import FREEZING

_MISSING = 0.3


class RecordedDays:
    """The temperatures of recorded years, laid out for one growing year planned.

    Parameters
    ----------
    laid
        The temperatures, and where the years lie in them.
    year
        The growing year planned.
    record
        The record that they are of.
    latitude
        Degrees north of the equator, south negative. [°]
    """

    def __init__(self, laid: Laid, year: GrowingYear, record: Record, *, latitude: float) -> None:
        self._tmin, self._tmax = laid.tmin, laid.tmax
        self._year = year
        self._record = record
        self.years = laid.years
        """The years, and where they lie."""
        light = laid.years.light_of(autumn_light(latitude, year), len(laid.tmin))
        self.gathered = Gathered(self._tmin, self._tmax, light)
        """Their warmth."""
        self._ends: dict[tuple[float | None, int], Ends] = {}
        self._mean_over: dict[tuple[int, int], float | None] = {}
        self._spans: dict[float, tuple[tuple[int, int] | None, ...]] = {}
        self._too_hot_to_set: dict[tuple[float | None, float | None], Sequence[int]] = {}

    @cached_property
    def missing(self) -> array[int]:
        """How many days before each have no temperatures. [days]"""
        return missing_before(self._tmin, self._tmax)

    @cached_property
    def average_year(self) -> DailyYear:
        """The averages of the years."""
        lows = running_mean(self._tmin, GROUND_DAYS, missing=_MISSING)
        return average_year(self._ground, lows, self.years, self._year)

    def mean_over(self, first: date, days: int) -> float | None:
        """Return the mean temperature of some days, averaged over the years. [°C]"""
        key = self._year.offset(first), days
        if key not in self._mean_over:
            spans = (self._means[at : at + days] for at in self.years.indices(key[0]))
            known = [mean for span in spans for mean in span if mean == mean]
            self._mean_over[key] = sum(known) / len(known) if known else None
        return self._mean_over[key]

    def ends_of(self, need: Need) -> Ends:
        """Return when such a crop is ended in each year."""
        key = None if need.stands else need.killed_at, need.after_frost_days
        ends = self._ends.get(key)
        if ends is None:
            readings: Sequence[float] = self._ground if need.stands else self._tmin
            limit = FREEZING if need.stands else self._record.threshold(need.killed_at)
            days = [day for day, reading in enumerate(readings) if reading <= limit]
            ends = self._ends[key] = Ends(
                days, self.years, missing=self.missing, later=need.after_frost_days
            )
        return ends

    def usual_end(self, need: Need) -> int | None:
        """Return the first day from midsummer on that ends such a crop in half of the years.

        Counted from the first day of the growing year; None where none does. [days]
        """
        ends = self.ends_of(need)
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

    def reached(self, warmth: Warmth, start: date) -> Reached | None:
        """Return when the warmth of `low` has gathered, over the years without a gap by then."""
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
        key = (high, low)
        if key not in self._too_hot_to_set:
            self._too_hot_to_set[key] = too_hot_to_set(self._tmin, self._tmax, high=high, low=low)
        days = flowers.length
        begins = [at for at in self._indices(flowers.first) if self._is_whole(at, at + days)]
        return gap_of(self._too_hot_to_set[key], begins, flowers.first, days, years=True)

    def _indices(self, day: date) -> list[int]:
        return self.years.indices(self._year.offset(day))

    def _is_whole(self, first: int, stop: int) -> bool:
        """Whether no day is missing from a first one to the one before another."""
        missing = self.missing
        return first >= 0 and stop < len(missing) and missing[stop] == missing[first]

    @cached_property
    def _means(self) -> list[float]:
        return [(low + high) / 2 for low, high in zip(self._tmin, self._tmax, strict=True)]

    @cached_property
    def _centred(self) -> Sequence[float]:
        return centred_means(self._means)

    @cached_property
    def _ground(self) -> Sequence[float]:
        return running_mean(self._means, GROUND_DAYS, missing=_MISSING)
