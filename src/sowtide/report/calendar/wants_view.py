"""What is wanted beside what is expected, week by week, as a calendar shows it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from typing import TYPE_CHECKING

from sowtide.days import iso_week
from sowtide.garden.want import Met
from sowtide.report.kinds import Quantity, Unsaid
from sowtide.schedule.season import Season
from sowtide.units import unit_told
from sowtide.values import value

if TYPE_CHECKING:  # only where something is wanted, and beside a journal
    from sowtide.schedule.learning import OwnYields
    from sowtide.schedule.supply import CropSupply, Glut, Shortage


@value
class WantMet:
    """Weeks with less than half of what is wanted of a crop, or with more than twice of it."""

    crop: str
    unit: str
    from_: date
    to: date
    want: Quantity
    expected: Quantity


@value
class WantedWeek:
    """A week with a want: how much, how much of it is expected, and whether that is enough."""

    week: str
    want: Quantity
    expected: Quantity
    met: Met
    monday: Unsaid[date]


@value
class CropWantedWeeks:
    """The weeks in which a crop is wanted."""

    crop: str
    kind: str
    unit: str
    weeks: tuple[WantedWeek, ...]
    waves: Unsaid[frozenset[str]]
    """The waves that bring it in."""


@value
class WantsMet:
    """What is short and what is too much, those that are over apart, and every week with a want."""

    short_of: tuple[WantMet, ...]
    too_much: tuple[WantMet, ...]
    wanted: tuple[CropWantedWeeks, ...]


def wants_met(season: Season, own: OwnYields | None) -> WantsMet:
    """Return how far wants are met; nothing where nothing is wanted or only a part is shown."""
    if not season.garden.wants or season.only is not None:
        return WantsMet((), (), ())
    from sowtide.schedule.supply import gluts_of, shortages_of, supply_of

    short: list[WantMet] = []
    much: list[WantMet] = []
    wanted: list[CropWantedWeeks] = []
    for supply in supply_of(season, own):
        unit, factor = unit_told(supply.asked.unit, season.garden.site.units)
        name = supply.crop.name
        short += _still(season, name, unit, factor, shortages_of(season, supply))
        much += _still(season, name, unit, factor, gluts_of(supply))
        weeks = tuple(_weeks(supply, factor))
        if weeks:
            wanted.append(
                CropWantedWeeks(
                    crop=name,
                    kind=supply.crop.kind,
                    unit=unit,
                    weeks=weeks,
                    waves=frozenset(wave.id for wave in supply.waves),
                )
            )
    return WantsMet(tuple(short), tuple(much), tuple(wanted))


def _weeks(of: CropSupply, factor: float) -> Iterator[WantedWeek]:
    for each in of.weeks:
        if each.want is not None and each.met is not None:
            yield WantedWeek(
                week=iso_week(each.week),
                want=each.want * factor,
                expected=each.expected * factor,
                met=each.met,
                monday=each.week,
            )


def _still(
    season: Season, crop: str, unit: str, factor: float, found: Iterable[Shortage | Glut]
) -> Iterator[WantMet]:
    """Yield those weeks that are not over."""
    for each in found:
        if each.days.last >= season.today:
            yield WantMet(
                crop=crop,
                unit=unit,
                from_=each.days.first,
                to=each.days.last,
                want=each.wanted * factor,
                expected=each.expected * factor,
            )
