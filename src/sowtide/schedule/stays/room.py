"""Who stands in which bed, and how much area is free.

Stays are half-open: a wave takes its area from its planting day up to, not including, the day the
bed may be planted again. Areas are whole square micrometres, so nothing is over-full by rounding.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from sowtide.garden.model import Bed
from sowtide.schedule.stays.level import Level
from sowtide.values import value


@value
class Stay:
    """Plants of one wave in one bed."""

    wave: str
    series: str
    family: str
    """Whose they are."""
    first: int
    until: int
    """Planting day, and the day from which another wave may be planted, as ordinals."""
    pulled: int
    """The day the plants are gone; before `until` where the bed rests. [ordinal]"""
    area: int
    """[µm²]"""
    turn: int = 0
    """Number of the turn in which it took its place. [1]"""


@value
class Sick:
    """A wave of which plants were pulled as sick from a bed, and the first day of that."""

    wave: str
    on: date


class Room:
    """The beds of a garden as they fill up, whatever the order in which waves come."""

    def __init__(self, beds: tuple[Bed, ...]) -> None:
        self.beds = beds
        self.number = {bed.name: index for index, bed in enumerate(beds)}
        self.grounds = tuple(bed.colder_than_site for bed in beds)
        """How much colder than the site each bed is. [°C]"""
        self.stays: Sequence[list[Stay]] = tuple([] for _ in beds)
        self.in_turn: list[tuple[int, Stay]] = []
        """All stays in the order in which they took their places, each with its bed's number."""
        self.of_series: dict[str, set[int]] = {}
        """Numbers of the beds in which each series stands or stood."""
        self.of_family: dict[str, set[int]] = {}
        """The same of each family."""
        self.sick: dict[tuple[int, str], Sick] = {}
        """Beds by number and the families of which something was pulled there as sick."""
        self.levels: Sequence[Level] = tuple(Level() for _ in beds)
        """How full each bed is."""
        self._kin: tuple[dict[str, list[Stay]], ...] = tuple({} for _ in beds)
        self.narrowest = min((min(bed.size.width, bed.size.length) for bed in beds), default=0)
        """The shorter side of the narrowest bed. [µm]"""

    def take(self, index: int, stay: Stay) -> None:
        """Let a wave have its area in a bed."""
        self.stays[index].append(stay)
        self.in_turn.append((index, stay))
        self.of_series.setdefault(stay.series, set()).add(index)
        self.of_family.setdefault(stay.family, set()).add(index)
        self._kin[index].setdefault(stay.family, []).append(stay)
        self.levels[index].add(stay.first, stay.until, stay.area)

    def bar(self, index: int, stay: Stay) -> None:
        """Bar a family from a bed from the day on which plants of it were pulled as sick."""
        found = Sick(stay.wave, date.fromordinal(stay.pulled))
        known = self.sick.get((index, stay.family))
        if known is None or found.on < known.on:
            self.sick[index, stay.family] = found

    def kin(self, index: int, family: str) -> Sequence[Stay]:
        """Return what stands or stood of a family in a bed."""
        return self._kin[index].get(family, ())

    def free(self, index: int, *, first: int, until: int) -> int:
        """Least area free in a bed over a wave's stay; none where the grower keeps it. [µm²]

        Parameters
        ----------
        index
            The bed.
        first, until
            Planting day and the day the plants are gone; the bed's rest before the next wave is
            added to it. [ordinal]
        """
        bed = self.beds[index]
        if bed.taken and is_taken(bed, first=first, until=until):
            return 0
        return bed.area - self.levels[index].peak(first, until + bed.rest)

    def free_over(self, index: int, *, first: int, until: int) -> int:
        """Return the same as `free`, counted from the stays themselves. [µm²]"""
        bed = self.beds[index]
        if is_taken(bed, first=first, until=until):
            return 0
        until += bed.rest
        stays = [stay for stay in self.stays[index] if stay.first < until and stay.until > first]
        return bed.area - most_together(stays, first)


def most_together(stays: Sequence[Stay], first: int) -> int:
    """Return the most area that some stays take together on a day from a first one on. [µm²]"""
    if len(stays) < 2:
        return sum(stay.area for stay in stays)
    spans = [(stay.first, stay.until, stay.area) for stay in stays]
    days = {begin if begin > first else first for begin, _, _ in spans}
    return max(sum(area for begin, until, area in spans if begin <= day < until) for day in days)


def without(room: Room, wave: str, day: int) -> Room:
    """Return the beds as the plan fills them if a wave is pulled out on a day.

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
    for index, stay in room.in_turn:
        if stay.wave != wave:
            freed.take(index, stay)
        elif stay.first < day:
            freed.take(index, replace(stay, pulled=day, until=day + room.beds[index].rest))
    return freed


def is_taken(bed: Bed, *, first: int, until: int) -> bool:
    """Whether the grower keeps the bed for something else on a day of the span, half-open."""
    return any(
        span.first.toordinal() < until and span.last.toordinal() >= first for span in bed.taken
    )
