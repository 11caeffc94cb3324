"""Which wave stands in which bed, counted by hand; a plant takes a square metre.

A bed of 1 x 10 holds ten plants. The fruit crop, without a fall allowance, is picked from the 50th
to the 63rd day and gone on the 64th: 1 Jun … 4 Aug.
"""

from __future__ import annotations

from datetime import date, timedelta
from itertools import combinations

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

import gardens
from gardens import crop, text, wave
from sowtide.schedule.season import Season
from sowtide.schedule.stays.sharing import share_out
from sowtide.schedule.waves.wave import Blocked, Holder, Kept, Status, Verdict, Wave

LONG, WIDE = "{bed: Long, size: 1 x 10}", "{bed: Wide, size: 2 x 10}"


def _season(*entries: str, **keys: object) -> Season:
    keys = {"fall_allowance": "0", "beds": [LONG, WIDE]} | keys
    return gardens.season(text(*entries, **keys))  # type: ignore[arg-type]


def _where(found: Season | Wave) -> list[list[tuple[str, int]]]:
    waves = (found,) if isinstance(found, Wave) else found.waves
    return [[(stand.bed.name, stand.plants) for stand in each.stands] for each in waves]


def _two(planted: str, **keys: object) -> Season:
    """Fill the long bed on 1 Jun, then ask for all of it again."""
    return _season(
        wave(start="06-01", plants="10", name="one"),
        wave(start=planted, plants="10", name="two"),
        **{"beds": [LONG]} | keys,
    )


# Half-open stays and rest


def test_the_bed_is_free_on_the_day_of_pulling_out() -> None:
    assert _where(_two("08-04")) == [[("Long", 10)], [("Long", 10)]]
    assert _where(_two("08-03")) == [[("Long", 10)], []]


def test_a_bed_rests_between_waves() -> None:
    resting = ["{bed: Long, size: 1 x 10, rest: 3}"]
    assert _where(_two("08-07", beds=resting))[1] == [("Long", 10)]
    assert _where(_two("08-06", beds=resting))[1] == []
    found = _two("08-07", beds=resting)
    assert found.waves[0].bed_free is not None
    assert found.waves[0].bed_free.day == date(2026, 8, 7)


def test_a_wave_that_comes_to_nothing_holds_its_bed_till_the_frost() -> None:
    # planted 20 Aug: first pick 9 Oct, after the frost on 1 Oct
    def two(planted: str) -> Season:
        return _season(
            wave(start="08-20", plants="10", name="one"),
            wave(start=planted, plants="10", name="two"),
            beds=[LONG],
        )

    assert _where(two("10-01"))[1] == [("Long", 10)]
    assert _where(two("09-30"))[1] == []


def test_a_late_end_of_a_range_holds_the_bed() -> None:
    # 60 days and 13 more: 13 Aug, gone on 14 Aug
    crops = [crop(days_to_harvest="50-60")]
    assert _where(_two("08-14", crops=crops))[1] == [("Long", 10)]
    assert _where(_two("08-13", crops=crops))[1] == []


# Area


def test_a_bed_is_filled_to_the_last_plant_and_not_beyond() -> None:
    def beside(plants: str) -> Season:
        return _season(
            wave(start="06-01", plants="7", name="one"),
            wave(start="06-02", plants=plants, name="two"),
            beds=[LONG],
        )

    assert _where(beside("3")) == [[("Long", 7)], [("Long", 3)]]
    assert _where(beside("4")) == [[("Long", 7)], []]


def test_areas_are_exact_in_inches() -> None:
    # 4 x 10 ft = 5760 in²; 6 x 6 in = 36 in²: 160 plants, no more and no fewer
    us = text(
        wave(plants="159", start="06-01", name="one"),
        wave(plants="PLANTS", start="06-02", name="two"),
        crops=[crop(in_row="6", between_rows="6")],
        beds=["{bed: Long, size: 4 x 10}"],
    ).replace("metric", "us")
    assert _where(gardens.season(us.replace("PLANTS", "1")))[1] == [("Long", 1)]
    assert _where(gardens.season(us.replace("PLANTS", "2")))[1] == []


def test_a_plant_that_does_not_fit_takes_no_part_of_a_bed() -> None:
    # half a square metre in the small bed takes no plant of one; ten go into the other
    beds = ["{bed: Small, size: 1 x 0.5}", LONG]
    assert _where(_season(wave(start="06-01", plants="10"), beds=beds)) == [[("Long", 10)]]
    assert (
        _where(
            _season(
                wave(start="06-01", plants="10", name="one"),
                wave(start="06-02", name="two"),
                beds=beds,
            )
        )[1]
        == []
    )


# Order


def test_waves_take_their_places_in_order_of_planting_day() -> None:
    found = _season(
        wave(start="06-10", plants="10", name="later"),
        wave(start="06-01", plants="10", name="sooner"),
        beds=[LONG],
    )
    assert _where(found) == [[], [("Long", 10)]]
    assert [each.id for each in found.waves] == ["later-1", "sooner-1"]  # in the file's order


def test_on_one_day_the_files_order_counts() -> None:
    found = _season(
        wave(start="06-01", plants="10", name="one"),
        wave(start="06-01", plants="10", name="two"),
        beds=[LONG],
    )
    assert _where(found) == [[("Long", 10)], []]


def test_a_wave_of_august_moves_none_of_may() -> None:
    may = wave(start="05-20", plants="10", name="may")
    alone = _season(may)
    both = _season(wave(start="08-10", plants="30", name="august", beds="[Long, Wide]"), may)
    assert both.waves[1].stands == alone.waves[0].stands
    assert both.waves[1].judged.stages.plant.day == alone.waves[0].judged.stages.plant.day


def test_the_growers_order_of_beds() -> None:
    assert _where(_season(wave(start="06-01", plants="4"))) == [[("Long", 4)]]
    assert _where(_season(wave(start="06-01", plants="4"), beds=[WIDE, LONG])) == [[("Wide", 4)]]


def test_beds_named_come_in_the_order_they_are_named() -> None:
    found = _season(wave(start="06-01", plants="4", beds="[Wide, Long]"))
    assert _where(found) == [[("Wide", 4)]]


def test_beds_not_named_are_not_used() -> None:
    found = _season(
        wave(start="06-01", plants="10", name="one", beds="[Long]"),
        wave(start="06-02", plants="10", name="two", beds="[Long]"),
    )
    assert _where(found) == [[("Long", 10)], []]


def test_a_bed_where_it_is_safe_comes_first() -> None:
    # planted 25 Jul it is chancy on open ground (safe until 19 Jul); under a cover of 4 °C the
    # frost comes 18 days later
    beds = [LONG, "{bed: Hoops, size: 1 x 10, cover: 4}"]
    assert _where(_season(wave(start="07-25", plants="4"), beds=beds)) == [[("Hoops", 4)]]
    assert _where(_season(wave(start="07-10", plants="4"), beds=beds)) == [[("Long", 4)]]


def test_where_no_bed_is_safe_it_is_placed_all_the_same() -> None:
    found = _season(wave(start="09-01", plants="4"))
    assert _where(found) == [[("Long", 4)]]
    assert gardens.codes(found)[0] == ("never-finishes", "fruit-1")


# Split


def test_a_wave_is_split_where_no_bed_takes_it_whole() -> None:
    assert _where(_season(wave(start="06-01", plants="25"))) == [[("Long", 10), ("Wide", 15)]]


def test_a_wave_is_not_split_where_a_later_bed_takes_it_whole() -> None:
    assert _where(_season(wave(start="06-01", plants="15"))) == [[("Wide", 15)]]


def test_a_wave_is_split_over_the_fewest_beds() -> None:
    # Long has one place left, Wide five, Broad five: ten go into Wide and Broad
    found = _season(
        wave(start="06-01", plants="9", name="a", beds="[Long]"),
        wave(start="06-01", plants="15", name="b", beds="[Wide]"),
        wave(start="06-01", plants="15", name="c", beds="[Broad]"),
        wave(start="06-02", plants="10", name="d"),
        beds=[LONG, WIDE, "{bed: Broad, size: 2 x 10}"],
    )
    assert _where(found)[3] == [("Wide", 5), ("Broad", 5)]


def test_of_the_fewest_beds_the_first_in_order_are_taken() -> None:
    # 6, 5 and 5 places left: six and four, in the order named
    found = _season(
        wave(start="06-01", plants="4", name="a", beds="[Long]"),
        wave(start="06-01", plants="15", name="b", beds="[Wide]"),
        wave(start="06-01", plants="15", name="c", beds="[Broad]"),
        wave(start="06-02", plants="10", name="d", beds="[Broad, Wide, Long]"),
        beds=[LONG, WIDE, "{bed: Broad, size: 2 x 10}"],
    )
    assert _where(found)[3] == [("Broad", 5), ("Wide", 5)]


@settings(derandomize=True, database=None, deadline=None)
@given(st.lists(st.integers(0, 9), min_size=1, max_size=7), st.integers(1, 40))
def test_sharing_out_against_trying_all_sets_of_beds(free: list[int], plants: int) -> None:
    shared = share_out([(bed, room, 1) for bed, room in enumerate(free)], plants)
    for number in range(1, len(free) + 1):
        enough = [
            beds
            for beds in combinations(range(len(free)), number)
            if sum(free[bed] for bed in beds) >= plants
        ]
        if enough:
            assert [bed for bed, _ in shared] == list(min(enough))
            assert sum(count for _, count in shared) == plants
            assert all(count == free[bed] for bed, count in shared[:-1])
            assert all(0 < count <= free[bed] for bed, count in shared)
            return
    assert shared == []


def test_split_no() -> None:
    found = _season(
        wave(start="06-01", plants="8", name="one", beds="[Wide]"),
        wave(start="06-02", plants="15", name="two", split="no"),
    )
    assert _where(found) == [[("Wide", 8)], []]
    assert ("no-room", "two-1") in gardens.codes(found)
    whole = _season(wave(start="06-01", plants="15", split="no"))
    assert _where(whole) == [[("Wide", 15)]]


def test_a_split_wave_has_the_odds_and_dates_of_its_worst_bed() -> None:
    beds = ["{bed: Hoops, size: 1 x 10, cover: 4}", LONG]
    # 5 Aug + 50 + 13 = 7 Oct: under the cover picked to the end, outside until the frost
    split = _season(wave(start="08-05", plants="15"), beds=beds).waves[0]
    outside = _season(wave(start="08-05", plants="10"), beds=[LONG]).waves[0]
    assert _where(split) == [[("Hoops", 10), ("Long", 5)]]
    assert split.judged.odds == outside.judged.odds
    assert split.judged.stages.last_pick is not None
    assert split.judged.stages.last_pick.day == date(2026, 9, 30)


def test_what_is_shared_out_fills_the_ground_where_it_is_safe_first() -> None:
    # On 25 July it is safe under the cover alone, which stands last: ten there, five outside.
    beds = [LONG, "{bed: Hoops, size: 1 x 10, cover: 4}"]
    assert _where(_season(wave(start="07-25", plants="15"), beds=beds)) == [
        [("Hoops", 10), ("Long", 5)]
    ]


def test_all_or_none_and_nothing_is_moved() -> None:
    # 30 places, 20 of them held: 11 plants find 10 places; none is placed, the day stays
    found = _season(
        wave(start="06-01", plants="20", name="one", beds="[Wide]"),
        wave(start="06-10", plants="11", name="two"),
    )
    two = found.waves[1]
    assert (two.stands, two.bed_free, two.status) == ((), None, Status.NO_ROOM)
    assert two.judged.stages.plant.day == date(2026, 6, 10)
    (problem,) = found.problems
    assert (problem.code, problem.wave) == ("no-room", "two-1")
    assert "only 10 would fit" in problem.message
    assert "one-1 holds Wide until 4 Aug" in problem.message
    assert problem.hint == "the first day with room is 4 Aug, in Wide (too late then)"


# What stands in the way


def _blocked(found: Season, number: int = -1) -> Blocked:
    blocked = found.waves[number].blocked
    assert blocked is not None
    return blocked


def test_what_holds_the_space_and_the_first_day_with_room() -> None:
    # one until 4 Aug, two until 14 Aug; three asks for six of ten on 20 Jun: 7 - 4 are free
    found = _season(
        wave(start="06-01", plants="4", name="one"),
        wave(start="06-11", plants="4", name="two"),
        wave(start="06-20", plants="6", name="three"),
        beds=[LONG],
    )
    assert found.waves[0].blocked is None
    blocked = _blocked(found)
    assert blocked.plants == 2
    assert blocked.holders == (
        Holder("one-1", "Long", date(2026, 8, 4)),
        Holder("two-1", "Long", date(2026, 8, 14)),
    )
    assert blocked.more_holders == 0
    assert blocked.opening is not None
    assert (blocked.opening.day, blocked.opening.beds) == (date(2026, 8, 4), ("Long",))
    assert blocked.opening.verdict is Verdict.TOO_LATE


def test_the_first_day_with_room_leaves_all_other_waves_in_their_places() -> None:
    # Long is free of one on 4 Aug and taken again by three on that day until 7 Oct, when frost
    # has ended it: 1 Oct
    found = _season(
        wave(start="06-01", plants="10", name="one"),
        wave(start="06-10", plants="5", name="two"),
        wave(start="08-04", plants="6", name="three"),
        beds=[LONG],
    )
    opening = _blocked(found, 1).opening
    assert opening is not None
    assert opening.day == date(2026, 10, 1)


def test_the_first_day_with_room_is_judged_in_its_bed() -> None:
    # Both beds are full until 23 Jul (20 May + 64); on that day it is safe under the cover alone
    found = _season(
        wave(start="05-20", plants="20", name="one"),
        wave(start="06-01", plants="10", name="two"),
        beds=[LONG, "{bed: Hoops, size: 1 x 10, cover: 4}"],
    )
    opening = _blocked(found).opening
    assert opening is not None
    assert (opening.day, opening.beds) == (date(2026, 7, 23), ("Hoops",))
    assert opening.verdict is Verdict.SAFE_FROM_FROST
    hint = found.problems[0].hint
    assert hint == "the first day with room is 23 Jul, in Hoops (safe from frost then)"


def test_the_first_day_may_share_it_out() -> None:
    # Long is free on 4 Aug, Wide on 9 Aug; 25 want both
    found = _season(
        wave(start="06-01", plants="10", name="one", beds="[Long]"),
        wave(start="06-06", plants="20", name="two", beds="[Wide]"),
        wave(start="06-20", plants="25", name="three"),
    )
    opening = _blocked(found).opening
    assert opening is not None
    assert (opening.day, opening.beds) == (date(2026, 8, 9), ("Long", "Wide"))
    hint = found.problems[0].hint
    assert hint == "the first day with room is 9 Aug, in Long and Wide (too late then)"


def test_the_first_day_of_what_is_not_to_be_split_is_that_of_a_bed_for_all_of_it() -> None:
    # Low and Long, ten each, are free on 4 Aug; fifteen in one bed only in Wide, on 28 Aug.
    found = _season(
        wave(start="06-01", plants="10", name="one", beds="[Low]"),
        wave(start="06-01", plants="10", name="two", beds="[Long]"),
        wave(start="06-25", plants="20", name="wide", beds="[Wide]", first="yes"),
        wave(start="06-20", plants="15", name="whole", split="no"),
        beds=["{bed: Low, size: 1 x 10}", LONG, WIDE],
    )
    opening = _blocked(found).opening
    assert opening is not None
    assert (opening.day, opening.beds) == (date(2026, 8, 28), ("Wide",))


def test_where_rotation_closes_the_one_bed_for_all_of_it_no_others_share_it() -> None:
    found = _season(
        wave("leaf", start="06-01", plants="10", name="one", beds="[Low]"),
        wave("leaf", start="06-01", plants="10", name="two", beds="[Long]"),
        wave("leaf", start="06-25", plants="20", name="wide", beds="[Wide]", first="yes"),
        wave(start="06-20", plants="15", name="whole", split="no"),
        beds=[
            *("{bed: Low, size: 1 x 10}", LONG),
            "{bed: Wide, size: 2 x 10, grew: {2025: fruit family}}",
        ],
        crops=(crop(rotation="3"), crop("leaf", family="leaf family")),
    )
    assert _blocked(found).opening is None


def test_room_over_three_beds_names_each_of_them_and_over_four_counts_them() -> None:
    # Pulled on 18 July, 50 + 14 days after 15 May, from beds of four each.
    def hint(*names: str) -> str | None:
        plants = str(4 * len(names))
        first = gardens.wave(plants=plants, start="05-15")
        after = gardens.wave(plants=plants, start="06-10", name="after")
        beds = [f"{{bed: {name}, size: 1 x 4}}" for name in names]
        (problem,) = gardens.season(gardens.text(first, after, beds=beds)).problems
        return problem.hint

    then = "the first day with room is 18 Jul, in {} (safe from frost then)"
    assert hint("East", "Mid", "West") == then.format("East, Mid and West")
    assert hint("East", "Mid", "West", "Far") == then.format("4 beds")


def test_the_first_day_is_judged_by_its_worst_bed() -> None:
    # both are kept until 1 Nov, when nothing in Open is picked in any year
    kept = "taken: 05-01..11-01"
    beds = [
        f"{{bed: Open, size: 1 x 10, {kept}}}",
        f"{{bed: Hoops, size: 1 x 10, cover: 30, {kept}}}",
    ]
    opening = _blocked(_season(wave(start="06-01", plants="12"), beds=beds)).opening
    assert opening is not None
    assert (opening.day, opening.beds) == (date(2026, 11, 2), ("Hoops", "Open"))
    assert (opening.odds, opening.verdict) == (0.0, Verdict.TOO_LATE)


def test_a_stay_that_meets_a_later_wave_is_no_room() -> None:
    # Long is free from 23 Jul to 10 Sep and then full: too short for 64 days, or until frost
    found = _season(
        wave(start="05-20", plants="10", name="one"),
        wave(start="06-01", plants="10", name="two"),
        wave(start="09-10", plants="10", name="three"),
        beds=[LONG],
    )
    opening = _blocked(found, 1).opening
    assert opening is not None
    assert opening.day == date(2026, 10, 1)


@pytest.mark.parametrize(("rest", "first"), [("0", date(2026, 7, 20)), ("3", date(2026, 10, 4))])
def test_a_later_wave_may_come_into_one_of_its_beds(rest: str, first: date) -> None:
    # ten in Long until 20 Jul; Wide has five places of twenty until 23 Sep, when three fills them.
    # On 20 Jul fifteen would stand until 22 Sep in both beds, and to 25 Sep with rest;
    # then both are free when Wide has rested after the frost of 1 Oct
    found = _season(
        wave(start="05-17", plants="10", name="one", beds="[Long]"),
        wave("long", start="05-17", plants="15", name="two", beds="[Wide]"),
        wave(start="06-06", plants="15", name="asked"),
        wave(start="09-23", plants="5", name="three", beds="[Wide]"),
        crops=[crop(), crop("long", days_to_harvest="200")],
        beds=[LONG, f"{{bed: Wide, size: 2 x 10, rest: {rest}}}"],
    )
    opening = _blocked(found, 2).opening
    assert opening is not None
    assert opening.day == first


def test_no_later_day_has_room() -> None:
    beds = ["{bed: Long, size: 1 x 10, taken: 05-01..12-31}"]
    found = _season(wave(start="06-01", plants="10"), beds=beds)
    blocked = _blocked(found)
    assert blocked.kept == (Kept("Long", date(2026, 12, 31)),)
    assert blocked.opening is None
    (problem,) = found.problems
    assert problem.message.endswith("Long is kept until 31 Dec")
    assert problem.hint is not None
    assert problem.hint.startswith("no later day of the year has room")


def test_many_holders_are_counted() -> None:
    # ten waves of one plant, then one of two: three are named in the message, six in the list
    few = [wave(start=f"06-{day:02}", name=f"w{day}") for day in range(1, 11)]
    found = _season(*few, wave(start="06-20", plants="2", name="last"), beds=[LONG])
    blocked = _blocked(found)
    assert [each.wave for each in blocked.holders] == [f"w{day}-1" for day in range(1, 7)]
    assert blocked.more_holders == 4
    message = found.problems[0].message
    assert "w3-1 holds Long until 6 Aug; and 7 more waves" in message
    assert "w4-1" not in message


def test_a_wave_of_the_same_day_further_down_holds_nothing_against_it() -> None:
    # five free on 10 Jun: six find no room, then five do; these are not what stood in the way
    found = _season(
        wave(start="06-01", plants="5", name="one"),
        wave(start="06-10", plants="6", name="two"),
        wave(start="06-10", plants="5", name="three"),
        beds=[LONG],
    )
    assert _where(found)[1:] == [[], [("Long", 5)]]
    blocked = _blocked(found, 1)
    assert [each.wave for each in blocked.holders] == ["one-1"]
    assert blocked.plants == 5


# Beds kept for something else


@pytest.mark.parametrize(
    ("taken", "placed"),
    [
        # the wave stands from 1 Jun to 3 Aug
        ("05-01..05-31", True),
        ("05-01..06-01", False),
        ("07-01..07-02", False),
        ("08-03..08-20", False),
        ("08-04..08-20", True),
        ("all year", False),
    ],
)
def test_a_bed_kept_for_something_else(taken: str, placed: bool) -> None:
    beds = [f"{{bed: Long, size: 1 x 10, taken: {taken}}}"]
    assert bool(_where(_season(wave(start="06-01"), beds=beds))[0]) == placed


def test_no_room_names_the_first_day_the_bed_is_given_back() -> None:
    # kept until 9 June; room from 10 June on, with nothing else in it
    beds = ["{bed: Long, size: 1 x 10, taken: 05-01..06-09}"]
    (problem,) = _season(wave(start="06-01"), beds=beds).problems
    assert problem.hint == "the first day with room is 10 Jun, in Long (safe from frost then)"


def test_another_bed_serves_while_one_is_taken() -> None:
    beds = ["{bed: Long, size: 1 x 10, taken: 06-15..06-16}", WIDE]
    assert _where(_season(wave(start="06-01"), beds=beds)) == [[("Wide", 1)]]


# Rotation

ROTATED = crop(rotation="3")


@pytest.mark.parametrize(("year", "placed"), [(2023, True), (2024, False), (2025, False)])
def test_three_years_after_2025_means_2028(year: int, placed: bool) -> None:
    # 2023 + 3 = 2026, this season; a bed the grower did not name is passed over
    beds = [f"{{bed: Long, size: 1 x 10, grew: {{{year}: fruit family}}}}"]
    found = _season(wave(start="06-01"), crops=[ROTATED], beds=beds)
    assert bool(_where(found)[0]) == placed
    later = gardens.season(
        text(wave(start="06-01"), crops=[ROTATED], beds=beds, season=year + 3, fall_allowance="0")
    )
    assert _where(later) == [[("Long", 1)]]


def test_the_next_bed_serves_where_rotation_closes_one() -> None:
    beds = ["{bed: Long, size: 1 x 10, grew: {2025: Fruit}}", WIDE]
    assert _where(_season(wave(start="06-01"), crops=[ROTATED], beds=beds)) == [[("Wide", 1)]]


def test_what_grew_before_closes_each_bed_for_itself() -> None:
    beds = [
        "{bed: Long, size: 1 x 10, grew: {2025: fruit family}}",
        "{bed: Wide, size: 2 x 10, grew: {2025: root family, 2022: fruit family}}",
    ]
    slow = crop("slow", family="fruit family", rotation="5")
    crops = [ROTATED, slow, crop("root", family="root family", rotation="3")]
    # 2022 + 5 = 2027, 2022 + 3 = 2025: the slow one finds both beds closed, its family one
    waves = (wave("slow", start="06-01"), wave(start="06-02"), wave("root", start="06-03"))
    assert _where(_season(*waves, crops=crops, beds=beds)) == [[], [("Wide", 1)], [("Long", 1)]]


def test_a_bed_the_grower_named_gets_a_warning() -> None:
    beds = ["{bed: Long, size: 1 x 10, grew: {2025: fruit family}}", WIDE]
    found = _season(wave(start="06-01", beds="[Long]"), crops=[ROTATED], beds=beds)
    assert _where(found) == [[("Long", 1)]]
    assert gardens.codes(found) == [("rotation", "fruit-1")]
    assert "2025" in found.problems[0].message
    assert "2028" in found.problems[0].message


def test_another_family_is_free_to_follow() -> None:
    beds = ["{bed: Long, size: 1 x 10, grew: {2025: root family}}"]
    assert _where(_season(wave(start="06-01"), crops=[ROTATED], beds=beds)) == [[("Long", 1)]]


def test_within_a_season_only_another_family_or_the_same_series_follows() -> None:
    crops = [ROTATED, crop("other", family="other family", rotation="3"), crop("kin", rotation="3")]
    first = wave(start="05-12", plants="10")  # gone on 15 Jul

    def after(second: str) -> list[tuple[str, int]]:
        return _where(_season(first, second, crops=crops, beds=[LONG]))[1]

    assert after(wave("other", start="07-15")) == [("Long", 1)]
    assert after(wave("kin", start="07-15")) == []
    assert after(wave(start="07-15", name="again")) == []
    # 12 May + 64 = 15 Jul: the second wave of the series
    series = _season(
        wave(start="05-12", every="64", count="2", plants="10"), crops=crops, beds=[LONG]
    )
    assert _where(series) == [[("Long", 10)], [("Long", 10)]]


@pytest.mark.parametrize(("picked", "gone", "stands"), [(9, "07-10", True), (10, "07-11", False)])
def test_what_stood_less_than_sixty_days_closes_nothing(
    picked: int, gone: str, stands: bool
) -> None:
    # 12 May + 50 days + 9 or 10 of picking: 59 days to 10 July, 60 to 11 July.
    crops = [crop(rotation="3", picking_days=str(picked)), crop("kin", rotation="3")]
    first = wave(start="05-12", plants="5")
    beside, after = (
        _season(first, wave("kin", start=day), crops=crops, beds=[LONG]) for day in ("07-01", gone)
    )
    assert f"{beside.waves[0].stages.pull_out.day:%m-%d}" == gone
    assert _where(beside)[1] == [("Long", 1)]
    assert _where(after)[1] == ([("Long", 1)] if stands else [])


def test_what_stood_long_between_others_and_alone_closes_its_bed() -> None:
    # Between others from 3 to 21 June, 18 days, and then to 6 August: 64 in all.
    crops = [
        crop(rotation="3"),
        crop("kin", rotation="3"),
        crop("quick", family="other family", days_to_harvest="19", picking_days="1"),
    ]
    found = _season(
        wave("quick", start="06-01", plants="8"),
        wave(start="06-03", plants="8", overlap="30"),
        wave("kin", start="08-06"),
        crops=crops,
        beds=[LONG],
    )
    assert found.waves[1].overlap is not None
    assert found.waves[1].stages.pull_out.day == date(2026, 8, 6)
    assert _where(found)[2] == []


def test_kin_may_stand_beside_each_other() -> None:
    crops = [ROTATED, crop("kin", rotation="3")]
    found = _season(
        wave(start="05-12", plants="4"),
        wave("kin", start="06-01", plants="4"),
        crops=crops,
        beds=[LONG],
    )
    assert _where(found) == [[("Long", 4)], [("Long", 4)]]


def test_a_crop_without_rotation_follows_itself() -> None:
    assert _where(_two("08-04"))[1] == [("Long", 10)]


def test_no_room_says_what_rotation_closes() -> None:
    beds = ["{bed: Long, size: 1 x 10, grew: {2025: fruit family}}"]
    (problem,) = _season(wave(start="06-01"), crops=[ROTATED], beds=beds).problems
    assert problem.code == "no-room"
    assert "rotation closes Long" in problem.message


# Today


def test_a_wave_whose_day_has_gone_is_past() -> None:
    file = text(wave(start="06-01", every="10", count="3"), beds=[WIDE])
    statuses = [each.status for each in gardens.season(file, date(2026, 6, 11)).waves]
    assert statuses == [Status.PAST, Status.PLANNED, Status.PLANNED]


def test_a_wave_with_a_bed_of_its_own_is_not_moved_for_the_one_before_it() -> None:
    # Waves on 1 June and every 5 to 12 days. Small is full until 4 August, so the second finds no
    # room from 6 to 13 June; the third has Wide to itself and stands there on its day, 11 June.
    full = wave(start="05-20", plants="5", name="full", beds="[Small]")
    series = wave(
        start="06-01",
        plants="2",
        every="5-12",
        count="3",
        name="s",
        beds="[Small]",
        wave_beds="{1: Wide, 3: Wide}",
    )
    beds = ["{bed: Small, size: 1 x 5}", "{bed: Wide, size: 1 x 10}"]
    _, one, two, three = gardens.season(text(full, series, beds=beds)).waves
    assert not two.stands
    assert [w.stages.plant.day for w in (one, two, three)] == [
        date(2026, 6, 1),
        date(2026, 6, 6),
        date(2026, 6, 11),
    ]
    assert [stand.bed.name for stand in three.stands] == ["Wide"]
    assert three.stages.plant.steps[-1].rule == "series"


# No part smaller than a row


@settings(derandomize=True, database=None, deadline=None, max_examples=300)
@given(
    st.lists(st.tuples(st.integers(0, 9), st.integers(1, 4)), min_size=1, max_size=6),
    st.integers(1, 30),
)
@example([(5, 4), (5, 4), (5, 1)], 6)  # two rows of four are too many, one and a plant are not
@example([(6, 6), (6, 6), (3, 1), (3, 1)], 10)  # of two beds none will do, three will
def test_no_part_is_smaller_than_a_row_in_any_set_of_the_fewest_beds(
    free: list[tuple[int, int]], plants: int
) -> None:
    shared = share_out([(bed, room, row) for bed, (room, row) in enumerate(free)], plants)
    sets = (beds for k in range(1, len(free) + 1) for beds in combinations(range(len(free)), k))
    assert [bed for bed, _ in shared] == next(
        (list(beds) for beds in sets if _takes([free[bed] for bed in beds], plants)), []
    )
    if len(shared) > 1:
        assert all(free[bed][1] <= count for bed, count in shared)
    if shared:
        assert sum(count for _, count in shared) == plants
        assert all(count <= free[bed][0] for bed, count in shared)


def _takes(beds: list[tuple[int, int]], plants: int) -> bool:
    """Whether beds of some room and some row take plants together, a row or more in each."""
    if len(beds) == 1:
        return beds[0][0] >= plants
    fit = all(room >= row for room, row in beds)
    return fit and sum(row for _, row in beds) <= plants <= sum(room for room, _ in beds)


@settings(derandomize=True, database=None, deadline=None, max_examples=60)
@given(
    st.lists(st.tuples(st.integers(1, 4), st.integers(1, 6)), min_size=2, max_size=5),
    st.lists(
        st.tuples(st.integers(0, 90), st.integers(1, 24), st.integers(1, 4)),
        min_size=3,
        max_size=8,
    ),
)
def test_a_wave_stands_whole_where_a_bed_has_room_else_in_the_fewest(
    sizes: list[tuple[int, int]], asked: list[tuple[int, int, int]]
) -> None:
    """A plant takes a square metre, so a bed's area is its plants and its shorter side a row."""
    rows, areas = [min(size) for size in sizes], [width * length for width, length in sizes]
    entries = [
        wave(
            name=f"s{number}",
            plants=str(min(plants, sum(areas))),
            start=str(date(2026, 5, 25) + timedelta(days=day)),
            every="9",
            count=str(count),
        )
        for number, (day, plants, count) in enumerate(asked)
    ]
    beds = [f"{{bed: B{n}, size: {width} x {length}}}" for n, (width, length) in enumerate(sizes)]
    found = gardens.season(text(*entries, beds=beds))
    turns = sorted(found.waves, key=lambda each: (each.stages.plant.day, each.entry.name))
    held: list[list[tuple[date, date, int]]] = [[] for _ in sizes]
    for each in turns:
        first, gone = each.stages.plant.day, each.stages.pull_out.day
        days = [first + timedelta(days=day) for day in range((gone - first).days)]
        free = [
            area - max(sum(p for a, b, p in held[bed] if a <= day < b) for day in days)
            for bed, area in enumerate(areas)
        ]
        stands = [(int(stand.bed.name[1:]), stand.plants) for stand in each.stands]
        sets = (k for n in range(1, len(sizes) + 1) for k in combinations(range(len(sizes)), n))
        fewest = next((k for k in sets if _takes([(free[b], rows[b]) for b in k], each.plants)), ())
        if len(fewest) == 1:
            assert len(stands) == 1
        else:
            assert tuple(bed for bed, _ in stands) == fewest
            assert all(rows[bed] <= plants for bed, plants in stands)
        assert all(plants <= free[bed] for bed, plants in stands)
        for bed, plants in stands:
            held[bed].append((first, gone, plants))


def test_the_last_part_is_brought_up_to_a_row() -> None:
    # 7 and 9 places for 8 plants, rows of 3: seven and one would leave one by itself.
    assert share_out([(0, 7, 3), (1, 7, 3)], 8) == [(0, 5), (1, 3)]
    assert share_out([(0, 3, 3), (1, 7, 3)], 8) == [(0, 3), (1, 5)]


def test_a_bed_with_less_than_a_row_left_takes_no_part_of_a_wave() -> None:
    # Beds of 2 x 10: rows of two. Nineteen of twenty places are taken in Wide until 4 August, ten
    # in Broad: of eleven plants one would stand by itself. With eighteen taken two stand there.
    beds = [WIDE, "{bed: Broad, size: 2 x 10}"]
    full = (
        wave(start="06-01", plants="19", name="a", beds="[Wide]"),
        wave(start="06-01", plants="10", name="b", beds="[Broad]"),
    )
    (*_, one) = _season(*full, wave(start="06-02", plants="11", name="c"), beds=beds).waves
    assert not one.stands
    assert one.blocked is not None
    assert one.blocked.plants == 10
    assert one.blocked.opening is not None
    assert one.blocked.opening.day == date(2026, 8, 4)
    (*_, two) = _season(
        full[0].replace("19", "18"), full[1], wave(start="06-02", plants="11", name="c"), beds=beds
    ).waves
    assert [(stand.bed.name, stand.plants) for stand in two.stands] == [("Wide", 2), ("Broad", 9)]


def test_room_that_only_comes_in_parts_of_less_than_a_row_is_told_as_that() -> None:
    # Beds of 5 x 5, rows of five: six places are left in each, and of eight plants at most three
    # would stand in the second. Ten would stand five and five.
    beds = ["{bed: East, size: 5 x 5}", "{bed: West, size: 5 x 5}"]
    full = [
        wave(start="06-01", plants="19", name=bed.lower(), beds=bed) for bed in ("East", "West")
    ]
    found = _season(*full, wave(start="06-02", plants="8", name="c"), beds=beds)
    (problem,) = found.problems
    assert problem.message.startswith(
        "no room for c-1 (8 plants) on 2 Jun: they would only fit in parts, one of them shorter "
        "than a row; east-1 holds East until 4 Aug"
    )
    assert _season(*full, wave(start="06-02", plants="10", name="c"), beds=beds).waves[-1].stands


def test_of_one_plant_it_is_not_said_to_plant_fewer() -> None:
    last = wave(start="06-02", plants="1", name="b", beds="[Long]")
    found = _season(wave(start="06-01", plants="10", name="a", beds="[Long]"), last, beds=[LONG])
    told = {each.wave: (each.message, each.hint) for each in found.problems}
    assert told["b-1"][0].startswith("no room for b-1 (1 plant) on 2 Jun: a-1 holds")
    kept = [LONG.replace("}", ", taken: 06-01..12-31}")]
    (problem,) = _season(last, beds=kept).problems
    assert problem.hint == "no later day of the year has room for it: name another bed"
