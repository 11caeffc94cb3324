"""Weeks that bring much less or much more than is wanted, as a calendar names them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING

from sowtide.report.kinds import Quantity
from sowtide.schedule.season import Season
from sowtide.units import KILOGRAMS
from sowtide.values import value

if TYPE_CHECKING:  # only where something is wanted
    from sowtide.schedule.supply import Glut, Shortage


@value
class WantMet:
    """Weeks with less than half of what is wanted of a crop, or with more than twice of it."""

    crop: str
    unit: str
    from_: date
    to: date
    want: Quantity
    expected: Quantity


def short_of(season: Season) -> Iterator[WantMet]:
    """Yield the gaps that are not over; nothing where nothing is wanted or only a part is shown."""
    if season.garden.wants and season.only is None:
        from sowtide.schedule.supply import shortages_of, supply_of

        for supply in supply_of(season):
            for gap in shortages_of(season, supply):
                yield from _met(season, supply.crop.name, supply.asked.unit, gap)


def too_much_of(season: Season) -> Iterator[WantMet]:
    """Yield the gluts that are not over, likewise."""
    if season.garden.wants and season.only is None:
        from sowtide.schedule.supply import gluts_of, supply_of

        for supply in supply_of(season):
            for glut in gluts_of(supply):
                yield from _met(season, supply.crop.name, supply.asked.unit, glut)


def _met(season: Season, crop: str, unit: str, weeks: Shortage | Glut) -> Iterator[WantMet]:
    factor = 1.0
    if unit == "kg":
        unit = season.garden.site.units.weight_unit
        factor = float(1 / KILOGRAMS[unit])
    if weeks.days.last >= season.today:
        days = weeks.days
        yield WantMet(
            crop=crop,
            unit=unit,
            from_=days.first,
            to=days.last,
            want=weeks.wanted * factor,
            expected=weeks.expected * factor,
        )
