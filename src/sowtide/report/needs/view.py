"""Seed, seedlings, trays and materials that are still to be got, and by when."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

from sowtide.garden.drawer import InDrawer
from sowtide.report.kinds import Quantity, Unsaid
from sowtide.report.kit.setting import Setting, setting_of
from sowtide.schedule.needs import (
    SeedlingNeed,
    SeedNeed,
    ThingNeed,
    care_needs,
    seed_needs,
    thing_needs,
    to_sow,
    tray_needs,
)
from sowtide.schedule.season import Season
from sowtide.units import Units, area_in, length_in
from sowtide.values import value

COLUMNS = (
    *("kind", "what", "amount", "unit", "have", "missing", "grams"),
    *("order_by", "from", "for"),
)
"""Of all needs as one table."""


@value
class SeedToGet:
    """Seed of a crop, or what else is sown of it; `grams` are of what is missing."""

    crop: str
    sown_as: str
    count: int
    have: int
    missing: int
    grams: Quantity | None
    sow: date
    order_by: date
    waves: tuple[str, ...]


@value
class SeedlingsToRaise:
    """Seedlings of a wave, to be raised, or to be bought where it is too late for that."""

    wave: str
    crop: str
    cells: int
    trays: int
    buy: bool
    sow: date
    plant: date
    order_by: date | None


@value
class ThingToGet:
    """Stakes, nets and the like, as much as is in use at once."""

    thing: str
    amount: Quantity
    unit: str
    from_: date
    crops: tuple[str, ...]


@value
class CareToGet:
    """What a routine of care takes up to the last day; `amount` is None where nobody said."""

    routine: str
    times: int
    amount: str | None
    mix: str | None


@value
class NeedsView:
    """What ``needs`` says."""

    season: int
    today: date
    until: date
    spare: Quantity
    seeds: tuple[SeedToGet, ...]
    seedlings: tuple[SeedlingsToRaise, ...]
    trays_at_once: int
    trays_on: date | None
    tray_cells: int
    things: tuple[ThingToGet, ...]
    care: tuple[CareToGet, ...]
    order_weeks: int
    setting: Unsaid[Setting]


def view(season: Season, until: date | None = None, drawer: Sequence[InDrawer] = ()) -> NeedsView:
    """Return what is still to be got.

    Parameters
    ----------
    season
        The season.
    until
        The last sowing day that is looked at; None for all of them.
    drawer
        What there is already.
    """
    garden = season.garden
    last = until or max((wave.stages.sow.day for wave in season.waves), default=season.today)
    waves, site = to_sow(season, last), garden.site
    trays = tray_needs(season, waves)
    bought = {each.wave.id for each in trays.seedlings if each.buy}
    sown = [wave for wave in waves if wave.id not in bought]
    return NeedsView(
        season=garden.year.season,
        today=season.today,
        until=last,
        spare=site.spare,
        seeds=tuple(map(_seed, seed_needs(season, sown, drawer))),
        seedlings=tuple(map(_seedlings, trays.seedlings)),
        trays_at_once=trays.at_once,
        trays_on=trays.on,
        tray_cells=site.tray_cells,
        things=tuple(_thing(each, site.units) for each in thing_needs(waves)),
        care=tuple(
            CareToGet(
                each.routine.name,
                each.rounds,
                None if each.taken.amount is None else str(each.taken.amount),
                None if each.taken.mix is None else str(each.taken.mix),
            )
            for each in care_needs(season, last)
        ),
        order_weeks=site.order_weeks,
        setting=setting_of(garden, season.today),
    )


def _seed(of: SeedNeed) -> SeedToGet:
    return SeedToGet(
        crop=of.crop.title,
        sown_as=of.crop.sown_as,
        count=of.count,
        have=of.have,
        missing=of.missing,
        grams=of.grams,
        sow=of.first,
        order_by=of.order_by,
        waves=of.waves,
    )


def _seedlings(of: SeedlingNeed) -> SeedlingsToRaise:
    stages = of.wave.stages
    return SeedlingsToRaise(
        wave=of.wave.id,
        crop=of.wave.crop.title,
        cells=of.cells,
        trays=of.trays,
        buy=of.buy,
        sow=stages.sow.day,
        plant=stages.plant.day,
        order_by=of.order_by if of.buy else None,
    )


def _thing(of: ThingNeed, units: Units) -> ThingToGet:
    amount, unit = float(of.pieces or 0), "pieces"
    long = units.long_unit
    if of.length is not None:
        amount, unit = length_in(of.length, long), f"{long} of row"
    elif of.area is not None:
        amount, unit = area_in(of.area, long), f"{long}²"
    return ThingToGet(
        thing=of.thing.value, amount=amount, unit=unit, from_=of.first, crops=of.crops
    )


def rows(of: NeedsView) -> Iterator[dict[str, Any]]:
    """Yield everything that is needed as rows of one table."""
    yield from _seed_rows(of)
    yield from _seedling_rows(of)
    for thing in of.things:
        yield {
            "kind": "thing",
            "what": thing.thing,
            "amount": round(thing.amount, 1),
            "unit": thing.unit,
            "from": thing.from_,
            "for": "; ".join(thing.crops),
        }
    for care in of.care:
        yield {"kind": "care", "what": care.routine, "amount": care.mix or care.amount}


def _seed_rows(of: NeedsView) -> Iterator[dict[str, Any]]:
    for seed in of.seeds:
        yield {
            "kind": "seed",
            "what": seed.crop,
            "amount": seed.count,
            "unit": seed.sown_as,
            "have": seed.have,
            "missing": seed.missing,
            "grams": None if seed.grams is None else round(seed.grams, 2),
            "order_by": seed.order_by,
            "from": seed.sow,
            "for": "; ".join(seed.waves),
        }


def _seedling_rows(of: NeedsView) -> Iterator[dict[str, Any]]:
    """Yield the seedlings wave by wave, then the trays that they take at once."""
    for each in of.seedlings:
        yield {
            "kind": "buy seedlings" if each.buy else "raise seedlings",
            "what": each.crop,
            "amount": each.cells,
            "unit": "seedlings" if each.buy else "cells",
            "order_by": each.order_by,
            "from": each.plant if each.buy else each.sow,
            "for": each.wave,
        }
    if of.trays_at_once:
        yield {
            "kind": "trays",
            "what": f"trays of {of.tray_cells} cells",
            "amount": of.trays_at_once,
            "unit": "trays",
            "from": of.trays_on,
        }
