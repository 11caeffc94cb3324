"""The days of an average year, from monthly means: soil, nights, heat and the winter's ground."""

from __future__ import annotations

from array import array
from collections.abc import Sequence
from datetime import date, timedelta
from functools import cached_property

from sowtide.climate.answers import FruitSet, Warmth
from sowtide.climate.average.average_year import DailyYear
from sowtide.climate.average.smooth_year import days_of, smooth_year
from sowtide.climate.soil import GROUND_DAYS, HOT_WEEKS, Soil, soil_under
from sowtide.climate.warmth import (
    Barren,
    FruitGap,
    Gathered,
    Reached,
    autumn_light,
    centred_means,
    days_until,
    gap_of,
    reached_in,
    running_mean,
    too_hot_to_set,
)
from sowtide.days import DateSpan, GrowingYear
from sowtide.garden.site import Normals, Site
from sowtide.reasons import Dated, Origin
from sowtide.units import FREEZING, ROUNDING_OF_MEANS

_BEFORE, _AFTER = 366, 2 * 366  # days laid out around the growing year


class NormalDays:
    """What the days of an average year are like."""

    def __init__(self, normals: Normals, year: GrowingYear, site: Site) -> None:
        self.knows_heat = self.knows_ground = True
        self.hot_odds = None
        self.so_far = None
        self.origin: Origin = normals.origin
        """Where the normals are written."""
        first = year.first - timedelta(days=_BEFORE)
        span = DateSpan(first, year.last + timedelta(days=_AFTER))
        self.first = first.toordinal()
        """The first day laid out, as an ordinal."""
        self.tmin = days_of(smooth_year(normals.lows), span)
        self.tmax = days_of(smooth_year(normals.highs), span)
        """Minima and maxima from that day on. [°C]"""
        self.means = array(
            "d", [(low + high) / 2 for low, high in zip(self.tmin, self.tmax, strict=True)]
        )
        self.own = range(_BEFORE, _BEFORE + (year.last - year.first).days + 1)
        """Where the growing year lies in them."""
        self._year = year
        self._site = site
        self._hot: dict[float, tuple[int, int] | None] = {}
        self._too_hot_to_set: dict[tuple[float | None, float | None], Sequence[int]] = {}

    @property
    def hot_weeks(self) -> DateSpan | None:
        """The weeks too hot for cool-season crops: as the grower wrote them, else the normals'."""
        if self._site.heat_known:
            return self._site.too_hot
        span = self.hot(HOT_WEEKS)
        if span is None:
            return None
        return DateSpan(date.fromordinal(span[0]), date.fromordinal(span[1] - 1))

    def hot(self, limit: float) -> tuple[int, int] | None:
        """Return the first day whose centred mean is above a limit and the day after the last.

        As ordinals; None where there is none.

        Parameters
        ----------
        limit
            The limit of the mean of 15 days. [°C]
        """
        if limit not in self._hot:
            over = limit + ROUNDING_OF_MEANS
            hot = [day for day in self.own if self._centred[day] > over]
            self._hot[limit] = (self.first + hot[0], self.first + hot[-1] + 1) if hot else None
        return self._hot[limit]

    def soil(self, day: date) -> Soil:
        """Return what the soil is on a day of any growing year."""
        air = self._daily.ground[self._year.offset(day)]
        return Soil(soil_under(air, day, self._year), at_least=False)

    def freezes(self) -> Dated | None:
        """Return the first day from midsummer on on which the ground freezes; None where none does.

        It freezes where the mean of the last days' air is 0 °C or less: sowtide's own reading.
        """
        begin = self._year.midsummer.toordinal() - self.first
        for day in range(begin, begin + 366):
            if self._ground[day] <= FREEZING:
                text = "the ground freezes in an average year"
                return Dated.on(date.fromordinal(day + self.first), "frost-end", text, self.origin)
        return None

    def mean_over(self, first: date, days: int) -> float:
        """Return the mean temperature of some days of any growing year. [°C]"""
        at = first.toordinal() - self._year.days_to(first) - self.first
        return sum(self.means[at : at + days]) / days

    def usual_high(self, day: date) -> float | None:
        """Return the maximum of a day of any growing year; None where only two months are known."""
        if self._site.normals is None:
            return None  # how much warmer a day is than its mean is then a guess
        return self.tmax[day.toordinal() - self._year.days_to(day) - self.first]

    def reached(self, warmth: Warmth, start: date) -> Reached | None:
        """Return when the warmth of `low` has gathered in an average year."""
        heat = self.gathered.of(warmth)
        days = days_until(heat, start.toordinal() - self.first, warmth.low, stop=self.own.stop)
        return reached_in((days,), start, years=False)

    def fruit_gap(
        self, flowers: DateSpan, *, high: float | None, low: float | None
    ) -> FruitGap | None:
        """Return when heat lets flowers set little fruit in an average year."""
        hot = self._dropping(high, low)
        begin = flowers.first.toordinal() - self._year.days_to(flowers.first) - self.first
        return gap_of(hot, (begin,), flowers.first, flowers.length, years=False)

    def barren(self, fruit_set: FruitSet, *, warmer_by: float = 0.0) -> Barren:
        """Return the days without fruit of a season so much warmer than the average. [ordinals]"""
        high, low = (
            None if limit is None else limit - warmer_by
            for limit in (fruit_set.high, fruit_set.low)
        )
        return Barren([day + self.first for day in self._dropping(high, low)], fruit_set.ripens)

    def _dropping(self, high: float | None, low: float | None) -> Sequence[int]:
        key = (high, low)
        if key not in self._too_hot_to_set:
            self._too_hot_to_set[key] = too_hot_to_set(self.tmin, self.tmax, high=high, low=low)
        return self._too_hot_to_set[key]

    def warm_from(self, *, soil: float | None, nights: float | None) -> Dated | None:
        """Return the first day with soil and nights warm enough, or None where they always are."""
        return self._daily.warm_from(soil=soil, nights=nights, origin=self.origin)

    @cached_property
    def gathered(self) -> Gathered:
        """Their warmth, and for want of light in autumn what growth makes of it."""
        light = [1.0] * len(self.tmin)
        of_year = autumn_light(self._site.latitude, self._year)
        light[_BEFORE : _BEFORE + len(of_year)] = of_year
        return Gathered(self.tmin, self.tmax, light)

    @cached_property
    def _ground(self) -> Sequence[float]:
        return running_mean(self.means, GROUND_DAYS, missing=0)

    @cached_property
    def _daily(self) -> DailyYear:
        own = slice(self.own.start, self.own.stop)
        nights = running_mean(self.tmin, GROUND_DAYS, missing=0)
        return DailyYear(self._ground[own], nights[own], self._year)

    @cached_property
    def _centred(self) -> Sequence[float]:
        return centred_means(self.means)
