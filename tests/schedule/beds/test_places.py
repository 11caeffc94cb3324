"""Which bed a wave gets: by hand, and against looking into every bed in its turn.

A plant takes a square metre. `fruit` stands 64 days, 50 to its first pick and 14 of picking;
`quick` 25 days, and `leaf` of another family 64.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

import gardens
from drawn import beds, entries
from gardens import crop, text, wave
from schedule.beds.test_blocked import KIN
from sowtide.garden.read import read_garden
from sowtide.schedule.season import Season
from sowtide.schedule.stays import row_of, share_out, too_soon
from sowtide.schedule.stays.room import Room
from sowtide.schedule.waves import SAFE, Wave

CROPS = (
    crop(),
    crop("quick", days_to_harvest="20", picking_days="5"),
    crop("leaf", family="leaf family"),
    crop("kin", rotation="3"),
    crop("turned", rotation="3"),
)
THREE = [f"{{bed: {name}, size: 1 x 10}}" for name in ("A", "B", "C")]


def _season(*asked: str, made: list[str] | None = None) -> Season:
    file = text(*asked, crops=CROPS, beds=THREE if made is None else made, fall_allowance="0")
    return gardens.season(file)


def _where(found: Season) -> dict[str, str]:
    """The beds that waves stand in, each with its plants."""
    return {
        each.id: " ".join(f"{stand.bed.name}{stand.plants}" for stand in each.stands)
        for each in found.waves
    }


# In passes


def test_what_names_its_bed_comes_before_what_does_not() -> None:
    # Ten and ten for one bed: the first is planted sooner, but might stand in any.
    may, august = wave(start="06-01", plants="10"), wave(start="07-01", plants="10", name="named")
    assert _where(_season(may, august, made=THREE[:1])) == {"fruit-1": "A10", "named-1": ""}
    named = august.replace("}", ", beds: A}")
    assert _where(_season(may, named, made=THREE[:1])) == {"fruit-1": "", "named-1": "A10"}


def test_what_asks_to_be_first_comes_before_what_names_its_bed() -> None:
    named = wave(start="06-01", plants="10", name="named", beds="A")
    first = wave(start="07-01", plants="10", name="asks", first="yes")
    assert _where(_season(named, first, made=THREE[:1])) == {"named-1": "", "asks-1": "A10"}


def test_among_equals_august_moves_nothing_of_may() -> None:
    for keys in ({}, {"beds": "A"}, {"first": "yes"}):
        may = wave(start="06-01", plants="10", name="may", **keys)
        august = wave(start="07-01", plants="10", name="august", **keys)
        assert _where(_season(august, may, made=THREE[:1])) == {"august-1": "", "may-1": "A10"}


def test_a_wave_with_a_bed_of_its_own_comes_before_others_of_its_series() -> None:
    # The first, of 1 June, would stand in A until 4 August.
    series = wave(start="06-01", plants="10", every="30", count="2", wave_beds="{2: A}")
    assert _where(_season(series, made=THREE[:1])) == {"fruit-1": "", "fruit-2": "A10"}


def test_a_breathing_series_waits_in_the_pass_of_its_foremost() -> None:
    # Its days hang on the waves before, so that the first goes before the other's, too.
    open_one = wave(start="05-20", plants="10", name="open")
    series = wave(start="06-01", plants="10", every="30-40", count="2", wave_beds="{2: B}")
    found = _season(open_one, series, made=THREE[:1] + THREE[1:2])
    assert _where(found) == {"open-1": "", "fruit-1": "A10", "fruit-2": "B10"}


@pytest.mark.parametrize(("start", "there"), [("06-06", "A10"), ("06-07", "")])
def test_room_for_a_whole_stay_is_looked_for_beside_what_is_planted_later(
    start: str, there: str
) -> None:
    # The named ten come on 1 July: quick, 25 days there, is gone by then if it comes by 6 June.
    named = wave(start="07-01", plants="10", name="named", beds="A")
    found = _season(wave("quick", start=start, plants="10"), named, made=THREE[:1])
    assert _where(found) == {"quick-1": there, "named-1": "A10"}


# The bed it likes best


def test_it_stands_where_its_series_stands() -> None:
    # 4 in A, and 4 of the same series beside them although B and C are empty.
    found = _season(wave(start="06-01", plants="4", every="10", count="2"))
    assert _where(found) == {"fruit-1": "A4", "fruit-2": "A4"}


def test_it_stands_where_its_family_stands() -> None:
    # leaf first takes A; fruit an empty bed, B; quick is of fruit's family and goes there.
    found = _season(
        wave("leaf", start="06-01", plants="4"),
        wave(start="06-02", plants="4"),
        wave("quick", start="06-03", plants="4"),
    )
    assert _where(found) == {"leaf-1": "A4", "fruit-1": "B4", "quick-1": "B4"}


def test_it_stands_beside_its_series_before_its_family() -> None:
    # quick leaves two places in A, so the series begins in B; then one place in A would do.
    found = _season(
        wave("quick", start="06-01", plants="8"),
        wave(start="06-02", plants="4", name="s"),
        wave("quick", start="06-03", plants="1", name="beside"),
        wave("quick", start="06-04", plants="3", every="1", count="2", name="again"),
    )
    assert _where(found) == {
        "quick-1": "A8",
        "s-1": "B4",
        "beside-1": "A1",
        "again-1": "B3",
        "again-2": "B3",
    }
    series = wave(start="06-02", plants="1", every="1", count="2", name="s", wave_beds="{1: B}")
    found = _season(wave("quick", start="06-01", plants="8"), series)
    assert _where(found) == {"quick-1": "A8", "s-1": "B1", "s-2": "B1"}


def test_it_stands_beside_kin_that_came_meanwhile() -> None:
    # On 1 June no family of quick's stands anywhere; in C it does from 10 June on.
    found = _season(
        wave("quick", start="06-01", plants="4"),
        wave(start="06-10", plants="4", beds="C"),
        wave("quick", start="06-27", plants="4", name="again"),
    )
    assert _where(found) == {"quick-1": "A4", "fruit-1": "C4", "again-1": "C4"}


def test_a_series_may_follow_itself_where_rotation_closes_the_bed_to_others() -> None:
    # kin-1 stands 64 days in A, long enough to close it to turned, and not to kin-2.
    series = wave("kin", start="05-12", plants="4", every="65", count="2")
    other = wave("turned", start="07-20", plants="4")
    found = _season(series, other, made=THREE[:1])
    assert _where(found) == {"kin-1": "A4", "kin-2": "A4", "turned-1": ""}


def test_of_the_beds_it_names_it_takes_the_first_that_rotation_leaves_open() -> None:
    # kin-1 stands 64 days in B, until 15 July: 60 and more, so B is closed to turned.
    series = wave("kin", start="05-12", plants="4", beds="B")
    where = {}
    for named in ("[B, A]", "[B, C, A]", "[C, B]", "'[BC]'", "'*'", "[B]"):
        other = wave("turned", start="07-20", plants="4", beds=named)
        found = _season(series, other)
        where[named] = _where(found)["turned-1"]
        assert ("rotation" in dict(gardens.codes(found))) == (named == "[B]")
    # Named [B, C], a pattern stands for both in the order of `beds:`; B alone is used all the same.
    assert where == {
        "[B, A]": "A4",
        "[B, C, A]": "C4",
        "[C, B]": "C4",
        "'[BC]'": "C4",
        "'*'": "A4",
        "[B]": "B4",
    }


@pytest.mark.parametrize(("day", "bed"), [("06-25", "A"), ("06-26", "B")])
def test_its_family_stands_there_until_it_is_pulled_out(day: str, bed: str) -> None:
    # quick stands in A from 1 June, gone on 26 June; leaf stands in A as well, so it is not empty.
    found = _season(
        wave("quick", start="06-01", plants="2"),
        wave("leaf", start="06-02", plants="2", beds="A"),
        wave(start=day, plants="4"),
    )
    assert _where(found)["fruit-1"] == f"{bed}4"


def test_an_empty_bed_comes_before_one_with_room() -> None:
    found = _season(
        wave("leaf", start="06-01", plants="4"),
        wave("quick", start="06-02", plants="4"),
        wave("leaf", start="06-03", plants="9", name="more"),
        wave("quick", start="06-03", plants="7", name="again"),
        wave("leaf", start="06-04", plants="4", name="last"),
    )
    # more: 6 places are left beside its family in A, and C is empty. again: 6 are left in A, 6 in
    # B and 1 in C, so it is shared out over the first two. last: B has 5 places left.
    assert _where(found) == {
        "leaf-1": "A4",
        "quick-1": "B4",
        "more-1": "C9",
        "again-1": "A6 B1",
        "last-1": "B4",
    }


def test_it_stands_whole_wherever_a_bed_has_room() -> None:
    # 5 places are left in A, 6 in B: nothing of the six goes into A.
    found = _season(
        wave("leaf", start="06-01", plants="5", beds="A"),
        wave("leaf", start="06-01", plants="4", name="more", beds="B"),
        wave(start="06-02", plants="6", beds="[A, B]"),
        made=THREE[:2],
    )
    assert _where(found)["fruit-1"] == "B6"


def test_it_does_not_close_a_bed_to_kin_that_names_it() -> None:
    # kin stands 64 days from 20 May; turned, of the same family, comes into A on 1 August.
    asked = (
        wave("kin", start="05-20", plants="2"),
        wave("turned", start="08-01", plants="2", beds="A"),
    )
    found = _season(*asked)
    assert _where(found) == {"kin-1": "B2", "turned-1": "A2"}
    assert "rotation" not in dict(gardens.codes(found))
    alone = _season(*asked, made=THREE[:1])
    assert alone.waves[0].blocked is not None
    assert alone.waves[0].blocked.rotation == "A: turned-1 of the same family follows there"


# Against looking into every bed


class InTurn:
    """Puts every wave of a plan in its place anew, looking into all its beds for each."""

    def __init__(self, season: Season) -> None:
        self.season = season
        self.room = Room(season.garden.beds)

    def places(self) -> dict[str, list[tuple[int, int]]]:
        found = {}
        for each in sorted(self.season.waves, key=self._turn):
            found[each.id] = self._choose(each)
            for index, stay in self.season.room.in_turn:
                if stay.wave == each.id:
                    self.room.take(index, stay)
        return found

    def _turn(self, wave: Wave) -> tuple[bool, bool, date, int, int]:
        names = [entry.name for entry in self.season.garden.entries]
        entry, named = wave.entry, wave.entry.beds_of(wave.number)[1]
        return (
            not entry.first,
            not entry.first and not named,
            wave.stages.plant.day,
            names.index(entry.name),
            wave.number,
        )

    def _choose(self, wave: Wave) -> list[tuple[int, int]]:
        listed, named = wave.entry.beds_of(wave.number)
        pulled, free, safe = {}, {}, set()
        day = wave.stages.plant.day.toordinal()
        for bed in listed:
            index = self.room.number[bed.name]
            of = self.season.conditions.prospects(
                wave.crop, wave.entry.raised, colder_by=bed.colder_than_site
            )
            judged = of.judge(gardens.planted(wave.stages.plant.day))
            pulled[index] = judged.stages.pull_out.day.toordinal()
            if judged.verdict in (*SAFE, None):
                safe.add(index)
        for index in pulled:
            words = None if named else self._closed(wave, index, day, pulled[index])
            room = self.room.free_over(index, first=day, until=pulled[index])
            free[index] = 0 if words else room // wave.crop.area_per_plant
        for grounds in (safe, set(pulled) - safe):
            whole = [i for i in pulled if i in grounds and free[i] >= wave.plants]
            if whole:
                left_open = [i for i in whole if not self._closed(wave, i, day)]
                best = min(whole, key=self._liking(wave, day))
                return [((left_open or whole)[0] if named else best, wave.plants)]
            latest = max((pulled[i] for i in (safe if grounds is safe else pulled)), default=0)
            shared = []
            for index in sorted(pulled, key=lambda i: i not in safe):
                if (grounds is safe and index not in safe) or not free[index]:
                    continue
                room = self.room.free_over(index, first=day, until=latest)
                words = None if named else self._closed(wave, index, day, latest)
                plants = 0 if words else room // wave.crop.area_per_plant
                shared.append((index, plants, row_of(wave.crop, self.room.beds[index])))
            if wave.entry.split and (found := share_out(shared, wave.plants)):
                return found
        return []

    def _closed(self, wave: Wave, index: int, day: int, pulled: int | None = None) -> str | None:
        return too_soon(
            self.room.beds[index],
            self.room.stays[index],
            wave.crop,
            series=wave.entry.name,
            planted=day,
            season=2026,
            pulled=pulled,
        )

    def _liking(self, wave: Wave, day: int) -> Callable[[int], tuple[bool, bool, bool, int]]:
        def key(index: int) -> tuple[bool, bool, bool, int]:
            here = [s for s in self.room.stays[index] if s.first <= day < s.until]
            growing = [stay for stay in here if day < stay.pulled]
            family = wave.crop.family.removesuffix(" family")
            return (
                not any(stay.series == wave.entry.name for stay in growing),
                not any(stay.family == family for stay in growing),
                bool(here),
                index,
            )

        return key


MIXED = (KIN[0].replace("fruit family", "leaf family"), *KIN[1:])


@settings(max_examples=100, deadline=None)
@given(
    beds(),
    entries(("small", "middle", "large")),
    entries(("small", "middle", "large")),
    st.sampled_from(
        ("", "beds: [B0]", "beds: 'B*'", "first: yes", "wave_beds: {1: B0, 3: 'B[01]'}")
    ),
)
def test_every_wave_stands_where_looking_into_every_bed_in_its_turn_puts_it(
    made: list[str], asked: list[str], more: list[str], keys: str
) -> None:
    again = [each.replace("name: s", "name: t") for each in more]
    if keys:
        again = [
            each.replace("}", f", {keys}" + "}")
            for each in again
            if "every" in each or "wave_beds" not in keys
        ]
    file = text(*asked, *again, crops=MIXED, beds=made)
    assume(read_garden(file.encode(), gardens.LABEL).garden is not None)
    found = gardens.season(file)
    numbers = found.room.number
    stood = {w.id: [(numbers[s.bed.name], s.plants) for s in w.stands] for w in found.waves}
    assert InTurn(found).places() == stood


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.integers(1, 4), min_size=18, max_size=24),
    st.lists(
        st.tuples(st.integers(0, 30), st.integers(2, 14), st.booleans()), min_size=3, max_size=9
    ),
)
def test_a_wave_is_shared_out_over_many_beds_as_over_few(
    sizes: list[int], asked: list[tuple[int, int, bool]]
) -> None:
    made = [f"{{bed: B{n}, size: 1 x {size}}}" for n, size in enumerate(sizes)]
    entries_ = [
        wave(
            "middle" if middle else "small",
            start=str(date(2026, 5, 20) + timedelta(days=days)),
            plants=str(plants * (1 if middle else 3)),
            name=f"w{number}",
        )
        for number, (days, plants, middle) in enumerate(asked)
    ]
    found = gardens.season(text(*entries_, crops=MIXED, beds=made))
    stood = {
        w.id: [(found.room.number[s.bed.name], s.plants) for s in w.stands] for w in found.waves
    }
    assert InTurn(found).places() == stood
