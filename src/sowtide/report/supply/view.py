"""What each crop brings in week by week beside what is wanted, the gaps and the gluts."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date
from typing import Any

from sowtide.climate.basis import Basis
from sowtide.days import iso_week, week_start
from sowtide.garden.want import Met
from sowtide.report.kinds import Quantity, Share, Unsaid
from sowtide.report.kit.setting import Setting, setting_of
from sowtide.schedule.learning import OwnYields
from sowtide.schedule.season import Season
from sowtide.schedule.supply import (
    Converted,
    CropSupply,
    Glut,
    Shortage,
    WeekSupply,
    Why,
    gluts_of,
    shortages_of,
    supply_of,
    without_yield,
)
from sowtide.units import Units, unit_told
from sowtide.values import value

COLUMNS = ("crop", "unit", "week", "low", "expected", "high", "want", "odds", "got")
"""Of the weeks of all crops as one table."""


@value
class SupplyWeek:
    """A week: what is expected of a crop, from a poor to a good year, and what is wanted of it."""

    week: str
    low: Quantity
    expected: Quantity
    high: Quantity
    want: Quantity | None
    odds: Share | None
    got: Quantity | None
    monday: Unsaid[date]
    met: Unsaid[Met | None]


@value
class SupplyGap:
    """Weeks with less than half of what is wanted, why, and the waves whose fault it is.

    `days_late` is how late their seedlings are, where that is why. [days]
    """

    from_: date
    to: date
    want: Quantity
    expected: Quantity
    why: Why
    waves: tuple[str, ...]
    days_late: int | None


@value
class SupplyGlut:
    """Weeks with more than twice what is wanted, and how many waves are picked in them at once."""

    from_: date
    to: date
    want: Quantity
    expected: Quantity
    waves: int


@value
class PlantYield:
    """What a plant gives, where that is from, and how it was worked out."""

    low: Quantity
    high: Quantity
    source: str | None
    how: str


@value
class SupplyConverted:
    """A unit in which some of a crop is wanted, and what one counts for in the crop's own."""

    unit: str
    amount: Quantity


@value
class SupplyCrop:
    """A crop: its weeks, gaps and gluts, in one unit, and other units that it is wanted in."""

    crop: str
    unit: str
    weeks: tuple[SupplyWeek, ...]
    gaps: tuple[SupplyGap, ...]
    gluts: tuple[SupplyGlut, ...]
    weeks_unmet: Quantity
    yield_per_plant: PlantYield
    converted: tuple[SupplyConverted, ...]
    is_wanted: Unsaid[bool]


@value
class SupplyView:
    """What ``supply`` says; `in_full` where a crop was asked for."""

    season: int
    basis: Basis
    crops: tuple[SupplyCrop, ...]
    without_yield: tuple[str, ...]
    """Crops that are grown, and nobody knows what a plant of them gives."""
    in_full: Unsaid[bool]
    this_week: Unsaid[date]
    setting: Unsaid[Setting]


def view(
    season: Season, own: OwnYields | None = None, crops: Collection[str] | None = None
) -> SupplyView:
    """Return what each crop brings in.

    Parameters
    ----------
    season
        The season.
    own
        What the grower's own pickings tell of yields, or None.
    crops
        Names of the crops to say everything of; None: all of them in short.
    """
    told = supply_of(season, own)
    supplies = [each for each in told if crops is None or each.crop.name in crops]
    units = season.garden.site.units
    return SupplyView(
        season=season.garden.year.season,
        basis=season.climate.basis,
        crops=tuple(_crop(each, season, units) for each in supplies),
        without_yield=tuple(
            name for name in without_yield(season, told) if crops is None or name in crops
        ),
        in_full=crops is not None,
        this_week=week_start(season.today, starts=0),
        setting=setting_of(season.garden, season.today),
    )


def _crop(of: CropSupply, season: Season, units: Units) -> SupplyCrop:
    asked = of.asked
    unit, factor = unit_told(asked.unit, units)
    return SupplyCrop(
        crop=of.crop.name,
        unit=unit,
        weeks=tuple(_week(each, factor) for each in of.weeks),
        gaps=tuple(gap_told(each, factor) for each in shortages_of(season, of)),
        gluts=tuple(_glut(each, factor) for each in gluts_of(of)),
        weeks_unmet=of.unmet,
        yield_per_plant=PlantYield(
            asked.gives.low * factor,
            asked.gives.high * factor,
            asked.gives_from.source or asked.gives_from.file,
            asked.how,
        ),
        converted=tuple(_converted(each, units, factor) for each in asked.converted),
        is_wanted=bool(asked.wants),
    )


def _converted(of: Converted, units: Units, factor: float) -> SupplyConverted:
    unit, per_one = unit_told(of.unit, units)
    return SupplyConverted(unit, of.amount * factor / per_one)


def _week(of: WeekSupply, factor: float) -> SupplyWeek:
    return SupplyWeek(
        week=iso_week(of.week),
        low=of.low * factor,
        expected=of.expected * factor,
        high=of.high * factor,
        want=None if of.want is None else of.want * factor,
        odds=of.odds,
        got=None if of.got is None else of.got * factor,
        monday=of.week,
        met=of.met,
    )


def gap_told(of: Shortage, factor: float) -> SupplyGap:
    """Return a gap as it is said, in the crop's unit that is so many times as much. [1]"""
    return SupplyGap(
        from_=of.days.first,
        to=of.days.last,
        want=of.wanted * factor,
        expected=of.expected * factor,
        why=of.why,
        waves=of.waves,
        days_late=of.days_late,
    )


def _glut(of: Glut, factor: float) -> SupplyGlut:
    return SupplyGlut(
        from_=of.days.first,
        to=of.days.last,
        want=of.wanted * factor,
        expected=of.expected * factor,
        waves=of.waves,
    )


def rows(of: SupplyView) -> Iterator[dict[str, Any]]:
    """Yield the weeks of all crops."""
    from sowtide.report.formats.json import encoded

    for crop in of.crops:
        for week in crop.weeks:
            yield {"crop": crop.crop, "unit": crop.unit, **encoded(week)}
