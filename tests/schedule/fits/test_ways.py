"""What is offered where a wave does not fit: each way on its own, with room that is told.

Asked is about 15 July 2026; the average first frost is 2 October.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

import pytest

import gardens
from factory import LONG, TODAY, WIDE, answer, bean, garden, judged, season, spot
from sowtide.days import DateSpan, DayRange
from sowtide.garden.crop import Crop, Raised
from sowtide.garden.model import Bed
from sowtide.schedule.fits.answer import Answer, Instead, Spot, Way
from sowtide.schedule.fits.closing import closing
from sowtide.schedule.fits.instead import what_else
from sowtide.schedule.waves import Verdict

CHANCY = {"verdict": Verdict.CHANCY, "odds": 0.6}
EITHER = {"raised": Raised.EITHER, "nursery_days": DayRange(28, 42)}


def day(month: int, number: int) -> date:
    return date(2026, month, number)


def asked(crop: Crop | None = None, **changes: object) -> Answer:
    """A planting of today that is chancy: six years of ten."""
    of = crop or bean()
    made = {"judged": judged(of, TODAY, **CHANCY), "windows": (), "spots": (), **changes}
    return answer(of, **made)


Room = dict[tuple[str, Raised, date], Spot]


def ways(
    of: Answer,
    room: Room | None = None,
    *,
    elsewhere: tuple[Spot, ...] = (),
    crops: tuple[Crop, ...] = (bean(),),
    today: date = TODAY,
    free: Bed | None = None,
) -> list[Instead]:
    found = what_else(
        season(garden=garden(crops=crops)),
        of,
        elsewhere=elsewhere,
        room_for=lambda crop, raised, on: (room or {}).get((crop.name, raised, on)),
        free_bed=lambda _first, _until: free,
        today=today,
    )
    return list(found.instead)


def told(found: Iterable[Instead], what: Way) -> list[tuple[str, date, float | None]]:
    return [(each.text, each.plant, each.odds) for each in found if each.what is what]


RUNS = (
    DateSpan(day(5, 6), day(6, 1)),
    DateSpan(TODAY, day(7, 16)),
    DateSpan(day(7, 20), day(7, 24)),
    DateSpan(day(8, 1), day(8, 3)),
)


def test_the_next_safe_run_with_room_is_worth_waiting_for() -> None:
    of = asked(windows=RUNS)
    later = spot(LONG, day(7, 20))
    room: Room = {("bush bean", Raised.DIRECT, day(7, 20)): later}
    (way,) = told(ways(of, room), Way.WAIT)
    assert way == ("sow it on 20 Jul in Long 1 (room for 60)", day(7, 20), 0.83)
    # Not the one after it, where the next has no room, nor where it is not safe there
    room = {("bush bean", Raised.DIRECT, day(8, 1)): spot(LONG, day(8, 1))}
    assert told(ways(of, room), Way.WAIT) == []
    room = {("bush bean", Raised.DIRECT, day(7, 20)): spot(LONG, day(7, 20), **CHANCY)}
    assert told(ways(of, room), Way.WAIT) == []
    assert told(ways(asked(windows=RUNS[:2]), room), Way.WAIT) == []


def test_what_is_safe_waits_for_room() -> None:
    beds = (spot(WIDE, day(7, 30)), spot(LONG, day(7, 18)), spot(LONG, TODAY))
    of = answer(windows=RUNS, spots=beds)
    assert of.verdict is Verdict.SAFE
    room: Room = {("bush bean", Raised.DIRECT, each.free_from): each for each in beds}
    (way,) = told(ways(of, room), Way.WAIT)
    assert way[:2] == ("sow it on 18 Jul in Long 1 (room for 60)", day(7, 18))
    assert told(ways(replace(of, spots=beds[2:]), room), Way.WAIT) == []
    trays = bean(**EITHER)
    of = answer(trays, raised=Raised.TRAYS, windows=(), spots=beds)
    room = {("bush bean", Raised.TRAYS, day(7, 18)): beds[1]}
    assert told(ways(of, room), Way.WAIT)[0][0].startswith("plant it out on 18 Jul")


def test_the_best_of_the_other_beds_is_offered_if_it_is_safe_there() -> None:
    beds = spot(WIDE, day(7, 17), plants=1200), spot(LONG, day(7, 16))
    assert told(ways(asked(), elsewhere=beds), Way.ANOTHER_BED) == [
        ("Long 2 has room for 1,200 plants from 17 Jul", day(7, 17), 0.83)
    ]
    chancy = spot(WIDE, day(7, 17), **CHANCY)
    assert told(ways(asked(), elsewhere=(chancy, beds[1])), Way.ANOTHER_BED) == []
    assert told(ways(asked()), Way.ANOTHER_BED) == []


@pytest.mark.parametrize(
    ("crop", "changes", "offered"),
    [
        (bean(**EITHER), {}, True),
        (bean(nursery_days=DayRange(28, 42)), {}, False),  # it is always sown direct
        (bean(raised=Raised.EITHER), {}, False),  # nobody knows how long it stands in trays
        # Trays sown today are ready later than seedlings that are bought
        (bean(**EITHER), {"raised": Raised.TRAYS, "asked_on": day(7, 16)}, True),
        (bean(**EITHER), {"raised": Raised.TRAYS, "asked_on": TODAY}, False),
        # of no use where it may not go out yet
        (bean(**EITHER), {"earliest": day(7, 16)}, False),
    ],
)
def test_seedlings_gain_their_days(crop: Crop, changes: dict[str, object], offered: bool) -> None:
    room: Room = {("bush bean", Raised.TRAYS, TODAY): spot(LONG, TODAY)}
    text = "plant out seedlings, raised already or bought, on 15 Jul in Long 1 (room for 60)"
    expected = [(text, TODAY, 0.83)] if offered else []
    assert told(ways(asked(crop, **changes), room), Way.PLANT_OUT) == expected


@pytest.mark.parametrize(
    ("verdict", "odds", "offered"),
    [
        (Verdict.SAFE, 0.83, True),
        (Verdict.SAFE_FROM_FROST, 0.83, True),
        (Verdict.CHANCY, 0.61, True),
        (Verdict.CHANCY, 0.6, False),  # no better than what was asked about
        (Verdict.TOO_LATE, 0.9, False),
        (Verdict.TOO_HOT, 0.9, False),
    ],
)
def test_only_what_is_better_and_worth_a_try_is_offered(
    verdict: Verdict, odds: float, offered: bool
) -> None:
    at = spot(LONG, TODAY, verdict=verdict, odds=odds)
    crop = bean(**EITHER)
    out = ways(asked(crop), {("bush bean", Raised.TRAYS, TODAY): at})
    assert bool(told(out, Way.PLANT_OUT)) is offered
    sown = asked(crop, raised=Raised.TRAYS, asked_on=TODAY)
    direct = ways(sown, {("bush bean", Raised.DIRECT, TODAY): at})
    assert bool(told(direct, Way.SOW_DIRECT)) is offered
    if offered:
        assert (
            told(direct, Way.SOW_DIRECT)[0][0] == "sow it direct on 15 Jul in Long 1 (room for 60)"
        )


def test_only_what_may_be_either_is_sown_direct_instead() -> None:
    room: Room = {("bush bean", Raised.DIRECT, TODAY): spot(LONG, TODAY)}
    trays = bean(raised=Raised.TRAYS, nursery_days=DayRange(28, 42))
    for of in (asked(trays), asked(bean(**EITHER)), asked()):
        assert told(ways(of, room), Way.SOW_DIRECT) == []


def test_an_early_sort_is_offered_where_the_main_one_is_not_safe() -> None:
    corn = bean(sorts=True, origins={})
    early = "bush bean (early)"
    room: Room = {(early, Raised.DIRECT, TODAY): spot(LONG, TODAY)}
    # The early third of 50 to 60 days
    text = "sow an early sort, 50\N{EN DASH}53 days, on 15 Jul in Long 1 (room for 60)"
    assert told(ways(asked(corn), room), Way.EARLY_SORT) == [(text, TODAY, 0.83)]
    safe = asked(corn, judged=judged(corn, TODAY))
    assert told(ways(safe, room), Way.EARLY_SORT) == []
    room = {(early, Raised.DIRECT, TODAY): spot(LONG, TODAY, **CHANCY)}
    assert told(ways(asked(corn), room), Way.EARLY_SORT) == []
    assert told(ways(asked(), room), Way.EARLY_SORT) == []
    # Asked about a day to come it is judged on that day
    later = asked(corn, asked_on=day(7, 20))
    room = {(early, Raised.DIRECT, day(7, 20)): spot(LONG, day(7, 20))}
    assert len(told(ways(later, room), Way.EARLY_SORT)) == 1


def test_a_cover_helps_where_there_is_room_and_frost_ends_it() -> None:
    room: Room = {("bush bean", Raised.DIRECT, TODAY): spot(LONG, TODAY)}
    poor = asked(judged=judged(bean(), TODAY, verdict=Verdict.CHANCY, odds=0.5))
    ((text, plant, odds),) = told(ways(poor, room), Way.COVER)
    assert text == "put a cover that buys 4 °F over it in Long 1 (room for 60)"
    assert plant == TODAY
    assert odds is not None
    assert odds > 0.5
    assert told(ways(poor), Way.COVER) == []  # no room
    assert told(ways(answer(), room), Way.COVER) == []  # no want of warmth
    sure = asked(judged=judged(bean(), TODAY, verdict=Verdict.CHANCY, odds=0.9999))
    assert told(ways(sure, room), Way.COVER) == []


def quick(name: str, **changes: object) -> Crop:
    return bean(name=name, kind=name, **changes)


def test_three_quicker_crops_are_offered_those_picked_soonest_first() -> None:
    crops = tuple(map(quick, ("a", "b", "c", "d")))
    # Picked from the 60th day at the latest; c a week sooner, d a week later
    room: Room = {
        (name, Raised.DIRECT, TODAY): spot(LONG, TODAY, plants=number)
        for number, name in enumerate("abcd", 1)
    }
    for name, weeks in (("c", -1), ("d", 1)):
        key = (name, Raised.DIRECT, TODAY)
        stages = room[key].judged.stages
        assert stages.first_pick is not None
        early, late = stages.first_pick
        other = replace(
            stages, first_pick=(early, late.then(7 * weeks, "", "", late.steps[0].origin))
        )
        room[key] = replace(room[key], judged=replace(room[key].judged, stages=other))
    found = told(ways(asked(), room, crops=crops), Way.QUICKER_CROP)
    assert [text for text, _, _ in found] == [
        "sow c on 15 Jul in Long 1 (room for 3): first picks from 3 Sep",
        "sow a on 15 Jul in Long 1 (room for 1): first picks from 3 Sep",
        "sow b on 15 Jul in Long 1 (room for 2): first picks from 3 Sep",
    ]


@pytest.mark.parametrize(
    ("crop", "at"),
    [
        (quick("a", overwinters=True), spot(LONG, TODAY)),
        (quick("a", raised=Raised.TRAYS), spot(LONG, TODAY)),
        (bean(name="a"), spot(LONG, TODAY)),  # another variety of the same
        (quick("a"), spot(LONG, TODAY, **CHANCY)),
        (quick("a"), spot(LONG, TODAY, end=day(8, 1))),  # it comes to nothing
        (quick("b"), spot(LONG, TODAY)),  # no room for it
    ],
)
def test_a_quicker_crop_is_another_one_that_is_safe_and_picked(crop: Crop, at: Spot) -> None:
    room: Room = {("a", Raised.DIRECT, TODAY): at}
    assert told(ways(asked(), room, crops=(crop,)), Way.QUICKER_CROP) == []


def test_a_cover_crop_closes_the_space_where_no_crop_is_safe() -> None:
    late = day(8, 20)
    of = asked(asked_on=late)
    assert [each.what for each in ways(of, today=late, free=LONG)] == [Way.COVER_CROP] * 2
    assert ways(of, today=late) == []  # no bed is free
    # With any crop that is safe it is not offered; a chancy one is no reason against it
    elsewhere = (spot(WIDE, late),)
    assert Way.COVER_CROP not in [
        each.what for each in ways(of, today=late, free=LONG, elsewhere=elsewhere)
    ]
    chancy: Room = {("bush bean", Raised.TRAYS, late): spot(LONG, late, verdict=Verdict.CHANCY)}
    crop = bean(**EITHER)
    found = ways(asked(crop, asked_on=late), chancy, today=late, free=LONG)
    assert [each.what for each in found] == [Way.PLANT_OUT, Way.COVER_CROP, Way.COVER_CROP]


@pytest.mark.parametrize(
    ("sown", "offered", "until"),
    [
        # Sown until so many days before the first frost of 2 October: field pea 45, crimson clover
        # 42, buckwheat and oat 40, hairy vetch 35, winter rye 14 days after it. Dug in after 50,
        # 60, 30, 45, 60 and 45 days at the soonest.
        (day(8, 18), ("field pea", "crimson clover"), (day(10, 7), day(10, 17))),
        (day(8, 19), ("crimson clover", "buckwheat"), (day(10, 18), day(9, 18))),
        (day(8, 22), ("buckwheat", "oat"), (day(9, 21), day(10, 6))),
        (day(8, 24), ("hairy vetch", "winter rye"), (day(10, 23), day(10, 8))),
        (day(8, 29), ("winter rye",), (day(10, 13),)),
        (day(10, 16), ("winter rye",), (day(11, 30),)),
        (day(10, 17), (), ()),
    ],
)
def test_the_most_pressing_two_cover_crops_are_offered(
    sown: date, offered: tuple[str, ...], until: tuple[date, ...]
) -> None:
    asked_for: list[tuple[date, date]] = []

    def free(first: date, last: date) -> Bed:
        asked_for.append((first, last))
        return WIDE

    on = season()
    found = list(closing(sown, climate=on.climate, year=on.garden.year, free_bed=free))
    assert len(found) == len(offered)
    for each, name in zip(found, offered, strict=True):
        assert (each.what, each.plant, each.odds) == (Way.COVER_CROP, sown, None)
        assert each.text.startswith(f"close the space in Long 2 with {name}, sown on ")
    assert asked_for[: len(until)] == [(sown, last) for last in until]


def test_what_has_no_bed_leaves_its_place_to_the_next() -> None:
    on, tried = season(), []

    def free(_first: date, last: date) -> Bed | None:
        tried.append(last)
        return None if len(tried) == 1 else LONG

    found = closing(day(8, 18), climate=on.climate, year=on.garden.year, free_bed=free)
    assert [each.text.split(", ")[0] for each in found] == [
        "close the space in Long 1 with crimson clover",
        "close the space in Long 1 with buckwheat",
    ]


def test_a_cover_crop_says_what_becomes_of_it() -> None:
    on = season()
    year, climate = on.garden.year, on.climate
    one, two = closing(day(8, 18), climate=climate, year=year, free_bed=lambda _first, _last: LONG)
    assert one.text == (
        "close the space in Long 1 with field pea, sown on 18 Aug (till 18 Aug at the latest): "
        "frost kills it; dig it in in full flower, before the pods fill, 14 to 21 days before the "
        "next sowing"
    )
    assert "crimson clover, sown on 18 Aug (till 21 Aug at the latest): it stands the" in two.text


def test_what_stands_the_winter_needs_its_room_until_the_year_ends() -> None:
    asked_for: list[date] = []

    def free(_first: date, last: date) -> Bed:
        asked_for.append(last)
        return LONG

    on = gardens.season(gardens.text(frost="none"))
    sown = day(12, 1)
    list(closing(sown, climate=on.climate, year=on.garden.year, free_bed=free))
    # Buckwheat for 30 days, all others for 45 or more
    assert set(asked_for) == {day(12, 31)}
