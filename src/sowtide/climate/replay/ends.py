"""The days that end a crop where it stands, and what they leave of each recorded year."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from functools import cached_property
from typing import NamedTuple

from sowtide.climate.medians import NEVER
from sowtide.climate.replay.tally import Tally
from sowtide.climate.warmth import LONGEST_YEAR, Years

A_YEAR = 366
"""Days from midsummer on in which a wave may be ended. [days]"""


class StandDays(NamedTuple):
    """Planting days of one recorded year whose plants all end on one day.

    Parameters
    ----------
    length
        Days from the first of them to the end. [days]
    number
        Which of the years.
    begin, over
        The planting days, half-open. [index]
    end
        The day that ends the plants, `NEVER` where nothing does. [index]
    until
        The last day whose temperatures matter to them. [index]
    """

    length: int
    number: int
    begin: int
    over: int
    end: int
    until: int


class Ends:
    """When plants that one temperature kills in one way are ended in each recorded year.

    Parameters
    ----------
    days
        Indices of the days in order on which they are, see `Need`.
    years
        The growing years.
    missing
        Days without temperatures before each day of the record.
    later
        Days from there to the end. [days]
    """

    def __init__(
        self, days: Sequence[int], years: Years, *, missing: Sequence[int], later: int
    ) -> None:
        self.days = days
        """Indices of the days that end such plants, in order."""
        self._years = years
        self._missing = missing
        self._later = later
        self._last = len(missing) - 1
        self._of_spring = [self._fate_from(at, at) for at in years.midsummers]

    def of(self, planted: int, number: int) -> tuple[int, int] | None:
        """Return what ends a planting in a year, and the last day that matters to it.

        That is the first day from midsummer on, after the planting day, that ends it, or `NEVER`
        where none does within a year. None where temperatures are missing up to the last day.

        Parameters
        ----------
        planted
            The planting day. [index]
        number
            Which of the years.
        """
        midsummer = self._years.midsummers[number]
        if planted < midsummer:
            known_from, end, until = self._of_spring[number]
        else:
            known_from, end, until = self._fate_from(planted + 1, midsummer)
        return (end, until) if planted >= known_from else None

    @cached_property
    def lasts_of_spring(self) -> list[int]:
        """The last day before each year's midsummer that ends a plant; minus `NEVER` where none."""
        lasts = []
        for base, midsummer in zip(self._years.bases, self._years.midsummers, strict=True):
            at = bisect_left(self.days, midsummer) - 1
            lasts.append(self.days[at] if at >= 0 and self.days[at] >= base else -NEVER)
        return lasts

    @cached_property
    def stands(self) -> list[StandDays]:
        """All planting days of all years whose temperatures are known, the longest standing first.

        On one day in a frosty week hardly anything is planted that comes to something: whoever asks
        for those that stand long enough is done with the first few.
        """
        found = [each for number in range(len(self._years.seasons)) for each in self._of(number)]
        return sorted(found, reverse=True)

    @cached_property
    def used(self) -> list[int]:
        """Years that say something of each day of the growing year planned. [years]"""
        used = Tally(self._years)
        for stand in self.stands:
            used.add_run(stand.number, stand.begin, stand.over, 1)
        return used.totals()

    @cached_property
    def divisors(self) -> list[int]:
        """What makes shares of years of counts: the years used, or 1 where there are none."""
        return [years or 1 for years in self.used]

    def _of(self, number: int) -> Iterator[StandDays]:
        """Yield the planting days of a year, as far as all is known until their plants end."""
        latest = self._years.midsummers[number] + A_YEAR
        for begin, over, end in self._runs(number):
            until = min(end, latest)
            begin = max(begin, self._known_from(until))
            if begin < over:
                yield StandDays(end - begin, number, begin, over, end, until)

    def _runs(self, number: int) -> Iterator[tuple[int, int, int]]:
        """Yield runs of planting days, half-open, with the day that ends their plants."""
        midsummer = self._years.midsummers[number]
        first = self._years.bases[number]
        stop = first + LONGEST_YEAR
        days = self.days
        at = bisect_left(days, midsummer)
        while first < stop:
            frost = days[at] if at < len(days) and days[at] < midsummer + A_YEAR else NEVER
            over = min(frost, stop)
            if over > first:
                yield first, over, frost if frost >= NEVER else frost + self._later
                first = over
            at += 1

    def _known_from(self, until: int) -> int:
        """The first day from which on no day up to another misses its temperatures."""
        if until > self._last:
            return NEVER
        return bisect_left(self._missing, self._missing[until], 0, until)

    def _fate_from(self, day: int, midsummer: int) -> tuple[int, int, int]:
        """First planting day known, what ends it from a day on, and the last day that matters."""
        at = bisect_left(self.days, day)
        end, latest = NEVER, midsummer + A_YEAR
        if at < len(self.days) and self.days[at] < latest:
            end = self.days[at] + self._later
        until = min(end, latest)
        return self._known_from(until), end, until
