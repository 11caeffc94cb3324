"""The stages of a wave, counted from its planting day."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from math import ceil

from sowtide.climate.answers import EndedBy, Outlook
from sowtide.climate.soil import Soil
from sowtide.days import DateSpan, DayRange, GrowingYear
from sowtide.garden.crop import Crop, Raised
from sowtide.reasons import OURS, Dated
from sowtide.schedule.sowing import ToSeed, emergence_of
from sowtide.schedule.waves.wave import Stages, Wave
from sowtide.values import value

_WARM_MONTHS = 3

HIGH_SUMMER = timedelta(days=62)
"""July and August, south of the equator January and February: sowtide's own reading."""


@value
class Harvest:
    """The picking of a wave and how it ends."""

    first: tuple[Dated, Dated] | None
    last: Dated | None
    pull_out: Dated
    end: Dated | None
    ended_by: EndedBy


def planted_on(day: date) -> Dated:
    """Begin counting on the planting day that is asked about."""
    return Dated.on(day, "written", "planting day asked about", OURS)


def picking_of(
    planted: Dated,
    crop: Crop,
    outlook: Outlook,
    *,
    year: GrowingYear,
    to_seed: ToSeed | None,
) -> Harvest:
    """Return the picking of a wave that frost or heat may end.

    The last pick is the late end of the picking, but never the day that ends the wave or later;
    nor is the first.
    """
    early, late = outlook.first_pick
    last = picked_out(crop, late, year=year, to_seed=to_seed)
    if outlook.waited:
        waited = min(outlook.waited, (last.day - late.day).days)
        last = last.then(-waited, "fruit-set", "picking days that heat has taken", OURS)
    end = outlook.end
    if end is None or last.day < end.day:
        return ends_with(last, (early, late), end=end, ended_by=EndedBy.PICKED_OUT)
    assert outlook.ended_by is not None
    if early.day < end.day:
        last = end.then(-1, "picking", "nothing is picked on that day", OURS)
        if late.day > last.day:
            before = (last.day - late.day).days
            late = late.then(before, "picking", "what is not ripe by then is not picked", OURS)
        return ends_with(last, (early, late), end=end, ended_by=outlook.ended_by)
    pull_out = end
    if end.day <= planted.day:
        pull_out = planted.then(1, "pull-out", "nothing will come of it", OURS)
    return Harvest(first=None, last=None, pull_out=pull_out, end=end, ended_by=outlook.ended_by)


def in_high_summer(picking: Harvest, year: GrowingYear) -> bool:
    """Whether any of a picking falls into the two months from midsummer on."""
    if picking.first is None or picking.last is None:
        return False
    ends = year.midsummer + HIGH_SUMMER
    return picking.first[0].day < ends and picking.last.day >= year.midsummer


def ends_with(
    last: Dated, first: tuple[Dated, Dated], *, end: Dated | None, ended_by: EndedBy
) -> Harvest:
    """Return the picking from a first to a last pick; its space is free on the day after."""
    pull_out = last.then(1, "pull-out", "the day after the last pick", OURS)
    return Harvest(first=first, last=last, pull_out=pull_out, end=end, ended_by=ended_by)


def picked_out(
    crop: Crop, late: Dated, *, year: GrowingYear, to_seed: ToSeed | None = None
) -> Dated:
    """Return the last pick of a wave that nothing ends early.

    What would be over in the short days of winter stands until it runs to seed.
    """
    last = _lasting(crop, late, year=year)
    if to_seed is None or not to_seed.stands_from(last.day):
        return last
    days = (to_seed.day.day - late.day).days - 1
    text = "over in the short days, it stands until it runs to seed"
    return late.then(days, "to-seed", text, crop.origin("runs_to_seed"))


def _lasting(crop: Crop, late: Dated, *, year: GrowingYear) -> Dated:
    """Return the last pick by its picking days, or by how long it holds."""
    if not crop.cut_once:
        days, origin = crop.picking_days - 1, crop.origin("picking_days")
        return late.then(days, "picking", f"{crop.picking_days} picking days", origin)
    if crop.holding_days is None:
        return late.then(0, "picking", "cut at once", OURS)
    days = _holding(crop.holding_days, late.day, year=year)
    return late.then(days, "picking", "holding days", crop.origin("holding_days"))


def _holding(holding: DayRange, day: date, *, year: GrowingYear) -> int:
    """Days a crop cut once holds from a day on.

    It spoils at the pace of the warm figure in the three warm months, June to August or December to
    February, and at that of the cool one in the others: parsnips of late August stand the winter.
    Both are rules of sowtide's own.
    """
    begins, ends = (12, 3) if year.south else (6, 9)
    if (day.month - begins) % 12 < _WARM_MONTHS:
        pace, then, month = holding.low, holding.high, ends
    else:
        pace, then, month = holding.high, holding.low, begins
    turns = date(day.year + (day.month >= month), month, 1)
    before = (turns - day).days
    if pace <= before:
        return pace
    return before + int(then * (1 - before / pace))


def stages_of(
    planted: Dated, crop: Crop, raised: Raised, picking: Harvest, *, soil: Soil | None
) -> Stages:
    """Return all stages of a wave planted on a day, into a soil if it is sown direct."""
    sow, up, ready, too_old, harden_off = planted, None, None, None, None
    if raised is Raised.TRAYS and crop.nursery_days is not None:
        nursery, origin = crop.nursery_days, crop.origin("nursery_days")
        sow = planted.then(-nursery.low, "stages", "nursery days", origin)
        ready = planted.then(0, "stages", "seedlings ready", origin)
        too_old = sow.then(nursery.high, "stages", "nursery days, too old after", origin)
        harden_off = planted.then(
            -crop.hardening_days, "stages", "hardening off", crop.origin("hardening_days")
        )
    else:
        shows = emergence_of(crop, soil)
        up = planted.then(shows.days, "stages", shows.text, shows.origin)
    flower = None
    if crop.flower_to_pick is not None and picking.first is not None:
        origin = crop.origin("flower_to_pick")
        flower = picking.first[0].then(-crop.flower_to_pick, "stages", "flower to pick", origin)
        if flower.day <= planted.day:
            flower = None
    return Stages(
        sow=sow,
        up=up,
        ready=ready,
        too_old=too_old,
        harden_off=harden_off,
        plant=planted,
        flower=flower,
        first_pick=picking.first,
        last_pick=picking.last,
        pull_out=picking.pull_out,
    )


def picked_in(stages: Stages) -> DateSpan | None:
    """Return the days on which a wave is picked, or would be; None where it comes to nothing."""
    first, last = stages.first_pick, stages.last_pick
    if first is None or last is None or last.day < first[0].day:
        return None
    return DateSpan(first[0].day, last.day)


def picked_spans(wave: Wave) -> Iterator[DateSpan]:
    """Yield the runs of days on which there is something to pick of a wave, in order.

    Heat that has dropped its flowers in half of the years or more parts them.
    """
    picked, gap = picked_in(wave.stages), wave.judged.pick_gap
    if picked is None:
        return
    begin, end = picked.first, picked.last
    if gap is not None and gap.is_usual and begin <= gap.picks.last and gap.picks.first <= end:
        before = gap.picks.first - timedelta(days=1)
        if begin <= before:
            yield DateSpan(begin, before)
        begin = gap.picks.last + timedelta(days=1)
    if begin <= end:
        yield DateSpan(begin, end)


def seeds_of(wave: Wave) -> int:
    """Return what is sown for the plants of a wave and those that stand by. [1]"""
    crop, plants = wave.crop, wave.plants + wave.entry.standby
    return ceil(plants * crop.seeds_per_plant / crop.germination - 1e-9)
