"""The answer for a hot week: every wave that stands, with what to do, and what had better wait."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from sowtide.garden.model import Bed
from sowtide.schedule.hot_week.heat_delays import HeatDelay, HotSowing, heat_delays, hot_sowings
from sowtide.schedule.hot_week.heat_gap import HeatGap, heat_gap
from sowtide.schedule.hot_week.heat_limits import action_in_heat
from sowtide.schedule.hot_week.water_forward import WaterForward, water_forward
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Wave
from sowtide.schedule.work import HeatAction, WeekSheet
from sowtide.units import celsius
from sowtide.values import value

_YOUNG = timedelta(days=14)
"""How long after it is up or set out a wave's roots are short: sowtide's own. [days]"""
_NEARLY = timedelta(days=7)
"""How long before its first pick a leaf or a root can be eaten young: sowtide's own. [days]"""
_COVERS_OFF = celsius(80)
"""The maximum from which on a bed is not to be under its cover: sowtide's own. [°C]"""


@value
class InHeat:
    """A wave in a bed, and what to do for it in the heat."""

    wave: Wave
    bed: Bed
    plants: int
    """Which, where, and how many stand there."""
    action: HeatAction
    """What to do."""
    young: bool
    up: bool
    """Whether it is not up, just up or just set out, and whether it is up."""
    in_flower: bool
    """Whether its flowers are open on some day of the heat, as far as that is known."""


@value
class HotWeek:
    """What a week's forecast of heat means."""

    high: float
    """The highest temperature expected. [°C]"""
    begins: date
    last: date
    """First and last day of it that are still to come."""
    waves: tuple[InHeat, ...]
    """What stands, in order of the beds."""
    covered: tuple[Bed, ...]
    """Beds that have a cover, and something below it."""
    gaps: tuple[HeatGap, ...]
    """What is to be missed of flowers that are open now."""
    sowings: tuple[HotSowing, ...]
    """Sowings for the cool of a day."""
    delays: tuple[HeatDelay, ...]
    """What had better not be set out."""
    forward: tuple[WaterForward, ...]
    """Waterings that had better come on the first day of it, in order of the beds."""


def hot_week_of(season: Season, sheet: WeekSheet, high: float) -> HotWeek:
    """Return what a week means in which it gets so hot.

    Parameters
    ----------
    season
        The season, by its journal.
    sheet
        The week.
    high
        The highest temperature expected in it. [°C]
    """
    last = sheet.last
    begins = season.today if sheet.first <= season.today <= last else sheet.first
    order = {bed.name: number for number, bed in enumerate(season.garden.beds)}
    standing = [wave for wave in season.waves if _stands(wave, begins, season)]
    found = [
        _in_heat(wave, stand.bed, stand.plants, high, begins, last)
        for wave in standing
        for stand in wave.stands
        if stand.bed.name in order
    ]
    found.sort(key=lambda each: order[each.bed.name])
    tasks = (*sheet.overdue, *sheet.cannot_slip, *sheet.tasks)
    still = {task.id: task for task in tasks if task.overdue or task.due >= begins}
    left = sorted(still.values(), key=lambda task: task.due)
    gaps = (heat_gap(wave, high, begins, last) for wave in standing)
    covered = (bed for bed in season.garden.beds if bed.cover and high >= _COVERS_OFF)
    return HotWeek(
        high=high,
        begins=begins,
        last=last,
        waves=tuple(found),
        covered=tuple(bed for bed in covered if any(each.bed.name == bed.name for each in found)),
        gaps=tuple(gap for gap in gaps if gap is not None),
        sowings=tuple(hot_sowings(left, high, last, season.garden.year)),
        delays=tuple(heat_delays(left, high, last)),
        forward=tuple(
            sorted(_forward(season, found, begins), key=lambda e: order[e.round.bed.name])
        ),
    )


def _forward(season: Season, found: list[InHeat], begins: date) -> Iterator[WaterForward]:
    """Yield the waterings that had better come forward: of what is to be shaded or watered."""
    if season.care is None:
        return
    thirsty = (HeatAction.SHADE, HeatAction.WATER)
    needs = [(each.wave.id, each.bed.name) for each in found if each.action in thirsty]
    yield from water_forward(
        season.care, needs, begins, season.garden.site.units, today=season.today
    )


def _stands(wave: Wave, begins: date, season: Season) -> bool:
    """Say whether a wave stands when the heat begins; what is planted later is work to come."""
    planted = wave.stages.plant.day
    if not wave.stands or wave.status.is_gone or wave.stages.pull_out.day <= begins:
        return False
    if wave.is_planted:
        return True
    late = season.accounts is not None and season.accounts.is_overdue(planted)
    return planted < begins and not late


def _in_heat(wave: Wave, bed: Bed, plants: int, high: float, begins: date, last: date) -> InHeat:
    crop, stages = wave.crop, wave.stages
    out = (stages.up or stages.plant).day
    young, first = begins < out + _YOUNG, stages.first_pick
    early = timedelta() if crop.warm_limit is None else _NEARLY
    ripe = first is not None and first[0].day - early <= last
    flower, end = stages.flower, stages.last_pick
    return InHeat(
        wave=wave,
        bed=bed,
        plants=plants,
        action=action_in_heat(crop, high, ripe=ripe, young=young),
        young=young,
        up=out <= begins,
        in_flower=flower is not None
        and end is not None
        and flower.day <= last
        and begins <= end.day,
    )
