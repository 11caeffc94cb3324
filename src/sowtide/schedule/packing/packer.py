"""The waves of a plan as things to pack, and a packing as beds wanted for them."""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum

from sowtide.garden.model import Bed, Entry
from sowtide.progress import Progress
from sowtide.schedule.packing.packing import Block, Item, Packing, pack
from sowtide.schedule.season import Season
from sowtide.schedule.stays import barred, family_key, is_taken, row_of, share_out, too_soon
from sowtide.schedule.waves import SAFE, Judged, Stand, Wave

_EFFORT, _EFFORT_EACH = 25_000, 150
"""Places looked at for a better packing: in every plan, and for each wave of it. [1]"""

Wanted = dict[tuple[str, int], tuple[Bed, ...]]
"""Beds wanted for waves, by series and number; none where a wave is left out."""


def beds_of(stands: tuple[Stand, ...] | None) -> tuple[Bed, ...]:
    """Return the beds that a wave stands in; none where it stands nowhere."""
    return tuple(stand.bed for stand in stands or ())


def area_days_of(judged: Judged, entry: Entry) -> int:
    """Area of a wave of an entry times the days from planting to pulling out. [µm² days]"""
    days = (judged.stages.pull_out.day - judged.stages.plant.day).days
    return days * entry.plants * entry.crop.area_per_plant


class SharedOut(Enum):
    """What becomes of waves that are shared out over several beds."""

    LAST = "into what the others leave"
    KEPT = "they stay where they are"
    FIRST = "before the others, where no bed takes them whole"


def _is_for_several(wave: Wave, shared: SharedOut) -> bool:
    if shared is SharedOut.KEPT:
        return len(wave.stands) > 1
    beds, _ = wave.entry.beds_of(wave.number)
    return max((bed.area for bed in beds), default=0) < wave.plants * wave.crop.area_per_plant


class Packer:
    """Makes a packing of a plan, and beds wanted of the packing."""

    def __init__(self, season: Season, shared: SharedOut) -> None:
        garden, waves, today = season.garden, season.waves, season.today
        self.garden = garden
        self.conditions = season.conditions
        self.accounts = season.accounts
        self._room = season.room
        self.beds = garden.beds
        self._number = {bed.name: number for number, bed in enumerate(garden.beds)}
        self._kinds: dict[tuple[float, int], int] = {}
        for bed in garden.beds:
            self._kinds.setdefault((bed.colder_than_site, bed.rest), len(self._kinds))
        later = [w for w in waves if w.stages.plant.day >= today and not w.is_planted]
        self._shared = shared
        self.shared = [wave for wave in later if wave.entry.split and _is_for_several(wave, shared)]
        """Waves that are shared out before the others are packed."""
        kept = {wave.id for wave in self.shared} if shared is SharedOut.KEPT else set()
        self.waves = [wave for wave in later if wave.id not in kept]
        still = {wave.id for wave in self.waves}
        self._standing = [wave for wave in waves if wave.id not in still]
        self.now = {(w.entry.name, w.number): beds_of(w.stands) for w in self.waves}
        self.planted = {
            (w.entry.name, w.number): w.stands
            for w in self._standing
            if w.stages.plant.day < today and w.stands and not w.is_planted
        }
        """Where waves stand that no journal tells of, and that nothing moves."""
        self._open: dict[tuple[object, ...], tuple[int, ...]] = {}

    def wanted(self, progress: Progress) -> Wanted:
        """Pack the waves and return the beds that each should stand in."""
        items = tuple(self._item(wave) for wave in self.waves)
        stands = [stand for wave in self._standing for stand in self._stands(wave)]
        wanted: Wanted = {}
        if self._shared is SharedOut.FIRST:
            packing = self._packing(items, stands)
            first = {wave.id for wave in self.shared}
            for number, wave in enumerate(self.waves):
                if wave.id in first:
                    self._share(packing, number, wanted)
            stands += packing.shared
            rest = [n for n, wave in enumerate(self.waves) if wave.id not in first]
            self.waves = [self.waves[number] for number in rest]
            items = tuple(items[number] for number in rest)
        packing = self._packing(items, stands)
        begin = [
            self._number[wave.stands[0].bed.name] if len(wave.stands) == 1 else None
            for wave in self.waves
        ]
        where = pack(packing, begin, effort=_EFFORT + _EFFORT_EACH * len(items), progress=progress)
        packing.set_to(where)
        for number, wave in enumerate(self.waves):
            bed = where[number]
            key = (wave.entry.name, wave.number)
            wanted[key] = () if bed is None else (self.beds[bed],)
        for number, wave in enumerate(self.waves):
            if where[number] is None and wave.entry.split:
                self._share(packing, number, wanted)
        return wanted

    def _packing(self, items: tuple[Item, ...], stands: list[Block]) -> Packing:
        return Packing(
            areas=tuple(bed.area for bed in self.beds),
            kinds=tuple(self._kinds[bed.colder_than_site, bed.rest] for bed in self.beds),
            items=items,
            stands=stands,
        )

    def _share(self, packing: Packing, number: int, wanted: Wanted) -> None:
        wave = self.waves[number]
        beds = _share(packing, number, wave, self.beds)
        wanted[wave.entry.name, wave.number] = tuple(self.beds[bed] for bed in beds)

    def _stands(self, wave: Wave) -> list[Block]:
        family = family_key(wave.crop.family)
        pulled = wave.stages.pull_out.day.toordinal()
        return [
            Block(
                bed=self._number[stand.bed.name],
                first=wave.stages.plant.day.toordinal(),
                pulled=pulled,
                until=pulled + stand.bed.rest,
                area=stand.plants * wave.crop.area_per_plant,
                series=wave.entry.name,
                family=family,
            )
            for stand in wave.stands
        ]

    def _item(self, wave: Wave) -> Item:
        entry, planted = wave.entry, wave.stages.plant
        listed, named = entry.beds_of(wave.number)
        judged: dict[float, Judged] = {}
        for ground in self.conditions.grounds(listed):
            prospects = self.conditions.prospects(entry.crop, entry.raised, colder_by=ground)
            judged[ground] = prospects.judge(planted)
        safe = {g for g, each in judged.items() if each.verdict in (*SAFE, None)}
        if wave.judged.verdict not in (*SAFE, None):  # safe nowhere, or put where it is not
            safe = set(judged)
        stays = []
        for ground, rest in self._kinds:
            there = judged.get(ground, wave.judged).stages.pull_out.day.toordinal()
            stays.append((there, there + rest))
        area = entry.plants * entry.crop.area_per_plant
        first = planted.day.toordinal()
        return Item(
            first=first,
            stays=tuple(stays),
            area=area,
            beds=self._open_beds(wave, listed, named, safe, judged),
            worth=max((area_days_of(judged[ground], entry) for ground in safe), default=0),
            series=entry.name,
            family=family_key(entry.crop.family),
            strict=not named and entry.crop.rotation > 0,
        )

    def _open_beds(
        self,
        wave: Wave,
        listed: tuple[Bed, ...],
        named: bool,
        grounds: set[float],
        judged: dict[float, Judged],
    ) -> tuple[int, ...]:
        """Beds that the wave may stand in for all its stay, were they empty."""
        first, crop = wave.stages.plant.day.toordinal(), wave.crop
        kept = tuple(self._kept_from(wave, listed, judged))
        key = (
            id(listed),
            crop.name,
            tuple(sorted(grounds)),
            kept,
            wave.entry.name if named else "",
        )
        found = self._open.get(key)
        if found is None:
            season = self.conditions.year.season
            found = self._open[key] = tuple(
                self._number[bed.name]
                for bed in listed
                if bed.colder_than_site in grounds
                and bed.name not in kept
                and bed.area >= crop.area_per_plant
                and (
                    named
                    or not too_soon(
                        bed, (), crop, series=wave.entry.name, planted=first, season=season
                    )
                )
            )
        return found

    def _kept_from(
        self, wave: Wave, listed: tuple[Bed, ...], judged: dict[float, Judged]
    ) -> Iterator[str]:
        """Yield the beds in which something else stands by the file, or that sickness closes."""
        first = wave.stages.plant.day.toordinal()
        for bed in listed:
            pulled = judged[bed.colder_than_site].stages.pull_out.day
            taken = bed.taken and is_taken(bed, first=first, until=pulled.toordinal())
            if taken or barred(self._room, self._number[bed.name], wave.crop, first):
                yield bed.name


def _share(packing: Packing, number: int, wave: Wave, garden_beds: tuple[Bed, ...]) -> list[int]:
    """Share out a wave that stands nowhere, if the rules of a plan would do it in just that way.

    A plan is filled in order of planting day: it fills a bed by what is free on the day, whatever
    comes later. So only such beds will do as are no fuller over the whole stay.
    """
    each = wave.crop.area_per_plant
    whole = {bed: packing.room(number, bed) // each for bed in packing.items[number].beds}
    row = {bed: row_of(wave.crop, garden_beds[bed]) for bed in whole}
    apart = [(bed, room, row[bed]) for bed, room in whole.items() if room > 0]
    beds = {bed for bed, _ in share_out(apart, wave.plants)}
    in_turn = [
        (bed, packing.room_in_turn(number, bed) // each, row[bed]) for bed in whole if bed in beds
    ]
    if not beds or any(free >= wave.plants for _, free, _ in in_turn):
        return []
    shared = share_out(in_turn, wave.plants)
    if len(shared) < len(beds) or any(count > whole[bed] for bed, count in shared):
        return []
    for bed, count in shared:
        packing.share(number, bed, count * each)
    return [bed for bed, _ in shared]
