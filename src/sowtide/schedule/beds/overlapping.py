"""A wave set in between the last plants of another one, some days before those are pulled out.

Until then it takes a quarter of its area: young plants are small. The area that it takes from then
on must be there when it is planted, for the rest of its stay.
"""

from __future__ import annotations

from sowtide.schedule.stays import Room
from sowtide.values import value

QUARTER = 4
"""A wave takes this part of its area while it stands between others: sowtide's own reading. [1]"""


@value
class Between:
    """A bed in which a wave may stand between others."""

    index: int
    """The bed."""
    wave: str
    """The wave that leaves its space to it; of several the largest."""
    until: int
    """The day that wave is pulled out. [ordinal]"""
    young: int
    """The area that is taken until then. [µm²]"""


def between(room: Room, index: int, *, area: int, day: int, gone: int, days: int) -> Between | None:
    """Return how a wave would stand between others in a bed, or None where it cannot.

    Parameters
    ----------
    room
        The beds, as far as they are filled.
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
    if room.beds[index].rest:
        return None
    for until in room.levels[index].changes(day, min(day + days + 1, gone)):
        if room.free(index, first=day, until=until) < young:
            return None
        leaving = [s for s in room.stays[index] if s.until == until and s.first <= day]
        if leaving and room.free(index, first=until, until=gone) >= area:
            largest = max(leaving, key=lambda s: (s.area, s.wave))
            return Between(index, largest.wave, until, young)
    return None
