"""From a garden and its year to a season: every entry dated, placed, and looked at for problems."""

from __future__ import annotations

from datetime import date
from itertools import repeat

from sowtide.diagnostics import Problem, in_file_order
from sowtide.garden.model import Garden
from sowtide.progress import Progress, unwatched
from sowtide.schedule.beds import Placed, place_all
from sowtide.schedule.checks import (
    bolting,
    frost_dates_differ,
    gap_note,
    long_days,
    may_run_to_seed,
    no_wave,
    poor_germination,
    problems_of,
    sets_little_fruit,
    too_many,
    year_over,
)
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Conditions, Gap, Series, Status, Wave
from sowtide.schedule.work import lookout_of, never_due


def planned(
    garden: Garden,
    conditions: Conditions,
    today: date,
    *,
    progress: Progress = unwatched,
) -> Season:
    """Date and place everything a garden asks for; `today` moves no date."""
    climate = conditions.climate
    series = tuple(Series(entry, conditions) for entry in garden.entries)
    room, placed = place_all(series, garden.beds, conditions, progress=progress)
    gaps: list[Gap] = []
    problems: list[Problem] = []
    waves: list[Wave] = []
    for each, of_series in zip(series, placed, strict=True):
        if not of_series:
            problems.append(no_wave(each.entry))
            continue
        if each.cut_short:
            problems.append(too_many(each.entry))
        for one in of_series:
            problems += problems_of(one, conditions)
        problems += bolting(of_series)
        problems += poor_germination(of_series, conditions)
        problems += may_run_to_seed(of_series, conditions)
        problems += long_days(of_series, conditions)
        problems += sets_little_fruit(of_series, conditions)
        problems += (gap_note(gap, of_series[0]) for gap in each.gaps)
        gaps += each.gaps
        following = (*of_series[1:], None)
        waves += map(_wave, of_series, following, repeat(today))
    problems += frost_dates_differ(garden.site, climate)
    problems += year_over(garden.year, today)
    lookouts = tuple(lookout_of(watch, climate) for watch in garden.watches)
    for lookout in lookouts:
        problems += never_due(lookout, garden.site.units)
    return Season(
        garden=garden,
        conditions=conditions,
        room=room,
        today=today,
        waves=tuple(waves),
        gaps=tuple(gaps),
        problems=in_file_order(problems),
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
