"""On which days care asks for its turn, and what moves it."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from gardens import crop, wave
from tended import LEAF, care_with, days_of, garden_with, june, season_with


@pytest.mark.parametrize(
    ("keys", "days"),
    [
        # planted on 1 June, first pick 50 days on, 21 July (day 51), picked 14 days to day 64
        ("from: planting out + 14, every: 20", june(15, 35, 55)),
        ("from: planting out + 14, every: 20, until: last pick - 14", june(15, 35)),
        ("from: first pick - 7", june(44)),
        ("from: in flower, every: 1 week, until: first pick", june(41, 48)),
        ("from: 07-01, every: 30", june(31, 61)),
        ("from: 05-02, every: 30", june(1, 31, 61)),  # on 2 May nothing stands there
        ("every: 30", june(1, 31, 61)),
        ("from: 07-01, every: 'FREQ=MONTHLY;BYMONTHDAY=15'", june(45)),
        ("every: 'FREQ=WEEKLY;BYDAY=SU', until: 06-21", june(7, 14, 21)),  # 7 June 2026: a Sunday
        ("every: 'FREQ=WEEKLY;BYDAY=MO', until: 06-21", june(1, 8, 15)),  # 1 June is a Monday
        ("from: pull out - 1", june(64)),
    ],
)
def test_a_routine_runs_from_a_stage_to_a_stage(keys: str, days: list[date]) -> None:
    care = care_with(garden_with(f"name: dry feed, do: feed, on: fruit, {keys}"))
    assert days_of(care, "dry feed") == days


@pytest.mark.parametrize(
    ("work", "day"),
    [("feed", 1), ("water", 1), ("spray", 11), ("scout", 11), ("prune", 11), ("hoe", 1)],
)
def test_what_is_done_to_leaves_begins_when_a_sowing_is_up(work: str, day: int) -> None:
    care = care_with(garden_with(f"name: a, do: {work}, on: fruit"))  # up 10 days on
    assert days_of(care, "a") == june(day)


def test_watering_goes_round_on_the_same_days() -> None:
    # Mondays: 1 June 2026 is one; the other wave is planted on a Thursday
    waves = (wave(start="06-01"), wave("leaf", start="06-04"))
    care = care_with(
        garden_with("name: soak, do: water, on: everything, every: 7, amount: 25 mm", waves=waves)
    )
    assert days_of(care, "soak", "fruit-1")[:2] == june(1, 8)
    assert days_of(care, "soak", "leaf-1")[:2] == june(8, 15)


def test_what_stands_over_the_winter_is_not_watered_in_frost() -> None:
    winter = crop("winter", overwinters="yes", hardiness="hardiest", ready="06-25..07-20")
    waves = (wave("winter", start="2025-10-10"), wave("leaf", start="09-01"))
    soak = "name: soak, do: water, on: everything, every: 7, amount: 25 mm"
    care = care_with(garden_with(soak, waves=waves, crops=(winter, LEAF)))
    # average frosts 10 May and 1 October 2026; Mondays are 11 May and 28 September
    assert days_of(care, "soak", "winter-1")[0] == date(2026, 5, 11)
    assert days_of(care, "soak", "leaf-1")[-1] == date(2026, 9, 28)
    kept = care_with(garden_with(f"{soak}, from: 2025-12-01", waves=waves, crops=(winter, LEAF)))
    assert days_of(kept, "soak", "winter-1")[0] == date(2025, 12, 1)


def test_what_goes_round_begins_on_the_day_of_the_last_frost_and_ends_on_that_of_the_first() -> (
    None
):
    # Kale is picked until November; what is planted with the year stands over no winter, and its
    # water goes round from the first Monday on.
    winter = crop("winter", overwinters="yes", hardiness="hardiest", ready="06-25..07-20")
    kale = crop("kale", hardiness="hardiest", picking_days="100")
    waves = (wave("winter", start="2025-12-31"), wave("kale", start="2026-01-01"))
    soak = "name: soak, do: water, on: everything, every: 1, amount: 25 mm"
    care = care_with(garden_with(soak, waves=waves, crops=(winter, kale)))
    assert days_of(care, "soak", "winter-1")[0] == date(2026, 5, 10)
    assert days_of(care, "soak", "kale-1")[0] == date(2026, 1, 5)
    late = care_with(garden_with(soak, waves=(wave("kale", start="07-20"),), crops=(kale,)))
    assert days_of(late, "soak")[-1] == date(2026, 10, 1)


def test_what_was_done_moves_the_next() -> None:
    file = garden_with("name: dry feed, do: feed, on: fruit, every: 20")
    fed = "on: 2026-06-05, wave: fruit-1, did: fed, with: dry feed"
    care = care_with(file, fed, today=date(2026, 6, 10))
    assert days_of(care, "dry feed") == june(25, 45)


def test_what_was_done_to_a_bed_was_done_to_all_that_stood_in_it() -> None:
    file = garden_with("name: dry feed, do: feed, on: fruit, every: 20")
    care = care_with(file, "on: 2026-06-05, bed: Long, did: fed", today=date(2026, 6, 10))
    assert days_of(care, "dry feed") == june(25, 45)
    other = "on: 2026-06-05, bed: Long, did: fed, with: fish broth"
    assert days_of(care_with(file, other, today=date(2026, 6, 10)), "dry feed") == june(
        1, 21, 41, 61
    )


def test_what_is_noted_and_then_left_is_overdue_and_counted_on_from_today() -> None:
    file = garden_with("name: dry feed, do: feed, on: fruit, every: 10")
    care = care_with(file, "on: 2026-06-01, wave: fruit-1, did: fed", today=date(2026, 6, 14))
    (late,) = [dose for dose in care.doses if dose.overdue]
    assert (late.asked, late.day) == (june(11)[0], june(14)[0])
    assert days_of(care, "dry feed") == june(14, 24, 34, 44, 54, 64)


def test_what_is_never_noted_counts_as_done_on_its_days() -> None:
    file = garden_with("name: dry feed, do: feed, on: fruit, every: 10")
    care = care_with(file, "on: 2026-06-01, wave: fruit-1, did: sown", today=date(2026, 6, 14))
    assert [dose for dose in care.doses if dose.overdue] == []
    assert days_of(care, "dry feed")[:3] == june(1, 11, 21)


@pytest.mark.parametrize("today", [20, 24, 25])
def test_where_nothing_is_noted_days_count_from_the_first_note_of_the_routine(today: int) -> None:
    # Both are planted on 1 June and due on 1, 11, 21 June. What is noted of the one on the 20th and
    # on the 24th says that notes are kept: of the other the days up to the 20th count as done.
    waves = (wave(start="06-01"), wave("leaf", start="06-01"))
    notes = [
        f"on: 2026-06-{day}, bed: Long, wave: fruit-1, did: fed, with: dry feed"
        for day in (20, 24)
        if day <= today
    ]
    file = garden_with("name: dry feed, do: feed, on: everything, every: 10", waves=waves)
    care = care_with(file, *notes, today=date(2026, 6, today))
    assert days_of(care, "dry feed", "leaf-1")[0] == date(2026, 6, max(today, 21))


def test_a_wave_pulled_early_drops_out() -> None:
    file = garden_with("name: dry feed, do: feed, on: fruit, every: 10")
    entries = (
        "on: 2026-06-01, wave: fruit-1, did: sown, bed: Long",
        "on: 2026-06-20, wave: fruit-1, did: pulled, sick: yes",
    )
    care = care_with(file, *entries, today=date(2026, 6, 21))
    assert days_of(care, "dry feed") == june(1, 11)
    assert care.rounds(date(2026, 6, 20), date(2026, 8, 30)) == ()


@pytest.mark.parametrize(
    ("found", "demand", "days"),
    [
        (("some",), "some", june(22, 29, 36, 43, 50, 57, 64)),
        (("some",), "many", []),
        (("many",), "many", june(22, 29, 36, 43, 50, 57, 64)),
        (("many", "none"), "some", []),
    ],
)
def test_on_demand_waits_for_what_was_found(
    found: tuple[str, ...], demand: str, days: list[date]
) -> None:
    file = garden_with(f"name: soap, do: spray, on: fruit, on_demand: {demand}, every: 7")
    entries = [
        f"on: 2026-06-{20 + number}, wave: fruit-1, did: scouted, found: {each}"
        for number, each in enumerate(found)
    ]
    # found on 20 June, looked at on the 22nd: the first evening is that of the 22nd
    assert days_of(care_with(file, *entries, today=date(2026, 6, 22)), "soap") == days


def test_nothing_on_demand_without_a_look() -> None:
    file = garden_with("name: soap, do: spray, on: fruit, from: on demand, every: 7")
    assert days_of(care_with(file), "soap") == []


@pytest.mark.parametrize(
    ("kind", "keys", "days"),
    [
        # Sown on 1 June, first pick 50 days on, 21 July (day 51): the last Monday two weeks before
        # it, day 37, is day 36. Mondays from 1 June.
        ("onion", "", june(1, 8, 15, 22, 29, 36)),
        ("onion", ", until: 07-15", june(1, 8, 15, 22, 29, 36, 43)),  # the file says till when
        ("bean", "", june(1, 8, 15, 22, 29, 36, 43, 50)),
    ],
)
def test_bulbs_are_not_watered_in_their_last_two_weeks(
    kind: str, keys: str, days: list[date]
) -> None:
    bulbs = crop(kind, days_to_harvest="50", picking_days="1", holding_days="5")
    soak = f"name: soak, do: water, on: everything, every: 7, amount: 25 mm{keys}"
    file = garden_with(soak, waves=(wave(kind, start="06-01"),), crops=(bulbs,))
    assert days_of(care_with(file), "soak") == days


def test_what_is_found_on_one_wave_asks_for_nothing_on_another() -> None:
    waves = (wave(start="06-01", name="one"), wave(start="06-01", name="two"))
    file = garden_with("name: soap, do: spray, on: fruit, on_demand: some, every: 7", waves=waves)
    look = "on: 2026-06-20, wave: {}, did: scouted, found: {}"
    care = care_with(
        file, look.format("one-1", "some"), look.format("two-1", "none"), today=date(2026, 6, 25)
    )
    assert {dose.plot.wave.id for dose in care.doses} == {"one-1"}
    assert [(each.wave, each.found.value) for each in care.looks] == [
        ("one-1", "some"),
        ("two-1", "none"),
    ]


@pytest.mark.parametrize(
    ("first", "then", "unwell"), [("many", "none", False), ("none", "some", True)]
)
def test_the_latest_look_counts(first: str, then: str, unwell: bool) -> None:
    file = garden_with("name: look, do: scout, on: fruit, every: 7")
    look = "on: 2026-06-{}, wave: fruit-1, did: scouted, found: {}"
    care = care_with(file, look.format(24, then), look.format(20, first), today=date(2026, 6, 25))
    (latest,) = care.looks
    assert (latest.on, latest.found.value) == (date(2026, 6, 24), then)
    assert care.unwell == ({"Long"} if unwell else set())


def test_onions_are_not_watered_in_the_fortnight_before_they_are_lifted() -> None:
    water = "name: hose, do: water, on: everything, every: 1, amount: 5 mm"
    planted = (wave("onion", start="05-10"),)
    season = season_with(garden_with(water, waves=planted, crops=("onion: {}",)))
    first = season.waves[0].stages.first_pick
    assert first is not None
    assert season.care is not None
    assert max(dose.day for dose in season.care.doses) == first[0].day - timedelta(days=14)


def test_what_finds_no_working_day_before_its_end_gives_way() -> None:
    # 18 and 19 July are a Saturday and a Sunday.
    feed = "name: tea, do: feed, on: fruit, from: 07-18, until: 07-19"
    care = care_with(garden_with(feed) + "working_days: [mon, tue, wed, thu, fri]\n")
    assert care.doses == ()
    assert [(each.asked, each.why.said) for each in care.gives] == [
        (date(2026, 7, 18), "no working day")
    ]
    assert care_with(garden_with(feed)).gives == ()


@pytest.mark.parametrize(
    ("sprayed", "days"),
    [
        (19, [22]),  # before it was found: it is asked for, once
        (20, []),  # on the evening of that day: it is done
    ],
)
def test_what_was_put_on_the_day_it_was_found_is_done(sprayed: int, days: list[int]) -> None:
    file = garden_with("name: soap, do: spray, on: fruit, on_demand: some")
    look = "on: 2026-06-20, wave: fruit-1, did: scouted, found: some"
    spray = f"on: 2026-06-{sprayed}, wave: fruit-1, did: sprayed, with: soap"
    care = care_with(file, look, spray, today=date(2026, 6, 22))
    assert days_of(care, "soap") == june(*days)


def test_a_round_is_asked_for_since_the_first_of_its_waves() -> None:
    # Fed every ten days: one wave on Saturday 20 June, the other on Sunday the 21st; both wait for
    # Monday, as one piece of work.
    waves = (wave(start="06-10", name="one"), wave(start="06-11", name="two"))
    feed = "name: tea, do: feed, on: fruit, from: planting out + 10"
    care = care_with(garden_with(feed, waves=waves) + "working_days: [mon, tue, wed, thu, fri]\n")
    (found,) = care.rounds(date(2026, 6, 1), date(2026, 6, 30))
    assert (found.day, found.asked) == (date(2026, 6, 22), date(2026, 6, 20))
    assert [plot.wave.id for plot in found.plots] == ["one-1", "two-1"]
    assert found.why is not None
