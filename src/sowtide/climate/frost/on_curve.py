"""Frost at any temperature in one half of the year, from dates given at one or more temperatures.

Spring shares are of a frost later than the date, autumn shares of one earlier than it.
"""

from __future__ import annotations

from datetime import date
from math import ceil, floor
from typing import Protocol

from sowtide.climate.frost.curve import Curve, deviate, share_below
from sowtide.climate.frost.depth import FrostDepth
from sowtide.days import Half
from sowtide.garden.site import FrostDates
from sowtide.reasons import OURS, Dated, Origin
from sowtide.units import ROUNDING_OF_MEANS, ROUNDING_OF_SUMS, fahrenheit

DAYS_PER_DEGREE_F = 3.0
"""How far a frost date moves for each °F beyond the temperatures given. [days/°F]

From 32 to 24 °F it is 2.8 to 4.6 on the records of Wageningen, Fulda and Clemson. South Dakota
State University has ten days from 32 to 28 °F in the Black Hills, 2.5.
"""


_NONE = 1e-6
"""A share of years that is as good as none. [0–1]"""

_CERTAIN = 8.5
"""Standard deviations from which on a share of years is none or all, to a float's last digit."""


class Frosts(Protocol):
    """The frosts of one half of the growing year planned, whatever is known of them."""

    def odds(self, day: int, *, at: float) -> float:
        """Return the share of years with a frost beyond a day: later in spring, else earlier."""

    def first_safe(self, *, at: float, share: float) -> int | None:
        """Return the first day with no more than that share of years beyond it, as an ordinal.

        None where no day has more than that.
        """

    def nearest_day(self, *, at: float, share: float) -> int | None:
        """Return the day with that share of years beyond it, to the nearest day, as an ordinal.

        None where so many years have no such frost.
        """

    def reach(self, at: float) -> tuple[int, int]:
        """Return the days before which and from which on the odds stay as they are, as ordinals."""

    def dated(self, day: int, *, at: float, share: float) -> Dated:
        """Explain a day that was found."""


class FrostHalf:
    """The frosts of one half of the growing year, from dates on a curve.

    Parameters
    ----------
    half
        Spring: last frosts. Autumn: first frosts.
    dates
        Dates at one or more temperatures, warmest first.
    depth
        How hard it freezes, where anybody knows: frosts that are colder than the coldest dated come
        in no more years than that.
    """

    def __init__(
        self, half: Half, dates: tuple[FrostDates, ...], depth: FrostDepth | None = None
    ) -> None:
        self._depth = depth
        self._spring = half is Half.SPRING
        self._dates = dates
        self._given = tuple((entry.at, self._curve_of(entry)) for entry in dates)
        self._known: dict[float, Curve] = {}
        self._shares: dict[float, float] = {}

    def _curve_of(self, entry: FrostDates) -> Curve:
        chances = entry.last if self._spring else entry.first
        return Curve.through(
            tuple((self._deviate(c.share), float(c.day.toordinal())) for c in chances)
        )

    def _deviate(self, share: float) -> float:
        return deviate(1 - share) if self._spring else deviate(share)

    def curve(self, at: float) -> Curve:
        """Return the curve of a temperature. [°C]"""
        curve = self._known.get(at)
        if curve is None:
            curve = self._known[at] = self._make(at)
        return curve

    def _make(self, at: float) -> Curve:
        warmer: tuple[float, Curve] | None = None
        for given, curve in self._given:
            if abs(given - at) < ROUNDING_OF_MEANS:
                return curve
            if given < at:
                if warmer is None:
                    return curve.shifted(self._shift(at - given))
                weight = (warmer[0] - at) / (warmer[0] - given)
                return warmer[1].between(curve, weight)
            warmer = (given, curve)
        assert warmer is not None  # there is at least one temperature
        return warmer[1].shifted(self._shift(at - warmer[0]))

    def _shift(self, warmer_by: float) -> float:
        """Days that a frost warmer by so many °C comes later in spring, earlier in autumn."""
        days = round(warmer_by * 1.8 * DAYS_PER_DEGREE_F, 4)  # whole °F give even half days
        return days if self._spring else -days

    def odds(self, day: int, *, at: float) -> float:
        """Return the share of years with a frost beyond a day.

        Parameters
        ----------
        day
            Proleptic ordinal of the day.
        at
            Temperature. [°C]

        Returns
        -------
        float
            Spring: P(last frost later than the day). Autumn: P(first frost earlier than the day).
        """
        below = share_below(self.curve(at).deviate(float(day)))
        return self._share_with(at) * (1 - below if self._spring else below)

    def first_safe(self, *, at: float, share: float) -> int | None:
        """Return the first day with no more than that share of years beyond it, as an ordinal.

        None where no more years than that have such a frost at all.
        """
        of_those = share / self._share_with(at)
        if of_those >= 1:
            return None
        return ceil(self.curve(at).day(self._deviate(of_those)) - ROUNDING_OF_SUMS)

    def nearest_day(self, *, at: float, share: float) -> int | None:
        """Return the day with that share of years beyond it, to the nearest day, as an ordinal.

        None where no more years than that have such a frost at all.
        """
        of_those = share / self._share_with(at)
        if of_those >= 1:
            return None
        return floor(self.curve(at).day(self._deviate(of_those)) + 0.5)

    def _share_with(self, at: float) -> float:
        """The share of years with such a frost, of those with the coldest frost dated. [0–1]"""
        coldest = self._dates[-1].at
        if self._depth is None or at > coldest - ROUNDING_OF_MEANS:
            return 1.0
        share = self._shares.get(at)
        if share is None:
            share = max(self._depth.share(at) / self._depth.share(coldest), _NONE)
            self._shares[at] = share
        return share

    def reach(self, at: float) -> tuple[int, int]:
        """Return the days before which and from which on the odds stay as they are, as ordinals."""
        curve = self.curve(at)
        return floor(curve.day(-_CERTAIN)), ceil(curve.day(_CERTAIN))

    def dated(self, day: int, *, at: float, share: float) -> Dated:
        """Explain a day found by this half: from the dates of the nearest temperature given."""
        entry = min(self._dates, key=lambda e: abs(e.at - at))
        base = self.nearest_day(at=entry.at, share=share)
        assert base is not None  # of a temperature with dates
        start = Dated.on(
            date.fromordinal(base), "frost-odds", self._name(entry.at, share), self._origin(entry)
        )
        step = day - base
        if abs(entry.at - at) < ROUNDING_OF_MEANS:
            return start if step == 0 else start.then(step, "frost-odds", "to the whole day", OURS)
        inside = self._dates[-1].at <= at <= self._dates[0].at
        how = (
            "read between the temperatures given"
            if inside
            else f"{DAYS_PER_DEGREE_F:g} days for each °F, assumed"
        )
        return start.then(step, "frost-odds", f"{_degrees(at)} instead: {how}", OURS)

    def _name(self, at: float, share: float) -> str:
        which = "last" if self._spring else "first"
        if share == 0.5:
            return f"{which} frost ({_degrees(at)}) in half of the years"
        beyond = "later" if self._spring else "earlier"
        return f"{which} frost ({_degrees(at)}), {beyond} in {round(100 * share)} of 100 years"

    def _origin(self, entry: FrostDates) -> Origin:
        return entry.last_origin if self._spring else entry.first_origin


def _degrees(celsius: float) -> str:
    return f"{round(fahrenheit(celsius)):d} °F, {celsius:.1f} °C".replace("-0.0", "0.0")
