"""P(a crop still stands beyond a day), from the curve of the frost that ends it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from math import ceil, floor

from sowtide.climate.frost import FrostHalf
from sowtide.reasons import OURS, Dated

_CERTAIN = 8.5
"""Standard deviations from which on a share of years is none or all, to a float's last digit."""


class Survival:
    """P(end > day), for one temperature and one thing that frost does.

    Parameters
    ----------
    frost
        First frosts, or None where nothing ends a wave.
    at
        Killing temperature. [°C]
    later
        Days from the frost to the end. [days]

    Attributes
    ----------
    end
        The day of the end in half of the years, counted; None where nothing ends a wave.
    """

    def __init__(self, frost: FrostHalf | None, *, at: float, later: int) -> None:
        self._start = date.max.toordinal()
        self._chance: list[float] = []
        self.end: Dated | None = None
        if frost is None:
            return
        curve = frost.curve(at)
        first, last = floor(curve.day(-_CERTAIN)), ceil(curve.day(_CERTAIN))
        self._start = first + later
        self._chance = [1 - frost.odds(day + 1, at=at) for day in range(first, last)]
        self.end = frost.dated(frost.nearest_day(at=at, share=0.5), at=at, share=0.5)
        if later:
            self.end = self.end.then(later, "frost-end", "it must be brought in before", OURS)

    def total(self, first: int, days: int) -> float:
        """Sum of P(end > day) over some days from the first on. [days]"""
        low = first - self._start
        if low >= 0:
            return sum(self._chance[low : low + days])
        certain = min(-low, days)
        return certain + sum(self._chance[: days - certain])

    def over(self, picks: Sequence[int], days: int) -> float:
        """Sum of P(end > pick + days) over some picks; cheap where they follow day upon day."""
        if isinstance(picks, range):
            return self.total(picks.start + days, len(picks))
        chance, beyond = self._chance, len(self._chance)
        at = [pick + days - self._start for pick in picks]
        return sum([1.0 if day < 0 else chance[day] if day < beyond else 0.0 for day in at])
