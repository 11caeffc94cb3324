"""Who stands in which bed, and how much area is free.

Stays are half-open: a wave takes its area from its planting day up to, not including, the day the
bed may be planted again. Areas are whole square micrometres, so nothing is over-full by rounding.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date
from heapq import heappop, heappush, merge

from sowtide.garden.model import Bed
from sowtide.schedule.beds.shelf import Shelf
from sowtide.values import value


@value
class Stay:
    """Plants of one wave in one bed.

    Parameters
    ----------
    wave, series, family
        Whose they are.
    first, until
        Planting day, and the day from which another wave may be planted, as ordinals.
    pulled
        The day the plants are gone; before `until` where the bed rests. [ordinal]
    area
        [µm²]
    """

    wave: str
    series: str
    family: str
    first: int
    until: int
    pulled: int
    area: int


@value
class Sick:
    """A wave of which plants were pulled as sick from a bed, and the first day of that."""

    wave: str
    on: date


class Room:
    """The beds of a garden as they fill up, in the order of planting days.

    Because waves come in that order, the room of a whole stay is decided on its first day: of what
    stands already, nothing comes back later.

    Parameters
    ----------
    beds
        All beds, in the grower's order.
    """

    def __init__(self, beds: tuple[Bed, ...]) -> None:
        self.beds = beds
        self.number = {bed.name: index for index, bed in enumerate(beds)}
        self.stays: tuple[list[Stay], ...] = tuple([] for _ in beds)
        self.of_series: dict[str, set[int]] = {}
        """Numbers of the beds in which each series stands or stood."""
        self.sick: dict[tuple[int, str], Sick] = {}
        """Beds by number and the families of which something was pulled there as sick."""
        self._grounds: dict[float, tuple[int, ...]] = {}
        self._place: list[int] = []
        for index, bed in enumerate(beds):
            ground = self._grounds.get(bed.colder_than_site, ())
            self._place.append(len(ground))
            self._grounds[bed.colder_than_site] = (*ground, index)
        self._shelves = {
            ground: Shelf([beds[index].area for index in indexes])
            for ground, indexes in self._grounds.items()
        }
        self._leaving: list[tuple[int, int, int]] = []
        self.narrowest = min((min(bed.size.width, bed.size.length) for bed in beds), default=0)
        """The shorter side of the narrowest bed. [µm]"""

    def advance(self, day: int) -> None:
        """Free everything that is gone by a day; days may only go forward. [ordinal]"""
        while self._leaving and self._leaving[0][0] <= day:
            _, index, area = heappop(self._leaving)
            self._shelf(index).change(self._place[index], area)

    def free(self, index: int) -> int:
        """Area free in a bed on the day reached. [µm²]"""
        return self._shelf(index)[self._place[index]]

    def with_room(self, area: int, grounds: Iterable[float]) -> Iterator[int]:
        """Yield the beds on some kinds of ground with so much free area, in the grower's order."""
        if len(self._grounds) == 1:  # places are the beds' own numbers
            (shelf,) = self._shelves.values()
            return shelf.with_room(area)
        ways = [self._on_ground(area, ground) for ground in sorted(grounds)]
        return ways[0] if len(ways) == 1 else merge(*ways)

    def _on_ground(self, area: int, ground: float) -> Iterator[int]:
        indexes = self._grounds.get(ground)
        if indexes is not None:
            for place in self._shelves[ground].with_room(area):
                yield indexes[place]

    def take(self, index: int, stay: Stay) -> None:
        """Let a wave have its area in a bed."""
        self.stays[index].append(stay)
        self.of_series.setdefault(stay.series, set()).add(index)
        self._shelf(index).change(self._place[index], -stay.area)
        heappush(self._leaving, (stay.until, index, stay.area))

    def bar(self, index: int, stay: Stay) -> None:
        """Bar a family from a bed from the day on which plants of it were pulled as sick."""
        found = Sick(stay.wave, date.fromordinal(stay.pulled))
        known = self.sick.get((index, stay.family))
        if known is None or found.on < known.on:
            self.sick[index, stay.family] = found

    def take_between(
        self, index: int, young: Stay, grown: Stay, *, kept: tuple[tuple[int, int], ...]
    ) -> None:
        """Let a wave stand between others until they leave, and have its whole area from then on.

        Parameters
        ----------
        index
            The bed.
        young, grown
            Its stay until the others leave, and the one from then on.
        kept
            The area that nothing else may take until then, from which day on: first from today.
            [ordinal], [µm²]
        """
        self.stays[index].extend((young, grown))
        self.of_series.setdefault(grown.series, set()).add(index)
        (_, before), *later = kept
        self._shelf(index).change(self._place[index], -before)
        for day, area in (*later, (young.until, grown.area), (grown.until, 0)):
            heappush(self._leaving, (day, index, before - area))
            before = area

    def changes(self, index: int) -> list[tuple[int, int]]:
        """Return when the free area of a bed changes by itself, in order, and by how much.

        Days are ordinals, areas in square micrometres.
        """
        return sorted((day, area) for day, bed, area in self._leaving if bed == index)

    def _shelf(self, index: int) -> Shelf:
        return self._shelves[self.beds[index].colder_than_site]

    def free_over(self, index: int, *, first: int, until: int) -> int:
        """Least area free in a bed over a wave's stay, whatever was planted when. [µm²]

        Parameters
        ----------
        index
            The bed.
        first, until
            Planting day and the day the plants are gone; the bed's rest before the next wave is
            added to it. [ordinal]
        """
        bed = self.beds[index]
        if is_taken(bed, first=first, until=until):
            return 0
        until += bed.rest
        stays = [stay for stay in self.stays[index] if stay.first < until and stay.until > first]
        if len(stays) < 2:
            return bed.area - sum(stay.area for stay in stays)
        days = {max(stay.first, first) for stay in stays}
        fullest = max(
            (sum(s.area for s in stays if s.first <= day < s.until) for day in days), default=0
        )
        return bed.area - fullest


def without(room: Room, wave: str, day: int) -> Room:
    """Return the beds as the plan fills them if a wave is pulled out on a day.

    Only what is asked of `free_over` and of `stays` holds for it.

    Parameters
    ----------
    room
        The beds as the plan fills them.
    wave
        The wave's name.
    day
        The day it is gone. [ordinal]
    """
    freed = Room(room.beds)
    freed.sick = room.sick
    for index, stays in enumerate(room.stays):
        rest = room.beds[index].rest
        for stay in stays:
            if stay.wave != wave:
                freed.stays[index].append(stay)
            elif stay.first < day:
                freed.stays[index].append(replace(stay, pulled=day, until=day + rest))
    return freed


def is_taken(bed: Bed, *, first: int, until: int) -> bool:
    """Whether the grower keeps the bed for something else on a day of the span, half-open."""
    return any(
        span.first.toordinal() < until and span.last.toordinal() >= first for span in bed.taken
    )
