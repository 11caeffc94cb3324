"""The average year, day by day: the ground and the nights."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from functools import cached_property
from math import nan

from sowtide.climate.soil import soil_under
from sowtide.climate.warmth import Years
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
        found: Dated | None = None
        for limit, of_days, text in (
            (soil, self._soil, "the soil is warm enough, an estimate"),
            (nights, self._spring_nights, "the nights are warm enough"),
        ):
            if limit is None:
                continue
            cold = [day for day, reading in enumerate(of_days) if reading < limit]
            if cold and (found is None or first + timedelta(days=cold[-1] + 1) > found.day):
                day = first + timedelta(days=cold[-1] + 1)
                found = Dated.on(day, "earliest", text, origin)
        return found

    @cached_property
    def _before_summer(self) -> int:
        return (self._year.midsummer - self._year.first).days

    @cached_property
    def _spring_nights(self) -> Sequence[float]:
        return self.nights[: self._before_summer]

    @cached_property
    def _soil(self) -> Sequence[float]:
        first = self._year.first
        return [
            soil_under(air, first + timedelta(days=day), self._year)
            for day, air in enumerate(self.ground[: self._before_summer])
        ]


def average_year(
    ground: Sequence[float], nights: Sequence[float], years: Years, year: GrowingYear
) -> DailyYear:
    """Return the means over recorded years of the growing year's days.

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
    return DailyYear(_means(ground, years), _means(nights, years), year)


def _means(readings: Sequence[float], years: Years) -> list[float]:
    """Return the mean over the years of each day of the growing year planned."""
    of_years = [years.of_year(number, readings) for number in range(len(years.seasons))]
    if not of_years:
        return [nan] * years.days
    return [_mean(of_day) for of_day in zip(*of_years, strict=True)]


def _mean(of_day: Sequence[float]) -> float:
    total = sum(of_day)
    if total == total:
        return total / len(of_day)
    known = [reading for reading in of_day if reading == reading]
    return sum(known) / len(known) if known else nan
