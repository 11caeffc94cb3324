"""A wave set between the last plants of another: where, when, how much room, and never too much."""

from __future__ import annotations

import json
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import gardens
from gardens import text, wave
from printed import why_text
from sowtide.report.blocks import plain
from sowtide.report.kit.machine import plan_json
from sowtide.report.plan.page import plan_text
from sowtide.schedule.season import Season
from sowtide.schedule.waves.wave import Overlap

LONG = "{bed: Long, size: 1 x 10}"
OTHER = "{bed: Other, size: 1 x 10}"
# Planted on 1 June, the fruit is gone on 4 August: 50 days and 14 of picking.
GONE = date(2026, 8, 4)


def season(*waves: str, **keys: object) -> Season:
    keys = {"fall_allowance": "0", "beds": [LONG]} | keys
    return gardens.season(text(*waves, **keys))  # type: ignore[arg-type]


def two(
    planted: str, *, first: int = 8, second: int = 8, overlap: int = 7, **keys: object
) -> Season:
    return season(
        wave(start="06-01", plants=str(first), name="one"),
        wave(start=planted, plants=str(second), name="two", overlap=str(overlap)),
        **keys,
    )


@pytest.mark.parametrize(
    ("planted", "overlap", "stands"),
    [
        ("07-27", 7, False),  # eight days before
        ("07-28", 7, True),  # seven
        ("08-03", 7, True),
        ("08-03", 0, False),  # only where the grower allows it
        ("08-04", 0, True),
    ],
)
def test_so_many_days_before_the_other_is_pulled_out(
    planted: str, overlap: int, stands: bool
) -> None:
    found = two(planted, overlap=overlap).waves[1]
    assert bool(found.places) is stands
    if stands and planted < "08-04":
        assert found.overlap == Overlap("one-1", GONE)
    else:
        assert found.overlap is None


@pytest.mark.parametrize(
    ("first", "second", "stands"),
    [
        (8, 8, True),  # a quarter of eight is two, and two are free
        (8, 9, False),  # a quarter of nine is more
        (6, 10, True),
        (10, 4, False),  # nothing is free
        (7, 10, True),
    ],
)
def test_it_takes_a_quarter_of_its_area_until_then(first: int, second: int, stands: bool) -> None:
    assert bool(two("08-01", first=first, second=second).waves[1].places) is stands


def test_what_is_missing_afterwards_is_kept_free() -> None:
    """Four leave on 4 August and seven come: three of the six that are free are kept for them."""
    entries = (
        wave(start="06-01", plants="4", name="one"),
        wave(start="06-15", plants="3", name="stays"),  # to 18 August
        wave(start="08-01", plants="7", name="two", overlap="7"),
    )
    found = season(*entries)
    assert found.waves[2].overlap is not None
    # Three are free; all but two and a quarter of them, three less, are kept: none is left.
    late = season(*entries, wave(start="08-02", plants="1", name="three"))
    assert late.waves[2].places
    assert not late.waves[3].places


def test_a_bed_that_rests_takes_nobody_in() -> None:
    assert not two("08-01", beds=["{bed: Long, size: 1 x 10, rest: 3}"]).waves[1].places


def test_an_empty_bed_goes_first() -> None:
    found = two("08-01", beds=[LONG, OTHER]).waves[1]
    assert found.overlap is None
    assert [place.bed.name for place in found.places] == ["Other"]


def test_rotation_counts_the_wave_that_leaves() -> None:
    crops = [gardens.crop(rotation="3"), gardens.crop("kin", rotation="3")]
    entries = (
        wave(start="06-01", plants="8", name="one"),
        wave("kin", start="08-01", plants="8", name="two", overlap="7"),
    )
    assert not season(*entries, crops=crops).waves[1].places
    other = [gardens.crop(rotation="3"), gardens.crop("leaf", rotation="3", family="leaf family")]
    free = season(entries[0], entries[1].replace("kin", "leaf"), crops=other)
    assert free.waves[1].overlap is not None


def test_a_breathing_series_is_set_between_before_it_waits() -> None:
    of = season(
        wave(start="06-01", plants="8", name="one"),
        wave(start="07-29", plants="8", name="two", every="7-14", count="1", overlap="7"),
    )
    assert of.waves[1].stages.plant.day == date(2026, 7, 29)
    assert of.waves[1].overlap is not None


def test_the_plan_and_why_say_it() -> None:
    of = two("08-01")
    text_of_plan = " ".join(" ".join(plain(plan_text(of, width=80))).split())
    assert "8 in Long; between one-1 to 4 Aug" in text_of_plan
    why = " ".join(" ".join(why_text(of.waves[1], of, width=80)).split())
    assert "set between the plants of one-1, which is pulled out on 4 Aug" in why
    waves = json.loads(plan_json(of))["waves"]
    assert [each["overlap"] for each in waves] == [None, {"wave": "one-1", "until": "2026-08-04"}]


WAVES = st.lists(
    st.tuples(st.integers(0, 60), st.integers(1, 10), st.sampled_from([0, 5, 12, 40])),
    min_size=2,
    max_size=9,
)


@settings(max_examples=60, deadline=None)
@given(asked=WAVES)
def test_no_bed_is_ever_over_full(asked: list[tuple[int, int, int]]) -> None:
    start = date(2026, 5, 25)
    entries = [
        wave(
            start=f"{start + timedelta(days=day):%m-%d}",
            plants=str(plants),
            overlap=str(overlap),
            name=f"w{number}",
        )
        for number, (day, plants, overlap) in enumerate(asked)
    ]
    of = season(*entries, beds=[LONG, OTHER])
    for bed, stays in zip(of.room.beds, of.room.stays, strict=True):
        for day in range(start.toordinal(), start.toordinal() + 200):
            taken = sum(stay.area for stay in stays if stay.first <= day < stay.until)
            assert taken <= bed.area, (bed.name, date.fromordinal(day))
    for each in of.waves:
        if each.overlap is not None:
            (other,) = [one for one in of.waves if one.id == each.overlap.wave]
            assert other.stages.pull_out.day == each.overlap.until
            days = (each.overlap.until - each.stages.plant.day).days
            assert 0 < days <= each.entry.overlap
