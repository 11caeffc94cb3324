"""The few open beds over which a wave is shared out, found without looking into all of many."""

from __future__ import annotations

from dataclasses import replace
from itertools import islice

from sowtide.schedule.beds.open_beds import OpenBeds, Sought
from sowtide.schedule.stays import row_of

_FEW = 8
"""Over so few beds a wave is shared out without looking into all of them. [1]"""

_MANY = 16
"""Of so few beds all are looked into. [1]"""


def few_beds(open_beds: OpenBeds, sought: Sought, *, least: int, plants: int) -> tuple[int, ...]:
    """Return the fewest open beds that take a wave together, of these the first in order.

    None where as few will not do, or where there are not many to look into.

    Parameters
    ----------
    open_beds, sought
        The beds, and the room that is looked for.
    least, plants
        Plants of the shortest row, and how many there are to place: no bed takes them all. [1]
    """
    if next(islice(open_beds.with_room(sought), _MANY, None), None) is None:
        return ()
    rows = _RowsIn(open_beds, sought, least)
    most = rows.most(plants)
    for count in range(-(-plants // most), _FEW + 1):
        found = rows.together(count, plants, most=most, after=-1)
        if found:
            return found
    return ()


class _RowsIn:
    """Open beds in order, each with room for a row or more."""

    def __init__(self, open_beds: OpenBeds, sought: Sought, least: int) -> None:
        self._open, self._sought, self._least = open_beds, sought, least

    def most(self, too_many: int) -> int:
        """Return the most plants that a bed has room for, fewer than a number. [1]"""
        most = self._least
        while too_many - most > 1:
            tried = (most + too_many) // 2
            found = self._first(tried, after=-1)
            if found is None:
                too_many = tried
            else:
                most = found[1]
        return most

    def together(self, count: int, plants: int, *, most: int, after: int) -> tuple[int, ...]:
        """Return the first so many beds after one that take some plants together, or none.

        Where a bed and others after it do not, then none with less room does. No bed has room for
        more than `most`.
        """
        bed, wanted = after, max(plants - (count - 1) * most, self._least)
        while (found := self._first(wanted, after=bed)) is not None:
            bed, room = found
            if count == 1:
                return (bed,)
            others = self.together(count - 1, plants - room, most=most, after=bed)
            if others:
                return (bed, *others)
            wanted = room + 1
        return ()

    def _first(self, plants: int, *, after: int) -> tuple[int, int] | None:
        """Return the first bed after one with so much room and a row, and its plants."""
        crop = self._sought.crop
        sought = replace(self._sought, area=plants * crop.area_per_plant)
        for index in self._open.with_room(sought, after=after):
            room = self._open.free(sought, index) // crop.area_per_plant
            if room >= row_of(crop, self._open.beds[index]):
                return index, room
        return None
