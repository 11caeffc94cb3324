"""A label for the stake of every wave that is still to stand, in each of its beds."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

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


def view(season: Season) -> LabelsView:
    """Return the labels of all waves that are not over yet, in the order of their planting."""
    waves = sorted(season.waves, key=lambda wave: (wave.stages.plant.day, wave.id))
    standing = (wave for wave in waves if wave.stages.pull_out.day > season.today)
    return LabelsView(
        season=season.garden.year.season,
        labels=tuple(label for wave in standing for label in _labels(wave)),
        setting=setting_of(season.garden, season.today),
    )


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
