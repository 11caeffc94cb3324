"""Of all the beds of a garden the one for a wave that names none.

First where its series stands, then where its family does, then an empty bed, then the first with
room, of each the first in the grower's order: so families keep together, and a bed that is clear is
begun before another is crowded. That is sowtide's own reading of what growers do.

For each of these a shelf knows until which day a bed may have room for so much area, and which beds
rotation closes for good; so a search does not look again and again into beds that will not do.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Callable, Iterator
from enum import IntEnum
from heapq import merge
from operator import itemgetter

from sowtide.garden.crop import Crop
from sowtide.garden.model import Bed
from sowtide.schedule.beds.shelf import Shelf
from sowtide.schedule.stays import NEVER, Closings, Room, family_key
from sowtide.values import value

_KEPT_BITS = 4
"""So many binary digits of an area tell shelves apart. [1]"""


_Found = tuple[int, bool]
"""A bed by its number, and whether it will do or only may."""


class Liking(IntEnum):
    """Why one open bed is taken before another, the best reason first."""

    KIN = 0
    """Its family stands there."""
    EMPTY = 1
    """Nothing stands there."""
    ROOM = 2
    """It has room."""


class PulledOn:
    """The day that a wave would be pulled out, by kinds of ground; worked out where it is asked.

    Parameters
    ----------
    grounds
        Kinds of ground that may come into question.
    work_out
        What gives the day. [ordinal]
    counts
        Whether a kind of ground comes into question; all do if None.
    """

    __slots__ = ("_counts", "_found", "_work_out", "grounds")

    def __init__(
        self,
        grounds: tuple[float, ...],
        work_out: Callable[[float], int],
        counts: Callable[[float], bool] | None = None,
    ) -> None:
        self.grounds, self._work_out, self._counts = grounds, work_out, counts
        self._found: dict[float, int | None] = {}

    def on(self, ground: float) -> int | None:
        """Return the day it is pulled out on a kind of ground, or None where that is no question.

        The day is an ordinal.
        """
        if ground in self._found:
            return self._found[ground]
        asked = ground in self.grounds and (self._counts is None or self._counts(ground))
        found = self._found[ground] = self._work_out(ground) if asked else None
        return found


@value
class Sought:
    """The room that is looked for."""

    crop: Crop
    series: str
    """What is to be planted."""
    area: int
    """[µm²]"""
    day: int
    """The planting day. [ordinal]"""
    ends: PulledOn
    """The day it is pulled out, on the kinds of ground that come into question."""


class OpenBeds:
    """Looks for room in all beds of a garden, for waves in order of planting day."""

    def __init__(self, room: Room, closings: Closings) -> None:
        self._room, self._closings = room, closings
        self._on_ground: dict[float, list[int]] = defaultdict(list)
        self._place: list[int] = []
        for index, ground in enumerate(room.grounds):
            self._place.append(len(self._on_ground[ground]))
            self._on_ground[ground].append(index)
        self._shelves: dict[tuple[object, ...], Shelf] = {}
        self._beside_kin: dict[tuple[float, str], list[Shelf]] = defaultdict(list)
        self.without: set[tuple[object, ...]] = set()
        """What was looked for and not found: the beds only fill up, so that it is not there yet."""

    @property
    def beds(self) -> tuple[Bed, ...]:
        """All beds, in the grower's order."""
        return self._room.beds

    def free(self, sought: Sought, index: int) -> int:
        """Return the area free in a bed over the whole stay that is asked for. [µm²]"""
        pulled = sought.ends.on(self._room.grounds[index])
        return 0 if pulled is None else self._room.free(index, first=sought.day, until=pulled)

    def begin(self) -> None:
        """Begin again with the first planting day of the year."""
        self._shelves.clear()
        self._beside_kin.clear()
        self.without.clear()

    def planted(self, index: int, family: str) -> None:
        """Take note of a family that has come into a bed."""
        for shelf in self._beside_kin.get((self._room.grounds[index], family), ()):
            shelf.put(self._place[index], NEVER)

    def best(self, sought: Sought) -> int | None:
        """Return the bed in which a wave is to stand whole, or None where none has room."""
        beside = next(self._beside_its_series(sought), None)
        if beside is not None:
            return beside
        own = self._closed_to_others(sought)
        found = (self._first_liked(sought, liking, own) for liking in Liking)
        return next((index for index in found if index is not None), None)

    def with_room(self, sought: Sought, *, after: int = -1) -> Iterator[int]:
        """Yield the beds after one that have so much room, in the grower's order."""
        ways = [
            self._searched(sought, Liking.ROOM, ground, after)
            for ground in sought.ends.grounds
            if ground in self._on_ground
        ]
        own = self._closed_to_others(sought)
        if own:
            liked = (i for i in own if i > after and self._is_liked(sought, i, Liking.ROOM))
            ways.append((index, True) for index in liked)
        return (index for index, will_do in merge(*ways) if will_do)

    def _beside_its_series(self, sought: Sought) -> Iterator[int]:
        family = family_key(sought.crop.family)
        for index in sorted(self._room.of_series.get(sought.series, ())):
            stands = any(
                stay.series == sought.series and stay.first <= sought.day < stay.pulled
                for stay in self._room.kin(index, family)
            )
            if stands and self._will_do(sought, index):
                yield index

    def _first_liked(self, sought: Sought, liking: Liking, own: list[int]) -> int | None:
        """Return the first bed that will do for a reason, or None.

        `own` are the beds that rotation closes to all but its own series.
        """
        first = next((index for index in own if self._is_liked(sought, index, liking)), None)
        for may, will_do in sorted(self._ways(sought, liking), key=itemgetter(0)):
            if first is not None and first < may:
                break
            index, _ = next(will_do, (None, True))
            if index is not None and (first is None or index < first):
                first = index
        return first

    def _ways(self, sought: Sought, liking: Liking) -> Iterator[tuple[int, Iterator[_Found]]]:
        """Yield the first bed that may do on each kind of ground, and those there that will."""
        for ground in sought.ends.grounds:
            if ground in self._on_ground:
                way = self._searched(sought, liking, ground, -1)
                may = next(way, None)
                if may is not None:
                    yield may[0], way

    def _searched(
        self, sought: Sought, liking: Liking, ground: float, after: int
    ) -> Iterator[_Found]:
        """Yield the first bed on a kind of ground that may do, then in order those that will do.

        Only after the first it is asked when the wave is pulled out on that ground: another bed may
        have come before it.
        """
        beds, day = self._on_ground[ground], sought.day
        area = _a_little_less(sought.area)
        shelf = self._shelf(ground, liking, area, sought.crop)
        gone_by = day < shelf.day  # it is not known any more until when there is room
        if not gone_by:
            shelf.advance(day)
        place = bisect_right(beds, after)
        first = place if gone_by else shelf.following(place, day)
        if first is None or first == len(beds):
            return
        yield beds[first], False
        until = sought.ends.on(ground)
        if until is None:
            return
        if gone_by:
            yield from ((i, True) for i in beds[first:] if self._is_liked(sought, i, liking))
            return
        following = shelf.following(first, until)
        while following is not None:
            index = beds[following]
            may, again = self._room_until(index, sought, liking, area)
            shelf.put(following, may, again)
            if may >= until and self._will_do(sought, index, known=area == sought.area):
                yield index, True
            following = shelf.following(following + 1, until)

    def _shelf(self, ground: float, liking: Liking, area: int, crop: Crop) -> Shelf:
        tells, family = crop.rotation or self._room.sick, family_key(crop.family)
        closes = (family, crop.rotation) if tells or liking is Liking.KIN else None
        key = (ground, liking, area, closes)
        shelf = self._shelves.get(key)
        if shelf is None:
            count = len(self._on_ground[ground])
            if liking is Liking.KIN:
                kin, grounds = self._room.of_family.get(family, ()), self._room.grounds
                shelf = Shelf(count, (self._place[i] for i in kin if grounds[i] == ground))
                self._beside_kin[ground, family].append(shelf)
            else:
                shelf = Shelf(count)
            self._shelves[key] = shelf
        return shelf

    def _room_until(self, index: int, sought: Sought, liking: Liking, area: int) -> tuple[int, int]:
        """Return until when a bed may have room from a day on, and when to look at it again."""
        room, day = self._room, sought.day
        bed, level = room.beds[index], room.levels[index]
        if self._closings.closed(index, sought.crop, series="", planted=day):
            return -1, NEVER
        if liking is Liking.KIN:
            kin = room.kin(index, family_key(sought.crop.family))
            if not any(stay.first <= day < stay.pulled for stay in kin):
                return -1, min((s.first for s in kin if s.first > day), default=NEVER)
        elif liking is Liking.EMPTY and level.on(day):
            return -1, level.next_above(0, day=day)[1]
        until, again = level.next_above(bed.area - area, day=day)
        until -= bed.rest
        for span in bed.taken:
            if span.last.toordinal() >= day and span.first.toordinal() < until:
                until, again = span.first.toordinal(), span.last.toordinal() + 1
        return until, again

    def _closed_to_others(self, sought: Sought) -> list[int]:
        """Return the beds that rotation closes to all but its own series, in order."""
        beds = self._room.of_series.get(sought.series) if sought.crop.rotation else None
        if not beds:
            return []
        return [
            index
            for index in sorted(beds)
            if self._closings.closed(index, sought.crop, series="", planted=sought.day)
        ]

    def _is_liked(self, sought: Sought, index: int, liking: Liking) -> bool:
        if liking is Liking.KIN:
            kin = self._room.kin(index, family_key(sought.crop.family))
            if not any(stay.first <= sought.day < stay.pulled for stay in kin):
                return False
        elif liking is Liking.EMPTY and self._room.levels[index].on(sought.day):
            return False
        return self._will_do(sought, index)

    def _will_do(self, sought: Sought, index: int, *, known: bool = False) -> bool:
        """Say whether a bed has the room for the whole stay, and rotation does not close it.

        That it has the room may be known already.
        """
        pulled = sought.ends.on(self._room.grounds[index])
        if pulled is None:
            return False
        if not known and self._room.free(index, first=sought.day, until=pulled) < sought.area:
            return False
        return not self._closings.closed(
            index, sought.crop, series=sought.series, planted=sought.day, pulled=pulled
        )


def _a_little_less(area: int) -> int:
    """Return an area rounded down, so that one shelf serves many that are nearly alike. [µm²]"""
    lost = max(area.bit_length() - _KEPT_BITS, 0)
    return area >> lost << lost
