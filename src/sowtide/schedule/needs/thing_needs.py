"""Stakes, trellis, nets and the like that the chores of the crops ask for, and what care takes."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from enum import Enum
from typing import TYPE_CHECKING

from sowtide.garden import library
from sowtide.garden.crop import Crop
from sowtide.grouping import grouped
from sowtide.schedule.needs.ordering import last_day_to_order
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Wave
from sowtide.values import value

if TYPE_CHECKING:  # only where a garden has care
    from sowtide.schedule.care import CareTotal


class Thing(Enum):
    """What stands in the beds beside the plants."""

    STAKES = "stakes or cages"
    CLIMBING = "poles, netting or trellis to climb"
    STRING = "string"
    NET = "net or row cover"
    STRAW = "straw"


_BY_WORD = {
    "stake": Thing.STAKES,
    "cage": Thing.STAKES,
    "trellis": Thing.CLIMBING,
    "poles": Thing.CLIMBING,
    "net or brush": Thing.CLIMBING,
    "string round": Thing.STRING,
    "a net over": Thing.NET,
    "net against": Thing.NET,
    "fine net": Thing.NET,
    "row cover": Thing.NET,
    "straw": Thing.STRAW,
}


class CountedBy(Enum):
    """What a thing is counted by."""

    PIECES = "pieces"
    """One for each plant. [1]"""
    LENGTH = "length"
    """Of row that it stands along. [µm]"""
    AREA = "area"
    """Of bed that it covers. [µm²]"""


_COUNTED_BY = {
    Thing.STAKES: CountedBy.PIECES,
    Thing.CLIMBING: CountedBy.LENGTH,
    Thing.STRING: CountedBy.LENGTH,
    Thing.NET: CountedBy.AREA,
    Thing.STRAW: CountedBy.AREA,
}


@value
class ThingNeed:
    """What the chores of some waves ask for, as much as is in use at once."""

    thing: Thing
    """What."""
    counted_by: CountedBy
    """What its amounts count."""
    amount: int
    """As much as is in use at once. [1, µm, µm²]"""
    first: date
    """The day it is first wanted."""
    order_by: date
    """The last day to order it."""
    by_crop: tuple[tuple[str, int], ...]
    """The crops that it is for, with what each alone has in use at once. [1, µm, µm²]"""


@value
class CareNeed:
    """What a routine of care takes, and by when."""

    total: CareTotal
    """How much of it."""
    first: date
    """The first day of it."""
    order_by: date | None
    """The last day to order it; None for water."""


def thing_needs(season: Season, waves: Iterable[Wave]) -> tuple[ThingNeed, ...]:
    """Return what the chores of some waves ask for, each thing as often as it is used at once."""
    users: dict[Thing, list[Wave]] = {}
    for wave in waves:
        for thing in things_of(wave.crop):
            users.setdefault(thing, []).append(wave)
    return tuple(_need(season, thing, users[thing]) for thing in Thing if thing in users)


def things_of(crop: Crop) -> tuple[Thing, ...]:
    """Return what the chores of a crop ask for."""
    try:
        rows = library.rows(crop.kind)
    except KeyError:
        return ()
    chores = [row.value for row in rows if row.field == "chore"]
    found = {thing for word, thing in _BY_WORD.items() if any(word in chore for chore in chores)}
    return tuple(thing for thing in Thing if thing in found)


def care_needs(season: Season, until: date) -> tuple[CareNeed, ...]:
    """Return what the care of a season takes from today up to a day, a total for each routine.

    Looking, thinning and the like take nothing, unless the grower wrote an amount.
    """
    if season.care is None:
        return ()
    from sowtide.schedule.care import totals_of

    rounds = season.care.rounds(season.today, until)
    taking = [each for each in rounds if each.routine.work.uses_up or each.routine.amount]
    first: dict[str, date] = {}
    for each in taking:
        first.setdefault(each.routine.key, each.day)  # they come in order of day
    return tuple(
        _care_need(season, total, first[total.routine.key])
        for total in totals_of(taking, season.care, season.garden.site.units, season.today)
    )


def _care_need(season: Season, total: CareTotal, first: date) -> CareNeed:
    from sowtide.garden.care import Work

    comes = total.routine.work is not Work.WATER
    return CareNeed(total, first, last_day_to_order(season, first) if comes else None)


def _need(season: Season, thing: Thing, waves: list[Wave]) -> ThingNeed:
    first = min(each.stages.plant.day for each in waves)
    of_crop = grouped(waves, lambda wave: wave.crop.title)
    return ThingNeed(
        thing=thing,
        counted_by=_COUNTED_BY[thing],
        amount=_most_at_once(thing, waves),
        first=first,
        order_by=last_day_to_order(season, first),
        by_crop=tuple((title, _most_at_once(thing, of)) for title, of in of_crop.items()),
    )


def _most_at_once(thing: Thing, waves: list[Wave]) -> int:
    measures = {each.id: _measure(thing, each) for each in waves}
    return max(
        sum(measures[other.id] for other in waves if other.stands_on(each.stages.plant.day))
        for each in waves
    )


def _measure(thing: Thing, wave: Wave) -> int:
    row = wave.plants * wave.crop.in_row
    match _COUNTED_BY[thing]:
        case CountedBy.PIECES:
            return wave.plants
        case CountedBy.LENGTH:
            return 2 * row if thing is Thing.STRING else row  # string goes round the row
        case CountedBy.AREA:
            return wave.plants * wave.crop.area_per_plant
