"""Stakes, trellis, nets and the like that the chores of the crops ask for, and what care takes."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from enum import Enum
from typing import TYPE_CHECKING

from sowtide.garden import library
from sowtide.garden.crop import Crop
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


@value
class ThingNeed:
    """What the chores of some waves ask for, as much as is in use at once."""

    thing: Thing
    """What."""
    pieces: int | None
    """One for each plant; None for what is measured. [1]"""
    length: int | None
    """Of row that it stands along; None for what is not. [µm]"""
    area: int | None
    """Of bed that it covers; None for what does not. [µm²]"""
    first: date
    """The day it is first wanted."""
    crops: tuple[str, ...]
    """The crops that it is for."""


def thing_needs(waves: Iterable[Wave]) -> tuple[ThingNeed, ...]:
    """Return what the chores of some waves ask for, each thing as often as it is used at once."""
    users: dict[Thing, list[Wave]] = {}
    for wave in waves:
        for thing in things_of(wave.crop):
            users.setdefault(thing, []).append(wave)
    return tuple(_need(thing, users[thing]) for thing in Thing if thing in users)


def things_of(crop: Crop) -> tuple[Thing, ...]:
    """Return what the chores of a crop ask for."""
    try:
        rows = library.rows(crop.kind)
    except KeyError:
        return ()
    chores = [row.value for row in rows if row.field == "chore"]
    found = {thing for word, thing in _BY_WORD.items() if any(word in chore for chore in chores)}
    return tuple(thing for thing in Thing if thing in found)


def care_needs(season: Season, until: date) -> tuple[CareTotal, ...]:
    """Return what the care of a season takes from today up to a day, a total for each routine.

    Looking, thinning and the like take nothing, unless the grower wrote an amount.
    """
    if season.care is None:
        return ()
    from sowtide.schedule.care import totals_of

    rounds = season.care.rounds(season.today, until)
    taking = (each for each in rounds if each.routine.work.uses_up or each.routine.amount)
    return totals_of(taking, season.care, season.garden.site.units, season.today)


def _need(thing: Thing, waves: list[Wave]) -> ThingNeed:
    measures = {each.id: _measure(thing, each) for each in waves}
    most = max(
        sum(measures[other.id] for other in waves if other.stands_on(each.stages.plant.day))
        for each in waves
    )
    return ThingNeed(
        thing=thing,
        pieces=most if thing is Thing.STAKES else None,
        length=most if thing in (Thing.CLIMBING, Thing.STRING) else None,
        area=most if thing in (Thing.NET, Thing.STRAW) else None,
        first=min(each.stages.plant.day for each in waves),
        crops=tuple(dict.fromkeys(each.crop.title for each in waves)),
    )


def _measure(thing: Thing, wave: Wave) -> int:
    if thing is Thing.STAKES:
        return wave.plants
    row = wave.plants * wave.crop.in_row
    if thing is Thing.STRING:
        return 2 * row  # round the row
    return row if thing is Thing.CLIMBING else wave.plants * wave.crop.area_per_plant
