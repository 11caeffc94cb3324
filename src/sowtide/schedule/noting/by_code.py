"""Which work of a season a code on a sheet stands for."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import TYPE_CHECKING

from sowtide.days import week_start
from sowtide.garden.model import Garden
from sowtide.schedule.waves import Wave, picked_in
from sowtide.schedule.work import PREPARE_AHEAD, Kind, has_code, jobs_of, part_id, task_id
from sowtide.values import value

if TYPE_CHECKING:  # only where there is care
    from sowtide.schedule.care import CarePlan, Round


@value
class Coded:
    """A piece of work that a code stands for."""

    kind: Kind | None
    due: date
    wave: Wave
    bed: str | None
    """As in a task."""
    care: Round | None = None
    """The care that it is; None for all other work, whose kind says what it is."""


def coded(
    code: str, garden: Garden, waves: tuple[Wave, ...], care: CarePlan | None
) -> tuple[Coded, ...]:
    """Return all the work of a season that a code may stand for, most often one piece."""
    found = []
    for tended in () if care is None else care.rounds(date.min, date.max):
        if has_code(tended.id, code=code):
            wave = tended.plots[0].wave
            found.append(
                Coded(kind=None, due=tended.asked, wave=wave, bed=tended.bed.name, care=tended)
            )
    for wave in waves:
        for each, week in _work(wave, garden):
            if each.kind and has_code(task_id(each.kind, wave, each.bed, week), code=code):
                found.append(each)
    return tuple(found)


def parts_coded(code: str, garden: Garden, waves: tuple[Wave, ...]) -> tuple[Coded, ...]:
    """Return what plants a further part of a wave of which other beds are noted already.

    The plan has no such work any more: what is noted is all that stands, until more is noted.
    """
    found = []
    for wave in waves:
        if not wave.is_planted:
            continue
        kind = Kind.PLANT_OUT if wave.from_trays else Kind.SOW
        noted = {stand.bed.name for stand in wave.stands}
        for bed in garden.beds:
            if bed.name not in noted and has_code(part_id(kind, wave, bed.name), code=code):
                found.append(Coded(kind, wave.stages.plant.day, wave, bed.name))
    return tuple(found)


def _work(wave: Wave, garden: Garden) -> Iterator[tuple[Coded, date]]:
    """Yield the work of a wave, each with the first day of its week."""
    for job in jobs_of(wave, garden.site.units):
        yield Coded(job.kind, job.due, wave, job.bed), job.due
    ahead = wave.stages.plant.day - timedelta(days=PREPARE_AHEAD)
    for place in wave.stands:
        yield Coded(Kind.PREPARE, ahead, wave, place.bed.name), ahead
    picked = picked_in(wave.stages)
    if picked is None:
        return
    week = week_start(picked.first, starts=garden.site.week_starts)
    while week <= picked.last:
        yield Coded(Kind.PICK, max(week, picked.first), wave, None), week
        week += timedelta(days=7)
