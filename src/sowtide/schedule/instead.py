"""What would fit where the wave asked for does not."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date
from itertools import islice
from typing import TypeAlias

from sowtide.days import short_day
from sowtide.garden.model import Crop, Raised
from sowtide.reasons import OURS, Dated
from sowtide.schedule.answer import Answer, Instead, Spot
from sowtide.schedule.wave import Judged, Verdict
from sowtide.schedule.windows import Conditions
from sowtide.units import Units, show_temperature_difference

_COVER = {Units.US: 4 * 5 / 9, Units.METRIC: 2.0}
"""What a medium row cover buys, for the question what it would do. [°C]"""

MOST_QUICKER = 3

HasRoom: TypeAlias = Callable[[Crop, Raised, date], bool]
"""Whether a crop, raised so and planted on a day, has any room."""


def what_else(
    answer: Answer,
    *,
    crops: tuple[Crop, ...],
    conditions: Conditions,
    elsewhere: tuple[Spot, ...],
    has_room: HasRoom,
    today: date,
) -> Answer:
    """Add to an answer of no what would fit instead, likeliest first within each kind.

    Parameters
    ----------
    answer
        The answer so far.
    crops
        Crops that may be sown in its place.
    conditions
        The place and year.
    elsewhere
        Room in beds that were not asked about.
    has_room
        Whether a crop, raised so and planted on a day, has any room in the beds asked about.
    today
        The first possible day for anything else.
    """
    ways = (
        *_wait(answer, conditions),
        *_another_bed(elsewhere),
        *_plant_out(answer, conditions, today, has_room),
        *_sow_direct(answer, conditions, today, has_room),
        *_cover(answer, conditions),
        *_quicker(answer, crops, conditions, today, has_room),
    )
    return replace(answer, instead=ways)


def _judge(
    crop: Crop, raised: Raised, day: date, conditions: Conditions, *, colder_by: float = 0.0
) -> Judged:
    planted = Dated.on(day, "written", "planting day asked about", OURS)
    return conditions.prospects(crop, raised, colder_by=colder_by).judge(planted)


def _instead(what: str, text: str, judged: Judged) -> Instead:
    odds = 1.0 if judged.odds is None else judged.odds
    return Instead(what, text, judged.stages.plant.day, odds)


def _wait(answer: Answer, conditions: Conditions) -> Iterator[Instead]:
    """A day too early or too hot may have a safe run after it."""
    for window in answer.windows:
        if window.first > answer.asked_on:
            judged = _judge(answer.crop, answer.raised, window.first, conditions)
            last = short_day(window.last)
            text = f"wait: it is safe from {short_day(window.first)} to {last}"
            yield _instead("wait", text, judged)
            return


def _another_bed(elsewhere: tuple[Spot, ...]) -> Iterator[Instead]:
    for spot in elsewhere[:1]:
        if spot.judged.verdict is Verdict.SAFE:
            day = short_day(spot.free_from)
            yield _instead(
                "another bed",
                f"{spot.bed.name} has room for {spot.plants} plants from {day}",
                spot.judged,
            )


def _plant_out(
    answer: Answer, conditions: Conditions, today: date, has_room: HasRoom
) -> Iterator[Instead]:
    """Seedlings that are there already, or bought, gain the nursery days."""
    crop = answer.crop
    if crop.raised is Raised.DIRECT or crop.nursery_days is None:
        return
    day = max(today, answer.earliest)
    if answer.raised is Raised.TRAYS and day >= answer.asked_on:
        return
    judged = _judge(crop, Raised.TRAYS, day, conditions)
    if _better(judged, answer.judged) and has_room(crop, Raised.TRAYS, day):
        text = f"plant out seedlings of {crop.name} on {short_day(day)}, raised already or bought"
        yield _instead("plant out", text, judged)


def _sow_direct(
    answer: Answer, conditions: Conditions, today: date, has_room: HasRoom
) -> Iterator[Instead]:
    """Where it is late to raise seedlings, sowing on the spot saves half the nursery days."""
    if answer.raised is Raised.DIRECT or answer.crop.raised is not Raised.EITHER:
        return
    day = max(today, conditions.prospects(answer.crop, Raised.DIRECT).earliest.day)
    judged = _judge(answer.crop, Raised.DIRECT, day, conditions)
    if _better(judged, answer.judged) and has_room(answer.crop, Raised.DIRECT, day):
        yield _instead("sow direct", f"sow it direct on {short_day(day)}", judged)


def _cover(answer: Answer, conditions: Conditions) -> Iterator[Instead]:
    if answer.verdict is Verdict.SAFE:  # it lacks room, not warmth
        return
    units = conditions.site.units
    buys = _COVER[units]
    judged = _judge(answer.crop, answer.raised, answer.asked_on, conditions, colder_by=-buys)
    if _better(judged, answer.judged):
        degrees = show_temperature_difference(buys, units)
        yield _instead("cover", f"keep it under a cover that buys {degrees}", judged)


def _quicker(
    answer: Answer,
    crops: tuple[Crop, ...],
    conditions: Conditions,
    today: date,
    has_room: HasRoom,
) -> Iterator[Instead]:
    found = []
    for crop in crops:
        if crop.kind == answer.crop.kind or crop.overwinters:
            continue
        judged = _judge(crop, Raised.DIRECT, today, conditions)
        if judged.verdict is Verdict.SAFE and judged.stages.first_pick is not None:
            found.append((judged.stages.first_pick[1].day, crop, judged))
    found.sort(key=lambda each: (each[0], each[1].name))
    roomy = (each for each in found if has_room(each[1], Raised.DIRECT, today))
    for _, crop, judged in islice(roomy, MOST_QUICKER):
        assert judged.stages.first_pick is not None  # only such were found
        ready = short_day(judged.stages.first_pick[0].day)
        text = f"sow {crop.title} on {short_day(today)}: first picks from {ready}"
        yield _instead("quicker crop", text, judged)


def _better(judged: Judged, than: Judged) -> bool:
    """Whether a planting is at least worth a try, and better than another."""
    if judged.verdict not in (Verdict.SAFE, Verdict.CHANCY):
        return False
    return (judged.odds or 0.0) > (than.odds or 0.0)
