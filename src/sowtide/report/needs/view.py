"""Seed, seedlings, trays and materials that are still to be got, and by when."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from math import ceil
from typing import Any

from sowtide.garden.drawer import InDrawer
from sowtide.report.kinds import AmountView, Quantity, Share, Unsaid
from sowtide.report.kit.setting import Setting, setting_of
from sowtide.schedule.needs import (
    CareNeed,
    CountedBy,
    SeedlingNeed,
    SeedNeed,
    ThingNeed,
    care_needs,
    seed_needs,
    seeds_per_gram,
    thing_needs,
    to_sow,
    tray_needs,
    without_room,
)
from sowtide.schedule.season import Season
from sowtide.units import Units, area_in, length_in
from sowtide.values import value

_LITTLE = 1e-6
"""So much more than a whole number is none: what division leaves of it. [1]"""

COLUMNS = (
    *("kind", "what", "amount", "unit", "have", "missing", "grams"),
    *("order_by", "from", "for", "plants", "germination"),
)
"""Of all needs as one table."""


@value
class SeedToGet:
    """Seed of a crop, or what else is sown of it; `grams` are of what is missing."""

    crop: str
    sown_as: str
    plants: int
    germination: Share
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
class CropThing:
    """How much of a thing a crop alone has in use at once, in the thing's unit."""

    crop: str
    amount: Quantity


@value
class ThingToGet:
    """Stakes, nets and the like, as much as is in use at once."""

    thing: str
    amount: Quantity
    unit: str
    from_: date
    order_by: date
    crops: tuple[str, ...]
    by_crop: tuple[CropThing, ...]


@value
class CareToGet:
    """What a routine of care takes up to the last day; `amount` is None where nobody said."""

    routine: str
    times: int
    amount: str | None
    mix: str | None
    get: AmountView | None
    """What is to be got of it: of a mix what is measured into the water."""
    weight: str | None
    from_: date
    order_by: date | None


@value
class NeedsView:
    """What ``needs`` says."""

    season: int
    today: date
    until: date
    care_until: date
    spare: Quantity
    seeds: tuple[SeedToGet, ...]
    seedlings: tuple[SeedlingsToRaise, ...]
    trays_at_once: int
    trays_on: date | None
    trays_order_by: date | None
    tray_cells: int
    things: tuple[ThingToGet, ...]
    care: tuple[CareToGet, ...]
    order_weeks: int
    no_room: tuple[str, ...]
    """Waves to be sown that have no room: nothing is reckoned for them."""
    to_nothing: tuple[str, ...]
    """Waves to be sown that are not expected ever to be picked: they are reckoned all the same."""
    not_taken_off: tuple[str, ...]
    """Crops whose seed is weighed in the drawer, and nobody knows how many seeds that is."""
    setting: Unsaid[Setting]


def view(season: Season, until: date | None = None, drawer: Sequence[InDrawer] = ()) -> NeedsView:
    """Return what is still to be got.

    Parameters
    ----------
    season
        The season.
    until
        The last sowing day that is looked at, and the last day of care; None for all of them.
    drawer
        What there is already.
    """
    garden = season.garden
    last = until or max((season.today, *(wave.stages.sow.day for wave in season.waves)))
    care_until = until or max((last, *(wave.stages.pull_out.day for wave in season.waves)))
    waves, site = to_sow(season, last), garden.site
    trays = tray_needs(season, waves)
    bought = {each.wave.id for each in trays.seedlings if each.buy}
    sown = [wave for wave in waves if wave.id not in bought]
    seeds = seed_needs(season, sown, drawer)
    weighed = {name for each in drawer if each.grams is not None for name in each.crops}
    return NeedsView(
        season=garden.year.season,
        today=season.today,
        until=last,
        care_until=care_until,
        spare=site.spare,
        seeds=tuple(map(_seed, seeds)),
        seedlings=tuple(map(_seedlings, trays.seedlings)),
        trays_at_once=trays.at_once,
        trays_on=trays.on,
        trays_order_by=trays.order_by,
        tray_cells=site.tray_cells,
        things=tuple(_thing(each, site.units) for each in thing_needs(season, waves)),
        care=tuple(map(_care, care_needs(season, care_until))),
        order_weeks=site.order_weeks,
        no_room=tuple(wave.id for wave in without_room(season, last)),
        to_nothing=tuple(wave.id for wave in waves if wave.stages.first_pick is None),
        not_taken_off=tuple(
            each.crop.title
            for each in seeds
            if each.crop.name in weighed and seeds_per_gram(each.crop) is None
        ),
        setting=setting_of(garden, season.today),
    )


def _seed(of: SeedNeed) -> SeedToGet:
    return SeedToGet(
        crop=of.crop.title,
        sown_as=of.crop.sown_as,
        plants=of.plants,
        germination=of.crop.germination,
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
    return ThingToGet(
        thing=of.thing.value,
        amount=_counted(of.amount, of.counted_by, units),
        unit=_unit(of.counted_by, units),
        from_=of.first,
        order_by=of.order_by,
        crops=tuple(crop for crop, _ in of.by_crop),
        by_crop=tuple(
            CropThing(crop, _counted(amount, of.counted_by, units)) for crop, amount in of.by_crop
        ),
    )


def _counted(amount: int, by: CountedBy, units: Units) -> float:
    match by:
        case CountedBy.PIECES:
            return float(amount)
        case CountedBy.LENGTH:
            return length_in(amount, units.long_unit)
        case CountedBy.AREA:
            return area_in(amount, units.long_unit)


def _unit(by: CountedBy, units: Units) -> str:
    match by:
        case CountedBy.PIECES:
            return "pieces"
        case CountedBy.LENGTH:
            return f"{units.long_unit} of row"
        case CountedBy.AREA:
            return f"{units.long_unit}²"


def _care(of: CareNeed) -> CareToGet:
    taken = of.total.taken
    get = taken.mix or taken.amount
    return CareToGet(
        routine=of.total.routine.name,
        times=of.total.rounds,
        amount=None if taken.amount is None else str(taken.amount),
        mix=None if taken.mix is None else str(taken.mix),
        get=None if get is None else AmountView(float(get.number), get.unit),
        weight=None if taken.weight is None else str(taken.weight),
        from_=of.first,
        order_by=of.order_by,
    )


def rounded_up(number: float) -> int:
    """Return the whole number that is enough: what is short cannot be used.

    Examples
    --------
    >>> rounded_up(2.1), rounded_up(2.0000000001)
    (3, 2)
    """
    return ceil(number - _LITTLE)


def rows(of: NeedsView) -> Iterator[dict[str, Any]]:
    """Yield everything that is needed as rows of one table."""
    from sowtide.report.formats.json import encoded

    for seed in of.seeds:
        named = {"what": seed.crop, "amount": seed.count, "unit": seed.sown_as, "from": seed.sow}
        yield {"kind": "seed", **encoded(seed), **named, "for": "; ".join(seed.waves)}
    yield from _seedling_rows(of)
    for thing in of.things:
        named = {"what": thing.thing, "amount": rounded_up(thing.amount)}
        yield {"kind": "thing", **encoded(thing), **named, "for": "; ".join(thing.crops)}
    for care in of.care:
        amount = {"value": None, "unit": None} if care.get is None else encoded(care.get)
        named = {"what": care.routine, "amount": amount["value"], "unit": amount["unit"]}
        yield {"kind": "care", **encoded(care), **named}


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
            "order_by": of.trays_order_by,
            "from": of.trays_on,
        }
