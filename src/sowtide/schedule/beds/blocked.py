"""Why a wave has no room: who holds it, until when, and where it would have room first.

What stands in the beds on a day, and what rotation closes on it, is looked up once for all waves
without room on that day: of many waves in many beds most ask the same.
"""

from __future__ import annotations

from collections import defaultdict
from datetime import date
from heapq import merge
from itertools import islice

from sowtide.garden.crop import Crop
from sowtide.garden.model import Bed
from sowtide.schedule.beds.opening import Openings
from sowtide.schedule.beds.placing import Placing
from sowtide.schedule.beds.room import Room, Stay
from sowtide.schedule.beds.rotation import Closings, barred
from sowtide.schedule.beds.sharing import row_of
from sowtide.schedule.waves import Blocked, Conditions, Holder, Judged, Kept, Planting

MOST_HOLDERS = 6
"""How many of the waves that hold the space are named; the rest is counted. [1]"""

_Held = tuple[int, str, str, int]
"""The day from which a bed is free of a wave, the wave, the bed and its number. [ordinal]"""


class Blocking:
    """Looks into the beds of a whole plan for what stands in the way of a wave.

    Parameters
    ----------
    room
        The beds with all waves in their places.
    conditions
        The place in the growing year.
    order
        Names of the series in the order in which they take their places on one day.
    """

    def __init__(self, room: Room, conditions: Conditions, *, order: tuple[str, ...]) -> None:
        self._room = room
        self._conditions = conditions
        self._order = {name: number for number, name in enumerate(order)}
        self._closings = Closings(room, conditions.year.season)
        self._openings = Openings(room, conditions)
        self._everywhere = _OnDay(room, 0, [])
        self._kin: tuple[str, int, int] | None = None
        self._shut: dict[int, str] = {}

    def of(self, planting: Planting) -> tuple[Judged, Blocked]:
        """Judge a planting that found no room, and say what stands in its way."""
        placing = Placing(planting, self._room, self._conditions, closings=self._closings)
        entry, day, beds = planting.entry, placing.day, self._room.beds
        looked = list(placing.beds())
        there = self._on(day, looked)
        begun, new = self._begun(there, self._order[entry.name])
        closed = {} if planting.beds_named else self._closed(entry.crop, entry.name, day)
        free, counted, rotation = [0], 0, None
        sick: list[str] = []
        kept: list[Kept] = []
        for index in looked:
            bed = beds[index]
            room = max(bed.area - there.area[index] - begun.get(index, 0), 0)
            room //= entry.crop.area_per_plant
            if ill := barred(self._room, index, entry.crop, day):
                sick.append(f"{bed.name}: {ill}")
                continue
            if index in closed:
                if room and rotation is None:
                    rotation = f"{bed.name}: {closed[index]}"
                continue
            counted += there.waves[index]
            if bed.taken and placing.is_kept(index):
                kept.append(Kept(bed.name, _kept_until(bed, day)))
            elif room >= min(row_of(entry.crop, bed), entry.plants):
                free.append(room)
        held = set(looked).difference(closed)
        held = {i for i in held if not barred(self._room, i, entry.crop, day)} if sick else held
        new = [each for each in new if each[3] in held]
        soonest = (each for each in merge(there.held, sorted(new)) if each[3] in held)
        holders = [
            Holder(w, b, date.fromordinal(u)) for u, w, b, _ in islice(soonest, MOST_HOLDERS)
        ]
        return placing.best(), Blocked(
            sum(free) if entry.split else max(free),
            tuple(holders),
            counted + len(new) - len(holders),
            tuple(kept[:MOST_HOLDERS]),
            rotation,
            tuple(sick[:MOST_HOLDERS]),
            self._openings.first(planting, day),
        )

    def _on(self, day: int, looked: list[int]) -> _OnDay:
        """What stands in some beds; in all of them it is looked up once a day."""
        if len(looked) < len(self._room.beds):
            return _OnDay(self._room, day, looked)
        if self._everywhere.day != day:
            self._everywhere = _OnDay(self._room, day, looked)
        return self._everywhere

    def _closed(self, crop: Crop, series: str, day: int) -> dict[int, str]:
        """Beds that rotation closes on a day, each with why."""
        key = (crop.family, crop.rotation, day)
        if key != self._kin:
            self._kin, beds = key, range(len(self._room.beds))
            found = ((i, self._closings.closed(i, crop, series="", planted=day)) for i in beds)
            self._shut = {index: words for index, words in found if words}
        own = [index for index in self._room.of_series.get(series, ()) if index in self._shut]
        closed = dict(self._shut) if own else self._shut
        for index in own:
            del closed[index]
            if words := self._closings.closed(index, crop, series=series, planted=day):
                closed[index] = words
        return closed

    def _begun(self, there: _OnDay, turn: int) -> tuple[dict[int, int], list[_Held]]:
        """Area that waves of the same day took in beds before a turn, and who they are. [µm²]"""
        area: dict[int, int] = defaultdict(int)
        held = []
        for index, stay in there.begun:
            if self._order[stay.series] < turn:
                area[index] += stay.area
                held.append((stay.until, stay.wave, self._room.beds[index].name, index))
        return area, held


class _OnDay:
    """What stands in some beds on a day, planted before it.

    Parameters
    ----------
    room
        The beds with all waves in their places.
    day
        [ordinal]
    looked
        Numbers of the beds.
    """

    def __init__(self, room: Room, day: int, looked: list[int]) -> None:
        self.day = day
        self.area: dict[int, int] = {}
        """Area taken in each bed. [µm²]"""
        self.waves: dict[int, int] = {}
        """How many waves stand in each bed. [1]"""
        self.held: list[_Held] = []
        """Who stands there, those that leave soonest first."""
        self.begun: list[tuple[int, Stay]] = []
        """What is planted on the day itself, with the number of its bed."""
        for index in looked:
            name, area, waves = room.beds[index].name, 0, 0
            for stay in room.stays[index]:
                if stay.first > day or stay.until <= day:
                    continue
                if stay.first == day:
                    self.begun.append((index, stay))
                    continue
                area, waves = area + stay.area, waves + 1
                self.held.append((stay.until, stay.wave, name, index))
            self.area[index], self.waves[index] = area, waves
        self.held.sort()


def _kept_until(bed: Bed, day: int) -> date:
    """The last day of the next span for which a bed is kept."""
    return min(span.last for span in bed.taken if span.last.toordinal() >= day)
