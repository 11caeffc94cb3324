"""Seed that is still to be sown, crop by crop, and what of it is not in the drawer."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from math import ceil

from sowtide.garden import library
from sowtide.garden.crop import Crop
from sowtide.garden.drawer import InDrawer
from sowtide.grouping import grouped
from sowtide.schedule.needs.ordering import last_day_to_order
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Status, Wave, seeds_of
from sowtide.values import value

_LITTLE = 1e-9


@value
class SeedNeed:
    """Seed of a crop, or what else of it is sown."""

    crop: Crop
    """The crop or variety."""
    plants: int
    """The plants that it is for, those that stand by with them. [1]"""
    count: int
    """How much is to be sown, the spare share with it. [1]"""
    have: int
    """How much of it is in the drawer. [1]"""
    grams: float | None
    """What is missing weighs; None where nobody knows how large its seed is. [g]"""
    first: date
    """The first day it is sown."""
    order_by: date
    """The last day to order what is missing."""
    waves: tuple[str, ...]
    """The waves that are sown with it."""

    @property
    def missing(self) -> int:
        """How much is still to be got. [1]"""
        return max(self.count - self.have, 0)


def to_sow(season: Season, until: date) -> tuple[Wave, ...]:
    """Return the waves that are still to be sown up to a day, in order of that day.

    Without a journal what was to be sown before today counts as sown. With one, what is overdue
    still counts as long as it can be planted on its day: its seedlings have to be bought.
    """
    found = [
        wave
        for wave in season.waves
        if wave.stands and wave.status is Status.PLANNED and wave.stages.sow.day <= until
    ]
    found = [wave for wave in found if wave.done is None or wave.done.sow is None]
    if season.accounts is None or season.accounts.begun is None:
        found = [wave for wave in found if wave.stages.sow.day >= season.today]
    return tuple(sorted(found, key=lambda wave: (wave.stages.sow.day, wave.id)))


def without_room(season: Season, until: date) -> tuple[Wave, ...]:
    """Return the waves to be sown from today up to a day for which nothing is got: no room."""
    found = (wave for wave in season.waves if wave.status is Status.NO_ROOM)
    return tuple(wave for wave in found if season.today <= wave.stages.sow.day <= until)


def seed_needs(
    season: Season, waves: Iterable[Wave], drawer: Sequence[InDrawer]
) -> tuple[SeedNeed, ...]:
    """Return the seed for some waves, what is to be ordered first at the top."""
    of_crop = grouped(waves, lambda wave: wave.crop.title)
    left = {id(each): each for each in drawer}
    found = [_need(season, of, left) for of in of_crop.values()]
    return tuple(sorted(found, key=lambda need: (need.order_by, need.crop.title)))


def _need(season: Season, waves: list[Wave], left: dict[int, InDrawer]) -> SeedNeed:
    site, crop = season.garden.site, waves[0].crop
    count = ceil(sum(seeds_of(wave) for wave in waves) * (1 + site.spare) - _LITTLE)
    per_gram = seeds_per_gram(crop)
    have = 0
    for key, each in tuple(left.items()):
        if crop.name not in each.crops:
            continue
        there = each.count
        if there is None and each.grams is not None and per_gram is not None:
            there = int(each.grams * per_gram)
        if there is not None:
            taken = min(there, count - have)
            have += taken
            left[key] = InDrawer(each.crops, there - taken, None)
    first = min(wave.stages.sow.day for wave in waves)
    return SeedNeed(
        crop=crop,
        plants=sum(wave.plants + wave.entry.standby for wave in waves),
        count=count,
        have=have,
        grams=None if per_gram is None else max(count - have, 0) / per_gram,
        first=first,
        order_by=last_day_to_order(season, first),
        waves=tuple(wave.id for wave in waves),
    )


def seeds_per_gram(crop: Crop) -> float | None:
    """Return how many seeds of a crop weigh a gram, the fewest that are known; None if unknown.

    So too of what else is planted, such as cloves: far fewer than one.
    """
    try:
        found = {row.field: row.value for row in library.rows(crop.kind)}
    except KeyError:
        return None
    if crop.sown_as != found.get("sown_as", "seeds"):
        return None
    if "seed_piece" in found:
        return 1 / float(found["seed_piece"].rpartition("-")[2])
    fewest = found.get("seeds_per_gram") if crop.sown_as == "seeds" else None
    return None if fewest is None else float(fewest.partition("-")[0])
