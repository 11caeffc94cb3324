"""Sprays and dusts: what is kept apart, what dries first, what flowers and heat keep off."""

from __future__ import annotations

from datetime import date, timedelta
from random import Random

import pytest

import replayed
from gardens import wave
from sowtide.garden.care import days_between
from sowtide.garden.read import read_garden
from sowtide.schedule.care import CarePlan, Dose, Hindrance
from sowtide.schedule.planning import with_high
from sowtide.season import season_of
from sowtide.units import celsius
from tended import care_with, days_of, garden_with, june, season_with

OIL = "name: oil, do: spray, on: fruit, from: 06-01, every: 28, label: {not_within: {sulfur: 14}}"
SULFUR = "name: sulfur, do: spray, on: fruit, from: 06-01, every: 28"


def test_oil_and_sulfur_are_two_weeks_apart() -> None:
    # UC IPM: "Don't apply within two weeks of an oil spray"; the file says so and is planned so
    care = care_with(garden_with(OIL, SULFUR))
    assert days_of(care, "oil") == june(1, 29, 57)
    assert days_of(care, "sulfur") == june(15, 43)


def test_what_is_held_off_waits_for_a_working_day() -> None:
    # Monday 1 June and 16 days are Wednesday the 17th: the next Monday is the 22nd
    apart = (each.replace("14", "16").replace("every: 28", "every: 56") for each in (OIL, SULFUR))
    file = garden_with(*apart) + "working_days: [mon]\n"
    assert days_of(care_with(file), "sulfur")[0] == date(2026, 6, 22)


def test_what_comes_rarely_is_not_held_off_for_ever_by_what_comes_often() -> None:
    often = "name: sulfur, do: spray, on: fruit, from: 06-01, every: 7"
    care = care_with(garden_with(OIL, often))
    # sulfur waits till 15; oil, asked for on 29, waits for that of 22 till 36; sulfur till 50
    assert days_of(care, "oil") == june(1, 36)
    assert days_of(care, "sulfur") == june(15, 22, 50, 57, 64)


def test_the_journal_counts_too_for_what_is_kept_apart() -> None:
    entry = "on: 2026-06-03, wave: fruit-1, did: sprayed, with: sulfur"
    late = OIL.replace("from: 06-01, every: 28", "from: 06-05")
    assert days_of(care_with(garden_with(late), entry, today=date(2026, 6, 4)), "oil") == june(17)


def test_what_can_not_be_kept_says_what_gives() -> None:
    care = care_with(
        garden_with(
            "name: oil, do: spray, on: fruit, from: 06-20, label: {not_within: {sulfur: 60}}",
            "name: sulfur, do: spray, on: fruit, from: 07-05",
        )
    )
    (gives,) = care.gives
    assert (gives.routine.name, gives.why.said) == ("sulfur", "60 days from oil")


def test_two_that_dry_go_on_two_evenings() -> None:
    mites = "name: mites, do: spray, on: fruit, against: mites, from: 06-10, keep_dry: 24h"
    mildew = "name: mildew, do: spray, on: fruit, against: fungus, from: 06-10, keep_dry: 24h"
    care = care_with(garden_with(mildew, mites))
    assert days_of(care, "mites") == june(10)  # for mites first: leaves undersides up
    assert days_of(care, "mildew") == june(11)
    moved = next(dose for dose in care.doses if dose.routine.name == "mildew")
    assert (moved.asked, moved.why) == (june(10)[0], Hindrance("leaves dry after mites first"))


def test_two_that_dry_go_on_one_evening_if_both_labels_let_them() -> None:
    both = (
        "name: mites, do: spray, on: fruit, from: 06-10, keep_dry: 24h, "
        "label: {together_with: mildew}",
        "name: mildew, do: spray, on: fruit, from: 06-10, keep_dry: 24h, "
        "label: {together_with: mites}",
    )
    care = care_with(garden_with(*both))
    assert days_of(care, "mites") == days_of(care, "mildew") == june(10)
    one = both[0], both[1].replace("label: {together_with: mites}", "label: {}")
    assert days_of(care_with(garden_with(*one)), "mildew") == june(11)
    other = both[0].replace("label: {together_with: mildew}", "label: {}"), both[1]
    assert days_of(care_with(garden_with(*other)), "mildew") == june(11)


def test_leaves_dry_as_long_as_what_was_put_on_first_asks() -> None:
    # 48 hours from the evening of the 10th are over on that of the 12th; soap asks for none.
    dries = "name: oil, do: spray, on: fruit, from: 06-10, keep_dry: 48h"
    other = "name: soap, do: spray, on: fruit, from: 06-11"
    care = care_with(garden_with(dries, other))
    assert (days_of(care, "oil"), days_of(care, "soap")) == (june(10), june(12))
    # What dries longest waits but an evening for what needs no drying.
    insects = "name: soap, do: spray, on: fruit, against: insects, from: 06-10"
    fungus = "name: oil, do: spray, on: fruit, against: fungus, from: 06-10, keep_dry: 48h"
    care = care_with(garden_with(insects, fungus))
    assert (days_of(care, "soap"), days_of(care, "oil")) == (june(10), june(11))


@pytest.mark.parametrize(
    ("overhead", "day"),
    [("yes", 13), ("no", 11)],  # 30 hours keep the leaves dry on the 11th and the 12th
)
def test_water_over_the_leaves_waits_till_they_may_be_wet(overhead: str, day: int) -> None:
    spray = "name: mildew, do: spray, on: fruit, from: 06-10, keep_dry: 30h"
    soak = f"name: soak, do: water, on: fruit, from: 06-11, amount: 25 mm, overhead: {overhead}"
    assert days_of(care_with(garden_with(spray, soak)), "soak") == june(day)


def test_no_more_than_the_label_allows() -> None:
    spray = "name: mildew, do: spray, on: fruit, from: 06-01, every: 7, label: {most: 3}"
    care = care_with(garden_with(spray))
    assert days_of(care, "mildew") == june(1, 8, 15)
    assert [gives.asked for gives in care.gives] == june(22)
    entries = [f"on: 2026-06-0{day}, wave: fruit-1, did: sprayed" for day in (1, 8)]
    noted = care_with(garden_with(spray), *entries, today=date(2026, 6, 9))
    assert days_of(noted, "mildew") == june(15)


@pytest.mark.parametrize(
    ("keys", "days"),
    [
        # in flower from day 41, picked until day 64
        ("do: spray", june(30, 40, 50, 60)),
        ("do: spray, time: morning", june(30, 40)),
        ("do: spray, label: {not_in_flower: yes}", june(30, 40)),
        ("do: dust", june(30, 40)),  # it needs bees, and dust is carried home
    ],
)
def test_open_flowers_are_left_alone_by_day(keys: str, days: list[date]) -> None:
    # Nebraska Extension: do not apply insecticides to blooming plants, or only in late evening
    care = care_with(garden_with(f"name: a, on: fruit, from: 06-30, every: 10, {keys}"))
    assert days_of(care, "a") == days
    assert all(gives.why.said == "flowers open: not now" for gives in care.gives)


@pytest.mark.parametrize(("on", "sprayed"), [("07-10", True), ("07-11", False), ("08-03", False)])
def test_flowers_are_open_from_their_first_day_to_the_last_pick(on: str, sprayed: bool) -> None:
    care = care_with(garden_with(f"name: a, on: fruit, from: {on}, do: dust"))
    assert days_of(care, "a") == ([date.fromisoformat(f"2026-{on}")] if sprayed else [])


@pytest.mark.parametrize(("high", "day"), [(30.0, 24), (30.1, 29)])
def test_a_day_as_hot_as_its_label_allows_is_not_too_hot(high: float, day: int) -> None:
    # A week expected to be so hot, from Monday 22 June on; else nobody knows how hot it gets.
    spray = "name: oil, do: spray, on: fruit, from: 06-24, label: {hottest: 30C}"
    season = with_high(season_with(garden_with(spray)), date(2026, 6, 22), high)
    assert season.care is not None
    assert days_of(season.care, "oil") == june(day)


def test_nothing_is_sprayed_above_its_hottest_day() -> None:
    # UC IPM: neither oil nor sulfur above 90 °F. July's mean maximum is 34 °C here, June's 26,
    # August's 30: from the middle of June to that of July the straight line passes 32.2 °C
    # 6.2/8 of the way, about 9 July, and falls below it 1.8/4 of the way to that of August, on the
    # 30th. The year that is laid through them keeps the months' means, so it lies higher about its
    # peak than lines that cut it off, and passes some days earlier and later.
    normals = "{max: [5, 6, 10, 15, 20, 26, 34, 30, 24, 18, 11, 6], min: [" + "1, " * 11 + "1]}"
    frost = f"{{last: 05-10, first: 10-01, normals: {normals}}}"
    spray = "name: oil, do: spray, on: fruit, from: 07-01, every: 10, label: {hottest: 90F}"
    days = days_of(care_with(garden_with(spray, frost=frost)), "oil")
    assert days[0] == date(2026, 7, 1)
    assert [day for day in days if date(2026, 7, 10) <= day < date(2026, 7, 30)] == []
    assert date(2026, 7, 30) < days[1] <= date(2026, 8, 8)


def test_a_record_tells_its_usual_hot_days() -> None:
    # At Clemson a day of high summer gets warmer than 86 °F in the mean, by its record.
    routine = "{name: oil, do: spray, on: everything, every: 3, label: {hottest: 86F}}"
    file = (
        "site: {name: P, latitude: 34.7, units: us, frost: {record: station.csv, years: all}}\n"
        "season: 2026\nbeds: [{bed: Long, size: 4 x 40}]\n"
        "waves:\n  - {crop: tomato, plants: 4, from: 04-25}\n"
        f"care:\n  - {routine}\n"
    )
    reading = read_garden(file.encode(), "garden.yaml")
    assert reading.garden is not None, reading.problems
    season = season_of(reading.garden, date(2026, 6, 1), replayed.years("clemson"))
    assert season.care is not None
    high = season.climate.weather.usual_high
    days = days_of(season.care, "oil")
    assert days
    assert all((high(day) or 0) <= celsius(86) for day in days)
    july = [date(2026, 7, 8) + timedelta(days=each) for each in range(25)]
    assert all((high(day) or 0) > celsius(86) for day in july)
    assert not set(july) & set(days)


def _gap(one: Dose, other: Dose) -> int:
    return abs((one.day - other.day).days)


def _broken(care: CarePlan) -> list[tuple[str, date, str, date]]:
    """Return the pairs of doses of one wave that lie closer than a label asks."""
    found = []
    put = [dose for dose in care.doses if dose.routine.work.on_leaves]
    for number, one in enumerate(put):
        for other in put[number + 1 :]:
            if one.plot.wave.id != other.plot.wave.id or one.plot.bed != other.plot.bed:
                continue
            days = days_between(one.routine, other.routine)
            if one.routine is other.routine:
                days = one.routine.label.days_apart or 1
            if _gap(one, other) < days:
                found.append((one.routine.name, one.day, other.routine.name, other.day))
    return found


@pytest.mark.parametrize("seed", range(30))
def test_nothing_is_closer_than_its_label_asks_and_nothing_is_picked_while_closed(
    seed: int,
) -> None:
    chance = Random(seed)
    for _ in range(10):  # thirty times ten drawn sets of routines
        names = ("oil", "sulfur", "soap", "clay")[: chance.randint(2, 4)]
        care = care_with(garden_with(*(_drawn(name, names, chance) for name in names)))
        assert _broken(care) == []
        for block in care.blocks:
            assert block.first == block.done + timedelta(days=1)
            assert (block.until - block.first).days == block.days


def _drawn(name: str, names: tuple[str, ...], chance: Random) -> str:
    keys = [f"name: {name}", "do: spray", "on: fruit"]
    keys.append(f"from: planting out + {chance.randint(0, 20)}")
    apart = chance.randint(0, 10)
    if chance.random() < 0.8:
        keys.append(f"every: {chance.randint(max(apart, 30), 60)}")
    label = [f"days_apart: {apart}", f"days_before_harvest: {chance.randint(1, 9)}"]
    others = [other for other in names if other != name and chance.random() < 0.5]
    if others:
        pairs = ", ".join(f"{other}: {chance.randint(1, 15)}" for other in others)
        label.append(f"not_within: {{{pairs}}}")
    if chance.random() < 0.5:
        keys.append(f"keep_dry: {chance.randint(1, 72)}h")
    return ", ".join([*keys, f"label: {{{', '.join(label)}}}"])


TWO = (wave(start="06-01"), wave(start="06-03", name="next"), wave(start="06-09", name="far"))


@pytest.mark.parametrize(
    ("every", "next_", "far"),
    [
        # The first wave on 11 June and every twelve days on: 23 June, 5 July, 17 July. The next
        # asks for 13 June, two days behind, and cannot come before: it waits for nothing. From 25
        # June on it is two days from the evening of the first, and joins it. The last asks for 19
        # June, four days from any.
        ("12", [(6, 13), (6, 23), (7, 5), (7, 17)], [(6, 19), (7, 1), (7, 13)]),
        # Every five days a third is a day: two days are too far, 11 and 13. The last asks for 19
        # June, as it begins then; the 24th joins the evening before.
        ("5", [(6, 13), (6, 18), (6, 23), (6, 28)], [(6, 19), (6, 23), (6, 28)]),
    ],
)
def test_a_spray_of_one_bed_is_mixed_once_where_its_days_are_near(
    every: str, next_: list[tuple[int, int]], far: list[tuple[int, int]]
) -> None:
    spray = f"name: oil, do: spray, on: fruit, from: planting out + 10, every: {every}"
    care = care_with(garden_with(spray, waves=TWO))

    def of(name: str, many: int) -> list[tuple[int, int]]:
        return [(day.month, day.day) for day in days_of(care, "oil", name)][:many]

    assert of("next-1", len(next_)) == next_
    assert of("far-1", len(far)) == far


@pytest.mark.parametrize("start", ["06-01", "06-05"])
def test_a_mix_of_a_neighbour_outside_its_own_days_is_not_joined(start: str) -> None:
    # The neighbour's is mixed on 13 June, two days off; its own days are 11 and 12, 15 and 16 June.
    spray = "name: oil, do: spray, on: fruit, from: planting out + 10, until: planting out + 11"
    both = (wave(start="06-03", name="first"), wave(start=start, name="next"))
    care = care_with(garden_with(spray, waves=both))
    planted = date.fromisoformat(f"2026-{start}")
    assert days_of(care, "oil", "first-1") == june(13)
    assert days_of(care, "oil", "next-1") == [planted + timedelta(days=10)]


@pytest.mark.parametrize(
    ("every", "joins"),
    [("12", True), ("6", True), ("5", False), ("'FREQ=DAILY;INTERVAL=12'", False)],
)
def test_a_spray_whose_rule_names_its_days_or_that_comes_often_waits_for_no_mix(
    every: str, joins: bool
) -> None:
    # The first on 11 June and so on, the next two days after it: only what is two days from a mix
    # and has six days and more between joins it, and never what is asked for on days of a rule.
    spray = f"name: oil, do: spray, on: fruit, from: planting out + 10, every: {every}"
    care = care_with(garden_with(spray, waves=TWO[:2]))
    one, next_ = (days_of(care, "oil", name) for name in ("fruit-1", "next-1"))
    assert (next_[0], next_[1] in one) == (*june(13), joins)


def test_a_label_keeps_a_spray_from_an_earlier_evening() -> None:
    # As before, but with the label's twelve days between: the next cannot come sooner.
    spray = "name: oil, do: spray, on: fruit, from: planting out + 10, every: 12"
    care = care_with(garden_with(f"{spray}, label: {{days_apart: 12}}", waves=TWO[:2]))
    assert [(day.month, day.day) for day in days_of(care, "oil", "next-1")][:3] == [
        (6, 13),
        (6, 25),
        (7, 7),
    ]


def test_of_several_waves_in_a_bed_nothing_is_closer_than_its_label_asks() -> None:
    chance, joined = Random(7), 0
    for _ in range(30):
        names = ("oil", "sulfur", "soap")
        drawn = [_drawn(name, names, chance) for name in names]
        starts = [f"06-{chance.randint(1, 20):02}" for _ in range(3)]
        waves = tuple(wave(start=start, name=f"w{n}") for n, start in enumerate(starts))
        care = care_with(garden_with(*drawn, waves=waves))
        assert _broken(care) == []
        for dose in care.doses:
            assert dose.asked - dose.day <= timedelta(days=2)
            joined += dose.day != dose.asked and dose.why is None
    assert joined > 10
