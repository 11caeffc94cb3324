"""What might be planted for the wants of a garden: a crop on a safe day, and what a plant gives."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from math import ceil

from sowtide.garden.crop import Crop, Raised
from sowtide.schedule.season import Season
from sowtide.schedule.stays import LONG_STAY, family_key
from sowtide.schedule.supply import Bearer, CropSupply, Weeks, days_of, week_of
from sowtide.schedule.waves import Prospects
from sowtide.values import value

STEP = timedelta(days=7)
"""From one planting day that is tried to the next; sowtide's own choice."""
_LEAST = 0.25
"""No wave is offered that brings less than this share of a want in its best week. [0–1]"""
_WANTED = 0.1
"""Nor one of whose harvest less than this share falls into weeks that are wanted. [0–1]"""
_LITTLE = 1e-9


@value
class PlantingOption:
    """A crop planted on one day, on one kind of ground."""

    want: int
    """Which of the wants it is for."""
    crop: Crop
    raised: Raised
    """What is planted, and how."""
    ground: float
    """How much colder its bed is than the site. [°C]"""
    first: int
    pulled: int
    """Its planting day, and the day it is gone. [ordinal]"""
    area: int
    """Of a plant. [µm²]"""
    gives: tuple[tuple[int, float], ...]
    """Weeks by their place among those wanted, with what a plant brings of the week's want."""
    unasked: float
    """What a plant brings in weeks in which nobody wants it, of the most that a week wants."""
    least: int
    """The fewest plants that are worth a wave, at most a bed of them. [1]"""
    family: str
    """For rotation."""
    rotates: bool
    """Whether it may not follow its own family."""

    @property
    def is_long(self) -> bool:
        """Whether it closes its bed to its family for the season."""
        return self.pulled - self.first >= LONG_STAY


@value
class ToFill:
    """What a crop still lacks, week by week, as shares of each week's want."""

    supply: CropSupply
    """What it brings in as the file stands."""
    weeks: tuple[int, ...]
    """The weeks that are wanted and may still be served, by number."""
    lacking: tuple[float, ...]
    """What each lacks. [0–1]"""


def to_fill(season: Season, supply: CropSupply) -> ToFill:
    """Return what a crop lacks from this week on."""
    now = week_of(season.today)
    weeks = [
        (week_of(each.week), each.short / each.want)
        for each in supply.weeks
        if each.want and week_of(each.week) >= now
    ]
    return ToFill(supply, tuple(week for week, _ in weeks), tuple(short for _, short in weeks))


def options_for(season: Season, number: int, fill: ToFill) -> Iterator[PlantingOption]:
    """Yield the plantings that may bring some of what a crop lacks, on every kind of ground."""
    crop = fill.supply.crop
    raised = crop.raised_unless_said
    soonest = season.today
    if raised is Raised.TRAYS and crop.nursery_days is not None:
        soonest += timedelta(days=crop.nursery_days.low)
    for ground in season.conditions.grounds(season.garden.beds):
        prospects = season.conditions.prospects(crop, raised, colder_by=ground)
        for day in _days(prospects, soonest):
            option = _option(season, number, fill, prospects, day)
            if option is not None:
                yield option


def _days(prospects: Prospects, soonest: date) -> Iterator[date]:
    """Yield safe planting days a week apart, and the last of each safe run."""
    for run in prospects.windows:
        day = max(run.first, soonest)
        while day <= run.last:
            if not prospects.overwinters(day):
                yield day
            if day == run.last:
                break
            day = min(day + STEP, run.last)


def _option(
    season: Season, number: int, fill: ToFill, prospects: Prospects, day: date
) -> PlantingOption | None:
    crop, asked = prospects.crop, fill.supply.asked
    judged = prospects.judge_on(day)
    stages = judged.stages
    if stages.first_pick is None:
        return None
    borne = season.climate.waves.borne(day, prospects.need_on(day))
    days = days_of(season, crop, stages.first_pick[0].day, to_seed=judged.through_winter)
    brought = Weeks([(Bearer(day, days, crop.cut_once, borne), asked.gives.middle)])
    gives = tuple(_gives(brought, fill))
    best = max((share for _, share in gives), default=0.0)
    beds = [bed for bed in season.garden.beds if bed.colder_than_site == prospects.ground]
    most = max((bed.area for bed in beds), default=0) // crop.area_per_plant
    if best <= _LITTLE or not most or _wanted(brought, fill) < _WANTED:
        return None
    return PlantingOption(
        want=number,
        crop=crop,
        raised=prospects.raised,
        ground=prospects.ground,
        first=day.toordinal(),
        pulled=stages.pull_out.day.toordinal(),
        area=crop.area_per_plant,
        gives=gives,
        unasked=_unasked(brought, fill),
        least=min(max(ceil(_LEAST / best - _LITTLE), 1), most),
        family=family_key(crop.family),
        rotates=bool(crop.rotation),
    )


def _wanted(brought: Weeks, fill: ToFill) -> float:
    """Return the share of a harvest that falls into wanted weeks. [0–1]"""
    whole = sum(sum(cases) for cases in brought.by_week.values())
    wanted = sum(sum(brought.by_week.get(week, ())) for week in fill.weeks)
    return wanted / whole if whole else 0.0


def _unasked(brought: Weeks, fill: ToFill) -> float:
    """Return what a plant brings in weeks in which nobody wants it, of the most wanted in one."""
    wants = {week_of(each.week): each.want for each in fill.supply.weeks if each.want}
    most = max(wants.values())
    unasked = (cases for week, cases in brought.by_week.items() if week not in wants)
    return sum(sum(cases) / len(cases) for cases in unasked if cases) / most


def _gives(brought: Weeks, fill: ToFill) -> Iterator[tuple[int, float]]:
    """Yield what a plant brings of each wanted week's want."""
    wants = {week_of(each.week): each.want for each in fill.supply.weeks}
    for place, week in enumerate(fill.weeks):
        cases, want = brought.by_week.get(week), wants[week]
        if cases and want:
            share = sum(cases) / len(cases) / want
            if share > _LITTLE:
                yield place, share
