"""Every wave with its dates, its beds and how sure it is, and the beds as they fill up."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from enum import Enum
from typing import Any

from sowtide.climate.answers import EndedBy
from sowtide.climate.basis import Basis
from sowtide.garden.crop import Raised
from sowtide.garden.model import Entry
from sowtide.report.kinds import Mean, Share, Unsaid
from sowtide.report.kit.faults import ProblemView, problem_views
from sowtide.report.kit.judged import Judgement, day_of, judgement_of
from sowtide.report.kit.setting import Setting, setting_of
from sowtide.report.kit.stands import BedPlants, SeriesGap, bed_plants, series_gaps
from sowtide.report.plan.beds_view import BedFill, ByBed, WeekFull, bed_fills, by_bed, weeks_full
from sowtide.schedule.only import Only
from sowtide.schedule.openings import growing_days
from sowtide.schedule.season import Season
from sowtide.schedule.waves import (
    Blocked,
    Done,
    Holder,
    Kept,
    Opening,
    Overlap,
    Status,
    Verdict,
    Wave,
)
from sowtide.values import value

COLUMNS = (
    "id",
    "series",
    "crop",
    "family",
    "plants",
    "beds",
    "sow",
    "up",
    "harden_off",
    "plant",
    "flower",
    "first_pick_early",
    "first_pick_late",
    "last_pick",
    "pull_out",
    "bed_free",
    "ended_by",
    "margin_days",
    "odds",
    "expected_picking_days",
    "odds_of_nothing",
    "verdict",
    "sow_again_by",
    "status",
)


class PlanBy(Enum):
    """How the waves of a plan are grouped."""

    SERIES = "series"
    BED = "bed"


@value
class FirstRoom:
    """The first later day with room: where, and what would be thought of it."""

    plant: date
    beds: tuple[str, ...]
    odds: Share | None
    verdict: Verdict | None


@value
class BlockedView:
    """Why a wave has no room."""

    plants: int
    held_by: tuple[Holder, ...]
    more_holders: int
    kept: tuple[Kept, ...]
    rotation: str | None
    sick: tuple[str, ...]
    first_room: FirstRoom | None


@value
class SeriesAsked:
    """What an entry of the file asks for."""

    title: str
    family: str
    raised: Raised
    every: str | None


@value
class WaveView:
    """A wave: its dates, where it stands, and what is thought of it."""

    id: str
    series: str
    crop: str
    family: str
    plants: int
    beds: tuple[BedPlants, ...]
    sow: date
    up: date | None
    harden_off: date | None
    plant: date
    flower: date | None
    first_pick: tuple[date, date] | None
    last_pick: date | None
    pull_out: date
    bed_free: date | None
    ended_by: EndedBy
    margin_days: int | None
    odds: Share | None
    expected_picking_days: Mean | None
    odds_of_nothing: Share | None
    verdict: Verdict | None
    sow_again_by: date | None
    status: Status
    done: Done
    blocked: BlockedView | None
    overlap: Overlap | None
    asked: Unsaid[SeriesAsked]
    judged: Unsaid[Judgement]
    is_noted: Unsaid[bool]
    is_unsown: Unsaid[bool]
    """Whether its sowing is past and the journal, which tells of others, does not know of it."""
    last_safe: Unsaid[date | None]


@value
class PlanView:
    """What ``plan`` says."""

    season: int
    basis: Basis
    waves: tuple[WaveView, ...]
    beds: tuple[BedFill, ...]
    full: tuple[WeekFull, ...]
    problems: tuple[ProblemView, ...]
    gaps: tuple[SeriesGap, ...]
    only: Only | None
    by_bed: Unsaid[ByBed | None]
    number_of_beds: Unsaid[int]
    file: Unsaid[str]
    quiet: Unsaid[bool]
    setting: Unsaid[Setting]


def view(season: Season, *, by: PlanBy = PlanBy.SERIES, quiet: bool = False) -> PlanView:
    """Return the whole plan.

    Parameters
    ----------
    season
        The season.
    by
        ``series`` or ``bed``: what a page groups the waves by.
    quiet
        Whether a page leaves out what it would always say.
    """
    garden = season.garden
    within = growing_days(season.climate, garden.year)
    asked: dict[str, SeriesAsked] = {}
    return PlanView(
        season=garden.year.season,
        basis=season.climate.basis,
        waves=tuple(_wave(wave, asked, season) for wave in season.waves),
        beds=bed_fills(season, within),
        full=weeks_full(season, within),
        problems=problem_views(season.problems),
        gaps=series_gaps(season.gaps),
        only=season.only,
        by_bed=by_bed(season, within) if by is PlanBy.BED else None,
        number_of_beds=len(garden.beds),
        file=garden.label,
        quiet=quiet,
        setting=setting_of(garden, season.today),
    )


def rows(of: PlanView) -> Iterator[dict[str, Any]]:
    """Yield a row for each wave; beds as ``Long 1: 40; Long 2: 20``."""
    from sowtide.report.formats.json import encoded

    for wave in of.waves:
        fields: dict[str, Any] = dict(encoded(wave))
        early, late = wave.first_pick or (None, None)
        fields["beds"] = "; ".join(f"{each.bed}: {each.plants}" for each in wave.beds)
        fields["first_pick_early"], fields["first_pick_late"] = early, late
        yield fields


def _wave(wave: Wave, asked: dict[str, SeriesAsked], season: Season) -> WaveView:
    stages, judged, entry = wave.stages, wave.judged, wave.entry
    if entry.name not in asked:
        asked[entry.name] = _asked(entry)
    first = stages.first_pick
    return WaveView(
        id=wave.id,
        series=entry.name,
        crop=wave.crop.name,
        family=wave.crop.family,
        plants=wave.plants,
        beds=bed_plants(wave.stands),
        sow=stages.sow.day,
        up=day_of(stages.up),
        harden_off=day_of(stages.harden_off),
        plant=stages.plant.day,
        flower=day_of(stages.flower),
        first_pick=None if first is None else (first[0].day, first[1].day),
        last_pick=day_of(stages.last_pick),
        pull_out=stages.pull_out.day,
        bed_free=day_of(wave.bed_free),
        ended_by=judged.ended_by,
        margin_days=judged.margin,
        odds=None if judged.odds is None else float(judged.odds),
        expected_picking_days=judged.expected_picking_days,
        odds_of_nothing=None if judged.odds_of_nothing is None else float(judged.odds_of_nothing),
        verdict=judged.verdict,
        sow_again_by=wave.sow_again_by,
        status=wave.status,
        done=wave.done or _NOTHING_DONE,
        blocked=None if wave.blocked is None else _blocked(wave.blocked),
        overlap=wave.overlap,
        asked=asked[entry.name],
        judged=judgement_of(judged, wave.crop),
        is_noted=wave.done is not None,
        is_unsown=_is_unsown(wave, season),
        last_safe=judged.last_safe,
    )


def _is_unsown(wave: Wave, season: Season) -> bool:
    accounts = season.accounts
    late = accounts is not None and accounts.is_overdue(wave.stages.sow.day)
    return late and wave.done is None


_NOTHING_DONE = Done(
    sow=None,
    up=None,
    harden_off=None,
    plant=None,
    first_pick=None,
    last_pick=None,
    pull_out=None,
)


def _asked(entry: Entry) -> SeriesAsked:
    days = entry.pick_every or entry.every
    every = None if days is None else "every day" if str(days) == "1" else f"every {days} days"
    if entry.pick_every is not None:
        every = f"to be picked {every}"
    return SeriesAsked(entry.crop.title, entry.crop.family, entry.raised, every)


def _blocked(of: Blocked) -> BlockedView:
    return BlockedView(
        plants=of.plants,
        held_by=of.holders,
        more_holders=of.more_holders,
        kept=of.kept,
        rotation=of.rotation,
        sick=of.sick,
        first_room=None if of.opening is None else _first_room(of.opening),
    )


def _first_room(of: Opening) -> FirstRoom:
    odds = None if of.odds is None else float(of.odds)
    return FirstRoom(plant=of.day, beds=of.beds, odds=odds, verdict=of.verdict)
