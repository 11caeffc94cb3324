"""One planting looking for its place, in the beds as far as they are filled in its turn."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from sowtide.garden.model import Bed
from sowtide.schedule.beds.few_beds import few_beds
from sowtide.schedule.beds.open_beds import OpenBeds, PulledOn, Sought
from sowtide.schedule.beds.overlapping import Between, between
from sowtide.schedule.stays import (
    Closings,
    Room,
    Stay,
    barred,
    family_key,
    is_taken,
    row_in,
    row_of,
    share_out,
)
from sowtide.schedule.waves import SAFE, Conditions, Judged, Planting, Prospects, Stand, Verdict

if TYPE_CHECKING:  # only beside a journal
    from sowtide.garden.journal import Happening
    from sowtide.schedule.happened import Account, Loss

_ONLY: tuple[float, Verdict | None] = (1.0, None)
"""What to compare a kind of ground by where there is no other."""

_SAFE = (*SAFE, None)


class Placing:
    """A planting and the beds it may go to, on its planting day.

    Parameters
    ----------
    planting
        What is to be placed.
    room
        The beds, filled with everything that had its turn before.
    conditions
        The place in the growing year.
    only_safe
        Whether only beds in which it is safe come into question.
    account
        What happened to it, or None.
    day
        The day from which on it takes room, if that is later than its planting day: it was not
        planted yet. [ordinal]
    turn
        Number of its turn. [1]
    closings
        What rotation closes in the beds, where others have asked before.
    open_beds
        The beds as those that name none look for room in them; needed to choose, not to judge.
    """

    __slots__ = (
        "_account",
        "_closings",
        "_grounds",
        "_judged",
        "_only_safe",
        "_open_beds",
        "_promises",
        "_turn",
        "conditions",
        "crop",
        "day",
        "entry",
        "gone",
        "planting",
        "room",
        "shut_between",
        "stands",
    )

    def __init__(
        self,
        planting: Planting,
        room: Room,
        conditions: Conditions,
        *,
        only_safe: bool = False,
        account: Account | None = None,
        day: int = 0,
        turn: int = 0,
        closings: Closings | None = None,
        open_beds: OpenBeds | None = None,
    ) -> None:
        self.planting = planting
        self.entry = planting.entry
        self.crop = planting.entry.crop
        self.room = room
        self.conditions = conditions
        self.day = max(planting.planted.day.toordinal(), day)
        self._account = account
        self.stands: tuple[tuple[str, int], ...] = ()
        """Beds it really stands in, and its plants in each."""
        self.gone: Happening | None = None
        """What took the last of its plants."""
        self.shut_between: str | None = None
        """The bed where it might stand between others, did rotation not close it, in words."""
        if account is not None:
            from sowtide.schedule.happened import gone_of, stands_of

            self.stands = stands_of(planting.entry, account)
            self.gone = gone_of(account, self.stands or (("", planting.entry.plants),))
        self._grounds = grounds = conditions.grounds(planting.beds)
        self._promises: dict[float, tuple[float, Verdict | None]] = {}
        if len(grounds) == 1 and not only_safe:
            self._promises[grounds[0]] = _ONLY
        self._only_safe, self._turn = only_safe, turn
        self._closings = closings or Closings(room, conditions.year.season)
        self._open_beds = open_beds
        self._judged: dict[float, Judged] = {}

    def _prospects(self, ground: float) -> Prospects:
        return self.conditions.prospects(self.crop, self.entry.raised, colder_by=ground)

    def _promise(self, ground: float) -> tuple[float, Verdict | None]:
        """Return odds and verdict on a kind of ground, each worked out where it is asked."""
        found = self._promises.get(ground)
        if found is None:
            judged = (
                self._judge(ground)
                if self._account is None
                else self._prospects(ground).judged_on(self.planting.planted.day)
            )
            odds = 1.0 if judged.odds is None else judged.odds
            found = self._promises[ground] = (odds, judged.verdict)
        return found

    def _is_safe(self, ground: float) -> bool:
        return self._promise(ground)[1] in _SAFE

    def _judge(self, ground: float) -> Judged:
        judged = self._judged.get(ground)
        if judged is None:
            judged = self._prospects(ground).judge(self.planting.planted)
            if self._account is not None:
                from sowtide.schedule.happened import as_it_went

                year = self.conditions.year
                judged = as_it_went(judged, self._account, self.entry, gone=self.gone, year=year)
            self._judged[ground] = judged
        return judged

    def best(self) -> Judged:
        """Judge it on the kind of ground of its beds that suits it best."""
        return self._judge(max(self._grounds, key=lambda ground: self._promise(ground)[0]))

    def choose(self) -> list[tuple[int, int]]:
        """Beds and the plants each takes; empty if not all plants find room.

        One bed that takes it whole: of those it names the first in order that rotation leaves open,
        else the first, and never the tightest, since a wave then might lose its room for a bed that
        was added; of open beds the one it likes best.
        Where none does, it is shared out over the fewest beds.
        """
        asked = self._asked()
        if asked is None:
            return self._looked_for()
        if asked in self._open.without:
            return []
        chosen = self._looked_for()
        if not chosen:
            self._open.without.add(asked)
        return chosen

    def _asked(self) -> tuple[object, ...] | None:
        """Return what others may ask as well of the same beds on the same day, or None."""
        entry = self.entry
        own = self.crop.rotation and entry.name in self.room.of_series
        if own or self.planting.beds_named or self._account is not None:
            return None
        planted = self.planting.planted.day.toordinal()
        how = (self.crop.name, entry.raised, entry.plants, entry.split, self._only_safe)
        return (self.day, planted, *how)

    def _looked_for(self) -> list[tuple[int, int]]:
        chosen = self._whole(PulledOn(self._grounds, self._pulled_on, self._is_safe))
        if chosen:
            return chosen
        safe, others = self._by_safety()
        chosen = self._shared(safe)
        if chosen or not others or self._only_safe:
            return chosen
        return self._whole(PulledOn(others, self._pulled_on)) or self._shared(safe, others)

    def _by_safety(self) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """Return the kinds of ground on which it is safe, and the others."""
        safe = tuple(filter(self._is_safe, self._grounds))
        return safe, tuple(ground for ground in self._grounds if ground not in safe)

    def take(self, chosen: list[tuple[int, int]]) -> tuple[Judged, tuple[Stand, ...]]:
        """Stand in the beds chosen, judged by the worst of them."""
        beds = self.room.beds
        worst = self._worst([beds[index] for index, _ in chosen])
        losses: tuple[Loss, ...] = ()
        if self._account is not None:
            from sowtide.schedule.happened import losses_of

            begun = tuple((beds[index].name, count) for index, count in chosen)
            losses = losses_of(self._account, begun)
        stands = []
        for index, count in chosen:
            bed = beds[index]
            left = count
            for loss in losses:
                if loss.bed == bed.name:
                    left -= loss.plants
                    self._take(index, self._lost(worst, bed, loss), sick=loss.happening.sick)
            sick = self.gone is not None and self.gone.sick
            self._take(index, self._stay(worst, bed, left), sick=sick)
            stands.append(Stand(bed, left or count))
        return worst, tuple(stands)

    def _take(self, index: int, stay: Stay, *, sick: bool) -> None:
        """Take room that is still wanted when its turn has come."""
        if sick and stay.area:
            self.room.bar(index, stay)
        if stay.until > self.day and stay.area:
            self.room.take(index, stay)
            self._open.planted(index, stay.family)

    def _lost(self, judged: Judged, bed: Bed, loss: Loss) -> Stay:
        """Plants that stand only until they are gone."""
        stay = self._stay(judged, bed, loss.plants)
        gone = loss.happening.on.toordinal()
        return replace(stay, until=gone, pulled=gone) if gone < stay.pulled else stay

    def choose_between(self) -> Between | None:
        """Return the first bed in which it may stand between others, safe ones first."""
        days = self.entry.overlap
        if not days:
            return None
        area = self.entry.plants * self.crop.area_per_plant
        safe, others = self._by_safety()
        for grounds in (safe, () if self._only_safe else others):
            for index in self.beds():
                ground = self.room.grounds[index]
                if ground not in grounds or self.is_kept(index) or self._is_barred(index):
                    continue
                gone = self._pulled_on(ground)
                found = between(self.room, index, area=area, day=self.day, gone=gone, days=days)
                if found is None:
                    continue
                named = self.planting.beds_named
                shut = None if named else self._closed(index, found.until, gone)
                if shut is None:
                    return found
                if self.shut_between is None:
                    self.shut_between = f"{self.room.beds[index].name}: {shut}"
        return None

    def take_between(self, found: Between) -> tuple[Judged, tuple[Stand, ...]]:
        """Stand between others in a bed."""
        bed = self.room.beds[found.index]
        judged = self._judge(bed.colder_than_site)
        grown = self._stay(judged, bed, self.entry.plants)
        young = replace(grown, until=found.until, pulled=found.until, area=found.young)
        grown = replace(grown, first=found.until)
        self._take(found.index, young, sick=False)
        self._take(found.index, grown, sick=self.gone is not None and self.gone.sick)
        return judged, (Stand(bed, self.entry.plants),)

    def warnings(self, chosen: list[tuple[int, int]]) -> tuple[tuple[str, str], ...]:
        """Say what rotation has against the beds chosen, before they are taken."""
        if not self.planting.beds_named:
            return ()  # another bed was passed over
        said = ((self.room.beds[index].name, self.rotation(index)) for index, _ in chosen)
        return tuple((bed, words) for bed, words in said if words)

    def _stay(self, judged: Judged, bed: Bed, plants: int) -> Stay:
        pulled = judged.stages.pull_out.day.toordinal()
        return Stay(
            wave=self.planting.id,
            series=self.entry.name,
            family=family_key(self.crop.family),
            first=self.day,
            until=pulled + bed.rest,
            pulled=pulled,
            area=plants * self.crop.area_per_plant,
            turn=self._turn,
        )

    def _worst(self, beds: list[Bed]) -> Judged:
        grounds = {bed.colder_than_site for bed in beds}
        if len(grounds) == 1:
            return self._judge(grounds.pop())
        return self._judge(min(grounds, key=lambda ground: (self._promise(ground)[0], -ground)))

    def _whole(self, ends: PulledOn) -> list[tuple[int, int]]:
        plants = self.entry.plants
        area = plants * self.crop.area_per_plant
        if self.planting.beds_named:
            index = self._first_named(self._named(area, ends))
        else:
            index = self._open.best(self._sought(area, ends))
        return [] if index is None else [(index, plants)]

    def _shared(
        self, first: tuple[float, ...], then: tuple[float, ...] = ()
    ) -> list[tuple[int, int]]:
        """Share it out over the fewest beds, those on some kinds of ground first, if it may be.

        It is pulled out of all of them on one day, here the latest that may be.
        """
        grounds = first + then
        if not self.entry.split or not grounds:
            return []
        each, plants = self.crop.area_per_plant, self.entry.plants
        latest = max(map(self._pulled_on, grounds))
        ends = PulledOn(grounds, lambda _: latest)
        least = min(row_in(self.crop, self.room.narrowest), plants)
        in_order, named = not (first and then), self.planting.beds_named
        sought = self._sought(least * each, ends)
        if in_order and not named:
            few = few_beds(self._open, sought, least=least, plants=plants)
            if shared := share_out(self._rooms(few, ends), plants):
                return shared
        fitting = self._named(least * each, ends) if named else self._open.with_room(sought)
        found = self._rooms(fitting, ends)
        if not in_order:
            found.sort(key=lambda bed: self.room.grounds[bed[0]] not in first)
        return share_out(found, plants)

    def _rooms(self, indices: Iterable[int], ends: PulledOn) -> list[tuple[int, int, int]]:
        """Return some beds with the plants that each has room for, and those of a row across it."""
        each, beds = self.crop.area_per_plant, self.room.beds
        return [
            (index, self._free(index, ends) // each, row_of(self.crop, beds[index]))
            for index in indices
        ]

    @property
    def _open(self) -> OpenBeds:
        assert self._open_beds is not None  # whoever chooses beds hands them in
        return self._open_beds

    def _first_named(self, fitting: Iterator[int]) -> int | None:
        """Return the first that rotation leaves open, else the first: it was named."""
        first = next(fitting, None)
        if first is None or self.rotation(first) is None:
            return first
        return next((index for index in fitting if self.rotation(index) is None), first)

    def _named(self, area: int, ends: PulledOn) -> Iterator[int]:
        """Yield the beds that it names with so much free area, in order."""
        for index in self.beds():
            if self._free(index, ends) >= area and not self._is_barred(index):
                yield index

    def _sought(self, area: int, ends: PulledOn) -> Sought:
        return Sought(self.crop, series=self.entry.name, area=area, day=self.day, ends=ends)

    def _pulled_on(self, ground: float) -> int:
        return self._judge(ground).stages.pull_out.day.toordinal()

    def _free(self, index: int, ends: PulledOn) -> int:
        """Return the area free for it in a bed; none on ground that does not come into question."""
        until = ends.on(self.room.grounds[index])
        return 0 if until is None else self.room.free(index, first=self.day, until=until)

    def free(self, index: int) -> int:
        """Return the least area free in a bed over its whole stay. [µm²]"""
        return self.room.free(index, first=self.day, until=self.pulled(index))

    def pulled(self, index: int) -> int:
        """Return the day it would be pulled out of a bed. [ordinal]"""
        return self._pulled_on(self.room.grounds[index])

    def beds(self) -> Iterator[int]:
        """Yield the beds that the wave may go to, in order, room or not."""
        return (self.room.number[bed.name] for bed in self.planting.beds)

    def is_kept(self, index: int) -> bool:
        """Say whether the grower keeps a bed for something else during the wave's stay."""
        bed = self.room.beds[index]
        if not bed.taken:
            return False
        return is_taken(bed, first=self.day, until=self.pulled(index))

    def _is_barred(self, index: int) -> bool:
        return barred(self.room, index, self.crop, self.day) is not None

    def rotation(self, index: int) -> str | None:
        """Say what rotation has against a bed, or return None."""
        return self._closed(index, self.day)

    def _closed(self, index: int, day: int, pulled: int | None = None) -> str | None:
        return self._closings.closed(
            index, self.crop, series=self.entry.name, planted=day, pulled=pulled
        )
