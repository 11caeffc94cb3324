"""P(a crop still stands beyond a day), from the curve of the frost that ends it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from datetime import date

from sowtide.climate.frost.on_curve import Frosts
from sowtide.climate.medians import NEVER
from sowtide.reasons import OURS, Dated


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
    stops
        What ends its growth on that day, of what stands on after it, in a grower's words.
    """

    def __init__(self, frost: Frosts | None, *, at: float, later: int) -> None:
        self._start = date.max.toordinal()
        self._chance: list[float] = []
        self._beyond = 1.0  # the share of years in which nothing ends it
        self.end: Dated | None = None
        self.stops = "the ground freezes"
        if frost is None:
            return
        first, last = frost.reach(at)
        self._start = first + later
        self._chance = [1 - frost.odds(day + 1, at=at) for day in range(first, last)]
        self._beyond = 1 - frost.odds(last + 1, at=at)
        day = frost.nearest_day(at=at, share=0.5)
        self.end = None if day is None else frost.dated(day, at=at, share=0.5)
        if later and self.end is not None:
            self.end = self.end.then(later, "frost-end", "it must be brought in before", OURS)

    @classmethod
    def until(cls, end: Dated | None) -> Survival:
        """Return the survival of what is ended on one day in every year; None: never."""
        found = cls(None, at=0.0, later=0)
        if end is not None:
            found._start, found._beyond, found.end = end.day.toordinal(), 0.0, end
        return found

    def until_seed(self, seeds: Dated | None) -> Survival:
        """End it on the day on which it runs to seed at the latest; None: it does not."""
        if seeds is not None:
            day = seeds.day.toordinal()
            if day <= self._start:
                self._start, self._chance = day, []
            known = self._chance[: day - self._start]
            self._chance = known + [self._beyond] * (day - self._start - len(known))
            self._beyond = 0.0
            if self.end is None or seeds.day < self.end.day:
                self.end, self.stops = seeds, "it runs to seed"
        return self

    @property
    def rises_from(self) -> int:
        """The first pick, as an ordinal, from which on a later one may fare better; or `NEVER`."""
        return NEVER

    def standing(self, day: int) -> float:
        """P(it still stands on the day after), picked or not. [0–1]"""
        return self.total(day, 1)

    def end_of(self, pick: int) -> Dated | None:
        """Return the day that ends, in half of the years, what has its first pick on a day."""
        return self.end

    def ends_of(self, pick: int, years: int) -> list[int]:
        """Return the ends of equally likely years of what has its first pick on a day."""
        return self.ends(years)

    def total(self, first: int, days: int) -> float:
        """Sum of P(end > day) over some days from the first on. [days]"""
        low = first - self._start
        if low + days <= 0:
            return float(days)
        certain = min(max(-low, 0), days)
        known = self._chance[max(low, 0) : max(low + days, 0)]
        return certain + sum(known) + (days - certain - len(known)) * self._beyond

    def over(self, picks: Sequence[int], days: int) -> float:
        """Sum of P(end > pick + days) over some picks; cheap where they follow day upon day."""
        if isinstance(picks, range):
            return self.total(picks.start + days, len(picks))
        if picks and max(picks) + days < self._start:
            return float(len(picks))
        chance, known, beyond = self._chance, len(self._chance), self._beyond
        at = [pick + days - self._start for pick in picks]
        return sum([1.0 if day < 0 else chance[day] if day < known else beyond for day in at])

    def ends(self, years: int) -> list[int]:
        """Return the ends of equally likely years, the earliest first, as ordinals.

        `NEVER` where nothing ends it.
        """
        known = len(self._chance)
        found = []
        for number in range(years):
            lasts = 1 - (number + 0.5) / years  # the share of years in which it still stands
            if self._beyond >= lasts:
                found.append(NEVER)
                continue
            ended = bisect_left(self._chance, -lasts, key=lambda share: -share)
            found.append(self._start + min(ended, known))
        return found


def with_springs(ends: list[int], planted: int, *, lost: float) -> list[int]:
    """Return the ends of equally likely years, of which spring takes a share, spread over all."""
    return [
        planted if int((number + 1) * lost + 0.5) > int(number * lost + 0.5) else end
        for number, end in enumerate(ends)
    ]
