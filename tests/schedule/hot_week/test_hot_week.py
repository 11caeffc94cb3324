"""A week of heat: the limits, the gap in the picking, hot seedbeds, and what waits."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from random import Random

import pytest

import drawn
import gardens
from gardens import crop, leaf, wave
from sowtide.days import DateSpan, week_start
from sowtide.garden.crop import Crop
from sowtide.garden.journal import journal_of
from sowtide.schedule.care import Hindrance
from sowtide.schedule.hot_week import HotWeek, action_in_heat, hot_week_of
from sowtide.schedule.planning import with_high
from sowtide.schedule.season import Season
from sowtide.schedule.work import HeatAction, WeekSheet
from sowtide.season import season_of
from sowtide.units import TOO_HOT, celsius
from tended import garden_with, season_with

MONDAY = date(2026, 7, 13)
_HEAT = Hindrance("the heat", is_heat=True)
CROPS = (
    crop(flower_to_pick="10", fruit_set_high="33", soil_max="32"),
    crop("late", raised="trays", nursery_days="28-60", hardening_days="7"),
    leaf(days_to_harvest="30", picking_days="10"),
    crop("bulb", days_to_harvest="60", picking_days="1", holding_days="20-30"),
)


def looked_at(file: str, *entries: str, today: date = gardens.EARLY) -> Season:
    """Return a season, with a journal where there are entries."""
    if not entries:
        return season_of(gardens.read(file), today)
    read = journal_of("".join(f"- {{{each}}}\n" for each in entries).encode(), "journal.yaml")
    return season_of(gardens.read(file), today, None, read.journal)


def sheet_of(season: Season, first: date = MONDAY) -> WeekSheet:
    (sheet,) = gardens.sheets(season, first)
    return sheet


def hot(season: Season, high: float = 36.0, first: date = MONDAY) -> HotWeek:
    season = with_high(season, first, high)
    return hot_week_of(season, sheet_of(season, first), high)


def garden(*waves: str, **more: object) -> str:
    return gardens.text(*waves, crops=CROPS, fall_allowance="0", **more)  # type: ignore[arg-type]


def actions(found: HotWeek) -> dict[str, HeatAction]:
    return {each.wave.id: each.action for each in found.waves}


def test_each_kind_of_plant_has_its_own_limits() -> None:
    season = looked_at(garden())
    fruit, salad, bulb = (gardens.crop_called(season, name) for name in ("fruit", "leaf", "bulb"))
    limit = 24 + 10 * 5 / 9  # a mean of 24 °C is a maximum of 29.6: half of 20 °F under it

    def asked(of: Crop, high: float, *, ripe: bool = False, young: bool = False) -> HeatAction:
        return action_in_heat(of, high, ripe=ripe, young=young)

    assert asked(salad, limit - 5 * 5 / 9) is HeatAction.LEAVE  # 5 °F below it is watered
    assert asked(salad, limit - 5 * 5 / 9 + 0.1) is HeatAction.WATER
    assert asked(salad, limit) is HeatAction.WATER
    assert asked(salad, limit + 0.1) is HeatAction.SHADE
    assert asked(salad, limit + 0.1, ripe=True) is HeatAction.PICK
    assert asked(fruit, TOO_HOT - 0.1, young=True) is HeatAction.LEAVE
    assert asked(fruit, celsius(90)) is HeatAction.WATER
    assert asked(fruit, celsius(90), young=True) is HeatAction.SHADE
    assert asked(fruit, celsius(100) - 0.1) is HeatAction.WATER
    assert asked(fruit, celsius(100)) is HeatAction.SHADE
    assert asked(bulb, 36, ripe=True) is HeatAction.LEAVE  # lifted dry
    assert asked(bulb, 36) is HeatAction.WATER


def test_the_gap_is_counted_by_the_days_from_flower_to_pick() -> None:
    # Sown on 1 June: in flower from 11 July, picked from 21 July to 3 August, ten days on. What
    # flowers from 13 to 19 July would be picked from 23 to 29 July.
    season = looked_at(garden(wave(start="06-01")))
    (gap,) = hot(season, 33.1).gaps
    assert gap.flowers == DateSpan(date(2026, 7, 13), date(2026, 7, 19))
    assert gap.picks == DateSpan(date(2026, 7, 23), date(2026, 7, 29))
    assert gap.ripens == 10
    assert hot(season, 33.0).gaps == ()  # over its limit, not at it
    # What flowers after 24 July, ten days before the last pick, bears nothing any more.
    (late,) = hot(season, first=date(2026, 7, 20)).gaps
    assert late.picks.last == date(2026, 8, 3)
    # In the week of today it is the days to come.
    (rest,) = hot(replace(season, today=date(2026, 7, 16))).gaps
    assert rest.flowers == DateSpan(date(2026, 7, 16), date(2026, 7, 19))


def test_what_is_not_up_just_up_or_gone_is_told_apart() -> None:
    file = garden(
        wave(start="07-06"),  # up on the 16th
        wave(start="06-24", name="up"),  # up on 4 July, nine days ago
        wave(start="06-19", name="grown"),  # up on 29 June, fourteen days ago
        wave(start="06-01", name="old"),
        wave("leaf", start="06-08"),  # picked from 8 July on
        wave("leaf", start="06-24", name="near"),  # from the 24th, within a week of the Sunday
        wave("leaf", start="06-29", name="small"),  # from the 29th
        wave(start="05-10", name="over"),  # picked till 12 July
    )
    found = hot(looked_at(file, today=MONDAY))
    assert actions(found) == {
        "fruit-1": HeatAction.SHADE,
        "up-1": HeatAction.SHADE,
        "grown-1": HeatAction.WATER,
        "old-1": HeatAction.WATER,
        "leaf-1": HeatAction.PICK,
        "near-1": HeatAction.PICK,
        "small-1": HeatAction.SHADE,
    }
    assert [each.wave.id for each in found.waves if not each.up] == ["fruit-1"]


def test_by_the_journal_what_was_never_planted_is_not_shaded() -> None:
    file = garden(wave(start="06-01"), wave("leaf", start="07-01"))
    sown = "on: 2026-06-01, wave: fruit-1, did: sown"
    assert set(actions(hot(looked_at(file, sown, today=MONDAY)))) == {"fruit-1"}
    lost = "on: 2026-07-10, wave: fruit-1, did: lost"
    assert actions(hot(looked_at(file, sown, lost, today=MONDAY))) == {}


def test_seed_is_in_doubt_where_the_seedbed_is_hotter_than_it_bears() -> None:
    # 36 °C by day is a mean of 30.4, and a seedbed in the sun 2 °C warmer: above the crop's 32.
    file = garden(wave(start="07-15"), wave("bulb", start="07-16"))
    first, second = hot(looked_at(file)).sowings
    assert (first.task.wave.id, second.task.wave.id) == ("fruit-1", "bulb-1")
    assert first.doubt is not None
    assert first.doubt.soil.about == pytest.approx(36 - 10 * 5 / 9 + 2)
    assert second.doubt is None
    # 80 in 100: safe till the 19th, so it cannot wait for Monday; half of the years: till the 29th.
    assert first.until is None
    assert second.until is None
    (even, _) = hot(
        looked_at(file.replace("fall_allowance", "sure: 50%\n  fall_allowance"))
    ).sowings
    assert even.until == date(2026, 7, 20)
    # Not safe any more on its own day, it does not wait either.
    (late, _) = hot(looked_at(file.replace("fall_allowance: 0", "sure: 90%"))).sowings
    assert late.until is None
    assert hot(looked_at(file), 31.0).sowings == ()
    # What wants a warmer soil is no matter of heat.
    assert hot(looked_at(file.replace("soil_max: 32", "soil_min: 35")), 31.0).sowings == ()


def test_setting_out_waits_for_the_first_day_after_the_heat_if_it_can() -> None:
    file = garden(wave("late", start="07-15"), wave("late", start="07-20", name="next"))
    found = {each.task.kind.value: each for each in hot(looked_at(file)).delays}
    assert set(found) == {"harden off", "plant out"}
    assert {each.until for each in found.values()} == {date(2026, 7, 20)}
    assert not any(each.cannot_wait for each in found.values())
    assert hot(looked_at(file), 32.0).delays == ()
    # After 60 days its seedlings are too old: on 17 July.
    old = file.replace("28-60", "28-30")
    late = {each.task.kind.value: each for each in hot(looked_at(old)).delays}
    assert late["plant out"].cannot_wait
    # Hardened off on 13 July for the 20th, it may go out on the 22nd; from Monday on it is too old.
    assert late["harden off"].cannot_wait


def test_what_is_overdue_waits_too_and_what_is_past_does_not() -> None:
    file = garden(wave("late", start="07-08"), wave("late", start="07-14", name="next"))
    begun = "on: 2026-07-01, bed: Long, did: watered"
    sown = "on: 2026-06-10, wave: late-1, did: sown"
    found = hot(looked_at(file, begun, sown, today=date(2026, 7, 15))).delays
    assert ("late-1", "plant out") in {(e.task.wave.id, e.task.kind.value) for e in found}
    past = hot(looked_at(file, today=date(2026, 7, 15))).delays
    assert past == ()


def test_a_bed_is_uncovered_where_something_stands() -> None:
    beds = ("{bed: Hoops, size: 1 x 4, cover: 3}", "{bed: Long, size: 1 x 9}")
    bare = garden(wave(start="06-01", beds="[Long]"), beds=beds)
    assert hot(looked_at(bare)).covered == ()
    full = garden(wave(start="06-01", beds="[Hoops]"), beds=beds)
    assert [bed.name for bed in hot(looked_at(full), celsius(80)).covered] == ["Hoops"]
    assert hot(looked_at(full), celsius(80) - 0.1).covered == ()


FEED = "{name: dry feed, do: feed, on: fruit, from: 07-15, every: 20, amount: 30 g per plant}"
SPRAY = "{name: mildew, do: spray, on: fruit, from: 07-14, every: 20}"


def test_nothing_is_sprayed_or_fed_on_the_days_to_come() -> None:
    file = garden(wave(start="06-01")) + f"care:\n  - {FEED}\n  - {SPRAY}\n"
    season = with_high(looked_at(file), MONDAY, TOO_HOT)
    assert season.care is not None
    days = {each.routine.name: (each.day, each.why) for each in season.care.doses}
    after = date(2026, 7, 20)
    assert days == {"dry feed": (after, _HEAT), "mildew": (after, _HEAT)}
    cooler = with_high(looked_at(file), MONDAY, TOO_HOT - 0.1).care
    assert cooler is not None
    assert [each.why for each in cooler.doses] == [None] * len(cooler.doses)
    # On the 15th the 14th has gone, and what was due then counts as done.
    today = with_high(looked_at(file, today=date(2026, 7, 15)), MONDAY, 35.0).care
    assert today is not None
    sprayed = next(each for each in today.doses if each.routine.name == "mildew")
    assert sprayed.day == date(2026, 7, 14)


def test_what_finds_no_day_after_the_heat_gives_way() -> None:
    short = FEED.replace("every: 20", "until: 07-18")
    file = garden(wave(start="06-01")) + f"care:\n  - {short}\n"
    care = with_high(looked_at(file), MONDAY, 35.0).care
    assert care is not None
    assert [(each.routine.name, each.why) for each in care.gives] == [("dry feed", _HEAT)]


CARE = (
    "care:\n"
    "  - {name: s, do: spray, on: everything, every: 9, label: {hottest: 30C}}\n"
    "  - {name: f, do: feed, on: everything, every: 13, amount: 30 g per plant}\n"
)
HIGHS = (20.0, 25.0, 27.0, 28.0, 29.0, 30.0, 31.0, 32.0, 32.3, 33.5, 35.0, 37.0, 38.0, 41.0, 46.0)


@pytest.mark.parametrize("part", range(4))
def test_of_200_gardens_a_hotter_week_never_asks_for_less(part: int) -> None:
    seen = set()
    for seed in range(part * 50, part * 50 + 50):
        chance = Random(seed)
        day = date(2026, 5, 10) + timedelta(days=chance.randrange(120))
        text = drawn.covered_garden(chance) + (CARE if seed % 3 == 0 else "")
        text = text.replace("hardiness: tender", "fruit_set_high: 33, flower_to_pick: 12, "
                            "hardiness: tender")  # fmt: skip
        season, first = season_of(gardens.read(text), day), week_start(day, starts=0)
        sheet = sheet_of(season, first)
        before: dict[tuple[str, ...], int] = {}
        for high in HIGHS:
            now = asked_for(hot_week_of(season, sheet, high))
            care = with_high(season, first, high).care if seed % 3 == 0 else None
            for each in () if care is None else care.doses:
                if max(day, first) <= each.day <= first + timedelta(days=6):
                    key = ("less", each.routine.name)
                    now[key] = now.get(key, 100) - 1
            for name in ("f", "s"):
                now.setdefault(("less", name), 100)
            for key, much in before.items():
                assert now.get(key, 0) >= much, (seed, high, key)
            before = now
        seen |= {key[0] for key in before}
    assert {"wave", "sow", "gap", "open", "less"} <= seen


def asked_for(found: HotWeek) -> dict[tuple[str, ...], int]:
    """Return how much is asked for, each by its name."""
    now = {("wave", each.wave.id, each.bed.name): each.action.much for each in found.waves}
    now |= {("sow", each.task.id): 1 + (each.doubt is not None) for each in found.sowings}
    now |= {("put off", each.task.id): 1 for each in found.delays}
    now |= {("gap", each.wave.id): each.picks.length for each in found.gaps}
    return now | {("open", bed.name): 1 for bed in found.covered}


SOAK = "name: soak, do: water, on: everything, from: 07-07, every: 7, amount: 10 mm"


@pytest.mark.parametrize(
    ("today", "due"),
    [
        # Tuesdays: 7, 14 and 21 July. On Thursday the next is five days off; on Wednesday the day
        # before was one of them; on Tuesday it is its own day, on Monday the next.
        (date(2026, 7, 16), date(2026, 7, 21)),
        (date(2026, 7, 15), None),
        (date(2026, 7, 14), None),
        (date(2026, 7, 13), date(2026, 7, 14)),
    ],
)
def test_the_next_water_comes_before_the_heat_where_its_day_is_later(
    today: date, due: date | None
) -> None:
    file = garden_with(SOAK, waves=(wave(start="06-20"),), crops=CROPS, fall_allowance="0")
    found = hot(season_with(file, today=today)).forward
    assert [(each.round.day, each.due) for each in found] == ([] if due is None else [(today, due)])


def test_what_ripens_off_is_not_watered_and_rain_is_taken_off() -> None:
    # 10 mm over ten plants of 1 m² each are 100 l; 4 mm of them have come down since Tuesday.
    waves = (
        wave(start="06-20", plants="6"),
        wave("bulb", start="05-08", plants="4"),
    )
    file = garden_with(SOAK, waves=waves, crops=CROPS, fall_allowance="0")
    rain = "on: 2026-07-15, did: rain, amount: 4 mm"
    thursday = date(2026, 7, 16)
    dry, wet = (hot(season_with(file, *noted, today=thursday)) for noted in ((), (rain,)))
    assert actions(dry)["bulb-1"] is HeatAction.LEAVE
    (found,) = dry.forward
    assert [plot.wave.id for plot in found.round.plots] == ["fruit-1"]
    assert str(found.taken.amount) == "60 l"
    (less,) = wet.forward
    assert str(less.taken.amount) == "36 l"


def test_nothing_comes_forward_where_nothing_needs_water() -> None:
    file = garden_with(SOAK, waves=(wave(start="06-20"),), crops=CROPS, fall_allowance="0")
    assert hot(season_with(file, today=date(2026, 7, 16)), high=25.0).forward == ()
    without = season_with(garden(wave(start="06-20")), today=date(2026, 7, 16))
    assert hot(without).forward == ()


@pytest.mark.parametrize(
    ("sown", "action"), [("06-26", HeatAction.PICK), ("06-27", HeatAction.SHADE)]
)
def test_leaves_are_picked_young_up_to_a_week_before_their_first_pick(
    sown: str, action: HeatAction
) -> None:
    # Thirty days from 26 June are 26 July: a week after Sunday, the last day of the heat.
    assert actions(hot(looked_at(garden(wave("leaf", start=sown))))) == {"leaf-1": action}
