"""Where plants stand, gaps in series, and what comes free, as pages and programs are told it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import TYPE_CHECKING

from sowtide.report.kinds import SquareMetres, Unsaid
from sowtide.schedule.waves import Gap, Stand
from sowtide.units import SQUARE_METRE, Units, area_in, show_number
from sowtide.values import value

if TYPE_CHECKING:  # only where it is asked what comes free
    from sowtide.schedule.openings import BedOpening, StartNow


@value
class BedPlants:
    """A bed's name, and how many plants of a wave stand in it."""

    bed: str
    plants: int


def bed_plants(stands: Iterable[Stand]) -> tuple[BedPlants, ...]:
    """Return where the plants of a wave stand."""
    return tuple(BedPlants(each.bed.name, each.plants) for each in stands)


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


@value
class SpaceView:
    """A space in a bed: from when, until when, how much it is, and the waves that leave it."""

    bed: str
    from_: date
    until: date | None
    area_m2: SquareMetres
    leaves: tuple[str, ...]
    area: Unsaid[int]


@value
class ForOpening:
    """The bed in which an opening comes, and the day of planting."""

    bed: str
    plant: date


@value
class StartView:
    """What to sow in trays this week, and what for."""

    crop: str
    plants: int
    sow: date
    for_: ForOpening
    title: Unsaid[str]


def space_view(of: BedOpening) -> SpaceView:
    """Return a space."""
    return SpaceView(
        bed=of.bed.name,
        from_=of.first,
        until=of.until,
        area_m2=of.area / SQUARE_METRE,
        leaves=of.leaves,
        area=of.area,
    )


def start_view(of: StartNow) -> StartView:
    """Return what to sow in trays for an opening."""
    offer = of.offer
    return StartView(
        crop=offer.crop.name,
        plants=offer.plants,
        sow=offer.sow,
        for_=ForOpening(of.opening.bed.name, offer.judged.stages.plant.day),
        title=offer.crop.title,
    )


def area_of(area: int, units: Units) -> str:
    """Say an area in square feet or square metres: ``8 ft²``."""
    return f"{show_number(area_in(area, units.long_unit))} {units.long_unit}²"
