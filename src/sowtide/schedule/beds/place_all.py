"""Waves into beds, in order of planting day: what is planted in August never moves May."""

from __future__ import annotations

from datetime import date
from heapq import heappop, heappush

from sowtide.garden.model import Bed
from sowtide.progress import Progress, unwatched
from sowtide.reasons import Dated
from sowtide.schedule.beds.blocked import Blocking
from sowtide.schedule.beds.overlapping import Between
from sowtide.schedule.beds.placing import Placing, bed_free
from sowtide.schedule.beds.room import Room
from sowtide.schedule.waves import Blocked, Conditions, Judged, Overlap, Planting, Series, Stand
from sowtide.values import value


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
    overlap
        The wave between whose plants it is set, or None.
    """

    planting: Planting
    judged: Judged
    places: tuple[Stand, ...]
    bed_free: Dated | None
    warnings: tuple[tuple[str, str], ...]
    blocked: Blocked | None
    overlap: Overlap | None = None


def place_all(
    series: tuple[Series, ...],
    beds: tuple[Bed, ...],
    conditions: Conditions,
    *,
    progress: Progress = unwatched,
) -> tuple[Room, tuple[tuple[Placed, ...], ...]]:
    """Stand the plantings of all series in order of planting day, then of the file.

    A planting that finds no room and may be moved is tried again on each following day, in its
    turn on that day; so it never takes the room of one that is planted before it. The progress is
    told in days from the first planting to the end of the growing year.

    Returns
    -------
    tuple
        The beds as they filled up, and for each series its plantings in order.
    """
    room = Room(beds)
    placed: tuple[list[Placed | Planting], ...] = tuple([] for _ in series)
    waiting: list[tuple[int, int, int, Planting]] = []
    for index, each in enumerate(series):
        first = each.first()
        if first is not None:
            heappush(waiting, (first.planted.day.toordinal(), index, 0, first))
    begun = waiting[0][0] if waiting else 0
    end = conditions.year.last.toordinal()
    while waiting:
        day, index, moved, planting = heappop(waiting)
        room.advance(day)
        progress(day - begun, max(day, end) - begun)
        asked = planting.moved(moved) if moved else planting
        latest = planting.latest.toordinal()
        placing = Placing(asked, room, conditions, only_safe=moved > 0)
        chosen = placing.choose() if day <= latest else []
        inside = placing.choose_between() if not chosen and day <= latest else None
        if inside is not None:
            placed[index].append(_placed_between(placing, inside))
            chosen = [(inside.index, asked.entry.plants)]
        elif not chosen and day < latest:
            heappush(waiting, (day + 1, index, moved + 1, planting))
            continue
        else:
            placed[index].append(_placed(placing, chosen) if chosen else planting)
        following = series[index].after(asked if chosen else planting)
        if following is not None:
            due = following.planted.day.toordinal()
            # On the days gone by the same was looked for in vain.
            late = max(day - due, 0)
            heappush(waiting, (due + late, index, late, following))
    blocking = Blocking(room, conditions, order=tuple(each.entry.name for each in series))
    return room, tuple(
        tuple(
            _without_room(each, blocking) if isinstance(each, Planting) else each
            for each in of_series
        )
        for of_series in placed
    )


def _placed(placing: Placing, chosen: list[tuple[int, int]]) -> Placed:
    warnings = placing.warnings(chosen)
    judged, places = placing.take(chosen)
    free = bed_free(judged, places)
    return Placed(placing.planting, judged, places, free, warnings, None)


def _placed_between(placing: Placing, found: Between) -> Placed:
    warnings = placing.warnings([(found.index, placing.entry.plants)])
    judged, places = placing.take_between(found)
    free = bed_free(judged, places)
    among = Overlap(found.wave, date.fromordinal(found.until))
    return Placed(placing.planting, judged, places, free, warnings, None, among)


def _without_room(planting: Planting, blocking: Blocking) -> Placed:
    judged, blocked = blocking.of(planting)
    return Placed(planting, judged, (), None, (), blocked)
