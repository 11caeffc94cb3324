"""The season at a glance: what stands in each bed, when it is picked, and how sure that is."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import TYPE_CHECKING

from sowtide.climate.answers import EndedBy
from sowtide.climate.basis import Basis
from sowtide.days import DateSpan, Half, week_start
from sowtide.report.calendar.care_ahead_view import CareAhead, care_ahead
from sowtide.report.calendar.free_view import KindGap, StillFree, gaps_of, still_free
from sowtide.report.calendar.last_days_view import LastDays, last_days_of, shares_of
from sowtide.report.calendar.wants_view import CropWantedWeeks, WantMet, wants_met
from sowtide.report.kinds import FromTo, Share, Unsaid
from sowtide.report.kit.judged import Judgement, judgement_of
from sowtide.report.kit.lookouts import LookoutView, lookout_view
from sowtide.report.kit.setting import Setting, setting_of
from sowtide.report.kit.stands import BedPlants, SeriesGap, bed_plants, series_gaps
from sowtide.schedule.only import Only
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Status, Verdict, Wave, picked_spans
from sowtide.units import Units, length_in, show_length, show_number
from sowtide.values import value

if TYPE_CHECKING:  # only beside a journal
    from sowtide.schedule.learning import OwnYields

_SHARES = (0.9, 0.5, 0.2, 0.1)
_STANDS_ON = 14
"""How much is shown of a wave that stands on into the next growing year. [days]"""
_WANT_NO_ROOM = (Status.SKIPPED, Status.LOST)


@value
class SeasonWave:
    """A wave: its beds, its days, what ends it, and how sure it is."""

    id: str
    series: str
    number: int
    crop: str
    kind: str
    beds: tuple[BedPlants, ...]
    sow: date
    plant: date
    first_pick: date | None
    last_pick: date | None
    pull_out: date
    ended_by: EndedBy
    verdict: Verdict | None
    odds: Share | None
    may_bolt: bool
    from_trays: bool
    judged: Unsaid[Judgement]
    lacks_room: Unsaid[bool]
    picked: Unsaid[tuple[FromTo, ...]]


@value
class SeasonBed:
    """A bed and its size, in words."""

    bed: str
    size: str


@value
class FrostDay:
    """The day with a share of years with a frost still to come, or already come."""

    half: Half
    share: Share
    day: date | None


@value
class CalendarView:
    """What ``calendar`` says."""

    season: int
    basis: Basis
    days: FromTo
    frosts: tuple[FrostDay, ...]
    hot_weeks: FromTo | None
    beds: tuple[SeasonBed, ...]
    waves: tuple[SeasonWave, ...]
    last_days: LastDays
    look_for: tuple[LookoutView, ...]
    gaps: tuple[SeriesGap, ...]
    free: tuple[StillFree, ...]
    not_picked: tuple[KindGap, ...]
    short_of: tuple[WantMet, ...]
    too_much: tuple[WantMet, ...]
    care: tuple[CareAhead, ...]
    wanted: tuple[CropWantedWeeks, ...]
    only: Only | None
    week_starts: Unsaid[int]
    quiet: Unsaid[bool]
    setting: Unsaid[Setting]


def view(season: Season, own: OwnYields | None = None, *, quiet: bool = False) -> CalendarView:
    """Return the season at a glance.

    Parameters
    ----------
    season
        The season.
    own
        What the grower's own pickings tell of yields, or None.
    quiet
        Whether the page leaves out what it would always say.
    """
    garden, hot = season.garden, season.climate.weather.hot_weeks
    units = garden.site.units
    wants = wants_met(season, own)
    waves = tuple(_wave(wave) for wave in season.waves)
    return CalendarView(
        season=garden.year.season,
        basis=season.climate.basis,
        days=FromTo.of(_days_shown(season)),
        frosts=tuple(_frosts(season)),
        hot_weeks=None if hot is None else FromTo.of(hot),
        beds=tuple(
            SeasonBed(bed.name, _size(bed.size.width, bed.size.length, units))
            for bed in garden.beds
        ),
        waves=waves,
        last_days=last_days_of(season, shares_of(season)),
        look_for=tuple(lookout_view(each, units) for each in season.lookouts),
        gaps=series_gaps(season.gaps),
        free=tuple(still_free(season, _growing(season))),
        not_picked=tuple(gaps_of((wave for wave in waves if wave.beds), season.today)),
        short_of=wants.short_of,
        too_much=wants.too_much,
        wanted=wants.wanted,
        care=tuple(care_ahead(season)),
        only=season.only,
        week_starts=garden.site.week_starts,
        quiet=quiet,
        setting=setting_of(garden, season.today),
    )


def _size(width: int, length: int, units: Units) -> str:
    return f"{show_number(length_in(width, units.long_unit))} x {show_length(length, units)}"


def _wave(wave: Wave) -> SeasonWave:
    stages, judged = wave.stages, wave.judged
    return SeasonWave(
        id=wave.id,
        series=wave.entry.name,
        number=wave.number,
        crop=wave.crop.name,
        kind=wave.crop.kind,
        beds=bed_plants(wave.stands),
        sow=stages.sow.day,
        plant=stages.plant.day,
        first_pick=stages.first_pick[0].day if stages.first_pick else None,
        last_pick=stages.last_pick.day if stages.last_pick else None,
        pull_out=stages.pull_out.day,
        ended_by=judged.ended_by,
        verdict=judged.verdict,
        odds=None if judged.odds is None else float(judged.odds),
        may_bolt=judged.may_bolt,
        from_trays=wave.from_trays,
        judged=judgement_of(judged, wave.crop),
        lacks_room=not wave.stands and wave.status not in _WANT_NO_ROOM,
        picked=tuple(map(FromTo.of, picked_spans(wave))),
    )


def _frost_day(season: Season, half: Half, share: float) -> date | None:
    dated = season.climate.frosts.day(half, at=0.0, share=share)
    return dated.day if dated else None


def _frosts(season: Season) -> Iterator[FrostDay]:
    for share in _SHARES:
        for half in Half:
            yield FrostDay(half, share, _frost_day(season, half, share))


def _growing(season: Season) -> DateSpan:
    """Return the days of the growing year up to the average first frost."""
    year, frost = season.garden.year, _frost_day(season, Half.AUTUMN, 0.5)
    return DateSpan(year.first, year.last if frost is None else min(frost, year.last))


def _days_shown(season: Season) -> DateSpan:
    """Return the days that the calendar shows.

    They run from the first sowing to the last pulling out and hold nine frosts of ten; what stands
    over from the year before, or on into the next, only runs in or out at the edge.
    """
    days = sorted(_days_to_show(season))
    year = season.garden.year
    first, last = (days[0], days[-1]) if days else (year.first, year.last)
    first = week_start(first, starts=season.garden.site.week_starts)
    return DateSpan(first, last)


def _days_to_show(season: Season) -> Iterator[date]:
    year = season.garden.year
    for half in Half:
        frost = _frost_day(season, half, 0.9)
        if frost is not None and frost in year:
            yield frost
    for wave in (wave for wave in season.waves if wave.stands):
        stages = wave.stages
        for day in (stages.sow.day, stages.plant.day, stages.pull_out.day):
            if day in year:
                yield day
        if stages.plant.day in year and stages.pull_out.day > year.last:
            yield min(stages.plant.day + timedelta(days=_STANDS_ON), year.last)
