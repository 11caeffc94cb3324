"""Lists to tick off and boxes by weekday: what stands where, as room gets short.

A line is the code, the box, the day, the place, the work and the name, each with its gap, then how.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from sowtide.report.blocks import (
    Checklist,
    ChecklistGroup,
    ChecklistItem,
    Grid,
    GridRow,
    line,
    plain,
)
from sowtide.report.formats.terminal.cells import cells
from sowtide.report.formats.terminal.render import rendered


def drawn(of: Checklist, width: int) -> list[str]:
    return list(plain(rendered([of], width)))


SOW = ChecklistItem("k7", "Thu 16", "Long 1", "sow", "bush-bean-4", line("80 seeds, 12 ft, good"))
PULL = ChecklistItem("p1", "Fri 17", "Gate", "pull out", "kale-2", line("60 plants"))
GROUP = ChecklistGroup(
    title="LONG 1",
    items=(SOW, PULL),
    place=True,
    verb=True,
    day=True,
    note=None,
    block="",
)


def items(width: int, *of: ChecklistItem, **changes: bool) -> list[str]:
    """Return the lines of one group without its title."""
    return drawn(Checklist((replace(GROUP, items=of or GROUP.items, **changes),)), width)[1:]


def test_columns_stand_under_one_another() -> None:
    assert items(80) == [
        " k7 [ ] Thu 16  Long 1  sow       bush-bean-4  80 seeds, 12 ft, good",
        " p1 [ ] Fri 17  Gate    pull out  kale-2       60 plants",
    ]


@pytest.mark.parametrize(
    ("left_out", "first"),
    [
        ("place", " k7 [ ] Thu 16  sow       bush-bean-4  80 seeds, 12 ft, good"),
        ("verb", " k7 [ ] Thu 16  Long 1  bush-bean-4  80 seeds, 12 ft, good"),
        ("day", " k7 [ ] Long 1  sow       bush-bean-4  80 seeds, 12 ft, good"),
    ],
)
def test_what_the_title_says_is_not_said_again(left_out: str, first: str) -> None:
    assert items(80, **{left_out: False})[0] == first


@pytest.mark.parametrize(
    ("width", "said"),
    [
        # 16 before the place, 7 + 1 of it, 9 + 1 of the work and 12 + 1 of the name are 47: from 73
        # on there are 26 for how.
        (
            73,
            [
                " k7 [ ] Thu 16  Long 1  sow       bush-bean-4  80 seeds, 12 ft, good; or",
                " " * 47 + "later",
            ],
        ),
        (
            72,
            [
                " k7 [ ] Thu 16  Long 1  sow       bush-bean-4: 80 seeds, 12 ft, good; or",
                " " * 16 + "later",
            ],
        ),
        (
            40,  # 14 before it, that 26 may stay
            [
                " k7 [ ] Thu 16  Long 1  sow      ",
                " " * 14 + "bush-bean-4: 80 seeds, 12",
                " " * 14 + "ft, good; or later",
            ],
        ),
    ],
)
def test_how_hangs_behind_the_name_while_there_is_room_for_it(width: int, said: list[str]) -> None:
    longer = replace(SOW, words=line("80 seeds, 12 ft, good; or later"))
    assert items(width, longer, PULL)[: len(said)] == said


@pytest.mark.parametrize(
    ("name", "said"),
    [
        # Names have 16 cells at 80, and as many of a list of waves as go into them.
        ("summer-squash-12", ["sow  summer-squash-12  4 ft"]),
        ("summer-squash-1, -2", ["sow  summer-squash-1,  4 ft", "     -2"]),
        ("kale-1, -2, -3, -4", ["sow  kale-1, -2, -3,   4 ft", "     -4"]),
        (
            "summer-squash-1, summer-squash-12",
            ["sow  summer-squash-1,  4 ft", "     summer-squash-12"],
        ),
        # What would be left for the second line is too long for it: it stays as it is.
        (
            "kale-1, -2, -3, -4, -5, -6, -7, -8, -9",
            ["sow  kale-1, -2, -3, -4, -5, -6, -7, -8, -9: 4 ft"],
        ),
        ("an-odd-squash-123", ["sow  an-odd-squash-123 4 ft"]),  # one name is never parted
    ],
)
def test_a_list_of_waves_too_long_for_its_column_goes_on_below(name: str, said: list[str]) -> None:
    before = " k7 [ ] Thu 16  Long 1  "
    found = items(80, replace(SOW, name=name, words=line("4 ft")))
    assert found == [before + said[0], *(" " * len(before) + each for each in said[1:])]


def test_a_list_of_waves_that_fits_its_column_is_not_parted() -> None:
    of = replace(SOW, name="kale-1, -2", words=line("4 ft"))
    found = items(80, of, replace(of, name="summer-squash-12"))
    assert found[0] == " k7 [ ] Thu 16  Long 1  sow  kale-1, -2        4 ft"
    assert len(found) == 2


def test_the_second_line_of_a_name_and_of_how_are_one_line() -> None:
    long = line("80 seeds, 12 ft of row, good; last safe day Sat 18 Jul")
    found = items(80, replace(SOW, name="summer-squash-1, -2", words=long))
    assert found == [
        " k7 [ ] Thu 16  Long 1  sow  summer-squash-1,  80 seeds, 12 ft of row, good;",
        "                             -2                last safe day Sat 18 Jul",
    ]


def test_a_wider_screen_has_room_for_longer_places_and_names() -> None:
    # Places have 14 cells at 80 and one more for each four that it is wider; a longer one moves
    # what stands behind it on its own line alone.
    gate = replace(SOW, code="g1", place="Gate", words=line("x"))
    for cells_of, width, own, gap in (
        (14, 80, 2, 12),
        (15, 83, 1, 12),
        (15, 84, 2, 13),
        (16, 84, 1, 13),
        (16, 88, 2, 14),
    ):
        place = "P" * cells_of
        found = items(width, replace(SOW, place=place, words=line("x")), gate)
        assert found[0].startswith(f" k7 [ ] Thu 16  {place}{' ' * own}sow")
        assert found[1].startswith(f" g1 [ ] Thu 16  Gate{' ' * gap}sow")


def test_a_note_stands_below_its_title() -> None:
    note = line("two in five of these are late by now")
    assert drawn(Checklist((replace(GROUP, note=note, items=()),)), 30) == [
        "LONG 1",
        " two in five of these are late",
        "      by now",
    ]


def hills(number: int) -> list[ChecklistGroup]:
    return [
        replace(
            GROUP,
            title=f"HILL {n}",
            items=(replace(SOW, code=f"a{n}", place=f"Hill {n}"),),
            block="Hill",
        )
        for n in range(number)
    ]


def titles(*parts: ChecklistGroup | Grid) -> list[str]:
    return [each for each in drawn(Checklist(parts), 80) if "[ ]" not in each]


def test_of_more_than_fifteen_groups_those_of_one_block_stand_under_one_title() -> None:
    assert titles(*hills(14), GROUP) == [*(f"HILL {n}" for n in range(14)), "LONG 1"]
    assert titles(*hills(15), GROUP) == ["HILL", "LONG 1"]
    alone = [replace(GROUP, title=f"B{n}") for n in range(15)]
    assert titles(*alone, *hills(1)) == [*(f"B{n}" for n in range(15)), "HILL 0"]
    apart = [*hills(2), GROUP, *hills(13)]  # only what follows each other
    assert titles(*apart) == ["HILL", "LONG 1", "HILL"]
    found = drawn(Checklist((*hills(15), GROUP)), 80)
    assert found[1].startswith(" a0  [ ] Thu 16  0   sow       bush-bean-4  80 seeds")
    assert found[15].startswith(" a14 [ ] Thu 16  14  sow  ")
    assert found[17].startswith(" k7  [ ] Thu 16  Long 1   sow  ")


PICK = GridRow(
    code="c3",
    name="bush-bean-1",
    place="Long 1",
    boxes=(True, False, False, True, False, False, True),
    until="to 8 Aug",
    amount="3 lb",
    note=None,
    closed=(),
)
GRID = Grid(
    title="PICK",
    days=("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"),
    rows=(PICK,),
    today=None,
)
DAYS = "Mon Tue Wed Thu Fri Sat Sun"
BOXES = "[ ]         [ ]         [ ]  to 8 Aug"


def grid(of: Grid, width: int) -> list[str]:
    return drawn(Checklist((of,)), width)


def test_boxes_stand_under_their_days_and_today_is_marked() -> None:
    name = " c3 bush-bean-1 Long 1 "
    assert grid(GRID, 80) == ["PICK".ljust(len(name)) + DAYS, f"{name}{BOXES}  3 lb"]
    for today in (0, 3, 6):
        marked = grid(replace(GRID, today=today), 80)[1]
        assert marked == " today".ljust(len(name)) + "    " * today + " v"


def test_an_amount_without_room_behind_its_row_stands_below_it() -> None:
    # 23 before the boxes, 27 of them, 10 of the last day, 6 of the amount.
    assert grid(GRID, 66)[1].endswith("to 8 Aug  3 lb")
    assert grid(GRID, 65)[1:] == [f" c3 bush-bean-1 Long 1 {BOXES}", "      3 lb"]
    assert grid(replace(GRID, rows=(replace(PICK, amount=None),)), 66)[1].endswith("to 8 Aug")


def test_a_day_that_is_closed_is_crossed_and_a_note_hangs_below() -> None:
    closed = (False, True, True, False, False, False, False)
    noted = replace(PICK, closed=closed, note=line("wash it; the spray of Monday is on it"))
    assert grid(replace(GRID, rows=(noted,)), 66)[1:] == [
        " c3 bush-bean-1 Long 1 [ ]  x   x  [ ]         [ ]  to 8 Aug  3 lb",
        "    wash it; the spray of Monday is on it",
    ]


def rows(*named: tuple[str, str]) -> Grid:
    return replace(
        GRID,
        rows=tuple(replace(PICK, name=name, place=place, amount=None) for name, place in named),
    )


@pytest.mark.parametrize(
    ("width", "names"),
    [
        # Beside the boxes and their gaps, 43, and the code, 2, there are the rest: the name has
        # three fifths of it at the least, the place what is left.
        (73, " c3 summer-squash-1 Orchard strip "),
        (72, " c3 summer-squash-1 Orchard str… "),
        (65, " c3 summer-sq…-1 Orchard… "),
    ],
)
def test_names_and_places_are_cut_where_boxes_need_the_room(width: int, names: str) -> None:
    found = grid(rows(("summer-squash-1", "Orchard strip")), width)
    assert found[1] == names + BOXES
    assert all(cells(each) <= width for each in found)


def test_rows_of_a_grid_stand_under_one_another() -> None:
    more = replace(PICK, code="c10", name="kale-1", place="Orchard", amount=None)
    assert grid(replace(GRID, rows=(PICK, more), today=0), 80) == [
        f"PICK                     {DAYS}",
        " today                    v",
        f" c3  bush-bean-1 Long 1  {BOXES}  3 lb",
        f" c10 kale-1      Orchard {BOXES}",
    ]


@pytest.mark.parametrize(
    ("width", "places", "names"),
    [
        # 52 - 43 - 2 leave 7: 4 for the name and 3 for the place, in which both are "No…".
        (52, ("North bed A", "North bed B"), ("su…-1", "su…-2")),
        # 8: 4 and 4, in which the last two characters alone would fill the cells.
        (53, ("東の畑のうね", "東の畑のみぞ"), ("sum…-1", "sum…-2")),
    ],
)
def test_places_that_would_look_alike_stand_below(
    width: int, places: tuple[str, str], names: tuple[str, str]
) -> None:
    of = rows(("summer-squash-1", places[0]), ("summer-squash-2", places[1]))
    assert grid(of, width) == [
        "PICK".ljust(len(f" c3 {names[0]}   ")) + DAYS,
        f" c3 {names[0]}   {BOXES}",
        f"    {places[0]}",
        f" c3 {names[1]}   {BOXES}",
        f"    {places[1]}",
    ]


def test_places_told_apart_by_their_ends_stay_beside() -> None:
    of = rows(("summer-squash-1", "North bed A"), ("summer-squash-2", "North bed B"))
    found = grid(of, 53)
    assert found[1:] == [f" c3 s…-1 N… A {BOXES}", f" c3 s…-2 N… B {BOXES}"]
