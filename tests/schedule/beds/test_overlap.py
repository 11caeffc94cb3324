"""A wave set between the last plants of another: where, when, how much room, and never too much."""

from __future__ import annotations

import json
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import gardens
from gardens import text, wave
from printed import plan_form, plan_text, why_text
from sowtide.schedule.season import Season
from sowtide.schedule.waves.wave import Overlap, Verdict

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
    assert bool(found.stands) is stands
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
    assert bool(two("08-01", first=first, second=second).waves[1].stands) is stands


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
    assert late.waves[2].stands
    assert not late.waves[3].stands


def test_a_bed_that_rests_takes_nobody_in() -> None:
    assert not two("08-01", beds=["{bed: Long, size: 1 x 10, rest: 3}"]).waves[1].stands


def test_an_empty_bed_goes_first() -> None:
    found = two("08-01", beds=[LONG, OTHER]).waves[1]
    assert found.overlap is None
    assert [stand.bed.name for stand in found.stands] == ["Other"]


def test_it_is_set_between_where_no_bed_is_safe_too() -> None:
    # Planted on 20 June the first is gone on 23 August; the second is too late in either bed.
    found = season(
        wave(start="06-20", plants="8", name="one", beds="Long"),
        wave(start="06-20", plants="10", name="full", beds="Cold"),
        wave(start="08-17", plants="8", name="two", overlap="7"),
        beds=[LONG, "{bed: Cold, size: 1 x 10, colder_by: 2}"],
    ).waves[2]
    assert found.judged.verdict is Verdict.TOO_LATE
    assert found.overlap == Overlap("one-1", date(2026, 8, 23))
    assert [(stand.bed.name, stand.plants) for stand in found.stands] == [("Long", 8)]


def test_rotation_counts_the_wave_that_leaves() -> None:
    crops = [gardens.crop(rotation="3"), gardens.crop("kin", rotation="3")]
    entries = (
        wave(start="06-01", plants="8", name="one"),
        wave("kin", start="08-01", plants="8", name="two", overlap="7"),
    )
    refused = season(*entries, crops=crops)
    assert not refused.waves[1].stands
    (said,) = (each.message for each in refused.problems if each.code == "no-room")
    # Ten places, eight of them taken until the fruit is gone on 4 August.
    assert said == (
        "no room for two-1 (8 plants) on 1 Aug: only 2 would fit; one-1 holds Long until 4 Aug; "
        "rotation closes Long: one-1 of the same family stood there this season"
    )
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
    text_of_plan = " ".join(" ".join(plan_text(of, width=80)).split())
    assert "8 in Long; between one-1 to 4 Aug" in text_of_plan
    why = " ".join(" ".join(why_text(of.waves[1], of, width=80)).split())
    assert "set between the plants of one-1, which is pulled out on 4 Aug" in why
    waves = json.loads(plan_form(of, "json"))["waves"]
    assert [each["overlap"] for each in waves] == [None, {"wave": "one-1", "until": "2026-08-04"}]


def test_what_leaves_before_is_kept_too() -> None:
    # Five places. A holds 2 until 21 June, B holds 2 until 11 July. C wants 4, and is set between
    # on 15 June: one is free, its quarter; 4 of the 5 are to be there on 11 July, 2 of them those
    # of B. So of the 2 that A leaves on 21 June one is kept beside the quarter, and D, which wants
    # 2 from 25 June on, finds 1: with 2 it would be 6 in 5 from 11 July on.
    crops = [
        gardens.crop("a", days_to_harvest="19", picking_days="1"),
        gardens.crop("b", days_to_harvest="39", picking_days="1"),
        gardens.crop("c", days_to_harvest="40", picking_days="1"),
    ]
    keys = {"crops": crops, "beds": ["{bed: Long, size: 1 x 5}"]}
    entries = (
        wave("a", start="06-01", plants="2", name="A"),
        wave("b", start="06-01", plants="2", name="B"),
        wave("c", start="06-15", plants="4", name="C", overlap="26"),
    )
    assert gone(season(*entries, **keys)) == [date(2026, 6, 21), date(2026, 7, 11)]
    for plants, stands in (("1", True), ("2", False)):
        found = season(*entries, wave("c", start="06-25", plants=plants, name="D"), **keys)
        assert found.waves[2].overlap == Overlap("B-1", date(2026, 7, 11))
        assert bool(found.waves[3].stands) is stands


def gone(found: Season) -> list[date]:
    return [each.stages.pull_out.day for each in found.waves[:2]]


def test_what_leaves_before_the_other_is_not_set_between_its_plants() -> None:
    # Eight places, three taken until 4 July. Six that are gone on 15 June would be 3 + 6 at once.
    entries = (
        wave("middle", start="05-25", plants="3", name="stays"),
        wave("short", start="05-26", plants="6", name="goes", overlap="40"),
    )
    found = season(*entries, crops=SHORTER, beds=["{bed: Long, size: 1 x 8}"])
    assert found.waves[0].stages.pull_out.day == date(2026, 7, 4)
    assert not found.waves[1].stands


WAVES = st.lists(
    st.tuples(
        st.sampled_from([("short", 20), ("middle", 40), ("fruit", 64)]),
        st.integers(0, 90),
        st.integers(1, 8),
        st.sampled_from([0, 5, 12, 40]),
    ),
    min_size=3,
    max_size=14,
)
SHORTER = [
    gardens.crop(),
    gardens.crop("short", days_to_harvest="19", picking_days="1"),
    gardens.crop("middle", days_to_harvest="39", picking_days="1"),
]


@settings(max_examples=100)
@given(asked=WAVES)
def test_no_bed_is_ever_over_full(asked: list[tuple[tuple[str, int], int, int, int]]) -> None:
    start = date(2026, 5, 25)
    entries = [
        wave(
            name,
            start=f"{start + timedelta(days=day):%m-%d}",
            plants=str(plants),
            overlap=str(overlap),
            name=f"w{number}",
        )
        for number, ((name, _), day, plants, overlap) in enumerate(asked)
    ]
    of = season(*entries, beds=["{bed: Long, size: 1 x 8}"], crops=SHORTER)
    for bed, stays in zip(of.room.beds, of.room.stays, strict=True):
        for day in {stay.first for stay in stays}:
            taken = sum(stay.area for stay in stays if stay.first <= day < stay.until)
            assert taken <= bed.area, (bed.name, date.fromordinal(day))
    for each in of.waves:
        if each.overlap is not None:
            (other,) = [one for one in of.waves if one.id == each.overlap.wave]
            assert other.stages.pull_out.day == each.overlap.until
            days = (each.overlap.until - each.stages.plant.day).days
            assert 0 < days <= each.entry.overlap
