"""Rest, and what happens in a bed on the very day that is asked about: counted by hand.

The fruit of the small gardens stands 64 days: from 1 June to 4 August.
"""

from __future__ import annotations

from datetime import date

import pytest

import gardens
from gardens import crop, text, wave
from sowtide.days import DateSpan
from sowtide.schedule.fits.answer import Neighbour
from sowtide.schedule.fits.instead_of import weigh
from sowtide.schedule.fits.question import Question
from sowtide.schedule.openings.fullness import full_weeks
from sowtide.schedule.packing.packing import Block, Item, Packing
from sowtide.schedule.packing.repack import repacked
from sowtide.schedule.season import Season
from sowtide.schedule.stays.room import Room, Stay, without
from sowtide.schedule.waves import Holder, Kept
from sowtide.season import season_of

LONG = "{bed: Long, size: 1 x 10}"
RESTS = "{bed: Long, size: 1 x 10, rest: 5}"
QUICK = crop("quick", days_to_harvest="20", picking_days="5")
"""Stands 25 days."""


def season(*waves: str, beds: tuple[str, ...] = (LONG,)) -> Season:
    file = text(*waves, crops=(crop(), QUICK), beds=beds, fall_allowance="0")
    return gardens.season(file)


def day(of_2026: str) -> int:
    return date.fromisoformat(f"2026-{of_2026}").toordinal()


def test_the_beds_of_a_wave_are_free_when_the_one_that_rests_longest_is() -> None:
    # Shared out over a bed that rests 5 days and one that does not: 4 August + 5 = 9 August.
    found = season(wave(start="06-01", plants="25"), beds=(RESTS, "{bed: Wide, size: 2 x 10}"))
    assert len(found.waves[0].stands) == 2
    assert found.waves[0].bed_free is not None
    assert found.waves[0].bed_free.day == date(2026, 8, 9)


def test_a_bed_that_is_freed_rests_before_the_next_wave() -> None:
    # Pulled out on 10 July it rests to 14 July; of the day itself nothing is free.
    found = season(wave(start="06-01", plants="10"), beds=(RESTS,))
    freed = without(found.room, "fruit-1", day("07-10"))
    assert freed.free_over(0, first=day("07-14"), until=day("08-01")) == 0
    assert freed.free_over(0, first=day("07-15"), until=day("08-01")) == found.room.beds[0].area


def test_packing_afresh_lets_a_bed_rest() -> None:
    # quick stands from 1 to 26 June, and its bed rests to 1 July: fruit of 28 June finds no room.
    # Ten plants for 64 days are more than ten for 25, so quick is left out. Without the rest both
    # would seem to fit, and nothing would be gained.
    before = season(
        wave("quick", start="06-01", plants="10"),
        wave(start="06-28", plants="10"),
        beds=(RESTS,),
    )
    assert [bool(each.stands) for each in before.waves] == [True, False]
    assert [bool(each.stands) for each in repacked(before).waves] == [False, True]


def test_packing_afresh_lets_a_bed_rest_where_both_name_it() -> None:
    # The same where both name the bed. Did quick not rest, both would be wanted in it, and what the
    # file then says is what it says already: nothing would be gained.
    before = season(
        wave("quick", start="06-01", plants="10", beds="[Long]"),
        wave(start="06-28", plants="10", beds="[Long]"),
        beds=(RESTS,),
    )
    assert [bool(each.stands) for each in before.waves] == [True, False]
    assert [bool(each.stands) for each in repacked(before).waves] == [False, True]


def test_packing_afresh_lets_a_bed_rest_after_what_stands_in_it_today() -> None:
    # On 10 June quick stands until the 26th, and its bed rests to 1 July: early has no room. Of the
    # others five quick of 2 July (5 x 25 days) stand in the way of six fruit of the 3rd (6 x 64).
    # Without the rest early and between (5 x 64 + 5 x 25) would be wanted, and nothing be gained.
    file = text(
        wave("quick", start="06-01", plants="10"),
        wave(start="06-28", plants="5", name="early"),
        wave("quick", start="07-02", plants="5", name="between"),
        wave(start="07-03", plants="6", name="late"),
        crops=(crop(), QUICK),
        beds=(RESTS,),
        fall_allowance="0",
    )
    before = season_of(gardens.read(file), date(2026, 6, 10))
    assert _standing(before) == ["quick-1", "between-1"]
    assert _standing(repacked(before)) == ["quick-1", "late-1"]


def _standing(found: Season) -> list[str]:
    return [each.id for each in found.waves if each.stands]


def test_rest_is_planted_by_nobody() -> None:
    # Of two beds one is planted on four of seven days, 4 to 7 May, and rests three: 4 of 14.
    beds = gardens.read(text(beds=(LONG, "{bed: Other, size: 1 x 10}"))).beds
    room = Room(beds)
    begins = day("05-04")
    room.stays[0].append(Stay("w", "s", "f", begins, begins + 7, begins + 4, beds[0].area))
    (week,) = full_weeks(room, room.beds, DateSpan(date(2026, 5, 4), date(2026, 5, 10)), starts=0)
    assert week.share == 4 / 14


def test_rest_counts_once_before_what_comes() -> None:
    # Five quick ones stand from 1 to 26 June and rest to 1 July. One fruit comes on 3 July, which
    # leaves nine, and nine on 5 July, which leave none: it is these that they make way for.
    answer = gardens.ask(
        text(
            wave(start="07-03", plants="1", name="one", beds="[Long]"),
            wave(start="07-05", plants="9", name="nine", beds="[Long]"),
            crops=(crop(), QUICK),
            beds=(RESTS,),
            fall_allowance="0",
        ),
        "quick",
        plants=5,
        on=date(2026, 6, 1),
    )
    assert answer.spots[0].before == Neighbour("nine-1", date(2026, 7, 5))


def test_no_room_does_not_name_a_wave_that_leaves_that_very_day() -> None:
    # On 4 August leaves is gone, stays holds five until 23 August.
    found = season(
        wave(start="06-01", plants="5", name="leaves"),
        wave(start="06-20", plants="5", name="stays"),
        wave("quick", start="08-04", plants="10"),
    )
    blocked = found.waves[2].blocked
    assert blocked is not None
    assert blocked.holders == (Holder("stays-1", "Long", date(2026, 8, 23)),)
    assert blocked.plants == 5


def test_what_leaves_that_very_day_is_not_named_of_the_second_of_two_either() -> None:
    # ahead has its turn first and lacks five of its ten beside stays; so does behind, which has its
    # turn after leaves: that is gone on 4 August.
    found = season(
        wave(start="06-20", plants="5", name="stays", first="yes"),
        wave("quick", start="08-04", plants="10", name="ahead", first="yes"),
        wave(start="06-01", plants="5", name="leaves"),
        wave("quick", start="08-04", plants="10", name="behind"),
    )
    for blocked in (found.waves[1].blocked, found.waves[3].blocked):
        assert blocked is not None
        assert blocked.holders == (Holder("stays-1", "Long", date(2026, 8, 23)),)
        assert blocked.plants == 5


def test_a_series_goes_on_in_its_bed_beside_others_though_it_is_closed_to_its_family() -> None:
    # fruit-1 stands 64 days, to 4 July, which closes Long to its family but for its own series. On
    # 10 July six square metres are free beside four of another family: room for four more.
    file = text(
        wave(start="05-01", plants="4", every="70", count="2"),
        wave("other", start="06-01", plants="4", beds="[Long]"),
        wave("fruit", name="kin", start="07-10", plants="1"),
        crops=(crop(rotation="3"), crop("other", family="other family")),
        beds=(LONG,),
        fall_allowance="0",
    )
    found = {
        each.id: [stand.bed.name for stand in each.stands] for each in gardens.season(file).waves
    }
    assert found == {"fruit-1": ["Long"], "fruit-2": ["Long"], "other-1": ["Long"], "kin-1": []}


def test_room_on_the_last_day_of_the_year_is_room() -> None:
    # Without frost fruit of 28 October stands 64 days, to 31 December: then the bed is free.
    file = text(
        wave(start="10-28", plants="10", name="full"),
        wave("quick", start="11-20", plants="10"),
        crops=(crop(), QUICK),
        frost="none",
        fall_allowance="0",
    )
    blocked = gardens.season(file).waves[1].blocked
    assert blocked is not None
    assert blocked.opening is not None
    assert blocked.opening.day == date(2026, 12, 31)
    (spot,) = gardens.ask(file, "quick", plants=10, today=date(2026, 11, 20)).spots
    assert spot.free_from == date(2026, 12, 31)


def test_a_bed_is_kept_until_the_end_of_the_next_span() -> None:
    kept = "{bed: Long, size: 1 x 10, taken: [06-20..06-25, 07-10..07-15]}"
    blocked = season(wave(start="06-01", plants="5"), beds=(kept,)).waves[0].blocked
    assert blocked is not None
    assert blocked.kept == (Kept("Long", date(2026, 6, 25)),)


def test_nothing_is_set_between_others_where_the_bed_is_kept_later() -> None:
    # Eight leave on 4 August; eight of 1 August stand until the frost of 1 October.
    asked = (
        wave(start="06-01", plants="8", name="one"),
        wave(start="08-01", plants="8", name="two", overlap="7"),
    )
    kept = "{bed: Long, size: 1 x 10, taken: 09-10..09-12}"
    assert season(*asked).waves[1].overlap is not None
    assert not season(*asked, beds=(kept,)).waves[1].stands


def test_what_comes_next_does_not_come_that_very_day() -> None:
    # Looked at on 10 July: beside is planted on it, later is what comes next.
    found = season(
        wave(start="06-01", plants="5", name="one"),
        wave(start="07-10", plants="5", name="beside"),
        wave("quick", start="08-20", plants="5", name="later"),
    )
    question = Question(found.waves[2].crop, None, None, date(2026, 7, 10), False)
    assert weigh(found, found.waves[0], question).comes == Neighbour("later-1", date(2026, 8, 20))


@pytest.mark.parametrize(("stands", "left"), [(59, 10), (60, 0)])
def test_packing_afresh_closes_a_bed_after_sixty_days_before_and_behind(
    stands: int, left: int
) -> None:
    # Kin of another series stands up to day 100; what comes then, and what stood before it.
    def kin(first: int, gone: int, series: str) -> Item:
        return Item(first, ((gone, gone),), 4, (0,), 1, series, "fruit", strict=True)

    behind = Packing(
        areas=(10,),
        kinds=(0,),
        items=(kin(100, 180, "one"),),
        stands=(Block(0, 100 - stands, 100, 100, 4, "two", "fruit"),),
    )
    assert behind.room(0, 0) == left
    before = Packing(
        areas=(10,),
        kinds=(0,),
        items=(kin(100 - stands, 100, "one"), kin(100, 180, "two")),
        stands=(),
    )
    before.put(1, 0)
    assert before.room(0, 0) == left


@pytest.mark.parametrize(("areas", "bed"), [((10, 6, 4, 4), 2), ((10, 6, 6), 1)])
def test_packing_afresh_fills_the_bed_in_which_least_is_left(
    areas: tuple[int, ...], bed: int
) -> None:
    # Four of each: of two that are as tight the first.
    every = tuple(range(len(areas)))
    item = Item(1, ((60, 60),), 4, every, 1, "one", "fruit", strict=False)
    packing = Packing(areas=areas, kinds=(0,) * len(areas), items=(item,), stands=())
    assert packing.fit(0)
    assert packing.where == [bed]
