"""Seedlings to raise or to buy, and how many trays that takes at once."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from math import ceil

from sowtide.schedule.needs.ordering import last_day_to_order
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Wave
from sowtide.values import value

_LITTLE = 1e-9


@value
class SeedlingNeed:
    """Seedlings of a wave."""

    wave: Wave
    cells: int
    """Cells to sow, one for each plant, those that stand by and the spare ones. [1]"""
    trays: int
    """Trays that takes, begun ones counted whole. [1]"""
    buy: bool
    """Whether it is too late to raise them: they are to be bought for the planting day."""
    order_by: date
    """The last day to order them, where they are to be bought."""


@value
class TrayNeeds:
    """Seedlings wave by wave, and the most trays that stand on the bench at once. [1]"""

    seedlings: tuple[SeedlingNeed, ...]
    at_once: int
    on: date | None
    order_by: date | None
    """The last day to order the first of them; None where none is needed."""


def tray_needs(season: Season, waves: Iterable[Wave]) -> TrayNeeds:
    """Return the seedlings for some waves, in order of sowing."""
    found = tuple(_need(season, wave) for wave in waves if wave.from_trays)
    raised = [each for each in found if not each.buy]
    peak, on = 0, None
    for day in sorted({each.wave.stages.sow.day for each in raised}):
        standing = sum(each.trays for each in raised if _is_on_bench(each.wave, day))
        if standing > peak:
            peak, on = standing, day
    first = min((each.wave.stages.sow.day for each in raised), default=None)
    order_by = None if first is None else last_day_to_order(season, first)
    return TrayNeeds(seedlings=found, at_once=peak, on=on, order_by=order_by)


def _need(season: Season, wave: Wave) -> SeedlingNeed:
    site = season.garden.site
    cells = ceil((wave.plants + wave.entry.standby) * (1 + site.spare) - _LITTLE)
    buy = wave.stages.sow.day < season.today
    wanted = wave.stages.plant.day if buy else wave.stages.sow.day
    order_by = last_day_to_order(season, wanted)
    return SeedlingNeed(
        wave=wave, cells=cells, trays=ceil(cells / site.tray_cells), buy=buy, order_by=order_by
    )


def _is_on_bench(wave: Wave, day: date) -> bool:
    return wave.stages.sow.day <= day < wave.stages.plant.day
