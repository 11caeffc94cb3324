"""Frost dates on normal paper: from a few dated shares of years to any share and any day.

On normal probability paper the dates of a first or last frost lie close to a straight line (Thom
and Shaw, 1958; Vestal, Monthly Weather Review 99:650, 1971). Between two given dates the curve is
straight, beyond them it runs on, so that it goes through every date given.
"""

from __future__ import annotations

from itertools import pairwise
from math import erf, sqrt
from statistics import NormalDist

from sowtide.values import value

_NORMAL = NormalDist()
_ROOT_OF_TWO = sqrt(2.0)

ASSUMED_SPREAD = 11.0
"""Standard deviation of a frost date where only one date is known. [days]

Stations in North Carolina run from 8 to 20 days (NC State Extension); 11 is an assumption.
"""


def deviate(share: float) -> float:
    """Standard normal deviate below which that share of years lies."""
    return _NORMAL.inv_cdf(share)


def share_below(deviate: float) -> float:
    """Share of years below a standard normal deviate."""
    return 0.5 * (1.0 + erf(deviate / _ROOT_OF_TWO))


@value
class Curve:
    """A date as a function of the standard normal deviate."""

    knots: tuple[tuple[float, float], ...]
    """Pairs of (deviate, day), both rising, at least two. [1], [days, as proleptic ordinals]"""

    @classmethod
    def through(cls, points: tuple[tuple[float, float], ...]) -> Curve:
        """Make a curve through points of (deviate, day); a single one gets the assumed spread."""
        points = tuple(sorted(points))
        if len(points) == 1:
            z, day = points[0]
            points = ((z, day), (z + 1.0, day + ASSUMED_SPREAD))
        return cls(points)

    def day(self, z: float) -> float:
        """Return the day that belongs to a deviate. [days]"""
        (z0, d0), (z1, d1) = self._segment(z, 0)
        return d0 + (d1 - d0) * (z - z0) / (z1 - z0)

    def deviate(self, day: float) -> float:
        """Return the deviate that belongs to a day."""
        (z0, d0), (z1, d1) = self._segment(day, 1)
        if d1 == d0:
            return float("inf") if day > d0 else float("-inf")
        return z0 + (z1 - z0) * (day - d0) / (d1 - d0)

    def _segment(self, value: float, axis: int) -> tuple[tuple[float, float], tuple[float, float]]:
        """Return the two knots that a value lies between, or the pair at the end it lies beyond."""
        for pair in pairwise(self.knots):
            if value <= pair[1][axis]:
                return pair
        return self.knots[-2], self.knots[-1]

    def shifted(self, days: float) -> Curve:
        """Return the curve moved by some days."""
        return Curve(tuple((z, day + days) for z, day in self.knots))

    def between(self, other: Curve, weight: float) -> Curve:
        """Return the curve that lies between this one (0) and another (1) at every deviate."""
        deviates = sorted({z for z, _ in self.knots} | {z for z, _ in other.knots})
        return Curve(
            tuple((z, self.day(z) * (1 - weight) + other.day(z) * weight) for z in deviates)
        )
