"""A label for the stake of every wave that is still to stand, in each of its beds."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

from sowtide.days import week_start
from sowtide.report.kinds import Unsaid
from sowtide.report.kit.setting import Setting, setting_of
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Wave
from sowtide.values import value

COLUMNS = ("wave", "crop", "bed", "plants", "sow", "plant", "first_pick")


@value
class StakeLabel:
    """What stands on a stake: the wave, what it is, where, and its days."""

    wave: str
    crop: str
    bed: str
    plants: int
    sow: date
    plant: date
    first_pick: date | None


@value
class LabelsView:
    """What ``plan --labels`` says."""

    season: int
    labels: tuple[StakeLabel, ...]
    setting: Unsaid[Setting]


def view(season: Season, *, by_bed: bool = False, weeks: int | None = None) -> LabelsView:
    """Return the labels of the waves that are not over yet.

    Parameters
    ----------
    season
        The season.
    by_bed
        Whether they stand in the order of the beds, else in that of planting.
    weeks
        Only those sown or planted out in so many weeks from this one on; of all if left out.
    """
    waves = sorted(season.waves, key=lambda wave: (wave.stages.plant.day, wave.id))
    labels = [
        label
        for wave in waves
        if wave.stages.pull_out.day > season.today
        and (weeks is None or _starts(wave, season, weeks))
        for label in _labels(wave)
    ]
    if by_bed:
        order = {bed.name: number for number, bed in enumerate(season.garden.beds)}
        labels.sort(key=lambda label: order[label.bed])
    return LabelsView(
        season=season.garden.year.season,
        labels=tuple(labels),
        setting=setting_of(season.garden, season.today),
    )


def _starts(wave: Wave, season: Season, weeks: int) -> bool:
    """Return whether a wave is sown or planted out in so many weeks."""
    first = week_start(season.today, starts=season.garden.site.week_starts)
    beyond = first + timedelta(weeks=weeks)
    return any(first <= each.day < beyond for each in (wave.stages.sow, wave.stages.plant))


def _labels(wave: Wave) -> Iterator[StakeLabel]:
    stages = wave.stages
    for stand in wave.stands:
        yield StakeLabel(
            wave=wave.id,
            crop=wave.crop.title,
            bed=stand.bed.name,
            plants=stand.plants,
            sow=stages.sow.day,
            plant=stages.plant.day,
            first_pick=stages.first_pick[0].day if stages.first_pick else None,
        )


def rows(of: LabelsView) -> Iterator[dict[str, Any]]:
    """Yield a row for each label."""
    for each in of.labels:
        yield {name: getattr(each, name) for name in COLUMNS}
