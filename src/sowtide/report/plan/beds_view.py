"""The beds of a plan: when each is free, how full all are, and what stands in each."""

from __future__ import annotations

from datetime import date

from sowtide.days import DateSpan
from sowtide.garden.model import Bed
from sowtide.report.kinds import FromTo, Share
from sowtide.report.kit import words
from sowtide.report.kit.judged import Judgement, judgement_of
from sowtide.schedule.openings import SHORTEST, FreeBed, free_spans, full_weeks, longest_free
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Wave
from sowtide.values import value

_MOST_GAPS = 6
_MOST_CROPS = 4


@value
class BedFill:
    """The days on which a whole bed is free."""

    bed: str
    free: tuple[FromTo, ...]


@value
class WeekFull:
    """How much of all beds is planted in the week from a day on."""

    from_: date
    share: Share


@value
class BedWave:
    """A wave in a bed: how many of its plants, on which days, and how much of the bed it takes."""

    wave: str
    plants: int
    plant: date
    pull_out: date
    share: Share
    judged: Judgement


@value
class BedStands:
    """What stands in a bed, when it is empty for long, and when the grower keeps it."""

    bed: Bed
    waves: tuple[BedWave, ...]
    empty: tuple[DateSpan, ...]
    kept: tuple[DateSpan, ...]


@value
class LongFree:
    """A long stretch in which half of a bed is free, and what would fit into it, in words."""

    bed: str
    span: DateSpan
    fits: str


@value
class ByBed:
    """The plan bed by bed."""

    beds: tuple[BedStands, ...]
    within: DateSpan
    longest: tuple[LongFree, ...]
    shortest: int


def bed_fills(season: Season, within: DateSpan) -> tuple[BedFill, ...]:
    """Return when each bed is free, over the days that it can grow in."""
    return tuple(
        BedFill(
            bed.name,
            tuple(map(FromTo.of, free_spans(season.room, bed, within, least=bed.area))),
        )
        for bed in season.garden.beds
    )


def weeks_full(season: Season, within: DateSpan) -> tuple[WeekFull, ...]:
    """Return how full the beds that are looked at are together, week by week."""
    starts = season.garden.site.week_starts
    weeks = full_weeks(season.room, season.garden.beds, within, starts=starts)
    return tuple(WeekFull(week.first, float(week.share)) for week in weeks)


def by_bed(season: Season, within: DateSpan) -> ByBed:
    """Return what stands in each bed, and the longest stretches in which one is half free."""
    ahead = DateSpan(max(within.first, season.today), within.last)
    beds = {bed.name for bed in season.garden.beds}
    longest = [
        each
        for each in longest_free(season.room, ahead, most=len(season.room.beds) * _MOST_GAPS)
        if each.bed.name in beds
    ][:_MOST_GAPS]
    return ByBed(
        tuple(_stands(bed, waves, season, within) for bed, waves in season.by_bed()),
        within,
        tuple(LongFree(each.bed.name, each.span, _would_fit(each, season)) for each in longest),
        SHORTEST,
    )


def _stands(bed: Bed, waves: list[Wave], season: Season, within: DateSpan) -> BedStands:
    free = free_spans(season.room, bed, within, least=bed.area)
    return BedStands(
        bed,
        tuple(_bed_wave(wave, bed) for wave in waves),
        tuple(span for span in free if span.length >= SHORTEST),
        bed.taken,
    )


def _bed_wave(wave: Wave, bed: Bed) -> BedWave:
    plants = sum(stand.plants for stand in wave.stands if stand.bed is bed)
    return BedWave(
        wave=wave.id,
        plants=plants,
        plant=wave.stages.plant.day,
        pull_out=wave.stages.pull_out.day,
        share=plants * wave.crop.area_per_plant / bed.area,
        judged=judgement_of(wave.judged, wave.crop),
    )


def _would_fit(free: FreeBed, season: Season) -> str:
    """Name the crops of the file that would be safe in a free bed, soonest picked first."""
    from sowtide.schedule.fits import BedQuestion, what_fits  # rarely wanted

    question = BedQuestion(free.bed, free.span.first, seedlings=True, crops=season.garden.crops)
    found = what_fits(season, question)
    names = [
        each.crop.title for each in found.safe if each.spot.judged.stages.plant.day in free.span
    ]
    if names:
        return words.listed(names[:_MOST_CROPS])
    covers = [each.text for each in found.covers][:1]
    return covers[0] if covers else "nothing that would be safe"
