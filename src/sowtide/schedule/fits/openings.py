"""What comes free in the beds, what would fit there, and what to start for it now."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta

from sowtide.garden.crop import Crop, Raised
from sowtide.garden.model import Bed
from sowtide.progress import Progress, unwatched
from sowtide.schedule.beds import SHORTEST, Stay, barred, family_key, too_soon
from sowtide.schedule.fits.answer import BedOpening, ComingFree, Offer, StartNow
from sowtide.schedule.fits.into_bed import crops_of
from sowtide.schedule.fits.question import OpeningsQuestion
from sowtide.schedule.fits.spots import planted_on
from sowtide.schedule.season import Season
from sowtide.schedule.waves import SAFE, Judged, Prospects, Wave, doubt_of, is_lost

MOST_OFFERS = 3
"""Crops named for an opening. [1]"""

_LEAST = 10
"""What is less than one part of so many of its bed is no opening: sowtide's own reading. [1]"""

_WEEK = timedelta(days=7)
_LONGEST_WAIT = 3 * _WEEK
"""How long an opening may lie before what is offered for it goes in: sowtide's own reading."""


def coming_free(
    season: Season, asked: OpeningsQuestion, *, progress: Progress = unwatched
) -> ComingFree:
    """Say what comes free in some beds, what would be safe there, and what to sow for it now.

    No two openings share any room. Each offer fills its opening, and would stand there if it were
    written into the file, with nothing else moved; of the offers for one opening only one can be
    taken. The progress is told how many openings have been looked at.
    """
    today = asked.on or season.today
    end = today + asked.weeks * _WEEK
    spaces = [each for bed in asked.beds for each in openings_of(season, bed, today, end)]
    spaces.sort(key=lambda each: each.first)
    offering = _Offering(season, today)
    openings, start_now = [], []
    for number, space in enumerate(spaces):
        progress(number, len(spaces))
        offers = offering.offers(space)
        opening = replace(space, fits=_best(offers))
        openings.append(opening)
        started = [each for each in offers if each.raised is Raised.TRAYS]
        started = [each for each in started if today <= each.sow < today + _WEEK]
        if space.first > today:  # what is free now can be sown into
            start_now += [StartNow(opening, each) for each in started[:1]]
    return ComingFree(
        asked_on=today,
        last=end - timedelta(days=1),
        openings=tuple(openings),
        start_now=tuple(start_now),
    )


def openings_of(season: Season, bed: Bed, first: date, end: date) -> Iterator[BedOpening]:
    """Yield the spaces of a bed that are free on a day, or come free after it and before another.

    What is taken again is what came free last; so the spaces share no room, and each lies as long
    as it can.
    """
    index = season.room.number[bed.name]
    changes: dict[int, int] = defaultdict(int)
    leaving: dict[int, list[str]] = defaultdict(list)
    for stay in season.room.stays[index]:
        changes[max(stay.first, first.toordinal())] += stay.area
        changes[max(stay.until, first.toordinal())] -= stay.area
        leaving[stay.until].append(stay.wave)
    for span in bed.taken:
        changes[max(span.first.toordinal(), first.toordinal())] += bed.area
        changes[max(span.last.toordinal() + 1, first.toordinal())] -= bed.area
    changes[first.toordinal()] += 0
    found: dict[tuple[int, int | None], int] = defaultdict(int)
    open_spaces: list[tuple[int, int]] = []
    taken, free = 0, 0
    for day in sorted(changes):
        taken += changes[day]
        now = max(bed.area - taken, 0)
        if now > free:
            open_spaces.append((day, now - free))
        lost, free = max(free - now, 0), now
        while lost:
            since, area = open_spaces.pop()
            found[since, day] += min(area, lost)
            if area > lost:
                open_spaces.append((since, area - lost))
            lost -= min(area, lost)
    for since, area in open_spaces:
        found[since, None] += area
    for (since, until), area in found.items():
        long_enough = until is None or until - since >= SHORTEST
        if since < end.toordinal() and long_enough and area * _LEAST >= bed.area:
            yield BedOpening(
                bed=bed,
                first=date.fromordinal(since),
                until=None if until is None else date.fromordinal(until),
                area=area,
                leaves=tuple(dict.fromkeys(leaving.get(since, ()))),
            )


def _best(offers: list[Offer]) -> tuple[Offer, ...]:
    """Return the first offers, each crop raised in the way that comes first."""
    crops: dict[str, Offer] = {}
    for each in offers:
        crops.setdefault(each.crop.name, each)
    return tuple(crops.values())[:MOST_OFFERS]


class _Offering:
    """Tries every crop, direct and as plants, in one opening after another."""

    def __init__(self, season: Season, today: date) -> None:
        self._season = season
        self._today = today
        self._crops = crops_of(season.garden)
        self._own = {crop.name for crop in season.garden.crops}
        self._judged: dict[tuple[str, Raised, float, date], Judged] = {}
        self._of_bed: dict[str, list[Wave]] = defaultdict(list)
        """Waves that stand in a bed, or might be shared out into it."""
        for wave in season.waves:
            beds = [stand.bed for stand in wave.stands]
            for bed in wave.entry.beds_of(wave.number)[0] if len(beds) > 1 else beds:
                self._of_bed[bed.name].append(wave)

    def offers(self, space: BedOpening) -> list[Offer]:
        """Return what is safe in an opening: the file's crops first, then those picked soonest."""
        found = [
            offer
            for crop in self._crops
            if space.area >= crop.area_per_plant
            for raised in _ways(crop)
            if (offer := self._offer(space, crop, raised)) is not None
        ]
        return sorted(found, key=self._rank)

    def _rank(self, offer: Offer) -> tuple[bool, date, str]:
        picks = offer.judged.stages.first_pick
        assert picks is not None  # what is safe is picked
        return offer.crop.name not in self._own, picks[0].day, offer.crop.name

    def _offer(self, space: BedOpening, crop: Crop, raised: Raised) -> Offer | None:
        conditions, bed = self._season.conditions, space.bed
        prospects = conditions.prospects(crop, raised, colder_by=bed.colder_than_site)
        day = self._day(space, prospects)
        if day is None or prospects.overwinters(day) or day not in conditions.year:
            return None
        key = (crop.name, raised, prospects.ground, day)
        judged = self._judged.get(key)
        if judged is None:
            judged = self._judged[key] = prospects.judge(planted_on(day))
        gone = judged.stages.pull_out.day + timedelta(days=bed.rest)
        if judged.verdict not in SAFE or (space.until and gone > space.until):
            return None
        offer = Offer(crop, raised, space.area // crop.area_per_plant, judged)
        if is_lost(doubt_of(crop, raised, day, conditions.climate)):
            return None
        return None if self._disturbs(space, offer, gone) else offer

    def _day(self, space: BedOpening, prospects: Prospects) -> date | None:
        """Return the first safe day in an opening on which a crop can be there, if it is soon."""
        day, nursery = space.first, prospects.crop.nursery_days
        if prospects.raised is Raised.TRAYS and nursery is not None:
            day = max(day, self._today + timedelta(days=nursery.low))
        later = [window for window in prospects.windows if window.last >= day]
        if not later:
            return None
        day = max(day, later[0].first)
        return day if day - space.first <= _LONGEST_WAIT else None

    def _disturbs(self, space: BedOpening, offer: Offer, gone: date) -> bool:
        """Whether rotation is against it, or it would move what is planted after it."""
        season, bed = self._season, space.bed
        planted, year = offer.judged.stages.plant.day, season.conditions.year.season
        index = season.room.number[bed.name]
        if barred(season.room, index, offer.crop, planted.toordinal()):
            return True
        stays = season.room.stays[index]
        if too_soon(bed, stays, offer.crop, series="", planted=planted.toordinal(), season=year):
            return True
        pulled = offer.judged.stages.pull_out.day.toordinal()
        stay = Stay(
            wave="",
            series="",
            family=family_key(offer.crop.family),
            first=planted.toordinal(),
            until=gone.toordinal(),
            pulled=pulled,
            area=offer.plants * offer.crop.area_per_plant,
        )
        for wave in self._of_bed[bed.name]:
            day = wave.stages.plant.day
            if planted <= day < gone and (len(wave.stands) > 1 or wave.overlap is not None):
                return True
            series = wave.entry.name
            if day >= planted and too_soon(
                bed, (stay,), wave.crop, series=series, planted=day.toordinal(), season=year
            ):
                return True
        return False


def _ways(crop: Crop) -> tuple[Raised, ...]:
    if crop.raised is Raised.EITHER:
        return Raised.DIRECT, Raised.TRAYS
    return (crop.raised,)
