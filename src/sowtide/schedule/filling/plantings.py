"""What might be planted for the wants of a garden: a crop on a safe day, and what a plant gives."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from math import ceil

from sowtide.garden.crop import Crop, Raised
from sowtide.schedule.season import Season
from sowtide.schedule.stays import LONG_STAY, family_key
from sowtide.schedule.supply import CropSupply, Weeks, bearing, week_of
from sowtide.schedule.waves import Prospects
from sowtide.values import value

STEP = timedelta(days=7)
"""From one planting day that is tried to the next; sowtide's own choice."""
_LEAST = 0.25
"""No wave is offered that brings less than this share of a want in its best week. [0–1]"""
_WANTED = 0.1
"""Nor one of whose harvest less than this share falls into weeks that are wanted. [0–1]"""
SATURDAY = 5
"""The weekday on which most who garden have time: common practice, no source."""
_APART = timedelta(days=5)
"""No two planting days that are tried lie nearer together; sowtide's own choice."""
_BEYOND = 1.25
"""A sowing brings at most so many times what is eaten while it bears or holds: the years differ,
and so do plants; sowtide's own choice. [1]"""
_SOON = 10
"""A crop that bears or holds fewer days is sown as if it did so many; sowtide's own. [days]"""
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
    whole: int
    """The plants that bring all of a want in its best week. [1]"""
    most: int
    """The most that are sown on one day: what is eaten while they bear, and some beyond. [1]"""
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
    soonest, weekday = season.today, _weekday(season)
    if raised is Raised.TRAYS and crop.nursery_days is not None:
        soonest += timedelta(days=crop.nursery_days.low)
    for ground in season.conditions.grounds(season.garden.beds):
        prospects = season.conditions.prospects(crop, raised, colder_by=ground)
        for day in _days(prospects, soonest, weekday):
            option = _option(season, number, fill, prospects, day)
            if option is not None:
                yield option


def _days(prospects: Prospects, soonest: date, weekday: int) -> Iterator[date]:
    """Yield the first safe planting day of each run, one in each week after it, and the last."""
    for run in prospects.windows:
        day = first = max(run.first, soonest)
        while day <= run.last:
            if not prospects.overwinters(day):
                yield day
            if day == run.last:
                break
            after = first + timedelta(days=(weekday - first.weekday()) % 7)
            while after - day < _APART:
                after += STEP
            day = after if run.last - after >= _APART else run.last


def _weekday(season: Season) -> int:
    """Return the day of the week to sow and plant on, so that not every day is a sowing day."""
    days = season.garden.working_days
    return SATURDAY if SATURDAY in days else days[0]


def _option(
    season: Season, number: int, fill: ToFill, prospects: Prospects, day: date
) -> PlantingOption | None:
    crop, asked = prospects.crop, fill.supply.asked
    judged = prospects.judge_on(day)
    stages = judged.stages
    if stages.first_pick is None:
        return None
    bearer = bearing(season, prospects, judged)
    brought = Weeks([(bearer, asked.gives.middle)])
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
        whole=ceil(1 / best - _LITTLE),
        most=ceil(_BEYOND * max(bearer.days, _SOON) / 7 / _brought(brought, fill) - _LITTLE),
        least=min(max(ceil(_LEAST / best - _LITTLE), 1), most),
        family=family_key(crop.family),
        rotates=bool(crop.rotation),
    )


def _wanted(brought: Weeks, fill: ToFill) -> float:
    """Return the share of a harvest that falls into wanted weeks. [0–1]"""
    whole = sum(sum(cases) for cases in brought.by_week.values())
    wanted = sum(sum(brought.by_week.get(week, ())) for week in fill.weeks)
    return wanted / whole if whole else 0.0


def _brought(brought: Weeks, fill: ToFill) -> float:
    """Return what a plant brings in all, of the most wanted in a week. [weeks]"""
    most = max(each.want for each in fill.supply.weeks if each.want)
    return sum(sum(cases) / len(cases) for cases in brought.by_week.values() if cases) / most


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
