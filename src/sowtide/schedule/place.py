"""Waves into beds, in order of planting day: what is planted in August never moves May."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import groupby
from operator import itemgetter

from sowtide.garden.model import Bed
from sowtide.reasons import Dated, Origin
from sowtide.schedule.room import Room, Stay, is_taken
from sowtide.schedule.rotation import family_key, too_soon
from sowtide.schedule.series import Planting
from sowtide.schedule.wave import Judged, Place, Verdict
from sowtide.schedule.windows import Conditions, Prospects
from sowtide.values import value

_ONLY: tuple[float, Verdict | None] = (1.0, None)
"""What to compare a kind of ground by where there is no other."""


@value
class Blocked:
    """Why a wave has no room.

    Parameters
    ----------
    free_plants
        Plants there would have been room for. [1]
    holders
        Waves that hold the space, with their bed and the day it is free of them; a few of them.
    first_day
        The first later day with room, as far as the waves placed before it go; or None.
    verdict
        What would be thought of planting on that day; None with it.
    rotation
        A bed with room that rotation closes, in a few words, or None.
    """

    free_plants: int
    holders: tuple[tuple[str, str, date], ...]
    first_day: date | None
    verdict: Verdict | None
    rotation: str | None


@value
class Placed:
    """A planting judged and placed, or blocked.

    Parameters
    ----------
    planting
        What was asked for.
    judged
        Dates and verdict on the worst of its beds' ground.
    places
        Where it stands; empty if blocked.
    bed_free
        The day the last of its beds may be planted again.
    warnings
        What rotation has against beds that the grower named, as (bed, words).
    blocked
        Why it has no room, or None.
    """

    planting: Planting
    judged: Judged
    places: tuple[Place, ...]
    bed_free: Dated | None
    warnings: tuple[tuple[str, str], ...]
    blocked: Blocked | None


def place_all(
    plantings: list[Planting], beds: tuple[Bed, ...], conditions: Conditions
) -> tuple[Room, tuple[Placed, ...]]:
    """Place plantings in order of planting day, then of the file.

    Returns
    -------
    tuple
        The beds as they filled up, and every planting in the order given.
    """
    room = Room(beds)
    order = sorted(range(len(plantings)), key=lambda i: plantings[i].planted.day)
    placed: dict[int, Placed] = {}
    for index in order:
        planting = plantings[index]
        room.advance(planting.planted.day.toordinal())
        placed[index] = _Placing(planting, room, conditions).place()
    return room, tuple(placed[index] for index in range(len(plantings)))


class _Placing:
    """One planting looking for its place."""

    def __init__(self, planting: Planting, room: Room, conditions: Conditions) -> None:
        self.planting = planting
        self.entry = planting.entry
        self.crop = planting.entry.crop
        self.room = room
        self.conditions = conditions
        self.day = planting.planted.day.toordinal()
        grounds = conditions.grounds(self.entry.beds)
        self.promises = {grounds[0]: _ONLY}
        if len(grounds) > 1:
            self.promises = {g: self._promise(planting.planted.day, g) for g in grounds}
        self.safe = [g for g in grounds if self.promises[g][1] in (Verdict.SAFE, None)]
        self.others = [g for g in grounds if g not in self.safe]
        self._judged: dict[float, Judged] = {}

    def _prospects(self, ground: float) -> Prospects:
        return self.conditions.prospects(self.crop, self.entry.raised, colder_by=ground)

    def _promise(self, planted: date, ground: float) -> tuple[float, Verdict | None]:
        return self._prospects(ground).promise(planted)

    def _judge(self, ground: float) -> Judged:
        judged = self._judged.get(ground)
        if judged is None:
            judged = self._prospects(ground).judge(self.planting.planted)
            self._judged[ground] = judged
        return judged

    def place(self) -> Placed:
        """Take the first places that serve: whole before split, safe ground before the rest."""
        plants = self._choose()
        if not plants:
            judged = self._best()
            return Placed(self.planting, judged, (), None, (), self._blocked())
        worst = self._worst([self.room.beds[index] for index, _ in plants])
        places, warnings = [], []
        for index, count in plants:
            bed = self.room.beds[index]
            if words := self._rotation(index):
                warnings.append((bed.name, words))
            self.room.take(index, self._stay(worst, bed, count))
            places.append(Place(bed, count))
        free = worst.stages.pull_out
        rested = max((place.bed for place in places), key=lambda bed: bed.rest)
        if rested.rest:
            origin = Origin(rested.span.file, rested.span.line)
            free = free.then(rested.rest, "pull-out", f"days of rest for {rested.name}", origin)
        return Placed(self.planting, worst, tuple(places), free, tuple(warnings), None)

    def _stay(self, judged: Judged, bed: Bed, plants: int) -> Stay:
        pulled = judged.stages.pull_out.day.toordinal()
        return Stay(
            self.planting.id,
            self.entry.name,
            family_key(self.crop.family),
            self.day,
            pulled + bed.rest,
            pulled,
            plants * self.crop.area_per_plant,
        )

    def _worst(self, beds: list[Bed]) -> Judged:
        grounds = (bed.colder_than_site for bed in beds)
        return self._judge(min(grounds, key=lambda ground: self.promises[ground][0]))

    def _best(self) -> Judged:
        return self._judge(max(self.promises, key=lambda ground: self.promises[ground][0]))

    def _choose(self) -> list[tuple[int, int]]:
        """Beds and the plants each takes; empty if not all plants find room."""
        for grounds, groups in (
            (self.safe, [self.safe]),
            (self.others, [self.safe, self.others]),
        ):
            chosen = self._whole(grounds) or (self._split(groups) if self.entry.split else [])
            if chosen:
                return chosen
        return []

    def _whole(self, grounds: list[float]) -> list[tuple[int, int]]:
        plants = self.entry.plants
        for index in self._open(plants * self.crop.area_per_plant, grounds):
            return [(index, plants)]
        return []

    def _split(self, groups: list[list[float]]) -> list[tuple[int, int]]:
        left, chosen = self.entry.plants, []
        each = self.crop.area_per_plant
        for grounds in groups:
            for index in self._open(each, grounds):
                count = min(left, self.room.free(index) // each)
                chosen.append((index, count))
                left -= count
                if not left:
                    return chosen
        return []

    def _open(self, area: int, grounds: list[float]) -> Iterator[int]:
        """Beds with so much free area that the wave may go to, in order."""
        if not grounds:
            return
        for index in self._with_room(area, grounds):
            if self._is_taken(index):
                continue
            if not self.entry.beds_named and self._rotation(index):
                continue
            yield index

    def _with_room(self, area: int, grounds: list[float]) -> Iterator[int]:
        if not self.entry.beds_named:
            return self.room.with_room(area, grounds)
        beds, free = self.room.beds, self.room.free
        return (
            index
            for index in self._beds()
            if beds[index].colder_than_site in grounds and free(index) >= area
        )

    def _beds(self) -> Iterator[int]:
        """Beds that the wave may go to, in order, room or not."""
        return (self.room.number[bed.name] for bed in self.entry.beds)

    def _is_taken(self, index: int) -> bool:
        bed = self.room.beds[index]
        if not bed.taken:
            return False
        judged = self._judge(bed.colder_than_site)
        until = judged.stages.pull_out.day.toordinal()
        return is_taken(bed, first=self.day, until=until)

    def _rotation(self, index: int) -> str | None:
        return too_soon(
            self.room.beds[index],
            self.room.stays[index],
            self.crop,
            series=self.entry.name,
            planted=self.day,
            season=self.conditions.year.season,
        )

    def _blocked(self) -> Blocked:
        """Look for what stands in the way and for the first later day with room."""
        each = self.crop.area_per_plant
        free = sum(self.room.free(index) // each for index in self._open(each, self._grounds()))
        closed = None
        if not self.entry.beds_named:
            for index in self.room.with_room(each, self._grounds()):
                if words := self._rotation(index):
                    closed = f"{self.room.beds[index].name}: {words}"
                    break
        candidates = [i for i in self._beds() if not self._closed(i)]
        holders = sorted(
            (stay.until, stay.wave, self.room.beds[index].name)
            for index in candidates
            for stay in self.room.stays[index]
            if stay.first <= self.day < stay.until
        )
        first = self._first_day(candidates)
        verdict = None
        if first is not None:
            promises = [self._promise(first, ground) for ground in self._grounds()]
            _, verdict = max(promises, key=lambda promise: promise[0])
        return Blocked(
            free,
            tuple((wave, bed, date.fromordinal(until)) for until, wave, bed in holders[:3]),
            first,
            verdict,
            closed,
        )

    def _closed(self, index: int) -> bool:
        return not self.entry.beds_named and self._rotation(index) is not None

    def _grounds(self) -> list[float]:
        return [*self.safe, *self.others]

    def _first_day(self, candidates: list[int]) -> date | None:
        """The first later day on which something leaves that leaves enough room."""
        length = self._best().stages.pull_out.day.toordinal() - self.day
        together = sum if self.entry.split else max
        kept = [index for index in candidates if self.room.beds[index].taken]
        plants = {index: self.room.free(index) // self.crop.area_per_plant for index in candidates}
        leaving = sorted((day, index) for index in candidates for day in self._leaving(index))
        for day, changes in groupby(leaving, key=itemgetter(0)):
            for index in (*kept, *(index for _, index in changes)):
                free = self.room.free_over(index, first=day, until=day + length)
                plants[index] = free // self.crop.area_per_plant
            if together(plants.values()) >= self.entry.plants:
                return date.fromordinal(day)
        return None

    def _leaving(self, index: int) -> set[int]:
        """Days from today on on which a wave leaves a bed or the grower gives it back."""
        waves = {stay.until for stay in self.room.stays[index] if stay.first <= self.day}
        spans = {span.last.toordinal() + 1 for span in self.room.beds[index].taken}
        return {day for day in waves | spans if day > self.day}
