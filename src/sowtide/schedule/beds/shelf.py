"""Beds in a row, each with the day until which it may have room; finds the first that will do.

The days are bounds from above, put right where a search meets them: what is planted lowers them, so
one that is too high costs a look and no more. They rise again only on days that are known when they
are put right: then the bed is looked at again. So each bed is looked into about as often as
something comes into it or leaves it, however many waves ask.
"""

from __future__ import annotations

from collections.abc import Iterable
from heapq import heappop, heappush

from sowtide.schedule.stays import NEVER


class Shelf:
    """Days in a fixed order, as a tree of greatest values.

    Finding the first place and changing one place both take steps in the order of the logarithm of
    the number of places.

    Parameters
    ----------
    count
        The number of places. [1]
    places
        Those that may have room, for ever; all of them if None.
    """

    __slots__ = ("_again", "_greatest", "_size", "day")

    def __init__(self, count: int, places: Iterable[int] | None = None) -> None:
        size = 1
        while size < count:
            size *= 2
        self._size = size
        self._greatest = [-1] * (2 * size)
        self._again: list[tuple[int, int]] = []
        self.day = 0
        """The day that it has come to. [ordinal]"""
        if places is not None:
            for place in places:
                self.put(place, NEVER)
            return
        first, last = size, size + count
        while first:  # level by level up to the root
            self._greatest[first:last] = [NEVER] * (last - first)
            first, last = first // 2, (last + 1) // 2

    def advance(self, day: int) -> None:
        """Come to a day: places to be looked at again by then may have room for ever. [ordinal]"""
        self.day = day
        while self._again and self._again[0][0] <= day:
            self.put(heappop(self._again)[1], NEVER)

    def put(self, place: int, until: int, again: int = NEVER) -> None:
        """Set the day until which a place may have room, and when to look at it again. [ordinal]"""
        greatest = self._greatest
        node = self._size + place
        greatest[node] = until
        node //= 2
        while node:
            left, right = greatest[2 * node], greatest[2 * node + 1]
            most = left if left > right else right
            if greatest[node] == most:
                break
            greatest[node] = most
            node //= 2
        if again < NEVER:
            heappush(self._again, (again, place))

    def following(self, place: int, until: int) -> int | None:
        """Return the first place, from one on, that may have room until a day. [ordinal]"""
        greatest, size = self._greatest, self._size
        node = size + place
        if place >= size:
            return None
        while greatest[node] < until:
            while node & 1:  # a right branch: all before it and itself will not do
                node //= 2
            if not node:
                return None
            node += 1
        while node < size:
            node *= 2
            if greatest[node] < until:
                node += 1
        return node - size
