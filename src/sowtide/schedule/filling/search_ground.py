"""The room of the beds as a search fills it: small enough to be copied some thousand times.

What is planted keeps its area from its planting day until it is gone, so room runs out on planting
days alone; only these, and the days on which the file's own waves go in, are looked at.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import combinations

from sowtide.schedule.filling.free_beds import FreeBeds, clashes
from sowtide.schedule.filling.plantings import PlantingOption
from sowtide.schedule.stays import row_of


class SearchGround:
    """The free area of every bed on the days that matter, and what rotation keeps out.

    Parameters
    ----------
    options
        All plantings that are possible, in their order.
    beds
        The beds as the search finds them.
    """

    def __init__(self, options: Sequence[PlantingOption], beds: FreeBeds) -> None:
        self._beds, self._options = beds, options
        room = beds.room
        self._area = [option.area for option in options]
        self._rivals = _rivals(options)
        days = beds.days_short({option.first for option in options})
        self._free = [beds.free_on(index, days) for index in range(len(beds.beds))]
        self._spans = [
            [(bisect_left(days, o.first), bisect_left(days, o.pulled + bed.rest)) for o in options]
            for bed in beds.beds
        ]
        on = {ground: tuple(beds.on_ground(ground)) for ground in {o.ground for o in options}}
        self.places = [
            tuple(index for index in on[option.ground] if room(option, index)) for option in options
        ]
        """The beds that an option may go into."""
        self.every = self.places
        """The same, with beds that are not open yet."""
        self.least: list[int]
        """The fewest plants of each that are worth a wave: a row, or if that is too much all that a
        week wants; at most a bed of them. [1]"""
        self.most: list[int]
        """The most of each that are sown on one day, in whole rows. [1]"""
        self._bound()
        self._barred = [[0] * len(options) for _ in beds.beds]
        self._rooms: list[dict[int, int]] = [{} for _ in beds.beds]
        """What is known of each bed as it stands: plants that go into it, by option."""

    def _bound(self) -> None:
        self.least, self.most = [], []
        for option, (row, widest) in zip(self._options, self._rows(), strict=True):
            self.least.append(min(max(option.least, min(option.whole, row)), widest))
            self.most.append(max(-(-option.most // row) * row, self.least[-1]))

    def _rows(self) -> Iterator[tuple[int, int]]:
        """Yield for each option the plants of a row, and those of a bed of it."""
        beds = self._beds.beds
        for option, places in zip(self._options, self.places, strict=True):
            rows = (row_of(option.crop, beds[index]) for index in places)
            whole = (beds[index].area // option.area for index in places)
            yield min(rows, default=1), max(whole, default=1)

    def within(self, count: int) -> SearchGround:
        """Return the same ground, of which only the first so many beds are open."""
        made = self.copy()
        made.places = [tuple(i for i in each if i < count) for each in self.every]
        made._bound()
        return made

    def copy(self) -> SearchGround:
        """Return the same ground, to be filled by itself; what is known of it is shared."""
        made = object.__new__(SearchGround)
        made._area, made._rivals, made._spans = self._area, self._rivals, self._spans
        made._beds, made._options, made.least = self._beds, self._options, self.least
        made.most = self.most
        made.places, made.every = self.places, self.every
        made._free, made._barred, made._rooms = self._free[:], self._barred[:], self._rooms[:]
        return made

    def room(self, number: int, bed: int) -> int:
        """Return how many plants of an option go into a bed for their whole stay. [1]"""
        known = self._rooms[bed]
        room = known.get(number)
        if room is None:
            if self._barred[bed][number]:
                room = 0
            else:
                first, until = self._spans[bed][number]
                room = min(self._free[bed][first:until]) // self._area[number]
            known[number] = room
        return room

    def differs(self, other: SearchGround, bed: int) -> bool:
        """Say whether a bed is not as it is in another ground."""
        return self._rooms[bed] is not other._rooms[bed]

    def bare(self, number: int, bed: int) -> int:
        """Return how many plants would go into a bed if rotation kept nothing out. [1]"""
        option, made = self._options[number], self._beds.beds[bed]
        if option.ground != made.colder_than_site:
            return 0
        first, until = self._spans[bed][number]
        return min(self._free[bed][first:until]) // self._area[number]

    def best(self, number: int, plants: int) -> tuple[int, int]:
        """Return the bed that so many plants fit into most tightly, else the one with most room."""
        tight, most, bed, widest = 1 << 60, 0, -1, -1
        rooms = self._rooms
        for index in self.places[number]:
            room = rooms[index].get(number)
            if room is None:
                room = self.room(number, index)
            if plants <= room < tight:
                tight, bed = room, index
            if room > most:
                most, widest = room, index
        return (bed, plants) if bed >= 0 else (widest, most)

    def take(self, number: int, bed: int, plants: int) -> None:
        """Let some plants have their area for their whole stay; fewer than none give it back."""
        area = plants * self._area[number]
        first, until = self._spans[bed][number]
        # The lists are shared with copies of this ground: they are replaced, never changed.
        free = self._free[bed] = self._free[bed][:]
        free[first:until] = [each - area for each in free[first:until]]
        self._rooms[bed] = {}

    def stand(self, number: int, bed: int, by: int = 1) -> None:
        """Note for rotation that an option stands in a bed, or, by -1, that it does no more."""
        if not self._rivals[number]:
            return
        barred = self._barred[bed] = self._barred[bed][:]
        for rival in self._rivals[number]:
            barred[rival] += by
        self._rooms[bed] = {}


def _rivals(options: Sequence[PlantingOption]) -> list[list[int]]:
    """Return for each option those that rotation keeps out of its bed."""
    found: list[list[int]] = [[] for _ in options]
    families: dict[str, list[int]] = defaultdict(list)
    for number, option in enumerate(options):
        families[option.family].append(number)
    for kin in families.values():
        for one, other in combinations(kin, 2):
            if clashes(options[one], options[other]):
                found[one].append(other)
                found[other].append(one)
    return found
