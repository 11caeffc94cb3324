"""What stands in the way of a wave, against looking into every bed for each; and counted."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

import gardens
from benchmarks.gardens import CROWDED, garden
from drawn import beds, entries
from gardens import crop, text
from sowtide.garden.read import read_garden
from sowtide.reasons import OURS, Dated
from sowtide.schedule.beds import is_taken, row_of, share_out, too_soon
from sowtide.schedule.beds.blocked import MOST_HOLDERS
from sowtide.schedule.beds.room import Room
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Blocked, Holder, Judged, Kept, Opening, Verdict, Wave
from sowtide.season import season_of

KIN = (
    crop("small", days_to_harvest="25", picking_days="5", in_row="50", between_rows="50"),
    crop("middle", days_to_harvest="45", picking_days="20", rotation="3"),
    crop("large", days_to_harvest="60", picking_days="20", in_row="150", rotation="3"),
)


class Slowly:
    """Looks into every bed of a wave, and on every day, for each wave anew."""

    def __init__(self, season: Season, wave: Wave) -> None:
        self.season, self.wave, self.room = season, wave, season.room
        self.crop, self.each = wave.crop, wave.crop.area_per_plant
        listed, self.named = wave.entry.beds_of(wave.number)
        self.indexes = [self.room.number[bed.name] for bed in listed]
        self.day = wave.stages.plant.day.toordinal()

    def judged(self, index: int, day: int) -> Judged:
        ground = self.room.beds[index].colder_than_site
        of = self.season.conditions.prospects(self.crop, self.wave.entry.raised, colder_by=ground)
        return of.judge(Dated.on(date.fromordinal(day), "room", "", OURS))

    def words(self, index: int, day: int) -> str | None:
        if self.named:
            return None
        return too_soon(
            self.room.beds[index],
            self.room.stays[index],
            self.crop,
            series=self.wave.entry.name,
            planted=day,
            season=2026,
        )

    def blocked(self) -> Blocked:
        turns = [entry.name for entry in self.season.garden.entries]
        turn = (self.day, turns.index(self.wave.entry.name))
        free, holders, kept, closed = [0], [], [], None
        for index in self.indexes:
            bed = self.room.beds[index]
            standing = [
                stay
                for stay in self.room.stays[index]
                if (stay.first, turns.index(stay.series)) < turn and stay.until > self.day
            ]
            room = max(bed.area - sum(stay.area for stay in standing), 0) // self.each
            if words := self.words(index, self.day):
                closed = closed or (f"{bed.name}: {words}" if room else None)
                continue
            holders += [(stay.until, stay.wave, bed.name) for stay in standing]
            end = self.judged(index, self.day).stages.pull_out.day.toordinal()
            if is_taken(bed, first=self.day, until=end):
                last = min(s.last for s in bed.taken if s.last.toordinal() >= self.day)
                kept.append(Kept(bed.name, last))
            elif room >= min(row_of(self.crop, bed), self.wave.plants):
                free.append(room)
        soonest = sorted(holders)[:MOST_HOLDERS]
        return Blocked(
            sum(free) if self.wave.entry.split else max(free),
            tuple(Holder(wave, bed, date.fromordinal(until)) for until, wave, bed in soonest),
            len(holders) - len(soonest),
            tuple(kept[:MOST_HOLDERS]),
            closed,
            (),
            self.opening(),
        )

    def opening(self) -> Opening | None:
        last = self.season.conditions.year.last.toordinal()
        for day in range(self.day + 1, last + 1):
            found = self.opening_on(day)
            if found is not None:
                return found
        return None

    def opening_on(self, day: int) -> Opening | None:
        plants, judged = {}, {}
        for index in self.indexes:
            judged[index] = self.judged(index, day)
            end = judged[index].stages.pull_out.day.toordinal()
            room = self.room.free_over(index, first=day, until=end) // self.each
            if room and self.words(index, day) is None:
                plants[index] = room
        safe = (Verdict.SAFE, None)
        usable = sorted(plants, key=lambda index: judged[index].verdict not in safe)
        chosen = [index for index in usable if plants[index] >= self.wave.plants][:1]
        if not chosen and self.wave.entry.split:
            rows = [(i, plants[i], row_of(self.crop, self.room.beds[i])) for i in usable]
            chosen = [index for index, _ in share_out(rows, self.wave.plants)]
        if not chosen:
            return None
        odds = [judged[i].odds if judged[i].odds is not None else 1.0 for i in chosen]
        worst = judged[chosen[odds.index(min(odds))]]
        names = tuple(self.room.beds[index].name for index in chosen)
        return Opening(date.fromordinal(day), names, worst.verdict, worst.odds)


@settings(max_examples=60, deadline=None)
@given(
    beds(),
    entries(("small", "middle", "large")),
    entries(("small", "middle", "large")),
    st.booleans(),
)
def test_it_is_what_looking_into_every_bed_for_each_wave_finds(
    made: list[str], asked: list[str], more: list[str], named: bool
) -> None:
    again = [each.replace("name: s", "name: t") for each in more]
    if named:
        again = [each.replace("}", ", beds: [B0]}") for each in again]
    file = text(*asked, *again, crops=KIN, beds=made)
    assume(read_garden(file.encode(), gardens.LABEL).garden is not None)
    found = gardens.season(file)
    assume(any(wave.blocked for wave in found.waves))
    for wave in found.waves:
        if wave.blocked is not None:
            assert wave.blocked == Slowly(found, wave).blocked(), wave.id


class Counted(tuple[Any, ...]):
    """The stays of all beds; counts how often one is looked into."""

    looks = 0

    def __getitem__(self, index: Any) -> Any:
        Counted.looks += 1
        return super().__getitem__(index)


def test_look_ups_of_beds_grow_with_the_waves(monkeypatch: pytest.MonkeyPatch) -> None:
    """A sixth of the waves has no room: each may not look into every bed for why."""
    begin = Room.__init__

    def counted(self: Room, beds: Any) -> None:
        begin(self, beds)
        self.stays = Counted(self.stays)

    monkeypatch.setattr(Room, "__init__", counted)
    looks = []
    for waves in (500, 2000):
        read = read_garden(garden(waves, per_entry=1, per_bed=CROWDED).encode(), "garden.yaml")
        assert read.garden is not None
        Counted.looks = 0
        found = season_of(read.garden, gardens.EARLY)
        looks.append(Counted.looks)
        without = sum(wave.blocked is not None for wave in found.waves)
        assert waves // 7 <= without <= waves // 5
    # Four times the waves and the beds: at most 4 ** 1.15 times the look-ups.
    assert looks[1] <= 4**1.15 * looks[0], looks
