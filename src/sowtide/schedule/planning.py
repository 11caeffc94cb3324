"""From a garden and its year to a season: every entry dated, placed, and looked at for problems."""

from __future__ import annotations

from datetime import date
from itertools import repeat

from sowtide.garden.model import Garden
from sowtide.progress import Progress, unwatched
from sowtide.schedule.beds import Placed, place_all
from sowtide.schedule.checks import Grown, Plan, problems_of
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Conditions, Gap, Series, Status, Wave
from sowtide.schedule.work import lookout_of


def planned(
    garden: Garden,
    conditions: Conditions,
    today: date,
    *,
    progress: Progress = unwatched,
) -> Season:
    """Date and place everything a garden asks for; `today` moves no date."""
    series = tuple(Series(entry, conditions) for entry in garden.entries)
    room, placed = place_all(series, garden.beds, conditions, progress=progress)
    gaps: list[Gap] = []
    waves: list[Wave] = []
    for each, of_series in zip(series, placed, strict=True):
        gaps += each.gaps
        following = (*of_series[1:], None)
        waves += map(_wave, of_series, following, repeat(today))
    lookouts = tuple(lookout_of(watch, conditions.climate) for watch in garden.watches)
    entries = tuple(map(Grown, series, placed))
    return Season(
        garden=garden,
        conditions=conditions,
        room=room,
        today=today,
        waves=tuple(waves),
        gaps=tuple(gaps),
        problems=problems_of(Plan(garden, conditions, today, entries, lookouts)),
        lookouts=lookouts,
    )


def _wave(placed: Placed, following: Placed | None, today: date) -> Wave:
    planting = placed.planting
    next_planting = None if following is None else following.planting.planted.day
    if not placed.places:
        status = Status.NO_ROOM
    elif planting.planted.day < today:
        status = Status.PAST
    else:
        status = Status.PLANNED
    return Wave(
        planting.id,
        planting.entry,
        planting.number,
        placed.judged,
        placed.places,
        placed.bed_free,
        status,
        next_planting,
        placed.blocked,
        placed.overlap,
    )
