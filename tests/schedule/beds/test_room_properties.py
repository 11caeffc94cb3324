"""What must hold of room, whatever the garden."""

from __future__ import annotations

import re
from collections import Counter
from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

import gardens
from drawn import MIXED, beds, entries
from gardens import crop, text, wave
from sowtide.garden.read import read_garden
from sowtide.schedule.season import Season

NAMES = ("small", "middle", "large")


def _where(found: Season) -> dict[str, tuple[date, list[tuple[str, int]]]]:
    return {
        each.id: (each.stages.plant.day, [(p.bed.name, p.plants) for p in each.stands])
        for each in found.waves
    }


def _reads(file: str) -> bool:
    return read_garden(file.encode(), gardens.LABEL).garden is not None


def _whole(asked: list[str]) -> list[str]:
    return [each.replace(", split: no", "").replace("}", ", split: no}") for each in asked]


# One bed more


@given(
    st.lists(st.tuples(st.integers(1, 12), st.integers(0, 5)), min_size=1, max_size=4),
    st.integers(1, 12),
    entries(NAMES),
    entries(NAMES),
)
def test_a_bed_added_at_the_end_costs_no_wave_its_place(
    sizes: list[tuple[int, int]], more: int, asked: list[str], again: list[str]
) -> None:
    """Where beds are named, no wave is split and all ground is alike, every wave keeps its bed."""
    again = [each.replace("name: s", "name: t").replace("}", ", beds: [B0]}") for each in again]
    made = [
        f"{{bed: B{n}, size: 1 x {size}, rest: {rest}}}" for n, (size, rest) in enumerate(sizes)
    ]
    names = [f"B{n}" for n in range(len(sizes))]
    files = []
    for listed in (names, [*names, "More"]):
        named = [each.replace("}", f", beds: [{', '.join(listed)}]}}") for each in asked]
        added = [f"{{bed: More, size: 1 x {more}}}"] if "More" in listed else []
        files.append(text(*_whole([*named, *again]), crops=MIXED, beds=[*made, *added]))
    assume(all(_reads(file) for file in files))
    before, after = (_where(gardens.season(file)) for file in files)
    for name, (day, places) in before.items():
        if places:
            assert after[name] == (day, places)


def test_the_tightest_bed_would_cost_a_wave_its_room() -> None:
    # Beds of 6 and 10. In the tightest bed: 2 go into 6, 5 into 10, 6 into 6 when the 2 are gone,
    # 5 into 10. With a third bed of 3 in which the 2 are tightest, the 5 go into 6, the 6 into 10,
    # and the last 5 find 1, 4 and 3 places. The first bed in order has room for all, both times.
    stays = ((0, 40, 2), (20, 80, 5), (40, 30, 6), (60, 80, 5))
    lines = [
        crop(f"c{days}", days_to_harvest=str(days - 1), picking_days="1") for _, days, _ in stays
    ]
    made = ["{bed: A, size: 1 x 6}", "{bed: B, size: 1 x 10}", "{bed: C, size: 1 x 3}"]

    def placed(beds_: list[str], tightest: tuple[str, ...] = ()) -> int:
        asked = []
        for number, (first, days, plants) in enumerate(stays):
            start = date(2026, 5, 1) + timedelta(days=first)
            keys = {"name": f"w{number}", "plants": str(plants), "split": "no"}
            if number < len(tightest):
                keys["beds"] = f"[{tightest[number]}]"
            asked.append(wave(f"c{days}", start=str(start), **keys))
        found = gardens.season(text(*asked, crops=sorted(set(lines)), beds=beds_, frost="none"))
        return sum(bool(each.stands) for each in found.waves)

    assert placed(made[:2], ("A", "B", "A", "B")) == 4
    assert placed(made, ("C", "A", "B")) == 3
    assert placed(made[:2]) == placed(made) == 4


# Order of the file


@given(entries(NAMES), entries(NAMES), st.randoms(use_true_random=False))
def test_the_order_of_entries_that_do_not_compete_does_not_matter(
    one: list[str], two: list[str], chance: object
) -> None:
    made = ["{bed: B0, size: 1 x 9}", "{bed: B1, size: 1 x 9}"]
    left = [each.replace("}", ", beds: [B0]}") for each in one]
    right = [each.replace("name: s", "name: t").replace("}", ", beds: [B1]}") for each in two]
    mixed = list(left)
    places = sorted(chance.randint(0, len(left)) for _ in right)  # type: ignore[attr-defined]
    for number, (place, each) in enumerate(zip(places, right, strict=True)):
        mixed.insert(place + number, each)
    files = [text(*each, crops=MIXED, beds=made) for each in ([*left, *right], mixed)]
    assume(_reads(files[0]))
    assert _where(gardens.season(files[0])) == _where(gardens.season(files[1]))


# A series that breathes


def _breathing(asked: list[str], high: int) -> list[str]:
    return [re.sub(r"every: (\d+)", rf"every: \1-{high}", each) for each in asked]


@given(beds(), entries(NAMES), entries(NAMES), st.integers(40, 60))
def test_a_series_breathes_inside_its_range_and_only_to_safe_beds(
    made: list[str], asked: list[str], more: list[str], high: int
) -> None:
    again = [each.replace("name: s", "name: t") for each in more]
    file = text(*asked, *_breathing(again, high), crops=MIXED, beds=made)
    assume(_reads(file))
    found = gardens.season(file)
    for one, two in pairwise(found.waves):
        if one.entry is not two.entry:
            continue
        assert two.entry.every is not None
        days = (two.stages.plant.day - one.stages.plant.day).days
        assert two.entry.every.low <= days <= two.entry.every.high
        moved = two.stages.plant.steps[-1]
        if days > two.entry.every.low:
            assert moved.rule == "room"
            assert moved.days == days - two.entry.every.low
            assert two.stands
            assert two.judged.verdict is not None
            assert two.judged.verdict.value == "safe from frost"


@given(beds(), entries(NAMES), st.integers(40, 60))
def test_a_wave_of_august_moves_no_series_that_breathes_before_it(
    made: list[str], asked: list[str], high: int
) -> None:
    breathing = _breathing(asked, high)
    last = wave("middle", start="2026-08-16", name="last", plants="3")
    files = [text(*each, crops=MIXED, beds=made) for each in (breathing, [*breathing, last])]
    assume(all(_reads(file) for file in files))
    before, after = (
        {name: there for name, there in _where(gardens.season(file)).items() if there[0] < AUGUST}
        for file in files
    )
    assert after == before


AUGUST = date(2026, 8, 16)


# Waves that fill a bed


@given(
    st.lists(
        st.tuples(st.integers(0, 60), st.sampled_from((20, 35, 50, 80))), min_size=1, max_size=14
    )
)
def test_the_beds_needed_are_the_greatest_overlap(stays: list[tuple[int, int]]) -> None:
    """Each wave fills a bed: an interval graph, whose colours are its greatest clique."""
    lines = [
        crop(f"c{days}", days_to_harvest=str(days - 1), picking_days="1")
        for days in (20, 35, 50, 80)
    ]
    asked = [
        wave(
            f"c{days}",
            start=str(date(2026, 5, 1) + timedelta(days=first)),
            plants="10",
            name=f"w{n}",
        )
        for n, (first, days) in enumerate(stays)
    ]
    standing = Counter(day for first, days in stays for day in range(first, first + days))
    needed = max(standing.values())

    def without_room(count: int) -> int:
        made = [f"{{bed: B{number}, size: 1 x 10}}" for number in range(count)]
        found = gardens.season(text(*asked, crops=lines, beds=made, frost="none"))
        return sum(not each.stands for each in found.waves)

    assert without_room(needed) == 0
    if needed > 1:
        assert without_room(needed - 1) > 0


# Area is not a strip

NINE = (
    (6, 11, 20), (0, 2, 10), (10, 14, 20), (2, 5, 20), (1, 3, 20),
    (4, 8, 10), (5, 10, 10), (4, 6, 10), (11, 14, 20),
)  # fmt: skip
"""First week, week after the last, and length of nine plantings in a bed of 40."""


def test_nine_plantings_that_have_no_layout_in_strips_have_their_area() -> None:
    lines = {
        crop(f"c{until - first}", days_to_harvest=str(7 * (until - first) - 1), picking_days="1")
        for first, until, _ in NINE
    }
    asked = [
        wave(
            f"c{until - first}",
            start=str(date(2026, 5, 4) + timedelta(weeks=first)),
            plants=str(length),
            name=f"n{number}",
            split="no",
        )
        for number, (first, until, length) in enumerate(NINE)
    ]
    made = ["{bed: Long, size: 1 x 40}"]
    found = gardens.season(text(*asked, crops=sorted(lines), beds=made, frost="none"))
    assert all(each.stands for each in found.waves)
    assert not _in_strips([])


def _in_strips(places: list[int]) -> bool:
    """Whether the plantings can be laid out unbroken: all lengths are tens, so tens will do."""
    if len(places) == len(NINE):
        return True
    first, until, length = NINE[len(places)]
    for place in range(0, 40 - length + 1, 10):
        free = all(
            until <= begin or end <= first or place + length <= there or there + long <= place
            for there, (begin, end, long) in zip(places, NINE, strict=False)
        )
        if free and _in_strips([*places, place]):
            return True
    return False


# Rotation


@pytest.mark.parametrize("name", ["tomato", "potato", "sweet pepper", "eggplant"])
def test_nightshades_do_not_follow_nightshades(name: str) -> None:
    """By families, not crops: Iowa State and West Virginia University Extension."""

    def asked(keys: str) -> Season:
        return gardens.season(
            "site: {name: Plot, latitude: 42, units: us, frost: {last: 05-01, first: 10-05}}\n"
            "season: 2026\n"
            "beds:\n"
            "  - {bed: North, size: 4 x 20, grew: {2025: nightshade family}}\n"
            "  - {bed: South, size: 4 x 20, grew: {2025: bean family}}\n"
            "waves:\n"
            f"  - {{crop: {name}, plants: 4, from: 05-25{keys}}}\n"
        )

    passed_over = asked("")
    assert [stand.bed.name for stand in passed_over.waves[0].stands] == ["South"]
    named = asked(", beds: North")
    assert [stand.bed.name for stand in named.waves[0].stands] == ["North"]
    (problem,) = [each for each in named.problems if each.code == "rotation"]
    assert problem.severity.value == "warning"
    assert problem.span is not None
    assert problem.span.line == 7
    assert "nightshade family in 2025" in problem.message
