"""The average year, day by day: the ground and the nights."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from math import nan

from sowtide.climate.soil import soil_under
from sowtide.climate.years import Years
from sowtide.days import GrowingYear
from sowtide.reasons import Dated, Origin


class DailyYear:
    """What the growing year planned is like, day by day, on the average.

    Parameters
    ----------
    ground
        Mean of the last days' air, for each day of the growing year. [°C]
    nights
        Mean of the last days' minima. [°C]
    year
        The growing year planned.
    """

    def __init__(self, ground: Sequence[float], nights: Sequence[float], year: GrowingYear) -> None:
        self.ground = ground
        self.nights = nights
        self._year = year

    def warm_from(
        self, *, soil: float | None, nights: float | None, origin: Origin
    ) -> Dated | None:
        """Return the day after the last one before midsummer on which it is too cold, or None.

        Parameters
        ----------
        soil
            The coldest soil that will do, or None. [°C]
        nights
            The coldest mean of the nights that will do, or None. [°C]
        origin
            Where the temperatures come from.
        """
        first = self._year.first
        before_summer = (self._year.midsummer - first).days
        found: Dated | None = None
        for limit, of_days, text in (
            (soil, self._soil(before_summer), "the soil is warm enough, an estimate"),
            (nights, self.nights[:before_summer], "the nights are warm enough"),
        ):
            if limit is None:
                continue
            cold = [day for day, reading in enumerate(of_days) if reading < limit]
            if cold and (found is None or first + timedelta(days=cold[-1] + 1) > found.day):
                day = first + timedelta(days=cold[-1] + 1)
                found = Dated.on(day, "earliest", text, origin)
        return found

    def _soil(self, days: int) -> list[float]:
        first = self._year.first
        return [
            soil_under(self.ground[day], first + timedelta(days=day), self._year)
            for day in range(days)
        ]


class AverageYear(DailyYear):
    """Means over recorded years of the growing year's days.

    Parameters
    ----------
    ground
        Mean of the last days' air, for each day of the record. [°C]
    nights
        Mean of the last days' minima. [°C]
    years
        The growing years.
    year
        The growing year planned.
    """

    def __init__(
        self, ground: Sequence[float], nights: Sequence[float], years: Years, year: GrowingYear
    ) -> None:
        days = (year.last - year.first).days + 1
        places = [years.indices(day) for day in range(days)]
        super().__init__(
            [_mean(ground, place) for place in places],
            [_mean(nights, place) for place in places],
            year,
        )


def _mean(readings: Sequence[float], places: Sequence[int]) -> float:
    known = [
        readings[place]
        for place in places
        if 0 <= place < len(readings) and readings[place] == readings[place]
    ]
    return sum(known) / len(known) if known else nan
