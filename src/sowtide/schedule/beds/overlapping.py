"""A wave set in between the last plants of another one, some days before those are pulled out.

Until then it takes a quarter of its area: young plants are small. The area that it takes from then
on must be there when it is planted: what is missing is kept free for it.
"""

from __future__ import annotations

from bisect import bisect_right
from itertools import accumulate

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
        The area that must be kept free until then, so that all of it is there on that day. [µm²]
    """

    index: int
    wave: str
    until: int
    young: int
    kept: int


def between(room: Room, index: int, *, area: int, day: int, days: int) -> Between | None:
    """Return how a wave would stand between others in a bed, or None where it cannot.

    Parameters
    ----------
    room
        The beds, as they are on the day.
    index
        The bed.
    area
        The area of the wave. [µm²]
    day
        Its planting day. [ordinal]
    days
        How many days before another is pulled out it may be planted. [days]
    """
    free, young = room.free(index), -(-area // QUARTER)
    if free < young or room.beds[index].rest:
        return None
    changes = room.changes(index)
    times = [time for time, _ in changes]
    after = list(accumulate((change for _, change in changes), initial=free))
    for number in range(bisect_right(times, day + days)):
        until = times[number]
        if number and times[number - 1] == until:
            continue
        # All that leaves or comes on one day does so together.
        then = bisect_right(times, until)
        if min(after[then:]) < area:
            continue
        left = after[then] - free
        kept = max(young, area - left)
        if min(after[: number + 1]) < kept:
            continue
        leaving = [stay for stay in room.stays[index] if stay.until == until]
        if not leaving:
            continue
        largest = max(leaving, key=lambda stay: (stay.area, stay.wave))
        return Between(index, largest.wave, until, young, kept)
    return None
