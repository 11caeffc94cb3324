"""The first day on which a wave would have room in a plan, everything else in its place.

Many waves ask the same: how the room for a crop changes from a day on is followed once for all that
ask for it one after the other, as far as any of them needs it.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator
from datetime import date
from itertools import groupby
from operator import itemgetter

from sowtide.garden.crop import Raised
from sowtide.schedule.stays import Closings, Room, barred, row_of, share_out
from sowtide.schedule.waves import SAFE, Conditions, Judged, Opening, Planting
from sowtide.values import value

_Events = list[tuple[int, int]]
"""Days on which something comes into a bed, or leaves it, with the bed's number."""


@value
class _Change:
    """What a day changes."""

    day: int
    """[ordinal]"""
    judged: dict[float, Judged]
    """The crop planted on it, on each kind of ground."""
    plants: dict[int, int]
    """Plants that the beds that it changes have room for from then on. [1]"""
    total: int
    """Plants that all beds have room for. [1]"""


class Openings:
    """Looks for openings in the beds of a whole plan."""

    def __init__(self, room: Room, conditions: Conditions, closings: Closings) -> None:
        self._room = room
        self._conditions = conditions
        self._closings = closings
        self._everywhere: tuple[_Events, _Events] | None = None
        self._day = 0
        self._followed: dict[tuple[str, Raised, int], _Followed] = {}
        self._found: dict[tuple[str, Raised, int, int, bool], Opening | None] = {}

    def first(self, planting: Planting, day: int) -> Opening | None:
        """Return the first opening for a planting after a day, or None. [ordinal]

        Plantings of the same size whose series stand nowhere have the same.
        """
        if day != self._day:
            self._day, self._followed, self._found = day, {}, {}
        entry = planting.entry
        if self._room.of_series.get(entry.name):
            return self._first(planting, day)
        key = (entry.crop.name, entry.raised, id(planting.beds), entry.plants, entry.split)
        if key not in self._found:
            self._found[key] = self._first(planting, day)
        return self._found[key]

    def _first(self, planting: Planting, day: int) -> Opening | None:
        entry = planting.entry
        last = self._conditions.year.holding(planting.planted.day).last.toordinal()
        followed = self._following(planting, day)
        plants = dict(followed.begun)
        for change in followed.changes():
            if change.day > last:
                return None
            plants |= change.plants
            if entry.split:
                enough = change.total >= entry.plants
            else:
                enough = any(each >= entry.plants for each in change.plants.values())
            found = self._at(planting, change, plants) if enough else None
            if found is not None:
                return found
        return None

    def _following(self, planting: Planting, day: int) -> _Followed:
        entry = planting.entry
        key = (entry.crop.name, entry.raised, id(planting.beds))
        found = self._followed.get(key)
        if found is None:
            found = _Followed(planting, self._room, self._conditions, day, self._events(planting))
            self._followed[key] = found
        return found

    def _events(self, planting: Planting) -> tuple[_Events, _Events]:
        number = self._room.number
        if planting.beds_named:
            return self._in_beds(number[bed.name] for bed in planting.beds)
        if self._everywhere is None:
            self._everywhere = self._in_beds(range(len(self._room.beds)))
        return self._everywhere

    def _in_beds(self, beds: Iterable[int]) -> tuple[_Events, _Events]:
        leaving, coming = set(), set()
        for index in beds:
            for stay in self._room.stays[index]:
                leaving.add((stay.until, index))
                coming.add((stay.first, index))
            for span in self._room.beds[index].taken:
                leaving.add((span.last.toordinal() + 1, index))
                coming.add((span.first.toordinal(), index))
        return sorted(leaving), sorted(coming)

    def _is_open(self, planting: Planting, index: int, change: _Change) -> bool:
        entry = planting.entry
        if planting.beds_named:
            return barred(self._room, index, entry.crop, change.day) is None
        pulled = change.judged[self._room.beds[index].colder_than_site].stages.pull_out.day
        words = self._closings.closed(
            index,
            entry.crop,
            series=entry.name,
            planted=change.day,
            pulled=pulled.toordinal(),
        )
        return words is None

    def _at(self, planting: Planting, change: _Change, plants: dict[int, int]) -> Opening | None:
        """The opening on a day, safe beds first, or None where rotation closes too much."""
        entry, beds = planting.entry, self._room.beds

        def of(index: int) -> Judged:
            return change.judged[beds[index].colder_than_site]

        usable = sorted(
            (
                index
                for index, room in plants.items()
                if room and self._is_open(planting, index, change)
            ),
            key=lambda index: of(index).verdict not in (*SAFE, None),
        )
        chosen = [index for index in usable if plants[index] >= entry.plants][:1]
        if not chosen and entry.split:
            there = [(index, plants[index], row_of(entry.crop, beds[index])) for index in usable]
            chosen = [index for index, _ in share_out(there, entry.plants)]
        if not chosen:
            return None
        worst = min((of(index) for index in chosen), key=_odds)
        names = tuple(beds[index].name for index in chosen)
        return Opening(date.fromordinal(change.day), names, worst.verdict, worst.odds)


class _Followed:
    """Follows the room that a crop would have in some beds, from a day on.

    Only beds in which something changes at the beginning or the end of its stay are looked at
    again.
    """

    def __init__(
        self,
        planting: Planting,
        room: Room,
        conditions: Conditions,
        day: int,
        events: tuple[_Events, _Events],
    ) -> None:
        self._entry, self._room, self._conditions = planting.entry, room, conditions
        self._beds = planting.beds  # kept like the entry, so that no other takes its id
        self._grounds = conditions.grounds(planting.beds)
        self._most_rest = max((bed.rest for bed in planting.beds), default=0)
        self._ends: dict[float, int] = {}
        self._changes: list[_Change] = []
        self._judge(day)
        numbers = [room.number[bed.name] for bed in planting.beds]
        self.begun = {index: self._look(index, day) for index in numbers}
        """Plants that each bed has room for on the first day. [1]"""
        self._coming = self._going_on(day, *events)

    def changes(self) -> Iterator[_Change]:
        """Yield what the following days change."""
        yield from self._changes
        number = len(self._changes)
        while True:
            if number == len(self._changes):
                coming = next(self._coming, None)
                if coming is None:
                    return
                self._changes.append(coming)
            yield self._changes[number]
            number += 1

    def _going_on(self, day: int, leaving: _Events, coming: _Events) -> Iterator[_Change]:
        last = len(self._room.beds)
        plants, total = dict(self.begun), sum(self.begun.values())
        begin = bisect_right(leaving, (day, last))
        for later, events in groupby(leaving[begin:], key=itemgetter(0)):
            changed = {bed for _, bed in events}
            before = dict(self._ends)
            judged = self._judge(later)
            for ground, end in self._ends.items():
                soonest, latest = sorted((before[ground], end))
                first = bisect_right(coming, (soonest - 1, last))
                until = bisect_right(coming, (latest + self._most_rest, last))
                changed |= {bed for _, bed in coming[first:until]}
            now = {index: self._look(index, later) for index in changed if index in plants}
            total += sum(room - plants[index] for index, room in now.items())
            plants |= now
            yield _Change(later, judged, now, total)

    def _judge(self, day: int) -> dict[float, Judged]:
        entry = self._entry
        planted = date.fromordinal(day)
        judged = {}
        for ground in self._grounds:
            prospects = self._conditions.prospects(entry.crop, entry.raised, colder_by=ground)
            judged[ground] = prospects.judged_on(planted)
            self._ends[ground] = judged[ground].stages.pull_out.day.toordinal()
        return judged

    def _look(self, index: int, day: int) -> int:
        until = self._ends[self._room.beds[index].colder_than_site]
        free = self._room.free(index, first=day, until=until)
        return free // self._entry.crop.area_per_plant


def _odds(judged: Judged) -> float:
    """Odds to compare by: a wave over the winter has none, and nothing against it."""
    return 1.0 if judged.odds is None else judged.odds
