"""A wave set in between the last plants of another one, some days before those are pulled out.

Until then it takes a quarter of its area: young plants are small. The area that it takes from then
on must be there when it is planted: what is missing is kept free for it.
"""

from __future__ import annotations

from itertools import groupby
from operator import itemgetter

from sowtide.schedule.beds.room import Room
from sowtide.values import value

QUARTER = 4
"""A wave takes this part of its area while it stands between others: sowtide's own reading. [1]"""


@value
class Between:
    """A bed in which a wave may stand between others.

    Parameters
    ----------
    index
        The bed.
    wave
        The wave that leaves its space to it; of several the largest.
    until
        The day that wave is pulled out. [ordinal]
    young
        The area that is taken until then. [µm²]
    kept
        The area that nothing else may take until then, so that all of it is there on that day, as
        days from which on so much is kept. [ordinal], [µm²]
    """

    index: int
    wave: str
    until: int
    young: int
    kept: tuple[tuple[int, int], ...]


def between(room: Room, index: int, *, area: int, day: int, gone: int, days: int) -> Between | None:
    """Return how a wave would stand between others in a bed, or None where it cannot.

    Parameters
    ----------
    room
        The beds, as they are on the day.
    index
        The bed.
    area
        The area of the wave. [µm²]
    day, gone
        Its planting day and the day it is pulled out. [ordinal]
    days
        How many days before another is pulled out it may be planted. [days]
    """
    young = -(-area // QUARTER)
    if room.free(index) < young or room.beds[index].rest:
        return None
    free = [(day, room.free(index))]
    for time, changes in groupby(room.changes(index), key=itemgetter(0)):
        free.append((time, free[-1][1] + sum(change for _, change in changes)))
    for number, (until, then) in enumerate(free[1:], start=1):
        if until > day + days or until >= gone:
            return None
        leaving = [stay for stay in room.stays[index] if stay.until == until]
        if then < area or not leaving:
            continue
        # Nothing else may take what leaves before: all but what is still to leave is kept.
        kept = tuple((time, max(young, area - (then - there))) for time, there in free[:number])
        largest = max(leaving, key=lambda stay: (stay.area, stay.wave))
        return Between(index, largest.wave, until, young, kept)
    return None
