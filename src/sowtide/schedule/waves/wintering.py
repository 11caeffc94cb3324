"""When a wave is ready that stands over the winter: by its own days, the longest day, or growth."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from sowtide.climate.answers import EndedBy, Need
from sowtide.climate.daylight import longest_day
from sowtide.days import GrowingYear, Half
from sowtide.garden.crop import Crop
from sowtide.garden.planting_times import ReadyTime
from sowtide.reasons import OURS, Dated
from sowtide.schedule.sowing import PlantedWhere
from sowtide.schedule.waves.stages import Harvest, ends_with, picked_out
from sowtide.schedule.waves.wave import NoDate
from sowtide.values import value

if TYPE_CHECKING:  # only where temperatures are known
    from sowtide.climate.answers import Winter

_Span = tuple[Dated, Dated]

_LEAST_STAND, _MOST_STAND = timedelta(days=120), timedelta(days=345)
"""What needs its winter stands four to eleven months before it is ready: ours, fitted to plantings
of the whole autumn and of the end of winter."""


@value
class Wintering:
    """The picking of a wave that stands over the winter, and how it got there."""

    picking: Harvest
    winter: Winter | None = None
    """How it gets on; None where the crop says when it is ready, or no temperatures are known."""
    no_date: NoDate | None = None
    """Why one that needs its winter has no date; None where it has."""


def wintering_of(planted: Dated, crop: Crop, need: Need, where: PlantedWhere) -> Wintering:
    """Return the picking of a wave that stands over the winter.

    The crop's own `ready` dates go before all else: the first that come when its fewest days have
    passed, or the winter has. What needs its winter is ready by the longest day, and the rest when
    it has grown. Where none of them tells, it has no picking: its bed is held until the midsummer
    after the winter.
    """
    if crop.ready is not None:
        ready = _own_days(planted, crop, fewest=need.days.low, year=where.year)
        return Wintering(_picked(crop, ready, year=where.year))
    if crop.ready_about is not None:
        return _by_longest_day(planted, crop, crop.ready_about, need, where)
    winter = where.climate.waves.winter(planted, need)
    if winter is None or winter.first_pick is None:
        return Wintering(_held(where.year.holding(planted.day), where.year), winter)
    return Wintering(_picked(crop, winter.first_pick, year=where.year), winter)


def _by_longest_day(
    planted: Dated, crop: Crop, about: ReadyTime, need: Need, where: PlantedWhere
) -> Wintering:
    """Return the picking of what needs its winter, the first that it has the time for."""
    first, last = about.after_longest_day(where.site.latitude)
    origin, own = crop.origin("ready_about"), where.year.holding(planted.day)
    for season in (own.season, own.season + 1):
        longest = Dated.on(
            longest_day(GrowingYear(season, own.south)), "over-winter", "the longest day", OURS
        )
        early = longest.then(first, "over-winter", "ready from", origin)
        if early.day < planted.day + _LEAST_STAND:
            continue
        if early.day > planted.day + _MOST_STAND:
            break
        if crop.killed_at is not None and _kills(need.killed_at, where):
            return Wintering(_held(own, where.year), no_date=NoDate.KILLED)
        late = early.then(last - first, "over-winter", "ready at the latest", origin)
        return Wintering(_picked(crop, (early, late), year=where.year))
    return Wintering(_held(own, where.year), no_date=NoDate.OUT_OF_TIME)


def _kills(killed_at: float, where: PlantedWhere) -> bool:
    """Whether a frost that kills it comes in half of the winters, where temperatures are known."""
    climate = where.climate
    if climate.weather.mean_over(where.year.midsummer, 1) is None:
        return False
    return any(climate.frosts.day(half, at=killed_at, share=0.5) is not None for half in Half)


def _picked(crop: Crop, first: _Span, *, year: GrowingYear) -> Harvest:
    last = picked_out(crop, first[1], year=year)
    return ends_with(last, first, end=None, ended_by=EndedBy.PICKED_OUT)


def _held(own: GrowingYear, year: GrowingYear) -> Harvest:
    """Return the picking that nobody knows of: none, and the bed held until midsummer."""
    after = GrowingYear(own.season + 1, year.south)
    pull_out = Dated.on(
        after.midsummer, "over-winter", "held until midsummer: no date is known", OURS
    )
    return Harvest(first=None, last=None, pull_out=pull_out, end=None, ended_by=EndedBy.PULLED)


def _own_days(planted: Dated, crop: Crop, *, fewest: int, year: GrowingYear) -> _Span:
    """Return the first days of the crop's own that come when it may be ripe."""
    assert crop.ready is not None
    origin = crop.origin("ready")
    begins, ends = crop.ready
    after = GrowingYear(year.holding(planted.day).season + 1, year.south)
    ripe = min(planted.day + timedelta(days=fewest), after.first)
    first = _next_after(ripe, (begins.month, begins.day))
    latest = _next_after(first, (ends.month, ends.day))
    early = Dated.on(first, "over-winter", "ready from", origin)
    return early, early.then((latest - first).days, "over-winter", "ready at the latest", origin)


def _next_after(day: date, month_day: tuple[int, int]) -> date:
    """The next such day of the year, `day` itself included."""
    for year in range(day.year, day.year + 9):
        try:
            found = date(year, *month_day)
        except ValueError:  # 29 February
            continue
        if found >= day:
            return found
    raise AssertionError("every day of the year comes within eight years")
