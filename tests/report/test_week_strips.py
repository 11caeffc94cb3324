"""Strips of weeks on the terminal: months and the week it is over and under the right weeks."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from sowtide.report.blocks import WeekStrip, WeekStrips, plain
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
