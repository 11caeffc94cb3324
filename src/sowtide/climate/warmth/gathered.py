"""Warmth gathered day by day over a run of temperatures, and what a crop needs of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cache
from itertools import accumulate
from math import inf
from operator import itemgetter
from typing import Any

from sowtide.climate.answers import Response, Warmth
from sowtide.climate.warmth.heat import accumulated
from sowtide.climate.warmth.response import good_days, rates_of
from sowtide.garden.crop import HeatMethod

_Day = tuple[float, float]


class Gathered:
    """The warmth of days in order, summed once for each way of counting it.

    Parameters
    ----------
    tmin, tmax
        Temperatures of the days, NaN where missing. [°C]
    light
        Share of the light that growth wants, of each day; None for enough of it. [0–1]
    """

    def __init__(
        self, tmin: Sequence[float], tmax: Sequence[float], light: Sequence[float] | None = None
    ) -> None:
        days = list(zip(tmin, tmax, strict=True))
        self._days, self._laid_out = _told_apart(days)
        self._days = [
            day if day[0] == day[0] and day[1] == day[1] else _MISSING for day in self._days
        ]
        dim = [(day, share) for day, share in enumerate(light or ()) if share != 1.0]
        self._dim = cache(lambda light: [(day, share**light) for day, share in dim])
        self._curves: dict[Response, list[float]] = {}
        self._known: dict[tuple[float, float | None, HeatMethod] | Response, list[float]] = {}

    def warmer_by(self, degrees: float) -> Gathered:
        """Return the warmth of the same days, each of them so much warmer. [°C]"""
        warmer = Gathered((), ())
        warmer._days = [(low + degrees, high + degrees) for low, high in self._days]
        warmer._laid_out, warmer._dim = self._laid_out, self._dim
        return warmer

    def of(self, warmth: Warmth) -> list[float]:
        """Return the warmth gathered before each day, in the unit of its `low`.

        One number longer than the days; it starts at 0 and never falls. See `heat.accumulated` and
        `response.good_days`.
        """
        response = warmth.response
        key = response or (warmth.base, warmth.upper, warmth.method)
        heat = self._known.get(key)
        if heat is None and response is not None:
            heat = self._known[key] = self._grown(response)
        elif heat is None:
            days = self._laid_out(self._days)
            heat = self._known[key] = accumulated(
                [low for low, _ in days],
                [high for _, high in days],
                base=warmth.base,
                upper=warmth.upper,
                method=warmth.method,
            )
        return heat

    def _grown(self, response: Response) -> list[float]:
        """Return the days of good growth gathered before each day; want of light takes of them."""
        days = list(self._laid_out(good_days(self._rates(response), response)))
        if response.light:
            for day, share in self._dim(response.light):
                days[day] *= share
        return list(accumulate(days, initial=0.0))

    def _rates(self, response: Response) -> list[float]:
        curve = replace(response, rated=0.0, light=0.0)
        rates = self._curves.get(curve)
        if rates is None:
            rates = self._curves[curve] = rates_of(self._days, curve)
        return rates


_MISSING = (-inf, -inf)
"""It adds nothing, as a day without end of cold does."""


def _told_apart(days: list[_Day]) -> tuple[list[_Day], Callable[[Sequence[Any]], Sequence[Any]]]:
    """Return the days that differ, and what lays out a figure of each along all days again.

    Whole degrees come back, and so does a smooth year laid along more than one; else all are kept.
    """
    number = {day: at for at, day in enumerate(dict.fromkeys(days))}
    if 2 * len(number) > len(days) + 1 or len(days) < 2:
        return days, lambda figures: figures
    return list(number), itemgetter(*map(number.__getitem__, days))


def totals_of(warmth: Warmth) -> tuple[float, ...]:
    """Return the heat that each part of a range needs, every part equally likely. [°C·d]"""
    steps = warmth.parts - 1
    if not steps:
        return (warmth.low,)
    step = (warmth.high - warmth.low) / steps
    return tuple(warmth.low + step * part for part in range(warmth.parts))
