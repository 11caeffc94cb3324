"""Why a wave has no room: who holds it, until when, and where it would have room first.

Only what had its turn before it stands in its way. What that is, and what rotation closes, is
looked up once for all waves of a crop that are planted on one day: of many waves in many beds most
ask the same.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import date
from heapq import nsmallest
from itertools import chain

from sowtide.garden.crop import Raised
from sowtide.garden.model import Bed
from sowtide.schedule.beds.opening import Openings
from sowtide.schedule.beds.placing import Placing
from sowtide.schedule.stays import Closings, Room, Stay, barred, most_together, row_of
from sowtide.schedule.waves import Blocked, Conditions, Holder, Judged, Kept, Opening, Planting

MOST_HOLDERS = 6
"""How many of the waves that hold the space are named; the rest is counted. [1]"""

_Held = tuple[bool, int, str, str, int]
"""Whether a wave is still to come into a bed, the day it does, or else leaves it; the wave and the
bed, and the day it leaves. [ordinal]"""


class Blocking:
    """Looks into the beds of a whole plan for what stands in the way of a wave."""

    def __init__(self, room: Room, conditions: Conditions) -> None:
        self._room = room
        self._conditions = conditions
        self._closings = Closings(room, conditions.year.season)
        self._openings = Openings(room, conditions, self._closings)
        self._found: tuple[tuple[str, Raised, int], _InTheWay] | None = None

    def of(self, planting: Planting, turn: int) -> tuple[Judged, Blocked]:
        """Judge a planting that found no room in its turn, and say what stands in its way."""
        placing = Placing(planting, self._room, self._conditions, closings=self._closings)
        opening = self._openings.first(planting, placing.day)
        return placing.best(), self._in_the_way(placing, turn).of(planting, opening)

    def _in_the_way(self, placing: Placing, turn: int) -> _InTheWay:
        """Return what stands in its way; what names no beds asks the same as others before it."""
        if placing.planting.beds_named:
            return _InTheWay(placing, self._closings, turn)
        key = (placing.crop.name, placing.entry.raised, placing.day)
        if self._found is None or self._found[0] != key or self._found[1].turn > turn:
            self._found = (key, _InTheWay(placing, self._closings, turn))
        found = self._found[1]
        found.come_to(turn)
        return found


class _InTheWay:
    """What stands in the way of waves of a crop that are planted on a day, in some beds.

    Parameters
    ----------
    placing
        One of them; the others have its crop, its day and its beds.
    closings
        What rotation closes.
    turn
        Number of the turn up to which it is looked for. [1]
    """

    def __init__(self, placing: Placing, closings: Closings, turn: int) -> None:
        self.turn = turn
        """What had its turn before this one is known. [1]"""
        self._placing, self._room, self._closings = placing, placing.room, closings
        self._pulled = {index: placing.pulled(index) for index in placing.beds()}
        self._shut: dict[int, str] = {}
        if not placing.planting.beds_named:
            closed = ((index, self._closed(index, "")) for index in self._pulled)
            self._shut = {index: words for index, words in closed if words}
        self._sick = {
            index: words
            for index in (self._pulled if self._room.sick else ())
            if (words := barred(self._room, index, self._placing.crop, self._placing.day))
        }
        self._shut.update(self._sick)
        self._kept = [i for i in self._pulled if i not in self._shut and placing.is_kept(i)]
        self._until = {i: day + self._room.beds[i].rest for i, day in self._pulled.items()}
        self._stays = {
            index: [
                stay
                for stay in self._room.stays[index]
                if stay.first < until and stay.until > self._placing.day and stay.turn < turn
            ]
            for index, until in self._until.items()
        }
        self._rows = _Rooms()
        """Plants that beds have room for: open ones that have room for a row."""
        self._closed_rooms = _Rooms()
        """The same of beds that rotation closes, which have room for one plant."""
        for index in self._pulled:
            self._count(index)
        self._held: list[_Held] = []
        """The first of those that hold the space."""
        self._holders = 0
        """How many they all are. [1]"""
        shut = self._shut
        self._hold((i, stays) for i, stays in self._stays.items() if i not in shut)

    def come_to(self, turn: int) -> None:
        """Take account of what had its turn since, and before another."""
        begin, end = (
            bisect_left(self._room.in_turn, each, key=lambda taken: taken[1].turn)
            for each in (self.turn, turn)
        )
        self.turn = turn
        new: dict[int, list[Stay]] = defaultdict(list)
        for index, stay in self._room.in_turn[begin:end]:
            if index in self._stays and self._meets(index, stay):
                new[index].append(stay)
        for index, stays in new.items():
            self._stays[index] += stays
            self._count(index)
        self._hold((index, stays) for index, stays in new.items() if index not in self._shut)

    def _hold(self, coming: Iterable[tuple[int, list[Stay]]]) -> None:
        """Take note of waves that hold the space, by the beds that they are in."""
        held = [each for index, stays in coming for each in self._holding(index, stays)]
        self._holders += len(held)
        self._held = nsmallest(MOST_HOLDERS, chain(self._held, held))

    def of(self, planting: Planting, opening: Opening | None) -> Blocked:
        """Say what stands in the way of one of them.

        Parameters
        ----------
        planting
            The wave.
        opening
            The first later day on which it would have room.
        """
        entry = planting.entry
        own = self._closed_to_others(entry.name)
        free = [self._rows.total if entry.split else self._rows.most]
        free += [plants for index in own if (plants := self._in_rows(index))]
        held = [each for index in own for each in self._holding(index, self._stays[index])]
        count = self._holders + len(held)
        holders = tuple(map(_holder, nsmallest(MOST_HOLDERS, chain(self._held, held))))
        return Blocked(
            plants=sum(free) if entry.split else max(free, default=0),
            holders=holders,
            more_holders=count - len(holders),
            kept=tuple(self._keeping()),
            rotation=self._rotation(own),
            sick=tuple(f"{self._room.beds[i].name}: {self._sick[i]}" for i in self._sick)[
                :MOST_HOLDERS
            ],
            opening=opening,
        )

    def _meets(self, index: int, stay: Stay) -> bool:
        """Whether a stay is in a bed on a day on which one of the waves would be."""
        return stay.first < self._until[index] and stay.until > self._placing.day

    def _count(self, index: int) -> None:
        """Count the plants that a bed has room for."""
        if index in self._sick:
            return
        if index in self._shut:
            self._closed_rooms.put(index, self._plants(index))
        elif index not in self._kept:
            self._rows.put(index, self._in_rows(index))

    def _plants(self, index: int) -> int:
        """Return the plants that a bed has room for, kept for something else or not. [1]"""
        taken = most_together(self._stays[index], self._placing.day)
        return (self._room.beds[index].area - taken) // self._placing.crop.area_per_plant

    def _in_rows(self, index: int) -> int:
        """Return the plants that a bed has room for; none if that is less than a row. [1]"""
        plants = self._plants(index)
        return plants if plants >= row_of(self._placing.crop, self._room.beds[index]) else 0

    def _holding(self, index: int, stays: list[Stay]) -> Iterator[_Held]:
        """Yield the waves that some stays in a bed are of."""
        bed, day = self._room.beds[index].name, self._placing.day
        spans = {stay.wave: (stay.first, stay.until) for stay in stays}
        if len(spans) < len(stays):  # what was set between others stands twice, one after the other
            for stay in stays:
                first, until = spans[stay.wave]
                spans[stay.wave] = min(first, stay.first), max(until, stay.until)
        for wave, (first, until) in spans.items():
            comes = first > day
            yield comes, first if comes else until, wave, bed, until

    def _closed(self, index: int, series: str) -> str | None:
        return self._closings.closed(
            index,
            self._placing.crop,
            series=series,
            planted=self._placing.day,
            pulled=self._pulled[index],
        )

    def _closed_to_others(self, series: str) -> list[int]:
        """Return the beds that rotation closes to all but a series."""
        of_series = self._room.of_series.get(series, ())
        return [i for i in of_series if i in self._shut and not self._closed(i, series)]

    def _rotation(self, own: list[int]) -> str | None:
        """Name the first bed that would have room for a plant, did rotation not close it."""
        index = self._closed_rooms.first(own)
        return None if index is None else f"{self._room.beds[index].name}: {self._shut[index]}"

    def _keeping(self) -> Iterator[Kept]:
        for index in self._kept[:MOST_HOLDERS]:
            bed = self._room.beds[index]
            yield Kept(bed.name, _kept_until(bed, self._placing.day))


class _Rooms:
    """Beds by number, each with the plants that it has room for, as they fill up."""

    def __init__(self) -> None:
        self._plants: dict[int, int] = {}
        self._most: int | None = 0
        self.total = 0
        """Plants that all beds have room for. [1]"""

    def put(self, index: int, plants: int) -> None:
        """Set the plants that a bed has room for."""
        before = self._plants.pop(index, 0)
        if plants > 0:
            self._plants[index] = plants
        self.total += max(plants, 0) - before
        self._most = None

    @property
    def most(self) -> int:
        """Most plants that one bed has room for. [1]"""
        if self._most is None:
            self._most = max(self._plants.values(), default=0)
        return self._most

    def first(self, passed_over: list[int]) -> int | None:
        """Return the first bed with room that is not passed over."""
        return min((index for index in self._plants if index not in passed_over), default=None)


def _holder(held: _Held) -> Holder:
    comes, day, wave, bed, until = held
    first = date.fromordinal(day) if comes else None
    return Holder(wave, bed, date.fromordinal(until), first)


def _kept_until(bed: Bed, day: int) -> date:
    """The last day of the next span for which a bed is kept."""
    return min(span.last for span in bed.taken if span.last.toordinal() >= day)
