"""Tables in the terminal: which layout they take at a width, one cell less, and what stands in it.

The widths are added up by hand: every column as wide as its widest text, and the gaps between.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from sowtide.report.blocks import (
    AbreastTable,
    Block,
    Cells,
    Counted,
    DatedRow,
    DatedTable,
    FigureList,
    FigureRow,
    Group,
    GroupedTable,
    Listing,
    ListingRow,
    MeasuredRow,
    MeasuredTable,
    Span,
    Style,
    Sum,
    Table,
    TrailingTable,
    line,
    plain,
)
from sowtide.report.formats.terminal.render import rendered


def drawn(of: Block, width: int) -> str:
    return "".join(f"{each}\n" for each in plain(rendered([of], width)))


BEDS = Table(
    "BED",
    (Cells("plants", 9, right=True), Cells("free from")),
    (
        ("Long 1", ("60", "20 Jul")),
        ("Orchard", ("5", ("1 Aug", Style.BAD))),
        ("Gate", ("", "")),
    ),
)
AS_WIDE_AS_ASKED = """\
BED         plants  free from
Long 1          60  20 Jul
Orchard          5  1 Aug
Gate
"""
AS_WIDE_AS_ITS_TEXTS = """\
BED      plants  free from
Long 1       60  20 Jul
Orchard       5  1 Aug
Gate
"""
CLOSE_TOGETHER = """\
BED     plants free from
Long 1      60 20 Jul
Orchard      5 1 Aug
Gate
"""
BELOW_THE_NAMES = """\
  plants  free from
Long 1
      60  20 Jul
Orchard
       5  1 Aug
Gate
"""
BELOW_AND_CLOSE = """\
  plants free from
Long 1
      60 20 Jul
Orchard
       5 1 Aug
Gate
"""
ONE_AFTER_ANOTHER = """\
Long 1
  plants 60,
  free from 20 Ju
  l
Orchard
  plants 5,
  free from 1 Aug
Gate
"""


@pytest.mark.parametrize(
    ("widest", "narrowest", "said"),
    [
        (99, 29, AS_WIDE_AS_ASKED),  # 7 + 2 + 9 + 2 + 9
        (28, 26, AS_WIDE_AS_ITS_TEXTS),  # 7 + 2 + 6 + 2 + 9
        (25, 24, CLOSE_TOGETHER),  # 7 + 1 + 6 + 1 + 9
        (23, 19, BELOW_THE_NAMES),  # 2 + 6 + 2 + 9
        (18, 18, BELOW_AND_CLOSE),  # 2 + 6 + 1 + 9
        (17, 17, ONE_AFTER_ANOTHER),
    ],
)
def test_a_table_gives_up_room_step_by_step_and_never_a_text(
    widest: int, narrowest: int, said: str
) -> None:
    assert drawn(BEDS, widest) == said
    assert drawn(BEDS, narrowest) == said


def test_a_row_without_a_name_takes_no_line_for_it() -> None:
    of = replace(BEDS, rows=(("Long 1", ("60", "20 Jul")), ("", ("", "no room"))))
    assert drawn(of, 19).splitlines()[1:] == ["Long 1", "      60  20 Jul", "          no room"]
    assert all(each.strip() for each in drawn(of, 17).splitlines())


FROSTS = GroupedTable(
    Cells("at", 6, right=True),
    (
        Group("LAST FROST", (Cells("early", 6, right=True), Cells("late", 6, right=True))),
        Group("FIRST FROST later", (Cells("early", 6, right=True),)),
    ),
    ((" 0 C", ("1 May", "9 May", "1 Oct")), ("-2 C", ("2 Apr", "9 Apr", "1 Nov"))),
)


def test_groups_stand_beside_each_other_as_long_as_the_title_of_the_last_has_room() -> None:
    # "LAST FROST" begins over "early", at cell 8, and ends at 18; "FIRST FROST later" would begin
    # at 22, over the label that begins there, and ends at 39.
    beside = """\
        LAST FROST    FIRST FROST later
    at  early   late  early
   0 C  1 May  9 May  1 Oct
  -2 C  2 Apr  9 Apr  1 Nov
"""
    below = """\
       LAST FROST
    at  early   late
   0 C  1 May  9 May
  -2 C  2 Apr  9 Apr
       FIRST FROST later
    at  early
   0 C  1 Oct
  -2 C  1 Nov
"""
    assert drawn(FROSTS, 39) == beside
    assert drawn(FROSTS, 38) == below


@pytest.mark.parametrize(
    ("title", "head"),
    [
        # The second group's label begins at cell 22: a title of 12 leaves the least of space.
        ("LAST FROST 1", "        LAST FROST 1  FIRST"),
        ("LAST FROST 12", "        LAST FROST 12   FIRST"),  # pushed aside, three cells behind
        ("LAST FROST 12345", "        LAST FROST 12345   FIRST"),
    ],
)
def test_a_title_that_would_touch_the_next_pushes_it_aside(title: str, head: str) -> None:
    first, second = FROSTS.groups
    of = replace(FROSTS, groups=(replace(first, title=title), replace(second, title="FIRST")))
    assert drawn(of, 60).splitlines()[0] == head


def test_a_table_of_groups_is_at_least_as_wide_as_its_columns() -> None:
    first, second = FROSTS.groups
    of = replace(FROSTS, groups=(first, replace(second, title="F")))
    assert drawn(of, 27).count("\n") == 4  # 6 + 3 × (1 + 6)
    assert drawn(of, 26).count("\n") == 8


TRAYS = TrailingTable(
    ("SEEDLINGS", "many", "ready", "for"),
    (
        ("bush-bean-1", ("60", "10 Aug"), ("Long 1, 10 Aug", Style.PLAIN)),
        ("kale-2", ("5", "1 Aug"), ("stand by for a gap that comes", Style.DIM)),
    ),
)


@pytest.mark.parametrize(
    ("width", "said"),
    [
        (
            56,  # 11 + 2 + 4 + 2 + 6 + 2 = 27, and the longer text behind it has 29
            """\
SEEDLINGS    many   ready  for
bush-bean-1    60  10 Aug  Long 1, 10 Aug
kale-2          5   1 Aug  stand by for a gap that comes
""",
        ),
        (
            55,
            """\
SEEDLINGS    many   ready  for
bush-bean-1    60  10 Aug  Long 1, 10 Aug
kale-2          5   1 Aug
  stand by for a gap that comes
""",
        ),
        (
            40,  # 20 are kept behind the names for what else there is, gaps included: 10 are left
            """\
SEEDLINGS   many   ready  for
bush-be…-1    60  10 Aug  Long 1, 10 Aug
kale-2         5   1 Aug
  stand by for a gap that comes
""",
        ),
        (
            38,  # the title is never cut
            """\
SEEDLINGS  many   ready  for
bush-b…-1    60  10 Aug
  Long 1, 10 Aug
kale-2        5   1 Aug
  stand by for a gap that comes
""",
        ),
    ],
)
def test_what_has_no_room_behind_a_row_of_seedlings_stands_below_it(width: int, said: str) -> None:
    assert drawn(TRAYS, width) == said


def dated(name: str, days: tuple[str, ...], judged: tuple[str | Span, ...], where: str) -> DatedRow:
    return DatedRow(
        name=name,
        days=tuple((day, Style.PLAIN) for day in days),
        judged=judged,
        place=line(where),
        said=line(f"{judged[-1]}, in {where}"),
    )


DATES = DatedTable(
    titles=("sow", "plant out", "first pick"),
    judged_titles=("odds", "any", "days", "verdict"),
    of_years=False,
    longest=11,
    rows=(
        dated("bush-bean-1", ("16 Jul", "", "5–14 Sep"), ("83", "90", "12", "good"), "Long 1"),
        dated("kale-2", ("1 Aug", "29 Aug", ""), ("7", "9", "2", "poor"), "Long 1, Gate"),
    ),
)
IN_ONE_ROW = """\
wave            sow        plant out       first pick  odds   any   days  verdict      bed
bush-bean-1  16 Jul                          5–14 Sep    83    90     12  good         Long 1
kale-2        1 Aug           29 Aug                      7     9      2  poor         Long 1, Gate
"""
PLACE_BELOW = """\
wave            sow        plant out       first pick  odds   any   days  verdict      bed
bush-bean-1  16 Jul                          5–14 Sep    83    90     12  good         Long 1
kale-2        1 Aug           29 Aug                      7     9      2  poor
             Long 1, Gate
"""
VERDICT_BELOW = """\
wave            sow        plant out       first pick
bush-bean-1  16 Jul                          5–14 Sep
  good, in Long 1
kale-2        1 Aug           29 Aug
  poor, in Long 1, Gate
"""
NAMES_ABOVE = """\
       sow        plant out       first pick
bush-bean-1
    16 Jul                          5–14 Sep
  good, in Long 1
kale-2
     1 Aug           29 Aug
  poor, in Long 1, Gate
"""
DAYS_IN_WORDS = """\
bush-bean-1
  sow 16 Jul, first pick 5–14 Sep
  good, in Long 1
kale-2
  sow 1 Aug, plant out 29 Aug
  poor, in Long 1, Gate
"""


@pytest.mark.parametrize(
    ("widest", "narrowest", "said"),
    [
        # 11 of the name; days of 6, 15 and 15; odds of 4, 4, 5 and 11; two before each and before
        # the bed: 87. The longer bed has 12, and 10 are the least that beds must have.
        (140, 99, IN_ONE_ROW),
        (98, 97, PLACE_BELOW),
        (96, 53, VERDICT_BELOW),  # 11 + 8 + 17 + 17
        (52, 44, NAMES_ABOVE),  # 2 + 8 + 17 + 17
        (43, 43, DAYS_IN_WORDS),
    ],
)
def test_a_plan_gives_up_room_step_by_step_and_never_a_day(
    widest: int, narrowest: int, said: str
) -> None:
    assert drawn(DATES, widest) == said
    assert drawn(DATES, narrowest) == said


@pytest.mark.parametrize(
    ("longest", "of_years", "least"),
    [
        (11, False, 97),
        (11, True, 101),  # a share of years takes 8 in place of 4
        (24, False, 110),
        (25, False, 110),  # names have 24 at the most
        (2, False, 90),  # and 4 at the least, for what stands over them
    ],
)
def test_how_wide_the_screen_must_be_for_a_wave_to_have_one_row(
    longest: int, of_years: bool, least: int
) -> None:
    rows = tuple(replace(each, name=f"k-{n}") for n, each in enumerate(DATES.rows))
    of = replace(DATES, longest=longest, of_years=of_years, rows=rows)
    assert "verdict" in drawn(of, least)
    assert "verdict" not in drawn(of, least - 1)


def test_a_longer_name_stands_above_its_days_and_days_of_next_year_take_the_room_of_none() -> None:
    name = "an-extraordinarily-long-1"
    first = replace(DATES.rows[0], name=name)
    year = replace(first, days=(("16 Jul 2027", Style.PLAIN), *first.days[1:]))
    for rows in ((first,), (DATES.rows[1], first), (first, DATES.rows[1])):
        assert rows[0].name in drawn(replace(DATES, longest=25, rows=rows), 80).splitlines()
    assert drawn(replace(DATES, longest=25, rows=(first,)), 80).splitlines()[:2] == [
        "       sow        plant out       first pick",
        name,
    ]
    assert drawn(replace(DATES, longest=25, rows=(year,)), 80).splitlines()[:3] == [
        "            sow       first pick",
        name,
        "    16 Jul 2027         5–14 Sep",
    ]
    both = drawn(replace(DATES, longest=25, rows=(year, DATES.rows[1])), 80).splitlines()
    assert both[0] == "            sow        plant out       first pick"
    sowing = replace(DATES, titles=("sowing", *DATES.titles[1:]))  # of six cells, as a day has
    assert drawn(sowing, 53).splitlines()[0].startswith("wave         sowing        plant out")


def test_a_place_of_one_style_keeps_it_in_its_cell() -> None:
    bad = replace(DATES.rows[0], place=line(("no room", Style.BAD)))
    two = replace(DATES.rows[0], place=line("Long 1, ", ("no room", Style.BAD)))
    _, first, second = rendered([replace(DATES, rows=(bad, two))], 120)
    assert ("no room", Style.BAD) in first.spans
    assert all(style is not Style.BAD for _, style in second.spans)


LAST_DAYS = AbreastTable(
    ("crop", "80 %", "50 %"),
    tuple(
        (crop, f"{n} Jul", f"{n} Aug")
        for n, crop in enumerate(("bean", "kale", "beet", "leek", "garlic"), start=1)
    ),
)


def test_last_days_stand_in_as_many_blocks_as_have_room() -> None:
    # 6 + 9 + 9 are 24, and four between two blocks.
    two = """\
crop       80 %     50 %    crop       80 %     50 %
bean      1 Jul    1 Aug    leek      4 Jul    4 Aug
kale      2 Jul    2 Aug    garlic    5 Jul    5 Aug
beet      3 Jul    3 Aug
"""
    assert drawn(LAST_DAYS, 52) == two
    assert drawn(LAST_DAYS, 51).splitlines()[:2] == [
        "crop       80 %     50 %",
        "bean      1 Jul    1 Aug",
    ]
    assert drawn(LAST_DAYS, 24).splitlines()[-1] == "garlic    5 Jul    5 Aug"
    assert drawn(LAST_DAYS, 23).splitlines()[-1] == "garl…    5 Jul    5 Aug"


@pytest.mark.parametrize(("rows", "blocks"), [(1, 1), (4, 1), (5, 2), (8, 2), (9, 3)])
def test_no_block_of_last_days_is_begun_for_fewer_than_four(rows: int, blocks: int) -> None:
    named = tuple((f"c{n}", "1 Jul") for n in range(rows))
    text = drawn(AbreastTable(("crop", "80 %"), named), 200)
    assert text.splitlines()[0].count("crop") == blocks
    assert [text.count(f"c{n} ") for n in range(rows)] == [1] * rows


def test_of_the_longest_name_36_are_shown() -> None:
    of = AbreastTable(("crop", "80 %"), (("c" * 36, "1 Jul"), ("d" * 37, "2 Jul")))
    assert drawn(of, 120).splitlines()[1:] == [
        "c" * 36 + "    1 Jul",
        "d" * 35 + "…    2 Jul",
    ]


CROPS = Listing(
    (("days", True), ("started", False)),
    (
        (
            "bean family",
            (
                ListingRow("bush bean", ("50", "direct"), "green bean, snap bean, string bean"),
                ListingRow("runner bean, scarlet", ("60", "trays")),
            ),
        ),
    ),
)


@pytest.mark.parametrize(
    ("width", "first", "second"),
    [
        # Two and a name of 20, 2 + 4, 2 + 7, and two before its other names: 39. Those have 34.
        (73, "  bush bean               50  direct   green bean, snap bean, string bean", ""),
        (72, "  bush bean               50  direct   green bean, snap bean, …", ""),
        (63, "  bush bean               50  direct   green bean, snap bean, …", ""),
        (62, "  bush bean               50  direct", ""),
        (37, "  bush bean               50  direct", "  runner bean, scarlet    60  trays"),
        (36, "  bush bean              50  direct", "  runner bean, scarlet"),
        (31, "  bush bean         50  direct", "  runner bean, scarlet"),  # 16 for names
        (30, "  bush bean", "      50  direct"),
        (17, "  bush bean", "      50  direct"),
        (16, "  bush bean", "     50 direct"),
    ],
)
def test_a_name_in_a_list_stands_beside_its_figures_where_it_has_room(
    width: int, first: str, second: str
) -> None:
    _, group, *rows = drawn(CROPS, width).splitlines()
    assert group == "bean family"
    assert rows[0] == first
    assert second in ("", rows[1])


def test_a_group_without_a_name_is_indented_as_the_others_are() -> None:
    of = replace(CROPS, groups=(*CROPS.groups, ("", (ListingRow("kale", ("7", "trays")),))))
    assert drawn(of, 40).splitlines()[-1] == "  kale                     7  trays"


def test_a_list_without_groups_is_not_indented() -> None:
    of = Listing((("days", True),), (("", (ListingRow("bean", ("50",), "haricot"),)),))
    assert (
        drawn(of, 36) == "      days\nbean    50  haricot\n"
    )  # 4 + 2 + 4 + 2, and 24 for the rest
    assert drawn(of, 35) == "      days\nbean    50\n"
    assert drawn(of, 10) == "      days\nbean    50\n"
    assert drawn(of, 9) == "  days\nbean\n    50\n"


FIGURES = FigureList(
    "TIMES",
    "",
    (
        FigureRow(
            label="days to harvest",
            key="days_to_harvest",
            said=("50–60 days", Style.PLAIN),
            origin="[1]",
            below=("built in: 46",),
        ),
    ),
)


def test_where_a_figure_is_from_stands_behind_it_two_cells_apart_or_below() -> None:
    head, below = "days to harvest           50–60 days", " " * 28 + "built in: 46"
    assert drawn(FIGURES, 50).splitlines() == ["", "TIMES", f"{head}           [1]", below]
    assert drawn(FIGURES, 41).splitlines() == ["", "TIMES", f"{head}  [1]", below]
    assert drawn(FIGURES, 40).splitlines() == ["", "TIMES", head, " " * 37 + "[1]", below]


def test_figures_without_a_title_begin_at_once_and_long_ones_hang_under_their_column() -> None:
    said = ("fifty to sixty days", Style.PLAIN)
    of = replace(FIGURES, title="", rows=(replace(FIGURES.rows[0], said=said),))
    assert drawn(of, 37).splitlines() == [
        "days to harvest           fifty to",
        " " * 26 + "sixty days",
        " " * 34 + "[1]",
        " " * 28 + "built in:",
        " " * 28 + "46",
    ]
    whole = replace(FIGURES, origin="[2]")
    assert drawn(whole, 50).splitlines()[1] == "TIMES" + "[2]".rjust(45)


def test_a_sum_has_a_row_for_each_step_with_the_day_it_reaches() -> None:
    steps = (
        Counted("", "Thu 16 Jul", "sown", "garden.yaml:20"),
        Counted("+52", "Sun 6 Sep", "days to harvest, the early end of what is written", "[1]"),
    )
    of = Sum("first pick, early", "Sun 6 Sep", steps)
    assert drawn(of, 80).splitlines() == [
        "first pick, early             Sun 6 Sep",
        "           Thu 16 Jul  sown" + "garden.yaml:20".rjust(53),
        "    +52  = Sun 6 Sep   days to harvest, the early end of what is written"
        + " " * 5
        + "[1]",
    ]
    long = replace(of, title="the first pick of all in that warmer bed", steps=())
    assert drawn(long, 80) == "the first pick of all in that warmer bed  Sun 6 Sep\n"
    for title, gap in (("t" * 27, 3), ("t" * 28, 2), ("t" * 29, 2)):
        assert drawn(replace(long, title=title), 80) == f"{title}{' ' * gap}Sun 6 Sep\n"


def test_where_a_step_is_from_begins_no_further_left_than_its_words() -> None:
    step = Counted("+52", "Sun 6 Sep", "days to harvest", "Extension table of days, 1998")
    head = "    +52  = Sun 6 Sep   days to harvest"
    assert drawn(Sum("t", "d", (step,)), 69).splitlines()[1:] == [f"{head}  {step.origin}"]
    assert drawn(Sum("t", "d", (step,)), 68).splitlines()[1:] == [head, f"{'':39}{step.origin}"]
    assert drawn(Sum("t", "d", (step,)), 50).splitlines()[2].startswith(" " * 23 + "Extension")


def test_what_the_file_calls_a_figure_is_shown_from_110_cells_on() -> None:
    figure = "days to harvest           days_to_harvest   50–60 days"
    assert drawn(FIGURES, 110).splitlines()[2] == figure + " " * 53 + "[1]"
    assert "days_to_harvest" not in drawn(FIGURES, 109)


@pytest.mark.parametrize(
    ("width", "head", "row"),
    [
        # A name of 26, two columns of 6 or 5, and 6 for the number of the source.
        (44, "at °F                         50    59", "days until it is up           16    11"),
        (43, "at °F                        50   59", "days until it is up          16   11"),
        (42, "at °F                        50   59", "days until it is up          16   11"),
        (41, "at °F             50   59", "days until it…    16   11"),
    ],
)
def test_figures_by_temperature_move_together_where_room_is_short(
    width: int, head: str, row: str
) -> None:
    of = MeasuredTable(
        (("at °F", ("50", "59")),), (MeasuredRow("days until it is up", ("16", "11"), "[1]", None),)
    )
    assert drawn(of, width).splitlines() == [head, row + "[1]".rjust(width - len(row))]
    noted = replace(of, rows=(replace(of.rows[0], note="measured"),))
    assert drawn(noted, width).splitlines()[2:] == [" " * (28 if width > 41 else 17) + "measured"]
