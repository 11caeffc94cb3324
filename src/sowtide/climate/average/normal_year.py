"""Growth in seasons around the average one, from monthly means.

Years differ in warmth: growth is taken over seasons as warm as the average one and warmer and
colder by as much as seasons differ, each of them as likely as the next.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from statistics import NormalDist
from typing import NamedTuple

from sowtide.climate.answers import FruitSet, Need, Warmth, Winter
from sowtide.climate.average.dropped import SeasonsBarren
from sowtide.climate.average.normal_days import NormalDays
from sowtide.climate.growth import UNRIPE_DAYS, for_want_of_light, in_warmth, range_end
from sowtide.climate.warmth import grown_by, standing_of, totals_of, winter_of, wintered
from sowtide.days import GrowingYear
from sowtide.garden.site import Site
from sowtide.reasons import OURS, Dated
from sowtide.units import ROUNDING_OF_SUMS

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


class _Ripening(NamedTuple):
    """What a crop's warmth comes to in the seasons.

    Parameters
    ----------
    seasons
        The warmth of each before each day, and the totals that it reaches within a year.
    unripe
        How many parts of the range, season by season, need more than a year has. [1]
    """

    seasons: list[tuple[Sequence[float], list[float]]]
    unripe: int


class NormalYear:
    """Growth in seasons around the average one.

    A season's warmth is the same whatever the planting day, so that a part of the range ripens in
    it from every one of them or from none.
    """

    def __init__(self, days: NormalDays, year: GrowingYear, site: Site) -> None:
        self.days = days
        """The days of the average one."""
        self._year = year
        self._site = site
        self._first = days.first
        self._own = days.own
        self._seasons = tuple(days.gathered.warmer_by(degrees) for degrees in SEASONS)
        self._gathered = self._seasons[_COUNT // 2]
        self._barrens: dict[FruitSet, SeasonsBarren | None] = {}
        self._ripening: dict[Warmth, _Ripening] = {}

    def picks(self, planted: int, need: Need) -> Sequence[int]:
        """Return the first pick of each part of the range in each season that it ripens in."""
        return sorted(day for days in self._picks(planted, need) for day in days)

    def picks_of_seasons(self, planted: int, need: Need) -> list[tuple[int, int]]:
        """Return the same, each with the number of its season."""
        seasons = enumerate(self._picks(planted, need))
        return sorted((day, season) for season, days in seasons for day in days)

    def barrens(self, fruit_set: FruitSet) -> SeasonsBarren | None:
        """Return the days without fruit of each season; None where even the warmest has none."""
        if fruit_set not in self._barrens:
            warmest = self.days.barren(fruit_set, warmer_by=SEASONS[-1])
            found = None
            if warmest:
                each = (self.days.barren(fruit_set, warmer_by=degrees) for degrees in SEASONS)
                found = SeasonsBarren(tuple(each))
            self._barrens[fruit_set] = found
        return self._barrens[fruit_set]

    def _picks(self, planted: int, need: Need) -> Iterator[list[int]]:
        warmth, first = _warmth(need), self._first
        at = planted - first
        least = at + warmth.least
        for heat, totals in self._ripening_of(warmth).seasons:
            begun = heat[at] - ROUNDING_OF_SUMS
            yield [bisect_left(heat, begun + total, least) + first for total in totals]

    def unripe(self, need: Need) -> int:
        """Return how many parts of the range, season by season, need more than a year has. [1]"""
        return self._ripening_of(_warmth(need)).unripe

    def pick(self, planted: int, need: Need, *, late: bool) -> int:
        """Return the first pick of the quickest or of the slowest part that ripens."""
        warmth, at = _warmth(need), planted - self._first
        end, of_both = (-1, max) if late else (0, min)
        ripe = of_both(
            bisect_left(heat, heat[at] - ROUNDING_OF_SUMS + totals[end], at + warmth.least)
            for heat, totals in self._ripening_of(warmth).seasons
            if totals
        )
        return ripe + self._first

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
            f"{range_end(need, late=late)}, {in_warmth(warmth, total, self._site.units)}, "
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

    def winter(self, planted: Dated, need: Need) -> Winter | None:
        """Return how a wave gets on that stands over an average winter."""
        warmth = _warmth(need)
        stand = standing_of(planted.day, self._site.latitude, self._year)
        at = planted.day.toordinal() - self._year.days_to(planted.day) - self._first
        told = wintered(at, stand, warmth, self._heat_of(need), self.days.means)
        return winter_of(planted, need, (told,), stand, units=self._site.units, years=False)

    def grown(self, planted: date, need: Need) -> float | None:
        """Return how far a wave is grown when the short days begin; None where none do. [0–1]"""
        stand = standing_of(planted, self._site.latitude, self._year)
        if stand.short_from is None:
            return None
        at = planted.toordinal() - self._year.days_to(planted) - self._first
        warmth, means = _warmth(need), self.days.means
        return grown_by(at, stand.short_from, stand, warmth, self._heat_of(need), means)

    def _ripening_of(self, warmth: Warmth) -> _Ripening:
        found = self._ripening.get(warmth)
        if found is None:
            totals = totals_of(warmth)
            seasons: list[tuple[Sequence[float], list[float]]] = []
            for gathered in self._seasons:
                heat = gathered.of(warmth)
                most = self._most(heat)
                seasons.append((heat, [total for total in totals if total <= most]))
            ripe = sum([len(totals) for _, totals in seasons])
            found = self._ripening[warmth] = _Ripening(seasons, len(totals) * _COUNT - ripe)
        return found

    def _heat_of(self, need: Need) -> Sequence[float]:
        return self._gathered.of(_warmth(need))

    def _most(self, heat: Sequence[float]) -> float:
        """The warmth of the growing year. [°C·d]"""
        return heat[self._own.stop] - heat[self._own.start]

    def _reached(self, heat: Sequence[float], planted: int, total: float, least: int) -> int:
        """The day after the warmth is complete, as an ordinal."""
        at = planted - self._first
        reached = bisect_left(heat, heat[at] + total - ROUNDING_OF_SUMS, at)
        return max(reached, at + least) + self._first


def _warmth(need: Need) -> Warmth:
    assert need.warmth is not None
    return need.warmth
