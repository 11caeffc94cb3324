"""What would be safe in an opening, with nothing else moved."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence, Set
from datetime import date, timedelta

from sowtide.days import DateSpan
from sowtide.garden.crop import Crop, Raised
from sowtide.garden.model import Bed
from sowtide.schedule.openings.free_space import BedOpening, KeptOut, Offer
from sowtide.schedule.season import Season
from sowtide.schedule.stays import Stay, barred, family_key, most_together, too_soon
from sowtide.schedule.waves import SAFE, Judged, Prospects, Wave, doubt_of, is_lost
from sowtide.schedule.work import WorkingDays

_LONGEST_WAIT = timedelta(weeks=3)
"""How long an opening may lie before what is offered for it goes in: sowtide's own reading."""


class Offering:
    """Tries crops, direct and as plants, in one opening after another."""

    def __init__(self, season: Season, crops: Sequence[Crop], today: date) -> None:
        self._season = season
        self._today = today
        self._crops = crops
        self._working = WorkingDays(season.garden)
        self._own = {crop.name for crop in season.garden.crops}
        self._judged: dict[tuple[str, Raised, float, date], Judged] = {}
        self._of_bed: dict[str, list[Wave]] = defaultdict(list)
        """Waves that stand in a bed, or might be shared out into it."""
        for wave in season.waves:
            beds = [stand.bed for stand in wave.stands]
            for bed in wave.entry.beds_of(wave.number)[0] if len(beds) > 1 else beds:
                self._of_bed[bed.name].append(wave)
        self._turns = {stay.wave: stay.turn for _, stay in season.room.in_turn}
        """When each had its turn: what came later was not there yet."""
        self._open_kin: dict[str, list[Wave]] = defaultdict(list)
        """Waves that stand somewhere and may stand in any bed, by family."""
        for wave in season.waves:
            if wave.stands and _is_open(wave):
                self._open_kin[family_key(wave.crop.family)].append(wave)

    def offers(self, space: BedOpening) -> list[Offer]:
        """Return what fits into an opening: the file's crops first, then those picked soonest."""
        return [each for each in self._safe(space) if not self._is_kept_out(space, each)]

    def _safe(self, space: BedOpening) -> list[Offer]:
        """Return what is safe in an opening, in the order of `offers`, kept out or not."""
        found = [
            offer
            for crop in self._crops
            if space.area >= crop.area_per_plant
            for raised in _ways(crop)
            if (offer := self._offer(space, crop, raised)) is not None
        ]
        return sorted(found, key=self._rank)

    def in_trays(self, space: BedOpening, last: date, promised: Set[str]) -> Offer | None:
        """Return the best of the crops to be sown in trays until a day for an opening to come.

        Those that are promised to its bed already are left out.
        """
        found = [
            offer
            for crop in self._crops
            if crop.nursery_days is not None and space.area >= crop.area_per_plant
            if crop.name not in promised
            if Raised.TRAYS in _ways(crop) and self._is_near(space, crop.nursery_days.low, last)
            if (offer := self._offer(space, crop, Raised.TRAYS)) is not None
            and self._today <= offer.sow <= last
            and not self._is_kept_out(space, offer)
        ]
        return min(found, key=self._rank, default=None)

    def _is_near(self, space: BedOpening, nursery: int, last: date) -> bool:
        """Say whether seedlings sown until a day can go into an opening soon after it begins."""
        ready = self._today + timedelta(days=nursery)
        return ready - _LONGEST_WAIT <= space.first <= last + timedelta(days=nursery)

    def _rank(self, offer: Offer) -> tuple[bool, date, str]:
        picks = offer.judged.stages.first_pick
        assert picks is not None  # else it is no offer
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
            judged = self._judged[key] = prospects.judge_on(day)
        gone = judged.stages.pull_out.day + timedelta(days=bed.rest)
        if judged.verdict not in SAFE or (space.until and gone > space.until):
            return None
        if judged.stages.first_pick is None:  # safe enough for the grower, and mostly nothing
            return None
        if is_lost(doubt_of(crop, raised, day, conditions.climate)):
            return None
        return Offer(crop, raised, space.area // crop.area_per_plant, judged)

    def _day(self, space: BedOpening, prospects: Prospects) -> date | None:
        """Return the first safe day in an opening on which a crop can be there, if it is soon."""
        day, raised = space.first, timedelta()
        if prospects.raised is Raised.TRAYS and prospects.crop.nursery_days is not None:
            raised = timedelta(days=prospects.crop.nursery_days.low)
            day = max(day, self._today + raised)
        last = space.first + _LONGEST_WAIT
        later = [each for each in prospects.windows if each.last >= day and each.first <= last]
        if not later or day > last:
            return None
        if not self._working.are_all:
            return self._worked(later, day, last, raised)
        return max(day, later[0].first)

    def _worked(
        self, windows: Sequence[DateSpan], first: date, last: date, raised: timedelta
    ) -> date | None:
        """Return the first safe day of a span on which there is someone to plant.

        It is one for which someone is there to sow as well, where there is such a day.
        """
        days = [
            date.fromordinal(day)
            for each in windows
            for day in range(
                max(first, each.first).toordinal(), min(last, each.last).toordinal() + 1
            )
        ]
        planted = [day for day in days if day in self._working]
        sown = (day for day in planted if day - raised in self._working)
        return next(sown, next(iter(planted), None))

    def _is_kept_out(self, space: BedOpening, offer: Offer) -> bool:
        """Whether rotation is against it, or it would be in the way of what is planned."""
        return self._is_barred(space.bed, offer) or any(self._in_the_way_of(space.bed, offer))

    def kept_out(self, space: BedOpening) -> KeptOut | None:
        """Return what is safe in an opening that fits nothing, and why; None if nothing is."""
        offer = next(iter(self._safe(space)), None)
        if offer is None:
            return None
        waves: Iterable[str] = ()
        if not self._is_barred(space.bed, offer):
            waves = dict.fromkeys(self._in_the_way_of(space.bed, offer))
        return KeptOut(offer.crop, offer.raised, tuple(waves))

    def _is_barred(self, bed: Bed, offer: Offer) -> bool:
        """Whether rotation is against it."""
        season, first = self._season, offer.judged.stages.plant.day.toordinal()
        index, year = season.room.number[bed.name], season.conditions.year.season
        if barred(season.room, index, offer.crop, first):
            return True
        stays = season.room.stays[index]
        return bool(too_soon(bed, stays, offer.crop, series="", planted=first, season=year))

    def _in_the_way_of(self, bed: Bed, offer: Offer) -> Iterator[str]:
        """Yield the waves that would not stand where they are planned."""
        stages = offer.judged.stages
        first, pulled = stages.plant.day.toordinal(), stages.pull_out.day.toordinal()
        stay = Stay(
            wave="",
            series="",
            family=family_key(offer.crop.family),
            first=first,
            until=pulled + bed.rest,
            pulled=pulled,
            area=offer.plants * offer.crop.area_per_plant,
        )
        yield from (w.id for w in self._of_bed[bed.name] if self._moves(w, bed, stay))
        for wave in self._open_kin[stay.family]:
            planted = wave.stages.plant.day.toordinal()
            if first <= planted < pulled and self._would_join(wave, bed, stay):
                yield wave.id

    def _moves(self, wave: Wave, bed: Bed, stay: Stay) -> bool:
        """Whether a wave would not stand in a bed as planned, did something else stay there."""
        day, is_open = wave.stages.plant.day, _is_open(wave)
        planted = day.toordinal()
        if stay.first <= planted < stay.until:
            if len(wave.stands) > 1 or wave.overlap is not None:
                return True
            if is_open and not self._stood(bed, day):
                return True  # the bed was empty, and would not be
        # What names its bed is only warned of what follows it there.
        if planted < stay.first and not is_open:
            return False
        return bool(
            too_soon(
                bed,
                (stay,),
                wave.crop,
                series=wave.entry.name,
                planted=planted,
                season=self._season.conditions.year.season,
                pulled=wave.stages.pull_out.day.toordinal() if is_open else None,
            )
        )

    def _stood(self, bed: Bed, day: date) -> bool:
        """Whether something stands in a bed on a day that is not planted on it."""
        room, on = self._season.room, day.toordinal()
        return any(stay.first < on < stay.until for stay in room.stays[room.number[bed.name]])

    def _would_join(self, wave: Wave, bed: Bed, kin: Stay) -> bool:
        """Whether a wave elsewhere that may stand in any bed would be set beside its kin in one."""
        if any(stand.bed == bed for stand in wave.stands):
            return False
        room, planted = self._season.room, wave.stages.plant.day
        index, first = room.number[bed.name], planted.toordinal()
        prospects = self._season.conditions.prospects(
            wave.crop, wave.entry.raised, colder_by=bed.colder_than_site
        )
        until = prospects.judge_on(planted).stages.pull_out.day.toordinal() + bed.rest
        before = [
            stay
            for stay in room.stays[index]
            if stay.turn < self._turns[wave.id] and stay.first < until and stay.until > first
        ]
        free = bed.area - most_together(before, first)
        return free - kin.area >= wave.plants * wave.crop.area_per_plant


def _is_open(wave: Wave) -> bool:
    """Whether a wave may stand in any bed, and has its turn after those that name theirs."""
    return not wave.entry.first and not wave.entry.beds_of(wave.number)[1]


def _ways(crop: Crop) -> tuple[Raised, ...]:
    if crop.raised is Raised.EITHER:
        return Raised.DIRECT, Raised.TRAYS
    return (crop.raised,)
