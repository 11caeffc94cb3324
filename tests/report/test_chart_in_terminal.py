"""The season's chart in the terminal, by hand: which column a day falls in and what is drawn there.

Most scales begin on Monday 1 June 2026.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from sowtide.days import DateSpan
from sowtide.garden.want import Met
from sowtide.report.blocks import (
    ChartBar,
    ChartHead,
    ChartMark,
    ChartOdds,
    ChartRow,
    ChartWant,
    SeasonChart,
    plain,
)
from sowtide.report.formats.markdown import markdown_page
from sowtide.report.formats.terminal.chart_bars import Bar, bed_bar, packed, tray_bar, with_frosts
from sowtide.report.formats.terminal.chart_scale import (
    Scale,
    marks_over,
    months_over,
    scale_for,
    weeks_over,
)
from sowtide.report.formats.terminal.render import rendered

JUNE = date(2026, 6, 1)
FOURS = Scale(JUNE, 4, 10)
"""1 June to 10 July, four days a column."""
DAILY = Scale(JUNE, 1, 10)


def june(day: int) -> date:
    """Return a day of June; 31 is 1 July, and 0 is 31 May."""
    return JUNE + timedelta(days=day - 1)


@pytest.mark.parametrize(
    ("day", "column"), [(0, None), (1, 0), (4, 0), (5, 1), (36, 8), (37, 9), (40, 9), (41, None)]
)
def test_a_day_lies_in_the_column_of_its_four(day: int, column: int | None) -> None:
    assert FOURS.holding(june(day)) == column
    assert FOURS.last == june(40)


@pytest.mark.parametrize(
    ("first", "beyond", "columns"),
    [
        # The middle days are 3 June, 7 June, … 8 July (day 39).
        (1, 4, (0, 1)),
        (3, 7, (0, 1)),
        (3, 8, (0, 2)),
        (4, 8, (1, 2)),
        (4, 5, (1, 2)),  # of no middle day, and yet drawn
        (5, 5, None),
        (6, 5, None),
        (-20, 1, None),
        (-20, 2, (0, 1)),
        (-20, 60, (0, 10)),
        (39, 41, (9, 10)),
        (40, 41, (9, 10)),
        (40, 60, (9, 10)),
        (41, 60, None),
    ],
)
def test_what_stands_from_a_day_to_another_has_the_columns_whose_middle_it_sees(
    first: int, beyond: int, columns: tuple[int, int] | None
) -> None:
    assert FOURS.stretch(june(first), june(beyond)) == columns


@pytest.mark.parametrize(
    ("days", "columns", "step", "used"),
    [
        (100, 101, 1, 101),  # a column more than days, for what ends on the last
        (100, 100, 2, 51),
        (100, 26, 4, 26),
        (101, 26, 5, 22),
        (1, 2, 1, 2),
    ],
)
def test_columns_are_as_short_as_have_room(days: int, columns: int, step: int, used: int) -> None:
    found = scale_for(DateSpan(JUNE, june(days)), columns=columns)
    assert (found.first, found.step, found.columns) == (JUNE, step, used)


@pytest.mark.parametrize(
    ("scale", "said"),
    [
        (Scale(june(20), 1, 15), "June       July"),  # 1 July is 11 days on
        (Scale(june(20), 1, 14), "June       Jul"),
        (Scale(june(20), 1, 13), "June"),
        (Scale(JUNE, 7, 11), "Jun Jul Aug"),  # 30 and 61 days on: columns 4 and 8
        (Scale(JUNE, 7, 10), "Jun Jul"),
        (Scale(june(28), 1, 12), "   July"),  # three days of June: no room for a space behind it
        (Scale(june(27), 1, 12), "Jun July"),
        (Scale(june(26), 1, 12), "June July"),
        (Scale(date(2026, 12, 20), 1, 40), "Dec         Jan"),
    ],
)
def test_a_month_stands_over_its_first_day_as_far_as_it_has_room(scale: Scale, said: str) -> None:
    assert months_over(scale) == said


def test_months_are_named_in_full_where_that_is_short() -> None:
    year = months_over(Scale(date(2026, 1, 1), 1, 365)).split()
    assert year == [
        "Jan",
        "Feb",
        "Mar",
        "April",
        "May",
        "June",
        "July",
        "Aug",
        "Sept",
        "Oct",
        "Nov",
        "Dec",
    ]


@pytest.mark.parametrize(
    ("scale", "said"),
    [
        (Scale(JUNE, 1, 15), "1      8"),
        (Scale(JUNE, 1, 16), "1      8      15"),
        (Scale(JUNE, 2, 12), "1  8   15 22"),  # every 3.5 columns
        (Scale(JUNE, 3, 12), "1   15   29"),
        (Scale(JUNE, 3, 10), "1   15"),
        (Scale(JUNE, 5, 13), "1    29    27"),  # every fourth week from five days a column on
    ],
)
def test_weeks_are_named_as_often_as_they_have_room(scale: Scale, said: str) -> None:
    assert weeks_over(scale) == said


def odds(*signs: tuple[str, int]) -> str:
    return marks_over(
        DAILY, [ChartMark(sign, DateSpan(june(day), june(day))) for sign, day in signs]
    )


@pytest.mark.parametrize(
    ("signs", "said"),
    [
        ((("50", 3),), "  50"),
        ((("50", 1),), "50"),
        ((("50", 10),), "        50"),  # moved so that it is seen whole
        ((("50", 11),), ""),
        ((("50", 3), ("10", 6)), "  50 10"),
        ((("50", 3), ("10", 5)), "  50"),  # they would touch
        ((("50", 5), ("90", 2)), " 90 50"),
        ((("50", 5), ("90", 3)), "    50"),
        ((("v", 4),), "   v"),
        ((("50", 3), ("v", 4)), "  5v"),  # one sign alone is always shown
    ],
)
def test_signs_over_a_day_never_touch(signs: tuple[tuple[str, int], ...], said: str) -> None:
    assert odds(*signs) == said


def test_a_sign_over_days_fills_their_columns() -> None:
    def hot(first: int, last: int) -> str:
        return marks_over(DAILY, [ChartMark("~", DateSpan(june(first), june(last)))])

    assert hot(3, 5) == "  ~~~"
    assert hot(3, 3) == "  ~"
    assert hot(9, 30) == "        ~~"
    assert hot(-9, 0) == ""
    assert hot(-9, 1) == "~"


def stands(first: int, beyond: int, picked: tuple[int, int] | None = None) -> ChartBar:
    days = None if picked is None else (june(picked[0]), june(picked[1]))
    return ChartBar(
        name="a-1", first=june(first), beyond=june(beyond), picked=days, ended="*", note=""
    )


@pytest.mark.parametrize(
    ("of", "bar"),
    [
        (stands(2, 6), Bar(1, "----*", 4, "a-1")),
        (stands(2, 6, (4, 6)), Bar(1, "--##*", 2, "a-1")),
        (stands(2, 6, (4, 5)), Bar(1, "--#-*", 2, "a-1")),
        (stands(2, 6, (1, 9)), Bar(1, "####*", 0, "a-1")),  # no more than it stands
        (stands(2, 6, (6, 9)), Bar(1, "---#*", 3, "a-1")),  # picked as it is pulled out
        (stands(2, 6, (20, 30)), Bar(1, "----*", 4, "a-1")),
        (stands(5, 9, (1, 3)), Bar(4, "#---*", 0, "a-1")),
        (stands(1, 4), Bar(0, "---*", 3, "a-1")),
        (stands(0, 4), Bar(0, "<--*", 3, "a-1")),
        (stands(7, 10), Bar(6, "---*", 3, "a-1")),
        (stands(7, 11), Bar(6, "----", 4, "a-1")),  # it ends on the last day that is shown
        (stands(7, 12), Bar(6, "--->", 3, "a-1")),
        (stands(7, 12, (9, 12)), Bar(6, "--#>", 2, "a-1")),
        (stands(-9, 0), None),
    ],
)
def test_a_bar_in_a_bed_shows_how_it_begins_is_picked_and_ends(of: ChartBar, bar: Bar) -> None:
    assert bed_bar(of, DAILY) == bar


def test_trays_are_a_bar_whose_name_leaves_its_last_column() -> None:
    assert tray_bar(stands(2, 6), DAILY) == Bar(1, "oooo", 3, "a-1", lead=0)
    assert tray_bar(stands(-9, 1), DAILY) is None


def drawn(*bars: Bar, columns: int) -> list[str]:
    return ["".join(row) for row in packed(bars, columns, empty=".")]


@pytest.mark.parametrize(
    ("bar", "columns", "said"),
    [
        (Bar(1, "----##", 4, "a-1"), 9, ".-a-1##.."),
        (Bar(1, "---##", 3, "a-1"), 9, ".---## a…"),
        (Bar(0, "--##", 2, "radish-1"), 13, "--## radish-1"),
        (Bar(0, "--##", 2, "radish-1"), 14, "--## radish-1 "),
        (Bar(0, "--##", 2, "radish-1"), 15, "--## radish-1 ."),
        (Bar(0, "--##", 2, "radish-1"), 12, "--## radi…-1"),
        (Bar(4, "--##", 2, "a-1"), 8, "a-1 --##"),
        (Bar(5, "--##", 2, "a-1"), 9, " a-1 --##"),
        (Bar(8, "--##", 2, "a" * 30), 20, "........--## aaaaaa…"),  # as much room on either side
        (Bar(9, "--##", 2, "a" * 30), 20, "aaaaaaa… --##......."),
    ],
)
def test_a_name_stands_in_its_bar_or_before_it_or_behind_it(
    bar: Bar, columns: int, said: str
) -> None:
    assert drawn(bar, columns=columns) == [said]


def test_at_the_edge_a_name_needs_no_space_before_it_and_the_longer_bar_stands_above() -> None:
    assert drawn(Bar(4, "--##", 2, "a-1"), columns=20) == ["a-1 --##............"]
    assert drawn(Bar(3, "--##", 2, "a-1"), columns=20) == ["...--## a-1 ........"]
    short, long = Bar(0, "----#", 4, "a-1"), Bar(0, "-----#", 5, "b-1")
    assert drawn(short, long, columns=8) == ["-b-1-#..", "-a-1#..."]


def test_an_accent_of_its_own_takes_no_column() -> None:
    (row,) = packed([Bar(0, "------#", 6, "le\N{COMBINING ACUTE ACCENT}-1")], 8, empty=".")
    assert row == ["-", "l", "e\N{COMBINING ACUTE ACCENT}", "-", "1", "-", "#", "."]


def test_the_average_frost_is_marked_where_nothing_stands() -> None:
    assert "".join(with_frosts(list("..--.."), [1, 2, None, 5])) == ".|--.|"


def chart(*beds: ChartRow, **changes: Any) -> SeasonChart:
    """Return a chart of 1 June to 9 July, so that at 60 cells a column is a day."""
    made = SeasonChart(
        title="TEST PLOT",
        what="   season 2026",
        caption="Mon 1 Jun.",
        days=DateSpan(JUNE, june(39)),
        weekday="Mon",
        heads=(),
        odds=(),
        frosts=(None, None),
        beds=beds,
        names=(tuple(each.name for each in beds), ()),
        bench=(),
        table=(),
        ends=(),
        trays=False,
    )
    return replace(made, **changes)


def bed(name: str, *bars: ChartBar, below: str = "") -> ChartRow:
    return ChartRow(name=name, bars=bars, below=below, free=(), wanted=())


def lines(of: SeasonChart, width: int = 60) -> list[str]:
    return list(plain(rendered([of], width)))


def head(name: str, *marks: ChartMark) -> ChartHead:
    return ChartHead(name=name, marks=marks, is_odds=False)


def test_a_chart_from_its_title_to_what_its_signs_mean() -> None:
    other = replace(stands(10, 45), name="b-1", ended="")
    of = chart(
        bed("Long 1", stands(5, 20, (15, 20)), other, below="4 m²"),
        bed("Gate"),  # nothing stands in it
        heads=(head("today", ChartMark("v", DateSpan(june(7), june(7)))), head("too hot")),
        frosts=(june(3), None),
        ends=(("*", "frost ends it"),),
    )
    rule = "---------+-------------------------------------"
    assert lines(of, 47) == [
        "TEST PLOT   season 2026",
        "Mon 1 Jun. A column is 1 day.",
        "",
        "       June                          July",
        "Mon t… 1      8      15     22     29     6",
        "today        v",
        rule,
        "Long 1 ..|.-a-1------#####*....................",
        "4 m²   ..|......-b-1-------------------------->",
        rule,
        ". empty  - in the bed  # picking",
        "* frost ends it  > stands on  | average frost",
        "frost in 100: years with a frost still to come",
        "(spring), already come (autumn)",
    ]
    assert "* frost ends it  > stands on  | average frost" in lines(of, 45)
    assert "* frost ends it  > stands on" in lines(of, 44)
    named = replace(of, title="T" * 34)
    assert lines(named, 48)[0] == "T" * 34 + "   season 2026"
    assert lines(named, 47)[0] == "T" * 32 + "…   season 2026"
    assert lines(of, 46)[1] == "Mon 1 Jun. A column is 2 days."
    assert lines(of, 46)[7] == "Long 1 .|-a-1-##*..........."


def test_below_the_beds_stand_the_trays_and_what_is_on_the_table() -> None:
    trays = (replace(stands(3, 12), name="1"), replace(stands(10, 15), name="2"))
    wanted = (
        ChartWant(met=Met.LESS, first=june(10), beyond=june(20)),
        ChartWant(met=Met.ENOUGH, first=june(20), beyond=june(24)),
        ChartWant(met=Met.SOME, first=june(60), beyond=june(70)),  # beyond what is shown
    )
    kale = replace(bed("kale", stands(1, 30, (20, 25))), wanted=wanted)
    only = replace(bed("pea"), wanted=wanted[:1])  # wanted, and never picked
    of = chart(
        bed("North bed", stands(-4, 20, (15, 20))),
        bench=(bed("lettuce", *trays),),
        table=(kale, bed("yam", stands(1, 30, (10, 12))), bed("none", stands(1, 30)), only),
        trays=True,
    )
    assert [each.rstrip() for each in lines(of, 80)[5:]] == [
        "-" * 50,
        "North bed <a-1----------#####*....................",
        "-" * 50,
        "BENCH  in trays, by series; the number is the wav…",
        "lettuce     1oooooooo",
        "                   2oooo",
        "-" * 50,
        "ON THE TABLE  what is picked; under it, if it is…",
        "yam                ##",
        "kale                         #####",
        "  wanted           !!!!!!!!!!++++",
        "pea",
        "  wanted           !!!!!!!!!!",
        "-" * 50,
        ". empty  - in the bed  # picking  o in trays  < since before  + what is wanted",
        "= half of it or more  ! less than half",
    ]
    none = replace(of, table=(bed("bean", stands(1, 30, (10, 12))),), trays=False)
    assert "ON THE TABLE  what is picked; a blank is a gap" in lines(none, 80)
    assert "in trays  <" not in " ".join(lines(none, 80))


@pytest.mark.parametrize(
    ("bed_name", "other", "width", "label"),
    [
        # 40 columns of a day each and one space; names of beds have their room first.
        ("Long 1", "lettuce", 47, 6),
        ("Long 1", "lettuce", 48, 7),
        ("Long 1", "lettuce", 80, 7),
        ("Long 1", "a kind of squash 1", 99, 16),  # 16 at the most, from 100 cells on 24
        ("Long 1", "a kind of squash 1", 100, 18),
        ("Long 1", "l" * 30, 100, 24),
        ("a bed of seventeen", "l", 99, 16),
        ("a bed of seventeen", "l", 45, 15),  # never more than a third
    ],
)
def test_names_have_the_room_that_is_left_at_the_same_scale(
    bed_name: str, other: str, width: int, label: int
) -> None:
    of = chart(bed(bed_name, stands(5, 20)), names=((bed_name,), (other,)))
    (row,) = (each for each in lines(of, width) if "a-1" in each)
    assert row[label] == " "
    assert row[label + 1 :].startswith(".")
    assert "." not in row[: label + 1]


@pytest.mark.parametrize(
    ("below", "rows"),
    [
        ("4 m²", ["Bed 10  4 m²", ""]),  # beside the name, as long as a label has room
        ("14 m²", ["Bed 10", "14 m²"]),
    ],
)
def test_the_size_of_a_bed_stands_beside_its_name_or_below(below: str, rows: list[str]) -> None:
    of = chart(bed("Bed 10", stands(5, 20), stands(10, 22), below=below), names=(("x" * 12,), ()))
    assert [each[:12].rstrip() for each in lines(of, 80)[6:8]] == rows
    alone = chart(bed("Bed 10", stands(5, 20), below="14 m²"), names=(("x" * 12,), ()))
    assert lines(alone, 80)[6][:12].rstrip() == "Bed 10"
    assert lines(alone, 80)[7].startswith("---")


@pytest.mark.parametrize(("beds", "heads"), [(41, 1), (42, 2), (82, 2), (83, 3)])
def test_the_head_is_said_again_after_forty_rows(beds: int, heads: int) -> None:
    named = [bed(f"Plot {n:02}", stands(5, 20)) for n in range(beds)]
    assert [each[:7] for each in lines(chart(*named))].count("Mon the") == heads


def test_in_markdown_the_chart_is_tables_of_its_days() -> None:
    wanted = (ChartWant(met=Met.LESS, first=june(10), beyond=june(20)),)
    kale = bed("kale", stands(1, 30, (20, 25)), stands(1, 30, (10, 12)), stands(1, 30))
    of = chart(
        bed("Long 1", replace(stands(5, 20, (15, 20)), note="frost")),
        heads=(
            head("too hot", ChartMark("~", DateSpan(june(7), june(9)))),
            replace(
                head("frost in 100", ChartMark("50", DateSpan(june(3), june(3)))), is_odds=True
            ),
        ),
        odds=(
            ChartOdds(day=june(3), share=0.504, coming=True),
            ChartOdds(day=june(30), share=0.9, coming=False),
        ),
        bench=(bed("lettuce", replace(stands(3, 12), name="1")),),
        table=(replace(kale, wanted=wanted),),
    )
    rows = [each for each in markdown_page([of]).splitlines() if each.startswith("| ")]
    assert [each for each in rows if "---" not in each] == [
        "| season | days |",
        "| too hot | 7–9 Jun |",
        "| frost still to come | 50 in 100 on 3 Jun |",
        "| frost already come | 90 in 100 on 30 Jun |",
        "| bed | what | in from | picked | out on | ended by |",
        "| Long 1 | a-1 | 5 Jun | 15–19 Jun | 20 Jun | frost |",
        "| what | days |",
        "| lettuce | 1: 3–11 Jun |",
        "| what | days |",
        "| kale | 10–11 Jun, 20–24 Jun |",
        "| kale, wanted | 10–19 Jun less than half |",
    ]
