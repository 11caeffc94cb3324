"""What a grower sees in a plan that is filled: sowings of a size, on few days, in whole beds."""

from __future__ import annotations

from collections import Counter
from functools import cache

import pytest

import gardens
from households import household
from sowtide.schedule.filling import Filled, choose, filled, growing, rounds_for
from sowtide.schedule.filling.chosen import Chosen
from sowtide.schedule.filling.free_beds import FreeBeds
from sowtide.schedule.filling.in_one_bed import gathered
from sowtide.schedule.filling.plantings import SATURDAY, options_for, to_fill
from sowtide.schedule.season import Season
from sowtide.schedule.supply import gluts_of, supply_of

FILE = """site:
  name: A
  latitude: 52.2
  units: metric
  frost: {last: 05-05, first: 10-20}
  warmest_month: 17.5
  coldest_month: 3.5
season: 2026
beds:
  - {bed: Long, size: 1.2 x 6}
  - {bed: Wide, size: 1.2 x 6}
crops:
  lettuce: {yield_per_plant: 1 head}
  radish: {yield_per_plant: 1}
want:
  - {crop: lettuce, amount: 4 heads, from: 05-18, until: 10-11}
  - {crop: radish, amount: 20, from: 05-04, until: 10-11}
  - {crop: beet, amount: 800 g, from: 07-06, until: 10-25}
"""


@cache
def before() -> Season:
    return gardens.season(FILE)


@cache
def found() -> Filled:
    return filled(before(), supply_of(before()))


def sown(crop: str) -> list[int]:
    """Return the sizes of the sowings of a crop, in order."""
    plants: Counter[object] = Counter()
    for entry in found().entries:
        if entry.crop.name == crop:
            plants[entry.start] += entry.plants or 0
    return list(plants.values())


def test_what_does_not_hold_is_sown_for_a_week_or_a_fortnight() -> None:
    # Lettuce holds four days in the heat and fourteen in the cool: at most 1.25 x 2 weeks x 4 heads
    # = 10, twice as many where half the years bring it too early or too late for any want; a row
    # across 1.2 m has seven. Radishes: 1.25 x 2 weeks x 20 = 50, and a row has fifteen.
    heads, radishes = sown("lettuce"), sown("radish")
    assert max(heads) <= 21
    assert max(radishes) <= 75
    assert len(heads) >= 7  # for twenty-one weeks: in any one year some come early, some late
    assert len(radishes) >= 12  # for twenty-three weeks
    assert min(heads) >= 7
    assert min(radishes) >= 15


def test_what_is_sown_brings_few_gluts() -> None:
    weeks = [
        (each.crop.name, glut.days.first)
        for each in supply_of(found().after)
        for glut in gluts_of(each)
    ]
    assert len(weeks) <= 3
    assert sum(each.unmet for each in supply_of(found().after)) < 5


def test_a_crop_is_sown_in_one_bed_a_day_where_one_has_room() -> None:
    days = Counter((entry.crop.name, entry.start) for entry in found().entries)
    assert set(days.values()) == {1}


def test_most_is_sown_on_saturdays() -> None:
    starts = {entry.start for entry in found().entries if entry.start is not None}
    others = [day for day in starts if day.weekday() != SATURDAY]
    # Only the first safe day of a crop and the last one are other days.
    assert len(others) <= 2 * 3
    assert len(starts) <= 22


def test_working_days_without_saturday_are_kept_to() -> None:
    file = FILE.replace("season: 2026\n", "season: 2026\nworking_days: [wed, thu]\n")
    of = gardens.season(file)
    fill_of = to_fill(of, supply_of(of)[1])
    days = [option.first for option in options_for(of, 0, fill_of)]
    # An ordinal of 1 is a Monday: one of 3 a Wednesday.
    assert {day % 7 for day in days[1:-1]} == {3}


def test_what_stands_in_the_way_moves_for_a_sowing_to_stand_in_one_bed() -> None:
    # Six square metres of one and four of the other, a square metre a plant: in beds of five and
    # six the six stand together only if the other leaves the bed of six.
    leaf = gardens.crop("leaf", yield_per_plant="0.5", family="leaf family")
    bean = gardens.crop("bean", yield_per_plant="1", family="bean family")
    wants = "want:\n" + "".join(
        f"  - {{crop: {crop}, amount: 2 kg, from: 07-13, until: 09-13}}\n"
        for crop in ("bean", "leaf")
    )
    beds = ("{bed: Long, size: 1 x 6}", "{bed: Wide, size: 1 x 5}")
    of = gardens.season(gardens.text(crops=(bean, leaf), beds=beds) + wants)
    fills = [to_fill(of, each) for each in supply_of(of)]
    options = [each for n, fill in enumerate(fills) for each in options_for(of, n, fill)]
    plan = Chosen(options, FreeBeds(of), [fill.lacking for fill in fills])
    one, other = 2, 2 + plan.numbers[1][0]
    assert options[one].first == options[other].first
    plan.add(one, 0, 2)
    plan.add(one, 1, 4)
    plan.add(other, 0, 4)
    made = gathered(plan)
    assert made.plants == {(one, 0): 6, (other, 1): 4}
    assert made.unmet == pytest.approx(plan.unmet)


@pytest.mark.parametrize("seed", [0, 24])
def test_a_round_weighs_few_plantings_anew(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    # What a search costs is how often it weighs a planting: were all of them weighed after each
    # that is taken, or nothing kept of a state that comes back, it would be 1.5 times their number
    # and more for a round and a bed.
    of = gardens.season(household(seed))
    fills = [to_fill(of, each) for each in supply_of(of)]
    options = [each for n, fill in enumerate(fills) for each in options_for(of, n, fill)]
    weighed, useful, rounds = [0], growing.useful, 40

    def counting(*args: object, **named: object) -> object:
        weighed[0] += 1
        return useful(*args, **named)  # type: ignore[arg-type]

    monkeypatch.setattr(growing, "useful", counting)
    beds = FreeBeds(of)
    choose(options, beds, [fill.lacking for fill in fills], rounds=lambda _: rounds)
    assert weighed[0] < 1.3 * len(options) * rounds * len(beds.beds)


def test_large_gardens_are_chosen_again_less_often() -> None:
    of = gardens.season(household(0))
    fill_of = to_fill(of, supply_of(of)[0])
    options = list(options_for(of, 0, fill_of)) * 20
    few, many = rounds_for(options, wants=8), rounds_for(options, wants=25)
    # A round's work grows with the wants and, once they come in all at once, with the beds.
    assert many(8) * 25 <= (few(8) + 1) * 8
    assert many(120) * 120 * 25 <= 480_000
    # It is hardest to choose where little room is shared by many.
    assert few(1) < few(2) < few(3) > few(5) > few(8)


@pytest.mark.parametrize(
    ("wants", "beds", "rounds"),
    [
        # 80,000 over eight wants are 10,000; of so many beds the share is beds / (3 or more)².
        (8, 1, 1_111),
        (8, 2, 2_222),
        (8, 3, 3_333),
        (8, 5, 2_000),
        (8, 8, 1_250),
        (1, 5, 2_000),  # of fewer wants no more often
        (25, 5, 640),
        # Where they come in all at once 20,000 over the wants, or 480,000 over the beds and those.
        (8, 9, 2_500),
        (8, 24, 2_500),
        (8, 25, 2_400),
        (8, 120, 500),
        (2_000, 120, 4),  # never fewer
    ],
)
def test_how_often_a_plan_is_chosen_again(wants: int, beds: int, rounds: int) -> None:
    of = gardens.season(household(0))
    options = list(options_for(of, 0, to_fill(of, supply_of(of)[0])))
    assert rounds_for(options[:1] * 1_000, wants=wants)(beds) == rounds
    assert rounds_for(options[:1] * 2, wants=8)(3) == 320  # 160 for each that is possible
