"""What still fits into a bed: every crop that does, the safe ones that are picked soonest first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from sowtide.garden.crop import Crop, Raised
from sowtide.garden.model import Bed
from sowtide.garden.varieties import crops_of
from sowtide.progress import Progress, unwatched
from sowtide.schedule.fits.answer import Instead, Spot
from sowtide.schedule.fits.closing import closing
from sowtide.schedule.fits.one_more import last_wave, raised_as
from sowtide.schedule.fits.question import BedQuestion, Question
from sowtide.schedule.fits.spots import Spots
from sowtide.schedule.season import Season
from sowtide.schedule.waves import SAFE, Verdict, doubt_of, is_lost
from sowtide.values import value


@value
class StillFits:
    """A crop that still fits into a bed."""

    crop: Crop
    raised: Raised
    """What is planted and how."""
    spot: Spot
    """When, how many plants, and what comes of them."""


@value
class BedAnswer:
    """What still fits into a bed."""

    bed: Bed
    asked_on: date
    """The day from which on it is asked."""
    safe: tuple[StillFits, ...]
    """The crops that are safe, those picked soonest first."""
    chancy: tuple[StillFits, ...]
    """Those that may come to something, the likeliest first."""
    closed: tuple[str, ...]
    """Crops that rotation keeps out of it for now, by name."""
    covers: tuple[Instead, ...]
    """Cover crops to close it with, where no crop is safe."""


def what_fits(season: Season, asked: BedQuestion, *, progress: Progress = unwatched) -> BedAnswer:
    """Say what still fits into a bed of a planned season.

    Left out are crops whose seed does not come up then, and those that would stand over the winter.
    The progress is told how many crops have been tried.
    """
    bed, conditions = asked.bed, season.conditions
    season = replace(season, today=asked.on or season.today)
    found: list[StillFits] = []
    closed: list[str] = []
    tried = crops_of(season.garden) if asked.crops is None else asked.crops
    for number, crop in enumerate(tried):
        progress(number, len(tried))
        question = Question(crop=crop, plants=None, bed=None, on=None, seedlings=asked.seedlings)
        last = last_wave(crop, season.waves)
        raised = raised_as(question, last)
        prospects = conditions.prospects(crop, raised, colder_by=bed.colder_than_site)
        room = Spots(season, question, raised=raised, last=last)
        first = room.first(prospects)
        if prospects.overwinters(first) or first not in conditions.year:
            continue
        spots = room.spots((bed,), None)
        if not spots:
            closed += [crop.name] if room.rotation_closes(bed, first) else []
            continue
        if not is_lost(doubt_of(crop, raised, spots[0].free_from, conditions.climate)):
            found.append(StillFits(crop, raised, spots[0]))
    safe = [each for each in found if each.spot.judged.verdict in SAFE]
    chancy = [each for each in found if each.spot.judged.verdict is Verdict.CHANCY]
    covers: Iterator[Instead] = iter(())
    if not safe:
        covers = closing(
            season.today,
            climate=conditions.climate,
            year=conditions.year,
            free_bed=lambda first, until: bed if _has_room(season, bed, first, until) else None,
        )
    return BedAnswer(
        bed=bed,
        asked_on=season.today,
        safe=tuple(sorted(safe, key=_soonest)),
        chancy=tuple(sorted(chancy, key=_likeliest)),
        closed=tuple(closed),
        covers=tuple(covers),
    )


def _has_room(season: Season, bed: Bed, first: date, until: date) -> bool:
    room = season.room
    index = room.number[bed.name]
    return room.free_over(index, first=first.toordinal(), until=until.toordinal()) > 0


def _soonest(of: StillFits) -> tuple[date, str]:
    picks = of.spot.judged.stages.first_pick
    assert picks is not None  # what is safe is picked
    return picks[0].day, of.crop.name


def _likeliest(of: StillFits) -> tuple[float, str]:
    return -(of.spot.judged.odds or 0.0), of.crop.name
