"""Warmth gathered day by day over a run of temperatures, and what a crop needs of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import inf

from sowtide.climate.answers import Response, Warmth
from sowtide.climate.warmth.heat import accumulated
from sowtide.climate.warmth.response import gathered_growth, rates_of
from sowtide.garden.crop import HeatMethod


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
        self._light = light
        self._tmin, self._tmax = list(tmin), list(tmax)
        for day, (low, high) in enumerate(zip(tmin, tmax, strict=True)):
            if low != low or high != high:
                # It adds nothing, as a day without end of cold does.
                self._tmin[day] = self._tmax[day] = -inf
        self._curves: dict[Response, list[float]] = {}
        self._known: dict[tuple[float, float | None, HeatMethod] | Response, list[float]] = {}

    def of(self, warmth: Warmth) -> list[float]:
        """Return the warmth gathered before each day, in the unit of its `low`.

        See `heat.accumulated` and `response.days_of_growth`.
        """
        response = warmth.response
        key = response or (warmth.base, warmth.upper, warmth.method)
        heat = self._known.get(key)
        if heat is None and response is not None:
            heat = self._known[key] = gathered_growth(self._rates(response), response, self._light)
        elif heat is None:
            heat = self._known[key] = accumulated(
                self._tmin,
                self._tmax,
                base=warmth.base,
                upper=warmth.upper,
                method=warmth.method,
            )
        return heat

    def _rates(self, response: Response) -> list[float]:
        curve = replace(response, rated=0.0, light=0.0)
        rates = self._curves.get(curve)
        if rates is None:
            rates = self._curves[curve] = rates_of(self._tmin, self._tmax, curve)
        return rates


def totals_of(warmth: Warmth) -> tuple[float, ...]:
    """Return the heat that each part of a range needs, every part equally likely. [°C·d]"""
    steps = warmth.parts - 1
    if not steps:
        return (warmth.low,)
    step = (warmth.high - warmth.low) / steps
    return tuple(warmth.low + step * part for part in range(warmth.parts))
