"""Bars on paper, by hand: where they begin and end, and where their words stand.

A scale of 100 days on 100 mm, so that a day is a millimetre; letters of one millimetre.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from sowtide.days import DateSpan
from sowtide.report.blocks import ChartBar, ChartSpace
from sowtide.report.formats.html.bar_lanes import (
    BarSpan,
    LaneMeasures,
    drawn,
    free_lane,
    lanes,
    one_lane,
    span_of,
)
from sowtide.report.formats.html.day_scale import DayScale, in_weeks
from sowtide.report.formats.html.extent import extent
from sowtide.report.formats.html.marks import Box, Words

JUNE = date(2026, 6, 1)
SCALE = DayScale(JUNE, 100, 100.0)
PAD, GAP = 0.6, 0.9
"""Space within a bar beside its words, and between two bars. [mm]"""


def day(number: int) -> date:
    """Return a day by its place on the scale. [mm]"""
    return JUNE + timedelta(days=number)


def stands(first: int, beyond: int, picked: tuple[int, int] | None = None, note: str = "") -> Any:
    days = None if picked is None else (day(picked[0]), day(picked[1]))
    bar = ChartBar(
        name="pea-1", first=day(first), beyond=day(beyond), picked=days, ended="", note=note
    )
    return span_of(bar, SCALE, "bed")


@pytest.mark.parametrize(
    ("first", "beyond", "ends"),
    [
        (-9, 0, None),
        (-9, 1, (0.0, 1.0, True, False)),
        (0, 1, (0.0, 1.0, False, False)),
        (10, 10, (10.0, 10.8, False, False)),  # never so short that it is not seen
        (99, 100, (99.0, 100.0, False, False)),
        (99, 101, (99.0, 100.0, False, True)),
        (100, 110, None),
    ],
)
def test_a_bar_ends_with_the_days_that_are_shown(
    first: int, beyond: int, ends: tuple[float, float, bool, bool] | None
) -> None:
    found = stands(first, beyond)
    assert ends == (found and (found.left, found.right, found.since, found.on))


@pytest.mark.parametrize(
    ("picked", "note", "ends", "tail"),
    [
        (None, "frost", None, "frost"),
        ((20, 30), "", (20.0, 30.0), "21–30 Jun"),
        ((20, 30), "frost", (20.0, 30.0), "21–30 Jun, frost"),
        ((5, 30), "", (10.0, 30.0), "6–30 Jun"),
        ((20, 50), "", (20.0, 40.0), "21 Jun – 20 Jul"),
        ((40, 41), "", (40.0, 40.8), "11 Jul"),  # picked as it is pulled out, and yet seen
    ],
)
def test_its_picking_stands_in_it_with_its_days(
    picked: tuple[int, int] | None, note: str, ends: tuple[float, float] | None, tail: str
) -> None:
    found = stands(10, 40, picked, note)
    assert (found.picked, found.tail) == (ends, tail)
    assert found.right == max(40.0, ends[1] if ends else 0.0)
    assert found.name_room == (found.right if ends is None else ends[0]) - 10.0


def test_a_bar_says_its_first_day_where_that_is_shown() -> None:
    assert stands(10, 40).names == ("pea-1 11 Jun", "pea-1")
    assert stands(-1, 40).names == ("pea-1",)
    number = ChartBar(name="12", first=day(10), beyond=day(40), picked=None, ended="", note="")
    unnamed = replace(number, name="")
    found = [span_of(each, SCALE, "trays") for each in (number, unnamed)]
    assert [each.names for each in found if each] == [("12: 11 Jun", "12"), ("",)]


NAME = "kale-1"
WIDE = extent(NAME, 1.0, bold=True)
"""How wide the name is as it stands in a bar. [mm]"""
SLIGHT = 1e-6


def bar(left: float, right: float, **changes: Any) -> BarSpan:
    made = BarSpan(
        left=left,
        right=right,
        picked=None,
        kind="bed",
        since=False,
        on=False,
        names=(NAME,),
        tail="",
    )
    return replace(made, **changes)


def where(*bars: BarSpan, width: float = 100.0) -> list[list[str]]:
    """Return the lanes, of each bar where its name stands, and how it is cut."""
    told = []
    for lane in lanes(bars, width, 1.0):
        told.append(
            [
                next(
                    f"{place} {said}"
                    for place, said in (
                        ("in", each.name),
                        ("before", each.before),
                        ("behind", each.behind[0]),
                    )
                    if said
                )
                for each in lane
            ]
        )
    return told


@pytest.mark.parametrize(
    ("left", "right", "width", "place"),
    [
        (20.0, 20.0 + WIDE + 2 * PAD + SLIGHT, 100.0, "in"),
        (20.0, 20.0 + WIDE + 2 * PAD - SLIGHT, 100.0, "before"),
        (WIDE + PAD + GAP + SLIGHT, 0.0, 100.0, "before"),
        (WIDE + PAD + GAP - SLIGHT, 0.0, 100.0, "behind"),
        (1.0, 2.0, 2.0 + GAP + WIDE + PAD + SLIGHT, "behind"),
    ],
)
def test_a_name_stands_in_its_bar_else_before_it_else_behind(
    left: float, right: float, width: float, place: str
) -> None:
    right = max(right, left + 1.0)
    assert where(bar(left, right), width=width) == [[f"{place} {NAME}"]]


@pytest.mark.parametrize(
    ("left", "right", "width", "said"),
    [
        (1.0, 2.0, 2.0 + GAP + WIDE + PAD - SLIGHT, "behind kal…"),
        (WIDE + PAD + GAP - SLIGHT, 6.0, 7.0, "before kal…"),
        (0.1, WIDE + 2 * PAD, WIDE + 2 * PAD, "in kal…"),
    ],
)
def test_a_name_without_room_anywhere_is_cut_where_it_has_the_most(
    left: float, right: float, width: float, said: str
) -> None:
    assert where(bar(left, right), width=width) == [[said]]


def test_bars_share_a_lane_where_neither_they_nor_their_names_touch() -> None:
    one = bar(10.0, 20.0)
    assert where(one, bar(20.0 + GAP + SLIGHT, 30.0)) == [[f"in {NAME}"] * 2]
    assert where(one, bar(20.0 + GAP - SLIGHT, 30.0)) == [[f"in {NAME}"], [f"in {NAME}"]]
    # A short bar close behind has no room for its name before it, and takes it behind.
    assert where(one, bar(22.0, 23.0)) == [[f"in {NAME}", f"behind {NAME}"]]
    longer = bar(10.0, 30.0)
    assert [each[0].bar.right for each in lanes((one, longer), 100.0, 1.0)] == [30.0, 20.0]


def test_the_days_of_picking_stand_in_them_where_they_have_room_else_behind() -> None:
    tail = "lll"  # narrow, and wider in bold letters
    room = extent(tail, 1.0) + 2 * PAD
    for more, places in ((SLIGHT, (tail, "")), (-SLIGHT, ("", tail))):
        of = bar(20.0, 40.0, picked=(40.0 - room - more, 40.0), tail=tail)
        ((found,),) = lanes((of,), 100.0, 1.0)
        assert (found.tail, found.behind[1]) == places
    ((found,),) = lanes((bar(20.0, 40.0, tail=tail),), 100.0, 1.0)
    assert found.beyond == pytest.approx(40.0 + GAP + extent(tail, 1.0) + PAD)
    assert found.first == 20.0


def test_in_one_lane_days_stand_where_they_do_not_reach_the_next() -> None:
    tail = "lll"
    needs = extent(tail, 1.0) + PAD + GAP
    of = bar(10.0, 12.0, names=(), tail=tail)
    for more, said in ((SLIGHT, tail), (-SLIGHT, "")):
        found = one_lane((of, bar(12.0 + needs + more, 30.0, names=())), 100.0, 1.0)
        assert found[0].behind[1] == said
        alone = one_lane((of,), 12.0 + needs + more, 1.0)
        assert alone[0].behind[1] == said


def test_what_is_free_is_said_once_in_full_and_then_by_its_size() -> None:
    free = (
        ChartSpace("4 m²", day(0), day(20)),
        ChartSpace("6 m²", day(20), day(40)),
        ChartSpace("9 m²", day(40), day(41)),  # no room for it
        ChartSpace("7 m²", day(120), day(140)),
    )
    found = free_lane(free, SCALE, 1.0)
    assert [each.name for each in found] == ["free: 4 m²", "6 m²", ""]
    (short,) = free_lane((ChartSpace("4 m²", day(0), day(4)),), SCALE, 1.0)
    assert short.name == "4 m²"


def test_a_bar_is_drawn_as_what_stands_and_what_is_picked() -> None:
    of = bar(20.0, 40.0, picked=(30.0, 36.0), since=True, on=True, names=("",), tail="")
    measures = LaneMeasures(height=5.0, letters=1.0)
    ((lane),) = lanes((of,), 100.0, 1.0)
    boxes = [
        (each.left, each.left + each.width, each.kind)
        for each in drawn(lane, 10.0, measures)
        if isinstance(each, Box)
    ]
    assert boxes == [
        (20.0, 30.0, "bed"),
        (30.0, 36.0, "picking"),
        (36.0, 40.0, "bed"),
        (0.0, PAD / 2, "since"),
        (40.0 - PAD / 2, 40.0, "since"),
    ]
    tops = {
        (round(each.top, 6), round(each.height, 6))
        for each in drawn(lane, 10.0, measures)
        if isinstance(each, Box)
    }
    assert tops == {(10.45, 4.1)}  # the middle of the lane is 12.5, and a bar has 0.82 of its 5
    whole = replace(of, picked=(20.0, 40.0), since=False, on=False)
    ((lane),) = lanes((whole,), 100.0, 1.0)
    (only,) = drawn(lane, 10.0, measures)
    assert isinstance(only, Box)
    assert (only.left, only.width, only.kind) == (20.0, 20.0, "picking")
    assert only.top == pytest.approx(12.5 - 0.41 * 5.0)
    assert only.height == pytest.approx(0.82 * 5.0)


def test_days_within_a_bar_stand_on_a_plate_of_their_own() -> None:
    of = bar(20.0, 40.0, picked=(30.0, 40.0), names=("",), tail="lll")
    ((lane),) = lanes((of,), 100.0, 1.0)
    (plate,) = (
        each
        for each in drawn(lane, 10.0, LaneMeasures(height=5.0, letters=1.0))
        if isinstance(each, Box) and each.kind == "plate"
    )
    wide = extent("lll", 1.0)
    assert (plate.left, plate.width) == pytest.approx((35.0 - wide / 2 - PAD / 2, wide + PAD))
    assert (plate.top, plate.height) == pytest.approx((10.6, 3.8))  # half a pad less than the bar


def test_words_stand_beside_their_bar_with_a_pad_between() -> None:
    measures = LaneMeasures(height=5.0, letters=1.0)

    def words(of: BarSpan) -> list[tuple[float, str, str]]:
        ((lane),) = lanes((of,), 100.0, 1.0)
        return [
            (round(each.left, 6), each.text, each.kind)
            for each in drawn(lane, 10.0, measures)
            if isinstance(each, Words)
        ]

    tail = extent("lll", 1.0)
    assert words(bar(20.0, 30.0)) == [(20.6, NAME, "name")]
    assert words(bar(20.0, 30.0, kind="free")) == [(20.6, NAME, "plain")]
    assert words(bar(20.0, 21.0)) == [(round(20.0 - PAD - WIDE, 6), NAME, "name")]
    behind = words(bar(1.0, 2.0, tail="lll"))
    assert behind[0] == (2.6, NAME, "name")
    assert behind[1][:2] == (round(2.6 + WIDE + PAD, 6), "lll")
    inside = words(bar(20.0, 40.0, picked=(30.0, 40.0), tail="lll"))
    assert inside[1][:2] == (round(35.0 - tail / 2, 6), "lll")


def test_a_scale_of_weeks_holds_its_days_and_no_more() -> None:
    for last, days in ((6, 7), (7, 14), (13, 14)):
        found = in_weeks(DateSpan(JUNE, day(last)), 70.0)
        assert (found.first, found.days, found.a_week) == (JUNE, days, 70.0 * 7 / days)
    assert [SCALE.at(each) for each in (day(-1), day(0), day(50), day(100), day(101))] == [
        0.0,
        0.0,
        50.0,
        100.0,
        100.0,
    ]
    assert [SCALE.holds(each) for each in (day(-1), day(0), day(99), day(100))] == [
        False,
        True,
        True,
        False,
    ]
    assert len(list(SCALE.weeks())) == 15
    new_year = DayScale(date(2026, 11, 20), 75, 75.0)
    assert list(new_year.months()) == [
        (date(2026, 11, 20), "Nov 2026"),
        (date(2026, 12, 1), "Dec"),
        (date(2027, 1, 1), "Jan 2027"),
        (date(2027, 2, 1), "Feb"),
    ]
