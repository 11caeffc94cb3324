"""When beds are free and how full they are: counted day by day, and as the plan by bed says it."""

from __future__ import annotations

import json
from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

import gardens
from printed import plan_form, plan_text
from sowtide.days import DateSpan
from sowtide.garden.model import Bed
from sowtide.schedule.narrowed import narrowed
from sowtide.schedule.only import Only
from sowtide.schedule.openings.fullness import free_spans, full_weeks, growing_days, longest_free
from sowtide.schedule.season import Season
from sowtide.schedule.stays.room import Room, Stay

BEDS = ("{bed: Long, size: 1 x 10}", "{bed: Other, size: 1 x 10, taken: 06-01..06-20}")
APRIL, OCTOBER = date(2026, 4, 12), date(2026, 10, 1)


def beds() -> tuple[Bed, ...]:
    return gardens.read(gardens.text(beds=BEDS)).beds


def room_of(*stays: tuple[int, int, int]) -> Room:
    """Room with stays in the first bed: days after 1 May, and tenths of the bed."""
    room = Room(beds())
    start = date(2026, 5, 1).toordinal()
    tenth = room.beds[0].area // 10
    for number, (first, until, tenths) in enumerate(stays):
        over, area = start + until, tenths * tenth
        room.stays[0].append(Stay(str(number), "s", "f", start + first, over, over, area))
    return room


MAY = DateSpan(date(2026, 5, 1), date(2026, 5, 31))


def days(*pairs: tuple[int, int]) -> list[DateSpan]:
    return [DateSpan(date(2026, 5, first), date(2026, 5, last)) for first, last in pairs]


def test_a_bed_is_free_between_its_waves() -> None:
    room = room_of((2, 6, 10), (10, 20, 3))
    bed = room.beds[0]
    assert list(free_spans(room, bed, MAY, least=bed.area)) == days((1, 2), (7, 10), (21, 31))
    # Half of it is free while a wave of three tenths stands.
    assert list(free_spans(room, bed, MAY, least=bed.area // 2)) == days((1, 2), (7, 31))


def test_what_the_grower_keeps_is_not_free() -> None:
    room = room_of()
    june = DateSpan(date(2026, 5, 25), date(2026, 6, 25))
    found = list(free_spans(room, room.beds[1], june, least=room.beds[1].area))
    assert found == [
        DateSpan(date(2026, 5, 25), date(2026, 5, 31)),
        DateSpan(date(2026, 6, 21), date(2026, 6, 25)),
    ]


STAYS = st.lists(
    st.tuples(st.integers(-10, 50), st.integers(1, 30), st.integers(1, 5)).map(
        lambda each: (each[0], each[0] + each[1], each[2])
    ),
    max_size=6,
)


@given(stays=STAYS, tenths=st.integers(1, 10))
def test_free_days_are_those_with_so_much_free_counted_one_by_one(
    stays: list[tuple[int, int, int]], tenths: int
) -> None:
    room = room_of(*stays)
    bed = room.beds[0]
    least = tenths * (bed.area // 10)
    spans = list(free_spans(room, bed, MAY, least=least))
    found = {day for day in range(31) if any(_day(day) in span for span in spans)}
    taken = [sum(t for first, until, t in stays if first <= day < until) for day in range(31)]
    assert found == {day for day in range(31) if 10 - taken[day] >= tenths}
    assert all(one.last + timedelta(days=1) < other.first for one, other in pairwise(spans))


@given(stays=STAYS)
def test_how_full_a_week_is_counted_day_by_day(stays: list[tuple[int, int, int]]) -> None:
    room = room_of(*stays)
    weeks = full_weeks(room, room.beds, MAY, starts=0)
    assert weeks[0].first == date(2026, 4, 27)
    assert len(weeks) == 5
    for week in weeks:
        offset = (week.first - date(2026, 5, 1)).days
        planted = sum(
            t
            for day in range(offset, offset + 7)
            for first, until, t in stays
            if first <= day < until
        )
        assert week.share == pytest.approx(planted / (7 * 20))  # two beds of ten tenths


def test_a_bed_that_is_kept_counts_for_nothing() -> None:
    june = DateSpan(date(2026, 6, 1), date(2026, 6, 14))
    room = room_of((31, 45, 5))  # half of the first bed; the other one is kept
    assert [week.share for week in full_weeks(room, room.beds, june, starts=0)] == [
        0.5,
        0.5,
    ]
    assert [week.share for week in full_weeks(room, room.beds[1:], june, starts=0)] == [0, 0]
    assert [week.share for week in full_weeks(room, room.beds[:1], june, starts=0)] == [0.5, 0.5]


def test_the_longest_free_stretches_come_first() -> None:
    room = room_of((5, 25, 6))
    found = longest_free(room, DateSpan(date(2026, 5, 1), date(2026, 7, 31)), most=3)
    assert [(each.bed.name, each.span.length) for each in found] == [
        ("Long", 67),
        ("Other", 41),
        ("Other", 31),
    ]


@pytest.mark.parametrize(("days", "told"), [(14, True), (13, False)])
def test_two_weeks_are_a_stretch(days: int, told: bool) -> None:
    # Long is free for so many days from 1 May on, Other all of May.
    found = longest_free(room_of((days, 31, 6)), MAY, most=3)
    assert [each.bed.name for each in found] == ["Other", "Long"][: 1 + told]


def test_beds_can_grow_from_four_weeks_before_the_last_frost_to_the_first() -> None:
    of = gardens.season(gardens.text())
    assert growing_days(of.climate, of.garden.year) == DateSpan(APRIL, OCTOBER)
    warm = gardens.season(gardens.text(frost="none"))
    year = warm.garden.year
    assert growing_days(warm.climate, year) == DateSpan(year.first, year.last)


def planned() -> Season:
    return gardens.season(
        gardens.text(gardens.wave(plants="10", start="05-20"), beds=BEDS), date(2026, 3, 1)
    )


@pytest.mark.parametrize("width", [60, 80, 120])
def test_the_plan_by_bed(width: int) -> None:
    of = planned()
    lines = list(plan_text(of, width=width, by="bed"))
    assert max(map(len, lines)) <= width
    text = "\n".join(lines)
    pulled = of.waves[0].stages.pull_out.day
    assert f"20 May – {pulled.day} {pulled:%b}" in text
    assert "12 Apr – 19 May" in text  # empty before it
    assert "1–20 Jun" in text  # kept by the grower
    assert "HOW FULL  of all beds together, week by week" in text
    assert "LONGEST FREE: half of a bed or more" in text
    assert "Other: 21 Jun – 1 Oct, 103 days: fruit" in " ".join(text.split())


def test_how_full_is_told_of_the_beds_that_are_looked_at() -> None:
    # Ten plants fill Long from 20 May on; Other, as large, stands empty.
    of = planned()
    for beds, said, share in (
        (None, "HOW FULL  of all beds together, week by week", "50 %"),
        (("Long",), "HOW FULL  of this bed, week by week", "100 %"),
        (("Other",), "HOW FULL  of this bed, week by week", "0 %"),
        (("Long", "Other"), "HOW FULL  of these beds together, week by week", "50 %"),
    ):
        shown = of if beds is None else narrowed(of, Only(beds, None))
        lines = plan_text(shown, width=80, by="bed")
        assert said in lines
        (june,) = [each for each in lines if each.split()[:2] == ["22", "Jun"] and "%" in each]
        assert " ".join(june.split()[2:4]) == share, beds


def test_only_what_is_still_ahead_is_offered() -> None:
    of = gardens.season(gardens.text(beds=BEDS), date(2026, 8, 1))
    text = " ".join(" ".join(plan_text(of, width=80, by="bed")).split())
    assert "Long: 1 Aug – 1 Oct, 62 days:" in text


def test_free_days_and_fullness_as_json() -> None:
    found = json.loads(plan_form(planned(), "json"))
    (long, other) = found["beds"]
    assert (long["bed"], long["free"][0]) == ("Long", {"from": "2026-04-12", "to": "2026-05-19"})
    assert other["free"][0]["to"] == "2026-05-31"
    assert found["full"][0] == {"from": "2026-04-06", "share": 0.0}
    week = next(each for each in found["full"] if each["from"] == "2026-06-08")
    assert week["share"] == 1.0  # the other bed is kept


def _day(number: int) -> date:
    return date(2026, 5, 1) + timedelta(days=number)
