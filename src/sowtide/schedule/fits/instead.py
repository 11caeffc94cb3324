"""What would fit where the wave asked for does not."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date
from typing import TypeAlias

from sowtide.days import short_day
from sowtide.garden.crop import Crop, Raised, Sort
from sowtide.reasons import OURS, Dated
from sowtide.schedule.fits.answer import Answer, Instead, Spot, Way
from sowtide.schedule.fits.closing import FreeBed, closing
from sowtide.schedule.season import Season
from sowtide.schedule.waves import SAFE, Conditions, Judged, Verdict, doubt_of, is_lost
from sowtide.units import Units, show_temperature_difference

_COVER = {Units.US: 4 * 5 / 9, Units.METRIC: 2.0}
"""What a medium row cover buys, for the question what it would do. [°C]"""

MOST_QUICKER = 3

_SAFE_WAYS = (Way.WAIT, Way.ANOTHER_BED, Way.EARLY_SORT, Way.QUICKER_CROP)

RoomFor: TypeAlias = Callable[[Crop, Raised, date], Spot | None]
"""The best room for a crop, raised so and planted on a day, or None."""


def what_else(
    season: Season,
    answer: Answer,
    *,
    elsewhere: tuple[Spot, ...],
    room_for: RoomFor,
    free_bed: FreeBed,
    today: date,
) -> Answer:
    """Add to an answer of no what would fit instead, likeliest first within each kind.

    Where no crop would be safe, a cover crop may close the space.

    Parameters
    ----------
    season
        The plan.
    answer
        The answer so far.
    elsewhere
        Room in beds that were not asked about.
    room_for
        The best room for a crop, raised so and planted on a day, in the beds asked about.
    free_bed
        The bed asked about with most room over a stay.
    today
        The first possible day for anything else.
    """
    conditions = season.conditions
    crops = tuple(crop for crop in season.garden.crops if crop.raised is not Raised.TRAYS)
    ways = (
        *_wait(answer, room_for),
        *_another_bed(elsewhere),
        *_plant_out(answer, today, room_for),
        *_sow_direct(answer, conditions, today, room_for),
        *_early_sort(answer, today, room_for),
        *_cover(answer, conditions, room_for),
        *_quicker(answer, crops, conditions, today, room_for),
    )
    if not any(way.what in _SAFE_WAYS for way in ways):
        climate, year = conditions.climate, conditions.year
        ways += tuple(closing(today, climate=climate, year=year, free_bed=free_bed))
    return replace(answer, instead=ways)


def _instead(what: Way, text: str, judged: Judged) -> Instead:
    odds = 1.0 if judged.odds is None else judged.odds
    return Instead(
        what=what, text=text, plant=judged.stages.plant.day, odds=odds, years=judged.years
    )


def _where(spot: Spot) -> str:
    return f"in {spot.bed.name} (room for {spot.plants})"


def _wait(answer: Answer, room_for: RoomFor) -> Iterator[Instead]:
    """A day too early, too hot or without room may have a better one after it."""
    act = "plant it out" if answer.raised is Raised.TRAYS else "sow it"
    days = [window.first for window in answer.windows if window.first > answer.asked_on]
    if answer.verdict in SAFE:
        days = [spot.free_from for spot in answer.spots if spot.free_from > answer.asked_on]
    for day in sorted(days)[:1]:
        spot = room_for(answer.crop, answer.raised, day)
        if spot is not None and spot.judged.verdict in SAFE:
            yield _instead(Way.WAIT, f"{act} on {short_day(day)} {_where(spot)}", spot.judged)


def _another_bed(elsewhere: tuple[Spot, ...]) -> Iterator[Instead]:
    for spot in elsewhere[:1]:
        if spot.judged.verdict in SAFE:
            day = short_day(spot.free_from)
            yield _instead(
                Way.ANOTHER_BED,
                f"{spot.bed.name} has room for {spot.plants:,} plants from {day}",
                spot.judged,
            )


def _plant_out(answer: Answer, today: date, room_for: RoomFor) -> Iterator[Instead]:
    """Seedlings that are there already, or bought, gain the nursery days."""
    crop = answer.crop
    if crop.raised is Raised.DIRECT or crop.nursery_days is None:
        return
    day = max(today, answer.earliest)
    if answer.raised is Raised.TRAYS and day >= answer.asked_on:
        return
    spot = room_for(crop, Raised.TRAYS, day)
    if spot is not None and _better(spot.judged, answer.judged):
        text = f"plant out seedlings, raised already or bought, on {short_day(day)} {_where(spot)}"
        yield _instead(Way.PLANT_OUT, text, spot.judged)


def _sow_direct(
    answer: Answer, conditions: Conditions, today: date, room_for: RoomFor
) -> Iterator[Instead]:
    """Where it is late to raise seedlings, sowing on the spot saves half the nursery days."""
    if answer.raised is Raised.DIRECT or answer.crop.raised is not Raised.EITHER:
        return
    day = max(today, conditions.prospects(answer.crop, Raised.DIRECT).begins.day)
    spot = room_for(answer.crop, Raised.DIRECT, day)
    if spot is not None and _better(spot.judged, answer.judged):
        text = f"sow it direct on {short_day(day)} {_where(spot)}"
        yield _instead(Way.SOW_DIRECT, text, spot.judged)


def _early_sort(answer: Answer, today: date, room_for: RoomFor) -> Iterator[Instead]:
    """An early sort of the same crop may still finish where the main one does not."""
    early = answer.crop.of_sort(Sort.EARLY)
    if early is None or answer.verdict in SAFE:
        return
    spot = room_for(early, answer.raised, max(today, answer.asked_on))
    if spot is not None and _better(spot.judged, answer.judged):
        act = "plant out" if answer.raised is Raised.TRAYS else "sow"
        days = f"{early.days_of_sort.low}\N{EN DASH}{early.days_of_sort.high} days"
        day = short_day(spot.judged.stages.plant.day)
        text = f"{act} an early sort, {days}, on {day} {_where(spot)}"
        yield _instead(Way.EARLY_SORT, text, spot.judged)


def _cover(answer: Answer, conditions: Conditions, room_for: RoomFor) -> Iterator[Instead]:
    spot = room_for(answer.crop, answer.raised, answer.asked_on)
    if spot is None or answer.verdict in SAFE:  # it lacks room, not warmth
        return
    units = conditions.site.units
    buys = _COVER[units]
    prospects = conditions.prospects(
        answer.crop, answer.raised, colder_by=spot.bed.colder_than_site - buys
    )
    planted = Dated.on(answer.asked_on, "written", "planting day asked about", OURS)
    judged = prospects.judge(planted)
    if _better(judged, answer.judged):
        degrees = show_temperature_difference(buys, units)
        yield _instead(Way.COVER, f"put a cover that buys {degrees} over it {_where(spot)}", judged)


def _quicker(
    answer: Answer,
    crops: tuple[Crop, ...],
    conditions: Conditions,
    today: date,
    room_for: RoomFor,
) -> Iterator[Instead]:
    """Crops that may be sown today and whose seed comes up, those picked soonest first."""
    found = []
    for crop in crops:
        if crop.kind == answer.crop.kind or crop.overwinters:
            continue
        if is_lost(doubt_of(crop, Raised.DIRECT, today, conditions.climate)):
            continue
        spot = room_for(crop, Raised.DIRECT, today)
        if spot is None or spot.judged.verdict not in SAFE:
            continue
        picks = spot.judged.stages.first_pick
        if picks is not None:
            found.append((picks[1].day, crop.name, crop, spot))
    for _, _, crop, spot in sorted(found, key=lambda each: each[:2])[:MOST_QUICKER]:
        assert spot.judged.stages.first_pick is not None  # only such were found
        ready = short_day(spot.judged.stages.first_pick[0].day)
        text = f"sow {crop.title} on {short_day(today)} {_where(spot)}: first picks from {ready}"
        yield _instead(Way.QUICKER_CROP, text, spot.judged)


def _better(judged: Judged, than: Judged) -> bool:
    """Whether a planting is at least worth a try, and better than another."""
    if judged.verdict not in (*SAFE, Verdict.CHANCY):
        return False
    return (judged.odds or 0.0) > (than.odds or 0.0)
