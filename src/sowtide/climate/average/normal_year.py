"""The average year of a place, from its monthly means: growth, ground, nights and heat.

Years differ in warmth: growth is taken over seasons as warm as the average one and warmer and
colder by as much as seasons differ, each of them as likely as the next.
"""

from __future__ import annotations

from array import array
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta
from functools import cached_property
from statistics import NormalDist

from sowtide.climate.answers import Need, Warmth, Winter
from sowtide.climate.average.average_year import DailyYear
from sowtide.climate.average.smooth_year import days_of, smooth_year
from sowtide.climate.growth import UNRIPE_DAYS, for_want_of_light, in_warmth, range_end
from sowtide.climate.soil import GROUND_DAYS
from sowtide.climate.sunlight import autumn_light
from sowtide.climate.warmth import (
    FruitGap,
    Gathered,
    Reached,
    centred_means,
    days_until,
    gap_of,
    reached_in,
    running_mean,
    standing_of,
    too_hot_to_set,
    totals_of,
    winter_of,
    wintered,
)
from sowtide.days import DateSpan, GrowingYear
from sowtide.garden.site import Normals
from sowtide.reasons import OURS, Dated, Origin
from sowtide.units import FREEZING, Units

SPREAD = 1.4
"""Standard deviation of the warmth of a crop's weeks from year to year. [°C]

Measured on the records of Wageningen, Fulda and Clemson: single months from April to November
differ by 0.8 to 1.8 °C, by 1.3 in the middle of them, the means from May to September by 0.7 to
0.8. On years that were not looked at, odds from normals came nearest with 1.2 to 2.0.
"""

_COUNT = 7
SEASONS = tuple(
    round(SPREAD * NormalDist().inv_cdf((number + 0.5) / _COUNT), 2) for number in range(_COUNT)
)
"""How much warmer than the average one the seasons are that growth is taken over. [°C]"""

_BEFORE, _AFTER = 366, 2 * 366  # days laid out around the growing year
_ROUNDING = 1e-6


class NormalYear:
    """Growth in seasons around the average one.

    A season's warmth is the same whatever the planting day, so that a part of the range ripens in
    it from every one of them or from none.

    Parameters
    ----------
    normals
        Monthly means.
    year
        The growing year planned.
    latitude
        Degrees north of the equator, south negative. [°]
    units
        What warmth is shown in.
    """

    def __init__(
        self, normals: Normals, year: GrowingYear, *, latitude: float, units: Units
    ) -> None:
        self._year = year
        self._latitude = latitude
        self._units = units
        self.origin: Origin = normals.origin
        """Where the normals are written."""
        first = year.first - timedelta(days=_BEFORE)
        span = DateSpan(first, year.last + timedelta(days=_AFTER))
        self._first = first.toordinal()
        self._tmin = days_of(smooth_year(normals.lows), span)
        self._tmax = days_of(smooth_year(normals.highs), span)
        self._means = array(
            "d", [(low + high) / 2 for low, high in zip(self._tmin, self._tmax, strict=True)]
        )
        light = [1.0] * len(self._tmin)
        of_year = autumn_light(latitude, year)
        light[_BEFORE : _BEFORE + len(of_year)] = of_year
        self._seasons = tuple(
            Gathered(
                [low + warmer for low in self._tmin],
                [high + warmer for high in self._tmax],
                light,
            )
            for warmer in SEASONS
        )
        self._gathered = self._seasons[_COUNT // 2]
        self._hot: dict[float, tuple[int, int] | None] = {}
        self._own = range(_BEFORE, _BEFORE + (year.last - year.first).days + 1)
        own = slice(self._own.start, self._own.stop)
        self._days = DailyYear(
            running_mean(self._means, GROUND_DAYS, missing=0)[own],
            running_mean(self._tmin, GROUND_DAYS, missing=0)[own],
            year,
        )
        self._centred = centred_means(self._means)

    def picks(self, planted: int, need: Need) -> Sequence[int]:
        """Return the first pick of each part of the range in each season that it ripens in."""
        warmth = _warmth(need)
        at = planted - self._first
        least = at + warmth.least
        days = []
        for heat, totals in self._ripening(warmth):
            begun = heat[at]
            for total in totals:
                day = bisect_left(heat, begun + total - 1e-9, at)
                days.append((day if day > least else least) + self._first)
        return sorted(days)

    def _ripening(self, warmth: Warmth) -> list[tuple[Sequence[float], list[float]]]:
        """Return the warmth of each season before each day, and the totals that it reaches."""
        found = self._ripe.get(warmth)
        if found is None:
            totals = totals_of(warmth)
            found = self._ripe[warmth] = [
                (heat, [total for total in totals if total <= most])
                for heat, most in self._of_seasons(warmth)
            ]
        return found

    @cached_property
    def _ripe(self) -> dict[Warmth, list[tuple[Sequence[float], list[float]]]]:
        return {}

    def unripe(self, need: Need) -> int:
        """Return how many parts of the range, season by season, need more than a year has. [1]"""
        warmth = _warmth(need)
        totals = totals_of(warmth)
        return sum(total > most for _, most in self._of_seasons(warmth) for total in totals)

    def pick(self, planted: int, need: Need, *, late: bool) -> int:
        """Return the first pick of the quickest or of the slowest part that ripens."""
        picks = self.picks(planted, need)
        return picks[-1] if late else picks[0]

    def usual(self, planted: int, need: Need, *, late: bool) -> int:
        """Return the first pick at one end of the range in the average season."""
        heat, warmth = self._heat_of(need), _warmth(need)
        total = warmth.high if late else warmth.low
        if total > self._most(heat):
            return planted + UNRIPE_DAYS
        return self._reached(heat, planted, total, warmth.least)

    def turns(self) -> Iterable[int]:
        """Return none: warmth is counted in one way all the year."""
        return ()

    def explain(self, planted: Dated, need: Need, *, late: bool) -> Dated:
        """Count the days in which the warmth for one end of the range is gathered."""
        warmth = _warmth(need)
        heat, total = self._heat_of(need), warmth.high if late else warmth.low
        words = (
            f"{range_end(need, late=late)}, {in_warmth(warmth, total, self._units)}, "
            "in an average year"
        )
        if total > self._most(heat):
            return planted.then(UNRIPE_DAYS, "heat", f"{words}: not within the year", OURS)
        day = planted.day.toordinal() - self._year.days_to(planted.day)
        ripe = self._reached(heat, day, total, warmth.least)
        bright = self._gathered.of(warmth.in_full_light)
        days = self._reached(bright, day, total, warmth.least) - day
        first = planted.then(days, "heat", words, need.days_origin)
        return for_want_of_light(first, ripe - day - days)

    def hot(self, limit: float) -> tuple[int, int] | None:
        """Return the first day whose centred mean is above a limit and the day after the last.

        As ordinals; None where there is none.

        Parameters
        ----------
        limit
            The limit of the mean of 15 days. [°C]
        """
        if limit not in self._hot:
            hot = [day for day in self._own if self._centred[day] > limit + _ROUNDING]
            self._hot[limit] = (self._first + hot[0], self._first + hot[-1] + 1) if hot else None
        return self._hot[limit]

    def ground(self, day: date) -> float:
        """Return the mean of the last days' air on a day of any growing year. [°C]"""
        return self._days.ground[self._year.offset(day)]

    def freezes(self) -> Dated | None:
        """Return the first day from midsummer on on which the ground freezes; None where none does.

        It freezes where the mean of the last days' air is 0 °C or less: sowtide's own reading.
        """
        begin = self._year.midsummer.toordinal() - self._first
        means = running_mean(self._means, GROUND_DAYS, missing=0)
        for day in range(begin, begin + 366):
            if means[day] <= FREEZING:
                text = "the ground freezes in an average year"
                return Dated.on(date.fromordinal(day + self._first), "frost-end", text, self.origin)
        return None

    def mean_over(self, first: date, days: int) -> float:
        """Return the mean temperature of some days of any growing year. [°C]"""
        at = first.toordinal() - self._year.days_to(first) - self._first
        return sum(self._means[at : at + days]) / days

    def winter(self, planted: Dated, need: Need) -> Winter | None:
        """Return how a wave gets on that stands over an average winter."""
        warmth = _warmth(need)
        stand = standing_of(planted.day, self._latitude, self._year)
        at = planted.day.toordinal() - self._year.days_to(planted.day) - self._first
        told = wintered(at, stand, warmth, self._heat_of(need), self._means)
        return winter_of(planted, need, (told,), stand, units=self._units, years=False)

    def reached(self, warmth: Warmth, start: date) -> Reached | None:
        """Return when the warmth of `low` has gathered in an average year."""
        heat = self._gathered.of(warmth)
        days = days_until(heat, start.toordinal() - self._first, warmth.low, stop=self._own.stop)
        return reached_in((days,), start, years=False)

    def fruit_gap(
        self, flowers: DateSpan, *, high: float | None, low: float | None
    ) -> FruitGap | None:
        """Return when heat lets flowers set little fruit in an average year."""
        hot = too_hot_to_set(self._tmin, self._tmax, high=high, low=low)
        begin = flowers.first.toordinal() - self._year.days_to(flowers.first) - self._first
        return gap_of(hot, (begin,), flowers.first, flowers.length, years=False)

    def warm_from(self, *, soil: float | None, nights: float | None) -> Dated | None:
        """Return the first day with soil and nights warm enough, or None where they always are."""
        return self._days.warm_from(soil=soil, nights=nights, origin=self.origin)

    def _of_seasons(self, warmth: Warmth) -> Iterator[tuple[Sequence[float], float]]:
        """Yield the warmth of each season before each day, and that of its whole year."""
        for gathered in self._seasons:
            heat = gathered.of(warmth)
            yield heat, self._most(heat)

    def _heat_of(self, need: Need) -> Sequence[float]:
        return self._gathered.of(_warmth(need))

    def _most(self, heat: Sequence[float]) -> float:
        """The warmth of the growing year. [°C·d]"""
        return heat[self._own.stop] - heat[self._own.start]

    def _reached(self, heat: Sequence[float], planted: int, total: float, least: int) -> int:
        """The day after the warmth is complete, as an ordinal."""
        at = planted - self._first
        reached = bisect_left(heat, heat[at] + total - 1e-9, at)
        return max(reached, at + least) + self._first


def _warmth(need: Need) -> Warmth:
    assert need.warmth is not None
    return need.warmth
