"""Room against what is known of intervals, published rotations, and properties of any plan."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import gardens
from gardens import text, wave
from sowtide.schedule.room import Room, Stay
from sowtide.season import Season

FULL = "10"  # plants in a bed of 1 x 10
START = date(2026, 5, 15)


def beds(count: int) -> list[str]:
    return [f"{{bed: B{number}, size: 1 x 10}}" for number in range(count)]


def season(entries: list[str], count: int, **more: object) -> Season:
    keys = {"fall_allowance": "0", "beds": beds(count)} | more
    return gardens.season(text(*entries, **keys))  # type: ignore[arg-type]


def entry(number: int, day: int, plants: str = FULL, **more: str) -> str:
    planted = START + timedelta(days=day)
    return wave(start=f"{planted:%m-%d}", plants=plants, name=f"w{number}", split="no", **more)


def placed(of: Season) -> int:
    return sum(bool(each.places) for each in of.waves)


@settings(max_examples=40, deadline=None)
@given(days=st.lists(st.integers(0, 100), min_size=1, max_size=14))
def test_as_many_beds_are_needed_as_waves_stand_at_once(days: list[int]) -> None:
    """A theorem on interval graphs: their chromatic number is their greatest clique.

    So taking the first free bed in order of planting days is exact where a wave fills a bed.
    """
    entries = [entry(number, day) for number, day in enumerate(days)]
    alone = season(entries, len(days))
    stays = [(w.stages.plant.day, w.stages.pull_out.day) for w in alone.waves]
    most = max(sum(first <= day < until for first, until in stays) for day, _ in stays)
    assert placed(season(entries, most)) == len(days)
    if most > 1:
        assert placed(season(entries, most - 1)) < len(days)


# Plantings of a bed of 40 feet: first day, day it is gone, feet.
NINE = (
    *((6, 11, 20), (0, 2, 10), (10, 14, 20), (2, 5, 20), (1, 3, 20)),
    *((4, 8, 10), (5, 10, 10), (4, 6, 10), (11, 14, 20)),
)


def test_area_is_not_a_strip() -> None:
    """Nine plantings that never need more than 40 feet have room, though not as unbroken strips."""
    (bed,) = gardens.read(text(beds=["{bed: Forty, size: 1 x 40}"])).beds
    room = Room((bed,))
    foot = bed.area // 40
    for number, (first, until, feet) in sorted(enumerate(NINE), key=lambda each: each[1][0]):
        room.advance(first)
        assert room.free(0) >= feet * foot
        room.take(0, Stay(str(number), "s", "f", first, until, until, feet * foot))
    assert len(room.stays[0]) == 9
    # All lengths are tens of feet, so that strips, pushed to one end, would begin at tens of feet:
    # every way of laying them out has two in one place at one time.
    assert not any(map(_apart, product(*(range(0, 41 - feet, 10) for _, _, feet in NINE))))


def _apart(places: tuple[int, ...]) -> bool:
    """Whether no two of the nine, each beginning at such a foot, lie upon each other."""
    laid = [(*one, at) for one, at in zip(NINE, places, strict=True)]
    return all(
        until <= other_first
        or other_until <= first
        or at + feet <= other
        or other + other_feet <= at
        for number, (first, until, feet, at) in enumerate(laid)
        for other_first, other_until, other_feet, other in laid[:number]
    )


# Rotation: two or three years between crops of one family (Iowa State University; West Virginia
# University), the longer kept.


@pytest.mark.parametrize(("season_", "stands"), [(2026, False), (2027, False), (2028, True)])
def test_nightshades_one_year_keep_nightshades_out_the_next(season_: int, stands: bool) -> None:
    bed = "{bed: Long, size: 2 x 10, grew: {2025: nightshade family}}"
    file = text(
        "{crop: tomato, plants: 4, from: earliest}",
        crops=["tomato: {}"],
        beds=[bed],
        season=season_,
    ).replace("tomato: {}", "tomato: {picking_days: 60}")
    assert bool(gardens.season(file).waves[0].places) is stands


def test_a_bed_that_the_grower_named_is_used_and_warned_of_at_its_line() -> None:
    bed = "{bed: Long, size: 2 x 10, grew: {2025: nightshade family}}"
    file = text(
        "{crop: pepper, plants: 4, from: earliest, beds: Long}",
        crops=["pepper: {picking_days: 60}"],
        beds=[bed],
    )
    of = gardens.season(file)
    assert [place.bed.name for place in of.waves[0].places] == ["Long"]
    (problem,) = [each for each in of.problems if each.code == "rotation"]
    assert problem.span is not None
    assert "crop: pepper" in file.splitlines()[problem.span.line - 1]
    assert "nightshade family in 2025, again from 2028" in problem.message


def test_this_years_nightshades_are_followed_by_none_in_their_bed() -> None:
    crops = [
        gardens.crop("one", family="nightshade family", rotation="3"),
        gardens.crop("two", family="nightshade family", rotation="3"),
        gardens.crop("leaf", family="leaf family", rotation="3"),
    ]
    of = season([wave("one", start="05-15"), wave("two", start="07-25")], 1, crops=crops)
    assert [bool(each.places) for each in of.waves] == [True, False]
    other = season([wave("one", start="05-15"), wave("leaf", start="07-25")], 1, crops=crops)
    assert placed(other) == 2


# Properties of any plan

ASKED = st.lists(st.tuples(st.integers(0, 90), st.integers(1, 10)), min_size=1, max_size=12)


@settings(max_examples=60, deadline=None)
@given(asked=ASKED, count=st.integers(1, 3))
def test_a_bed_more_never_places_fewer_waves(asked: list[tuple[int, int]], count: int) -> None:
    entries = [entry(number, day, str(plants)) for number, (day, plants) in enumerate(asked)]
    assert placed(season(entries, count)) <= placed(season(entries, count + 1))


@settings(max_examples=40, deadline=None)
@given(asked=ASKED, order=st.randoms(use_true_random=False))
def test_the_order_of_entries_that_do_not_compete_does_not_matter(
    asked: list[tuple[int, int]], order: object
) -> None:
    """Entries with beds of their own and days of their own."""
    entries = [
        entry(number, day, str(plants), beds=f"B{number}")
        for number, (day, plants) in enumerate(asked)
    ]
    shuffled = list(entries)
    order.shuffle(shuffled)  # type: ignore[attr-defined]
    one, other = season(entries, len(asked)), season(shuffled, len(asked))
    assert _where(one) == _where(other)


@settings(max_examples=40, deadline=None)
@given(asked=ASKED, plants=st.integers(1, 10), day=st.integers(0, 20))
def test_a_wave_of_august_moves_none_of_may(
    asked: list[tuple[int, int]], plants: int, day: int
) -> None:
    entries = [entry(number, of_day, str(n)) for number, (of_day, n) in enumerate(asked)]
    august = wave(start=f"08-{day + 1:02}", plants=str(plants), name="august", split="no")
    before = _where(season(entries, 2))
    after = _where(season([august, *entries], 2))
    days = {
        f"w{number}-1": START + timedelta(days=of_day) for number, (of_day, _) in enumerate(asked)
    }
    for name, planted in days.items():
        if planted < date(2026, 8, 1):
            assert after[name] == before[name]


def _where(of: Season) -> dict[str, tuple[tuple[str, int], ...]]:
    return {
        each.id: tuple((place.bed.name, place.plants) for place in each.places) for each in of.waves
    }


def test_a_plan_is_the_same_every_time() -> None:
    entries = [entry(number, 7 * number, str(3 + number % 5)) for number in range(12)]
    found = [_where(season(entries, 3)) for _ in range(3)]
    assert all(one == other for one, other in pairwise(found))
