"""Tracks and strips of weeks in the terminal, drawn by hand at the widths at which they change."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from sowtide.report.blocks import Block, Mark, Track, Tracks, WeekStrip, WeekStrips, plain
from sowtide.report.formats.terminal.render import rendered

JANUARY = date(2026, 1, 1)


def drawn(of: Block, width: int) -> list[str]:
    return list(plain(rendered([of], width)))


MARKS = (
    Mark("-", date(2025, 12, 20), date(2026, 1, 11)),
    Mark("|", date(2026, 1, 11)),
    Mark("#", date(2026, 2, 20), date(2026, 4, 1)),
)
SIXTY = Tracks(
    days=60,
    head=JANUARY,
    tracks=(Track("2026", JANUARY, MARKS),),
    key=(("-", "may freeze"), ("|", "last frost")),
)
"""The days of January and February and the first of March."""


def test_a_track_begins_and_ends_with_its_days() -> None:
    # Six cells for the label, and a cell a day: ten days until 10 January, the 11th, and the last
    # ten from 20 February on; February begins on the 32nd day.
    assert drawn(SIXTY, 66) == [
        "      Jan" + " " * 28 + "Feb",
        "2026  ----------|" + " " * 39 + "##########",
        "- may freeze; | last frost",
    ]


@pytest.mark.parametrize(
    ("width", "months", "track"),
    [
        (36, "      Jan            Feb", "2026  -----|                   #####"),  # two days a cell
        (32, "      Jan          Feb", "2026  ----|                #####"),
    ],
)
def test_a_narrow_track_has_more_days_in_a_cell(width: int, months: str, track: str) -> None:
    assert drawn(SIXTY, width)[:2] == [months, track]


def test_the_longest_label_has_two_cells_behind_it() -> None:
    other = Track("a longer one", JANUARY, ())
    found = drawn(replace(SIXTY, tracks=(*SIXTY.tracks, other)), 74)
    assert found[0].startswith(" " * 14 + "Jan")
    assert found[1].startswith("2026" + " " * 10 + "----------|")
    assert found[2] == "a longer one  "


@pytest.mark.parametrize(
    ("days", "months"),
    [
        (34, "Jan                            Feb"),  # February has three days to be named in
        (33, "Jan"),
        (31, "Jan"),
        (62, "Jan                            Feb                         Mar"),
        (61, "Jan                            Feb"),
        (400, None),
    ],
)
def test_a_month_is_named_over_its_first_day_as_far_as_it_has_room(
    days: int, months: str | None
) -> None:
    of = replace(SIXTY, days=days, tracks=(Track("2026", JANUARY, ()),))
    (head, *_) = drawn(of, 6 + days)
    if months is None:
        year = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec Jan Feb"
        assert " ".join(head.split()) == year
    else:
        assert head[6:] == months


WEEKS = WeekStrips(
    first=date(2026, 6, 29),
    today=date(2026, 7, 13),
    strips=(WeekStrip("pea", "#= #."), WeekStrip("summer squash", "*****")),
    key=(("#", "enough"),),
)
"""Five weeks, July from the first of them on and August at the end of the last."""


@pytest.mark.parametrize(
    ("width", "said"),
    [
        (
            25,  # 13 of the names, two behind them, and two cells for each of five weeks
            [
                "               Jul",
                "pea            ##==  ##..",
                "summer squash  **********",
                "                   ^",
                "# enough",
            ],
        ),
        (
            24,
            [
                "               Jul",
                "pea            #= #.",
                "summer squash  *****",
                "                 ^",
                "# enough",
            ],
        ),
        (
            19,  # names are cut, and weeks not
            [
                "              Jul",
                "pea           #= #.",
                "summer squa…  *****",
                "                ^",
                "# enough",
            ],
        ),
    ],
)
def test_a_week_has_two_cells_or_one(width: int, said: list[str]) -> None:
    assert drawn(WEEKS, width) == said


LETTERS = replace(
    WEEKS, strips=(WeekStrip("pea", "ABCDEFGHIJKLMNOPQRSTUVWXYZ"),), today=date(2026, 8, 24)
)


@pytest.mark.parametrize(
    ("width", "said"),
    [
        (
            60,  # six for the name, two behind it, and 52
            [
                "        Jul     Aug       Sep     Oct     Nov       Dec",
                "pea     AABBCCDDEEFFGGHHIIJJKKLLMMNNOOPPQQRRSSTTUUVVWWXXYYZZ",
                "                        ^ this week",
            ],
        ),
        (
            59,
            [
                "        Jul Aug  Sep Oct Nov  Dec",
                "pea     ABCDEFGHIJKLMNOPQRSTUVWXYZ",
                "                ^ this week",
            ],
        ),
        (
            30,  # what has no room beside goes on below
            [
                "        Jul Aug  Sep Oct Nov",
                "pea     ABCDEFGHIJKLMNOPQRSTUV",
                "                ^ this week",
                "        Dec",
                "pea     WXYZ",
            ],
        ),
    ],
)
def test_weeks_go_on_below_where_they_have_no_room(width: int, said: list[str]) -> None:
    assert drawn(LETTERS, width)[:-1] == said


@pytest.mark.parametrize(
    ("today", "mark"),
    [
        (date(2026, 6, 29), "        ^ this week"),
        (date(2026, 6, 22), None),
        (date(2026, 10, 5), " " * 22 + "^ this week"),  # the 15th, and 12 are left of 26
        (date(2026, 10, 12), " " * 23 + "^ this week"),
        (date(2026, 10, 19), " " * 24 + "^"),  # 10 weeks are left: one too few for the words
        (date(2026, 12, 21), " " * 33 + "^"),
        (date(2026, 12, 28), None),
        (None, None),
    ],
)
def test_this_week_is_marked_below(today: date | None, mark: str | None) -> None:
    found = drawn(replace(LETTERS, today=today), 59)
    assert [each for each in found if "^" in each] == ([mark] if mark else [])
