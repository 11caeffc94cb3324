"""The first day on which a wave would have room in a plan, everything else in its place."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from datetime import date
from itertools import groupby
from operator import itemgetter

from sowtide.reasons import OURS, Dated
from sowtide.schedule.beds.room import Room
from sowtide.schedule.beds.rotation import too_soon
from sowtide.schedule.beds.sharing import row_of, share_out
from sowtide.schedule.waves import SAFE, Conditions, Judged, Opening, Planting

_Events = list[tuple[int, int]]
"""Days on which something comes into a bed, or leaves it, with the bed's number."""


class Openings:
    """Looks for openings in the beds of a whole plan.

    Parameters
    ----------
    room
        The beds with all waves in their places.
    conditions
        The place in the growing year.
    """

    def __init__(self, room: Room, conditions: Conditions) -> None:
        self._room = room
        self._conditions = conditions
        self._everywhere: tuple[_Events, _Events] | None = None

    def first(self, planting: Planting, day: int) -> Opening | None:
        """Return the first opening for a planting after a day, or None. [ordinal]"""
        search = _OpeningSearch(planting, self._room, self._conditions)
        if planting.beds_named:
            leaving, coming = self._events(search.beds)
        else:
            if self._everywhere is None:
                self._everywhere = self._events(search.beds)
            leaving, coming = self._everywhere
        last = self._conditions.year.holding(planting.planted.day).last.toordinal()
        search.begin(day)
        begin = bisect_right(leaving, (day, len(self._room.beds)))
        for later, changes in groupby(leaving[begin:], key=itemgetter(0)):
            if later > last:
                return None
            found = search.go_on(later, {bed for _, bed in changes}, coming)
            if found is not None:
                return found
        return None

    def _events(self, beds: Iterable[int]) -> tuple[_Events, _Events]:
        leaving, coming = set(), set()
        for index in beds:
            for stay in self._room.stays[index]:
                leaving.add((stay.until, index))
                coming.add((stay.first, index))
            for span in self._room.beds[index].taken:
                leaving.add((span.last.toordinal() + 1, index))
                coming.add((span.first.toordinal(), index))
        return sorted(leaving), sorted(coming)


class _OpeningSearch:
    """Follows the room that one planting would have, from day to day.

    Only beds in which something changes at the beginning or the end of its stay are looked at
    again.
    """

    def __init__(self, planting: Planting, room: Room, conditions: Conditions) -> None:
        self.planting = planting
        self.room = room
        self.conditions = conditions
        self.beds = [room.number[bed.name] for bed in planting.beds]
        self._grounds = conditions.grounds(planting.beds)
        self._ends: dict[float, int] = {}
        self._judged: dict[float, Judged] = {}
        self._plants: dict[int, int] = {}
        self._most_rest = max((bed.rest for bed in planting.beds), default=0)

    def begin(self, day: int) -> None:
        """Look at all beds on the day on which there is no room. [ordinal]"""
        self._judge(day)
        for index in self.beds:
            self._look(index, day)
        self._total = sum(self._plants.values())

    def go_on(self, day: int, changed: set[int], coming: _Events) -> Opening | None:
        """Go on to a day on which something leaves some beds. [ordinal]"""
        before = dict(self._ends)
        self._judge(day)
        for ground, end in self._ends.items():
            first, last = sorted((before[ground], end))
            begin = bisect_right(coming, (first - 1, len(self.room.beds)))
            until = bisect_right(coming, (last + self._most_rest, len(self.room.beds)))
            changed |= {bed for _, bed in coming[begin:until]}
        for index in changed:
            if index in self._plants:
                self._total -= self._plants[index]
                self._look(index, day)
                self._total += self._plants[index]
        wanted = self.planting.entry.plants
        if self.planting.entry.split:
            enough = self._total >= wanted
        else:
            enough = any(self._plants.get(index, 0) >= wanted for index in changed)
        return self._at(day) if enough else None

    def _judge(self, day: int) -> None:
        entry = self.planting.entry
        planted = Dated.on(date.fromordinal(day), "room", "a later planting day", OURS)
        for ground in self._grounds:
            prospects = self.conditions.prospects(entry.crop, entry.raised, colder_by=ground)
            self._judged[ground] = judged = prospects.judge(planted)
            self._ends[ground] = judged.stages.pull_out.day.toordinal()

    def _look(self, index: int, day: int) -> None:
        until = self._ends[self.room.beds[index].colder_than_site]
        free = self.room.free_over(index, first=day, until=until)
        self._plants[index] = free // self.planting.entry.crop.area_per_plant

    def _at(self, day: int) -> Opening | None:
        """The opening on a day, safe beds first, or None where rotation closes too much."""
        entry, beds = self.planting.entry, self.room.beds
        order = sorted(
            (index for index in self.beds if self._plants[index]),
            key=lambda index: self._of(index).verdict not in (*SAFE, None),
        )
        usable = [index for index in order if self.planting.beds_named or self._is_open(index, day)]
        chosen = [index for index in usable if self._plants[index] >= entry.plants][:1]
        if not chosen and entry.split:
            there = [(i, self._plants[i], row_of(entry.crop, beds[i])) for i in usable]
            found = share_out(there, entry.plants)
            chosen = [index for index, _ in found]
        if not chosen:
            return None
        worst = min((self._of(index) for index in chosen), key=_odds)
        names = tuple(beds[index].name for index in chosen)
        return Opening(date.fromordinal(day), names, worst.verdict, worst.odds)

    def _of(self, index: int) -> Judged:
        return self._judged[self.room.beds[index].colder_than_site]

    def _is_open(self, index: int, day: int) -> bool:
        words = too_soon(
            self.room.beds[index],
            self.room.stays[index],
            self.planting.entry.crop,
            series=self.planting.entry.name,
            planted=day,
            season=self.conditions.year.season,
        )
        return words is None


def _odds(judged: Judged) -> float:
    """Odds to compare by: a wave over the winter has none, and nothing against it."""
    return 1.0 if judged.odds is None else judged.odds
