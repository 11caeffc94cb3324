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
from sowtide.schedule.beds.blocked import MOST_HOLDERS
from sowtide.schedule.season import Season
from sowtide.schedule.stays import is_taken, row_of, share_out, too_soon
from sowtide.schedule.stays.room import Room
from sowtide.schedule.waves import SAFE, Blocked, Holder, Judged, Kept, Opening, Wave
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
            pulled=self.judged(index, day).stages.pull_out.day.toordinal(),
        )

    def turn(self, wave: Wave) -> tuple[bool, bool, date, int]:
        """Whose turn comes before whose: as documented, and not as the plan counted it."""
        entries = [entry.name for entry in self.season.garden.entries]
        named = wave.entry.beds_of(wave.number)[1]
        day = wave.stages.plant.day
        return (
            not wave.entry.first,
            not named and not wave.entry.first,
            day,
            entries.index(wave.entry.name),
        )

    def blocked(self) -> Blocked:
        waves = {wave.id: wave for wave in self.season.waves}
        free, standing, coming, kept, closed = [0], [], [], [], None
        for index in self.indexes:
            bed = self.room.beds[index]
            end = self.judged(index, self.day).stages.pull_out.day.toordinal()
            there = [
                stay
                for stay in self.room.stays[index]
                if self.turn(waves[stay.wave]) < self.turn(self.wave)
                and stay.until > self.day
                and stay.first < end + bed.rest
            ]
            days = range(self.day, max(end + bed.rest, self.day + 1))
            fullest = max(sum(s.area for s in there if s.first <= d < s.until) for d in days)
            room = (bed.area - fullest) // self.each
            if words := self.words(index, self.day):
                closed = closed or (f"{bed.name}: {words}" if room > 0 else None)
                continue
            for stay in there:
                if stay.first > self.day:
                    coming.append((stay.first, stay.wave, bed.name, stay.until))
                else:
                    standing.append((stay.until, stay.wave, bed.name))
            if is_taken(bed, first=self.day, until=end):
                last = min(s.last for s in bed.taken if s.last.toordinal() >= self.day)
                kept.append(Kept(bed.name, last))
            elif room >= min(row_of(self.crop, bed), self.wave.plants):
                free.append(room)
        holders = [
            *(Holder(w, bed, date.fromordinal(until)) for until, w, bed in sorted(standing)),
            *(
                Holder(w, bed, date.fromordinal(until), date.fromordinal(first))
                for first, w, bed, until in sorted(coming)
            ),
        ]
        soonest = tuple(holders[:MOST_HOLDERS])
        return Blocked(
            plants=sum(free) if self.wave.entry.split else max(free),
            holders=soonest,
            more_holders=len(holders) - len(soonest),
            kept=tuple(kept[:MOST_HOLDERS]),
            rotation=closed,
            sick=(),
            opening=self.opening(),
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
        safe = (*SAFE, None)
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


@settings(max_examples=40)
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
        again[0] = again[0].replace("}", ", first: yes}")
    file = text(*asked, *again, crops=KIN, beds=made)
    assume(read_garden(file.encode(), gardens.LABEL).garden is not None)
    found = gardens.season(file)
    assume(any(wave.blocked for wave in found.waves))
    for wave in found.waves:
        if wave.blocked is not None:
            assert wave.blocked == Slowly(found, wave).blocked(), wave.id


class Counted(tuple[Any, ...]):
    """What is in all beds; counts how often one is looked into."""

    looks = 0

    def __getitem__(self, index: Any) -> Any:
        Counted.looks += 1
        return super().__getitem__(index)


def test_look_ups_of_beds_grow_with_the_waves(monkeypatch: pytest.MonkeyPatch) -> None:
    """A sixth of the waves has no room: none may look into every bed, for room or for why."""
    begin = Room.__init__

    def counted(self: Room, beds: Any) -> None:
        begin(self, beds)
        self.stays, self.levels = Counted(self.stays), Counted(self.levels)

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
