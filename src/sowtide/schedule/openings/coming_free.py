"""What comes free in the beds, what would fit there, and what to start for it now."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from datetime import date, timedelta

from sowtide.garden.crop import Raised
from sowtide.garden.varieties import crops_of
from sowtide.progress import Progress, unwatched
from sowtide.schedule.openings.free_space import (
    BedOpening,
    ComingFree,
    Offer,
    OpeningsQuestion,
    StartNow,
)
from sowtide.schedule.openings.offering import Offering
from sowtide.schedule.openings.spaces import openings_of
from sowtide.schedule.season import Season

_MOST_OFFERS = 3
"""Crops named for an opening. [1]"""

_WEEK, _DAY = timedelta(days=7), timedelta(days=1)


def coming_free(
    season: Season, asked: OpeningsQuestion, *, progress: Progress = unwatched
) -> ComingFree:
    """Say what comes free in some beds, what would be safe there, and what to sow for it now.

    No two openings share any room. Each offer fills its opening, and would stand there if it were
    written into the file, with nothing else moved; of the offers for one opening only one can be
    taken. For one bed no crop is to be started twice in the week: where two spaces open in it, it
    goes into the first. The progress is told how many openings have been looked at.
    """
    today = asked.on or season.today
    end = today + asked.weeks * _WEEK
    spaces = [each for bed in asked.beds for each in openings_of(season, bed, today, end)]
    spaces.sort(key=lambda each: each.first)
    offering = Offering(season, crops_of(season.garden), today)
    openings, start_now = [], []
    begun: dict[str, set[str]] = defaultdict(set)
    for number, space in enumerate(spaces):
        progress(number, len(spaces))
        offers = offering.offers(space)
        kept_out = None if offers else offering.kept_out(space)
        opening = replace(space, fits=_best(offers), kept_out=kept_out)
        openings.append(opening)
        if space.first > today:  # what is free now can be sown into
            promised = begun[space.bed.name]
            started = [
                each
                for each in offers
                if each.raised is Raised.TRAYS and today <= each.sow < today + _WEEK
                if each.crop.name not in promised
            ]
            start_now += [StartNow(opening, each) for each in started[:1]]
            promised.update(each.crop.name for each in started[:1])
    return ComingFree(
        asked_on=today,
        last=end - timedelta(days=1),
        openings=tuple(openings),
        start_now=tuple(start_now),
    )


def opening_in(season: Season, first: date, last: date) -> ComingFree:
    """Say what comes free in a week, and what of the file's to sow in trays in it for an opening.

    As `coming_free` does, but the crops in an opening are left out, and so are the built-in ones:
    that takes a tenth of the time.

    Parameters
    ----------
    season
        The season.
    first, last
        The first and the last day of the week; what is past today is no longer sown.
    """
    begin = max(first, min(season.today, last))
    crops = [crop for crop in season.garden.crops if crop.nursery_days is not None]
    farthest = max((crop.nursery_days.low for crop in crops if crop.nursery_days), default=0)
    end = last + timedelta(days=farthest) + _DAY
    beds = season.garden.beds
    spaces = [space for bed in beds for space in openings_of(season, bed, first - _DAY, end)]
    spaces.sort(key=lambda each: each.first)
    offering = Offering(season, crops, begin)
    begun: dict[str, set[str]] = defaultdict(set)
    start_now = []
    for space in spaces:
        promised = begun[space.bed.name]
        offer = offering.in_trays(space, last, promised) if space.first > begin else None
        if offer is not None:
            start_now.append(StartNow(space, offer))
            promised.add(offer.crop.name)
    return ComingFree(
        asked_on=first,
        last=last,
        openings=tuple(space for space in spaces if space.first <= last),
        start_now=tuple(start_now),
    )


def free_ahead(season: Season, last: date, *, tried: int = 0) -> tuple[BedOpening, ...]:
    """Return the spaces of all beds that are free or come free until a day, in order of days.

    Parameters
    ----------
    season
        The season.
    last
        The last day that is looked at.
    tried
        For so many of the spaces it is looked which crops of the file would be safe there. [1]
    """
    names, end = {bed.name for bed in season.garden.beds}, last + _DAY
    beds = [bed for bed in season.room.beds if bed.name in names]
    found = [space for bed in beds for space in openings_of(season, bed, season.today, end)]
    found.sort(key=lambda space: space.first)
    offering = Offering(season, season.garden.crops, season.today) if tried else None
    if offering is not None:
        found[:tried] = [replace(each, fits=_best(offering.offers(each))) for each in found[:tried]]
    return tuple(found)


def _best(offers: list[Offer]) -> tuple[Offer, ...]:
    """Return the first offers, each crop raised in the way that comes first."""
    crops: dict[str, Offer] = {}
    for each in offers:
        crops.setdefault(each.crop.name, each)
    return tuple(crops.values())[:_MOST_OFFERS]
