"""Where plants stand, as pages and programs are told it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from sowtide.schedule.waves import Gap, Overlap, Stand
from sowtide.values import value


@value
class BedPlants:
    """A bed's name, and how many plants of a wave stand in it."""

    bed: str
    plants: int


def bed_plants(stands: Iterable[Stand]) -> tuple[BedPlants, ...]:
    """Return where the plants of a wave stand."""
    return tuple(BedPlants(each.bed.name, each.plants) for each in stands)


@value
class SetBetween:
    """The wave between whose plants another is set, and when that one is pulled out."""

    wave: str
    until: date


def set_between(overlap: Overlap | None) -> SetBetween | None:
    """Return between whose plants a wave is set; None where it has a space of its own."""
    return None if overlap is None else SetBetween(overlap.wave, overlap.until)


@value
class SeriesGap:
    """Days on which a series is not planted although it runs on afterwards, and why."""

    series: str
    from_: date
    to: date
    why: str


def series_gaps(gaps: Iterable[Gap]) -> tuple[SeriesGap, ...]:
    """Return the days on which series are not planted."""
    return tuple(SeriesGap(gap.series, gap.first, gap.last, gap.why) for gap in gaps)
