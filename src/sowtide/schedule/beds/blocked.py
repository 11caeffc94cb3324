"""Why a wave has no room: who holds it, until when, and where it would have room first."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from sowtide.garden.model import Bed
from sowtide.schedule.beds.opening import Openings
from sowtide.schedule.beds.placing import Placing
from sowtide.schedule.beds.room import Room, Stay
from sowtide.schedule.beds.sharing import row_of
from sowtide.schedule.waves import Blocked, Conditions, Holder, Judged, Kept, Planting

MOST_HOLDERS = 6
"""How many of the waves that hold the space are named; the rest is counted. [1]"""


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
        self._openings = Openings(room, conditions)

    def of(self, planting: Planting) -> tuple[Judged, Blocked]:
        """Judge a planting that found no room, and say what stands in its way."""
        placing = Placing(planting, self._room, self._conditions)
        each, beds = planting.entry.crop.area_per_plant, self._room.beds
        free: list[int] = []
        holders: list[tuple[int, str, str]] = []
        kept: list[Kept] = []
        closed = None
        for index in placing.beds():
            bed = beds[index]
            standing = list(self._standing(placing, index))
            room = max(bed.area - sum(stay.area for stay in standing), 0) // each
            if not planting.beds_named and (words := placing.rotation(index)):
                if room and closed is None:
                    closed = f"{bed.name}: {words}"
                continue
            holders += ((stay.until, stay.wave, bed.name) for stay in standing)
            if placing.is_kept(index):
                kept.append(Kept(bed.name, _kept_until(bed, placing.day)))
            else:
                least = min(row_of(planting.entry.crop, bed), planting.entry.plants)
                free.append(room if room >= least else 0)
        holders.sort()
        opening = self._openings.first(planting, placing.day)
        return placing.best(), Blocked(
            sum(free) if planting.entry.split else max(free, default=0),
            tuple(
                Holder(wave, bed, date.fromordinal(until))
                for until, wave, bed in holders[:MOST_HOLDERS]
            ),
            max(len(holders) - MOST_HOLDERS, 0),
            tuple(kept[:MOST_HOLDERS]),
            closed,
            opening,
        )

    def _standing(self, placing: Placing, index: int) -> Iterator[Stay]:
        """Yield what held a bed when the planting's turn had come."""
        day, turn = placing.day, self._order[placing.entry.name]
        for stay in self._room.stays[index]:
            before = stay.first < day or (stay.first == day and self._order[stay.series] < turn)
            if before and stay.until > day:
                yield stay


def _kept_until(bed: Bed, day: int) -> date:
    """The last day of the next span for which a bed is kept."""
    return min(span.last for span in bed.taken if span.last.toordinal() >= day)
