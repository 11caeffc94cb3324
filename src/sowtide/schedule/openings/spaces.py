"""The spaces of a bed that are free or come free, and how long each lies."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import date

from sowtide.garden.model import Bed
from sowtide.schedule.openings.free_space import BedOpening
from sowtide.schedule.openings.fullness import SHORTEST
from sowtide.schedule.season import Season

_LEAST = 10
"""What is less than one part of so many of its bed is no opening: sowtide's own reading. [1]"""


def openings_of(season: Season, bed: Bed, first: date, end: date) -> Iterator[BedOpening]:
    """Yield the spaces of a bed that are free on a day, or come free after it and before another.

    What is taken again is what came free last; so the spaces share no room, and each lies as long
    as it can.
    """
    index = season.room.number[bed.name]
    changes: dict[int, int] = defaultdict(int)
    leaving: dict[int, list[str]] = defaultdict(list)
    for stay in season.room.stays[index]:
        changes[max(stay.first, first.toordinal())] += stay.area
        changes[max(stay.until, first.toordinal())] -= stay.area
        leaving[stay.until].append(stay.wave)
    for span in bed.taken:
        changes[max(span.first.toordinal(), first.toordinal())] += bed.area
        changes[max(span.last.toordinal() + 1, first.toordinal())] -= bed.area
    changes[first.toordinal()] += 0
    found: dict[tuple[int, int | None], int] = defaultdict(int)
    open_spaces: list[tuple[int, int]] = []
    taken, free = 0, 0
    for day in sorted(changes):
        taken += changes[day]
        now = max(bed.area - taken, 0)
        if now > free:
            open_spaces.append((day, now - free))
        lost, free = max(free - now, 0), now
        while lost:
            since, area = open_spaces.pop()
            found[since, day] += min(area, lost)
            if area > lost:
                open_spaces.append((since, area - lost))
            lost -= min(area, lost)
    for since, area in open_spaces:
        found[since, None] += area
    for (since, until), area in found.items():
        long_enough = until is None or until - since >= SHORTEST
        if since < end.toordinal() and long_enough and area * _LEAST >= bed.area:
            yield BedOpening(
                bed=bed,
                first=date.fromordinal(since),
                until=None if until is None else date.fromordinal(until),
                area=area,
                leaves=tuple(dict.fromkeys(leaving.get(since, ()))),
            )
