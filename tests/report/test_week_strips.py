"""Strips of weeks, on the terminal and on paper: months, weeks and this week in their places."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sowtide.report.blocks import WeekStrip, WeekStrips, plain
from sowtide.report.formats.html.extent import extent
from sowtide.report.formats.html.paper import PrintSheet
from sowtide.report.formats.html.week_drawing import drawn_weeks
from sowtide.report.formats.terminal.tracks import week_strips

MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]
KEY = (("#", "enough"),)


def strips(
    first: date, weeks: int, *, today: int | None = None, label: str = "zucchini"
) -> WeekStrips:
    """Return one strip of so many weeks, each with a letter of its own."""
    signs = "".join(chr(ord("A") + week) for week in range(weeks))
    now = None if today is None else first + timedelta(days=7 * today)
    return WeekStrips(first, now, (WeekStrip(label, signs),), KEY)


def lines(of: WeekStrips, width: int) -> list[str]:
    return list(plain(week_strips(of, width)))


def test_two_letters_a_week_and_the_month_over_the_week_of_its_first_day() -> None:
    # Mondays from 29 June 2026 on: 1 July is in the first week, 1 August, a Saturday, in the fifth.
    assert lines(strips(date(2026, 6, 29), 6, today=1), 80)[:3] == [
        "          Jul     Aug",
        "zucchini  AABBCCDDEEFF",
        "            ^",
    ]


@given(
    monday=st.integers(0, 400).map(lambda week: date(2024, 1, 1) + timedelta(days=7 * week)),
    weeks=st.integers(1, 30) | st.sampled_from((10, 25, 30)),
    width=st.sampled_from((30, 45, 60, 70, 80)),
    today=st.integers(0, 29),
)
def test_each_month_stands_over_its_week_and_each_week_once(
    monday: date, weeks: int, width: int, today: int
) -> None:
    drawn = lines(strips(monday, weeks, today=today), width)
    shown, marked = "", []
    for over, row, below in zip(drawn, drawn[1:], [*drawn[2:], ""], strict=False):
        if not row.startswith("zucchini  "):
            continue
        assert len(row) <= width
        signs = row[10:]
        shown += signs
        for at, letter in enumerate(signs):
            begin = monday + timedelta(days=7 * (ord(letter) - ord("A")))
            days = [begin + timedelta(days=day) for day in range(7)]
            name = next((MONTHS[day.month - 1] for day in days if day.day == 1), None)
            is_first_of_week = signs.index(letter) == at
            if name is not None and is_first_of_week and at + 3 <= len(signs):
                assert over[10 + at : 13 + at] == name
            elif is_first_of_week:
                assert over[10 + at : 13 + at] not in MONTHS
        if below.strip().startswith("^"):
            marked.append(ord(signs[below.index("^") - 10]) - ord("A"))
    across = 2 if 10 + 2 * weeks <= width else 1
    assert shown == "".join(chr(ord("A") + week) * across for week in range(weeks))
    assert marked == ([today] if today < weeks else [])


def test_on_paper_each_week_is_a_box_below_its_days_and_beside_the_name_of_its_strip() -> None:
    monday, signs = date(2026, 6, 29), ("#=*o #", "  ##..", "#.#.#.")
    names = ("pea", "summer squash", "kale")
    of = WeekStrips(monday, monday + timedelta(days=14), tuple(map(WeekStrip, names, signs)), KEY)
    (drawing,) = drawn_weeks(of, PrintSheet("a4 landscape", 200.0, 150.0))
    rows = {word.text: word.middle for word in drawing.words if word.text in names}
    assert sorted(rows, key=rows.__getitem__) == list(names)
    left = 200 - 6 * (wide := (200 - extent("summer squash", 2.7, bold=True) - 2) / 6)
    kinds = {"#": "picking", "=": "trays", "*": "since", "o": "bed", " ": "white"}
    for name, row in zip(names, signs, strict=True):
        boxes = sorted(
            (box for box in drawing.boxes if box.top < rows[name] < box.top + box.height),
            key=lambda box: box.left,
        )
        filled = [(number, kinds[sign]) for number, sign in enumerate(row) if sign in kinds]
        assert [box.kind for box in boxes] == [kind for _, kind in filled]
        for box, (number, _) in zip(boxes, filled, strict=True):
            assert box.left == pytest.approx(left + number * wide)
            assert wide - 0.2 < box.width < wide
            assert box.top + box.height / 2 == pytest.approx(rows[name])
    assert len(drawing.boxes) == sum(sign in kinds for row in signs for sign in row)
    tops = sorted({box.top for box in drawing.boxes})
    assert all(above + 3 < below for above, below in pairwise(tops))
    assert max(box.top + box.height for box in drawing.boxes) < drawing.height
    (today,) = (each for each in drawing.strokes if each.kind == "today")
    assert today.left == pytest.approx(left + 2 * wide)  # the third week
    begins = [each for each in drawing.strokes if each.kind == "month"]
    assert {(each.top, each.bottom) for each in begins} == {(0.0, drawing.height)}
    months = {word.text: word.left for word in drawing.words if word.kind == "strong"}
    # July begins on the third day, August on the 34th.
    for name, day in (("Jul", 2), ("Aug", 33)):
        assert months[name] == pytest.approx(left + day * wide / 7 + 0.6)
