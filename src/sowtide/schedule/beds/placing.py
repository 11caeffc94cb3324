"""One planting looking for its place, in the beds as they are on its day."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from sowtide.garden.model import Bed
from sowtide.reasons import Dated, Origin
from sowtide.schedule.beds.overlapping import Between, between
from sowtide.schedule.beds.room import Room, Stay, is_taken
from sowtide.schedule.beds.rotation import Closings, barred, family_key
from sowtide.schedule.beds.sharing import row_in, row_of, share_out
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
        The beds, filled with everything planted before.
    conditions
        The place in the growing year.
    only_safe
        Whether only beds in which it is safe come into question.
    account
        What happened to it, or None.
    day
        The day its turn has come, if that is later than its planting day: it was not planted yet.
        [ordinal]
    gone_by
        Whether the beds are filled beyond that day: it waited for a wave before it that found no
        room.
    closings
        What rotation closes in the beds, where others have asked before.
    """

    __slots__ = (
        "_account",
        "_closings",
        "_gone_by",
        "_judged",
        "_only_safe",
        "conditions",
        "crop",
        "day",
        "entry",
        "gone",
        "others",
        "planting",
        "promises",
        "room",
        "safe",
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
        gone_by: bool = False,
        closings: Closings | None = None,
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
        if account is not None:
            from sowtide.schedule.happened import gone_of, stands_of

            self.stands = stands_of(planting.entry, account)
            self.gone = gone_of(account, self.stands or (("", planting.entry.plants),))
        grounds = conditions.grounds(planting.beds)
        self.promises = {grounds[0]: _ONLY}
        self.safe, self.others = list(grounds), []
        if len(grounds) > 1 or only_safe:
            self.promises = {g: self.promise(planting.planted.day, g) for g in grounds}
            self.safe = [g for g in grounds if self.promises[g][1] in _SAFE]
            self.others = [g for g in grounds if g not in self.safe]
        self._only_safe, self._gone_by = only_safe, gone_by
        self._closings = closings or Closings(room, conditions.year.season)
        self._judged: dict[float, Judged] = {}

    def _prospects(self, ground: float) -> Prospects:
        return self.conditions.prospects(self.crop, self.entry.raised, colder_by=ground)

    def promise(self, planted: date, ground: float) -> tuple[float, Verdict | None]:
        """Return odds and verdict of a planting day on a kind of ground."""
        return self._prospects(ground).promise(planted)

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
        return self._judge(max(self.promises, key=lambda ground: self.promises[ground][0]))

    def choose(self) -> list[tuple[int, int]]:
        """Beds and the plants each takes; empty if not all plants find room.

        The first bed that takes it whole, in order: not the tightest, since a wave then might lose
        its room for a bed that was added. Where it must be shared out, over the fewest beds.
        """
        chosen = self._whole(self.safe) or self._shared(self.safe)
        if chosen or not self.others or self._only_safe:
            return chosen
        return self._whole(self.others) or self._shared([*self.safe, *self.others])

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

    def _lost(self, judged: Judged, bed: Bed, loss: Loss) -> Stay:
        """Plants that stand only until they are gone."""
        stay = self._stay(judged, bed, loss.plants)
        gone = loss.happening.on.toordinal()
        return replace(stay, until=gone, pulled=gone) if gone < stay.pulled else stay

    def choose_between(self) -> Between | None:
        """Return the first bed in which it may stand between others, safe ones first."""
        days = self.entry.overlap
        if not days or self._gone_by:
            return None
        area = self.entry.plants * self.crop.area_per_plant
        for grounds in (self.safe, [] if self._only_safe else self.others):
            for index in self.beds():
                ground = self.room.beds[index].colder_than_site
                if ground not in grounds or self.is_kept(index) or self._is_barred(index):
                    continue
                gone = self._judge(ground).stages.pull_out.day.toordinal()
                found = between(self.room, index, area=area, day=self.day, gone=gone, days=days)
                if found is None:
                    continue
                if self.planting.beds_named or self._rotation_on(index, found.until) is None:
                    return found
        return None

    def take_between(self, found: Between) -> tuple[Judged, tuple[Stand, ...]]:
        """Stand between others in a bed."""
        bed = self.room.beds[found.index]
        judged = self._judge(bed.colder_than_site)
        grown = self._stay(judged, bed, self.entry.plants)
        young = replace(grown, until=found.until, pulled=found.until, area=found.young)
        grown = replace(grown, first=found.until)
        self.room.take_between(found.index, young, grown, kept=found.kept)
        if self.gone is not None and self.gone.sick:
            self.room.bar(found.index, grown)
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
            self.planting.id,
            self.entry.name,
            family_key(self.crop.family),
            self.day,
            pulled + bed.rest,
            pulled,
            plants * self.crop.area_per_plant,
        )

    def _worst(self, beds: list[Bed]) -> Judged:
        grounds = {bed.colder_than_site for bed in beds}
        return self._judge(min(grounds, key=lambda ground: (self.promises[ground][0], -ground)))

    def _whole(self, grounds: list[float]) -> list[tuple[int, int]]:
        plants = self.entry.plants
        for index in self.fitting(plants * self.crop.area_per_plant, grounds):
            return [(index, plants)]
        return []

    def _shared(self, grounds: list[float]) -> list[tuple[int, int]]:
        """Share it out over the fewest beds, those on safe ground first, if it may be split."""
        if not self.entry.split:
            return []
        each, beds = self.crop.area_per_plant, self.room.beds
        least = min(row_in(self.crop, self.room.narrowest), self.entry.plants)
        found = [
            (index, self._free(index) // each, row_of(self.crop, beds[index]))
            for index in self.fitting(least * each, grounds)
        ]
        if self.safe and grounds is not self.safe:
            found.sort(key=lambda bed: beds[bed[0]].colder_than_site not in self.safe)
        return share_out(found, self.entry.plants)

    def fitting(self, area: int, grounds: list[float]) -> Iterator[int]:
        """Yield the beds with so much free area that the wave may go to, in order."""
        room, kept, rotates = self.room, self.is_kept, self.crop.rotation > 0
        if self.planting.beds_named:
            for index in self.beds():
                on_ground = room.beds[index].colder_than_site in grounds
                free = on_ground and self._free(index) >= area
                if free and not kept(index) and not self._is_barred(index):
                    yield index
        elif grounds:
            rotates = rotates or bool(room.sick)
            for index in room.with_room(area, grounds):
                if not kept(index) and not (rotates and self.rotation(index)):
                    yield index

    def _free(self, index: int) -> int:
        """Area free in a bed, for the whole stay: of what stands already, nothing comes back."""
        if not self._gone_by:
            return self.room.free(index)
        judged = self._judge(self.room.beds[index].colder_than_site)
        gone = judged.stages.pull_out.day.toordinal()
        return self.room.free_over(index, first=self.day, until=gone)

    def beds(self) -> Iterator[int]:
        """Yield the beds that the wave may go to, in order, room or not."""
        return (self.room.number[bed.name] for bed in self.planting.beds)

    def is_kept(self, index: int) -> bool:
        """Say whether the grower keeps a bed for something else during the wave's stay."""
        bed = self.room.beds[index]
        if not bed.taken:
            return False
        judged = self._judge(bed.colder_than_site)
        until = judged.stages.pull_out.day.toordinal()
        return is_taken(bed, first=self.day, until=until)

    def _is_barred(self, index: int) -> bool:
        return barred(self.room, index, self.crop, self.day) is not None

    def rotation(self, index: int) -> str | None:
        """Say what rotation has against a bed, or return None."""
        return self._rotation_on(index, self.day)

    def _rotation_on(self, index: int, day: int) -> str | None:
        return self._closings.closed(index, self.crop, series=self.entry.name, planted=day)


def bed_free(judged: Judged, stands: tuple[Stand, ...]) -> Dated:
    """Return the day on which the last of a wave's beds may be planted again."""
    free = judged.stages.pull_out
    rested = stands[0].bed
    if len(stands) > 1:
        rested = max((stand.bed for stand in stands), key=lambda bed: bed.rest)
    if rested.rest:
        origin = Origin(rested.span.file, rested.span.line)
        free = free.then(rested.rest, "pull-out", f"days of rest for {rested.name}", origin)
    return free
