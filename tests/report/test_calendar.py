"""The season calendar in the terminal: whole screens, and what must hold of any season."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from types import SimpleNamespace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import gardens
from factory import LONG, WIDE, bean, bed, entry, lettuce, season, wave
from printed import calendar_text
from sowtide.climate.answers import EndedBy
from sowtide.days import DateSpan, DayRange, GrowingYear
from sowtide.garden.model import Bed, Garden
from sowtide.report.blocks import ChartBar, ChartMark, SeasonChart
from sowtide.report.calendar import view
from sowtide.report.calendar.free_view import StillFree, gaps_of
from sowtide.report.calendar.last_days_view import last_days_of
from sowtide.report.calendar.page import page
from sowtide.report.calendar.wave_bars import bar_of
from sowtide.report.formats.terminal.cells import cells
from sowtide.report.formats.terminal.chart_bars import Bar, bed_bar, packed, tray_bar
from sowtide.report.formats.terminal.chart_scale import (
    Scale,
    marks_over,
    months_over,
    scale_for,
    weeks_over,
)
from sowtide.report.kinds import FromTo
from sowtide.schedule.season import Season
from sowtide.schedule.waves.conditions import Conditions
from sowtide.schedule.waves.wave import Stand, Verdict, Wave

SQUASH = bean(name="squash", kind="squash", days_to_harvest=DayRange(45, 50))
GARLIC = bean(
    name="garlic",
    kind="garlic",
    days_to_harvest=DayRange(270, 280),
    picking_days=1,
    worthwhile_days=7,
    holding_days=DayRange(7, 14),
    overwinters=True,
)
"""Hand-made crops with round figures; no source."""

SCREEN = """\
HERON LANE PLOT   season 2026: 3 beds, 5 waves
Wed 15 Jul: what comes later is forecast. Average frosts: last 8 May,
first 2 Oct. A column is 3 days.

                May        June      July      Aug       Sept      Oct
Mon the      20  4    18   1   15   29   13  27   10   24  7    21   5
frost in 100  90   50  10                                      10   50  90
today                                    v
-------------------+------------------------------------------------+-----
Long 1       ......|...-squash-1------#########...-lettuce-1-----###|.....
4 x 20 ft    ......|..........................-squash-2------#######*.....
Long 2       <garlic-1-----------------######.....-lettuce-1-----###|.....
-------------------+------------------------------------------------+-----
BENCH  in trays, by series; the number is the wave's
lettuce                                  1oooooooo
-------------------+------------------------------------------------+-----
ON THE TABLE  what is picked; a blank is a gap
squash                                #########              #######
garlic                                 ######
lettuce                                                          ###
-------------------+------------------------------------------------+-----
. empty  - in the bed  # picking  o in trays  * frost ends it  < since before
| average frost
frost in 100: years with a frost still to come (spring), already come (autumn)

LAST DAYS TO PLANT  sure 80  even 50  late 20   sow by
squash               21 Jul   28 Jul    3 Aug
lettuce plants       30 Jul    8 Aug   17 Aug    2 Jul

NO ROOM: squash-3 (20 Aug)
LESS THAN SURE: squash-2 (chancy, 61 in 100)
GAPS on the table: squash 30 Jul – 11 Sep
STILL FREE: Long 1 (80 ft²) now, Long 2 (80 ft²) now
NOTHING IN: Gate

"""


def small_garden() -> Season:
    """Two beds in use and one not; a wave of each fate."""
    squash = entry(SQUASH, plants=4)
    chancy = {"verdict": Verdict.CHANCY, "odds": 0.61, "ended_by": EndedBy.FROST}
    here = (Stand(LONG, 4),)
    return with_beds(
        season(
            wave(of=squash, plant=date(2026, 5, 20), stands=here),
            wave(of=squash, plant=date(2026, 7, 29), number=2, stands=here, **chancy),
            wave(of=squash, plant=date(2026, 8, 20), number=3, stands=()),
            wave(GARLIC, plant=date(2025, 10, 11), stands=(Stand(WIDE, 60),), end=None),
            wave(lettuce(), plant=date(2026, 8, 10), stands=(Stand(LONG, 40), Stand(WIDE, 20))),
        )
    )


def with_beds(made: Season) -> Season:
    """Return the season with a third bed."""
    return replace(made, garden=replace(made.garden, beds=(LONG, WIDE, bed("Gate"))))


def screen(made: Season, width: int = 80) -> str:
    """Return the calendar as it is piped."""
    return "\n".join(calendar_text(made, width)) + "\n"


def days_shown(made: Season) -> DateSpan:
    """Return the days that the calendar shows."""
    days = view(made).days
    return DateSpan(days.from_, days.to)


def rows_of(text: str, name: str) -> list[str]:
    """Return the chart rows of a bed without their labels; the label column is 12 wide."""
    lines = text.splitlines()
    first = next(number for number, each in enumerate(lines) if each.startswith(f"{name} "))
    rows = [lines[first][13:]]
    for each in lines[first + 1 :]:
        if each[:12].strip() not in ("", "4 x 20 ft"):
            break
        rows.append(each[13:])
    return rows


def test_the_calendar_of_a_small_garden_at_80_columns() -> None:
    text = screen(small_garden())
    assert text.startswith(SCREEN)
    rest = " ".join(text.removeprefix(SCREEN).split())
    assert rest.startswith("Rests on two average frost dates")


def test_a_wider_screen_shows_fewer_days_in_a_column() -> None:
    made = small_garden()
    assert [
        scale_for(days_shown(made), columns=columns).step for columns in (30, 67, 107, 300)
    ] == [7, 3, 2, 1]


def test_eight_months_get_about_half_a_week_a_column_at_80() -> None:
    made = season(wave(plant=date(2026, 3, 15)), wave(plant=date(2026, 9, 20), end=None))
    # 15 March to the last pick, 20 September + 60 + 21 days = 10 December: 271 days.
    assert scale_for(days_shown(made), columns=67).step == 5
    made = season(wave(plant=date(2026, 3, 15)), wave(plant=date(2026, 8, 20), end=None))
    # … to 20 August + 81 days = 9 November: 240 days over 66 columns.
    assert scale_for(days_shown(made), columns=67).step == 4


def test_the_head_names_months_and_mondays_at_their_columns() -> None:
    scale = Scale(date(2026, 6, 1), 3, 24)
    assert months_over(scale) == "June      July      Aug"
    # Every other Monday, 14 days = 4 2/3 columns: 1, 15, 29 June, 13, 27 July, 10 August.
    assert weeks_over(scale) == "1   15   29   13  27"


def test_a_column_shows_its_middle_day() -> None:
    scale = Scale(date(2026, 6, 1), 4, 10)
    assert [scale.middle(column) for column in (0, 1)] == [date(2026, 6, 3), date(2026, 6, 7)]
    for offset, column in ((0, 0), (2, 0), (3, 1), (6, 1), (7, 2)):
        assert scale.start(date(2026, 6, 1) + timedelta(days=offset)) == column


def test_a_stretch_shorter_than_a_column_is_still_drawn() -> None:
    scale = Scale(date(2026, 6, 1), 4, 10)
    assert scale.stretch(date(2026, 6, 4), date(2026, 6, 5)) == (1, 2)
    assert scale.stretch(date(2026, 5, 1), date(2026, 6, 1)) is None
    assert scale.stretch(date(2026, 7, 11), date(2026, 8, 1)) is None


def test_hot_weeks_and_what_heat_ends_are_marked() -> None:
    hot = DateSpan(date(2026, 7, 1), date(2026, 8, 15))
    made = small_garden()
    site = replace(made.garden.site, too_hot=hot)
    made = in_climate(made, replace(made.garden, site=site))
    made = replace(made, waves=(replaced_end(made.waves[0], EndedBy.HEAT), *made.waves[1:]))
    text = screen(made)
    # 20 April + 24 columns of 3 days = 1 July; 46 days are 15 columns and a third.
    assert "too hot      " + " " * 24 + "~" * 15 in text
    assert "-squash-1------#########~" in text
    assert "~ heat ends it" in text
    assert marks_over(Scale(date(2026, 6, 1), 1, 3), ()) == ""


def test_a_place_without_frost_says_so() -> None:
    made = small_garden()
    site = replace(made.garden.site, frost=())
    text = screen(in_climate(made, replace(made.garden, site=site)))
    assert "No frost here." in text
    assert "|" not in text
    assert "frost, of 10" not in text
    assert "No frost ends squash." in text
    assert "lettuce plants" in text  # the short days do


def test_a_wave_that_stands_on_into_the_next_year_runs_out_at_the_edge() -> None:
    made = season(wave(GARLIC, plant=date(2026, 11, 1), stands=(Stand(WIDE, 60),), end=None))
    assert days_shown(made).last == date(2026, 11, 15)  # two weeks of it, not all of its winter
    text = screen(made)
    assert rows_of(text, "Long 2")[0].endswith(">")
    assert "> stands on" in text


def test_a_name_without_room_in_its_bar_stands_beside_it() -> None:
    long = Bar(12, "--##", 2, "radish-1")
    assert drawn([long], 20) == [".. radish-1 --##...."]
    assert drawn([Bar(1, "--##", 2, "radish-1")], 20) == [".--## radish-1 ....."]
    assert drawn([Bar(9, "--##", 2, "radish-1")], 20) == ["radish-1 --##......."]
    assert drawn([Bar(2, "--##", 2, "a" * 30)], 20) == ["..--## " + "a" * 12 + "…"]
    assert drawn([Bar(14, "--##", 2, "a" * 30)], 20) == ["a" * 12 + "… --##.."]
    assert drawn([Bar(2, "--##", 2, "a" * 30 + "-12")], 20) == ["..--## aaaaaaaaa…-12"]


def test_waves_share_a_row_only_where_neither_bars_nor_names_touch() -> None:
    first, second = Bar(0, "-----##", 5, "a-1"), Bar(7, "-----##", 5, "a-2")
    assert drawn([second, first], 16) == ["-a-1-##-a-2-##.."]
    assert drawn([first, Bar(6, "-----##", 5, "a-2")], 16) == [
        "-a-1-##.........",
        "......-a-2-##...",
    ]
    assert drawn([first, Bar(9, "--##", 2, "a-2")], 16) == [
        "-a-1-##.........",
        ".... a-2 --##...",
    ]


def test_wide_characters_take_two_columns_of_their_bar() -> None:
    row = packed([Bar(1, "------#", 6, "豆-1")], 10, empty=".")[0]
    assert "".join(row) == ".-豆-1-#.."
    assert cells("".join(row)) == len(row) == 10


def test_two_crops_of_one_kind_share_a_row_on_the_table() -> None:
    day = date(2026, 5, 20)
    one, other = bean(name="early bean"), bean(name="late bean")
    both = screen(season(wave(one, plant=day), wave(other, plant=day)))
    assert "\nbush bean " in both
    assert "\nearly bean " not in both.partition("LAST DAYS")[0]
    assert "\nearly bean " in screen(season(wave(one, plant=day))).partition("LAST DAYS")[0]


def test_a_long_calendar_repeats_its_head() -> None:
    beds = tuple(bed(f"Plot {n}") for n in range(120))
    waves = tuple(
        wave(plant=date(2026, 5, 20), number=n, stands=(Stand(each, 60),))
        for n, each in enumerate(beds)
    )
    made = season(*waves)
    made = replace(made, garden=replace(made.garden, beds=beds))
    heads = [each for each in screen(made).splitlines() if each.startswith("Mon the ")]
    assert len(heads) == 3
    assert len(set(heads)) == 1


def test_many_waves_in_a_list_are_counted_in_the_end() -> None:
    waves = tuple(wave(plant=date(2026, 6, 1), number=n, stands=()) for n in range(1, 43))
    text = " ".join(screen(season(*waves)).split())
    assert "bush-bean-30 (1 Jun), and 12 more" in text
    assert "bush-bean-31" not in text


def test_the_calendar_south_of_the_equator_begins_in_its_own_spring() -> None:
    made = small_garden()
    year = GrowingYear(2025, south=True)
    shifted = replace(made.garden, year=year)
    waves = (wave(plant=date(2025, 11, 10), end=None),)
    made = replace(made, garden=shifted, waves=waves, today=date(2025, 12, 1))
    text = screen(made)
    assert "season 2025–26" in text
    assert "Nov" in text
    assert "Jan" in text


def in_climate(made: Season, grown: Garden) -> Season:
    """Return the season with another garden and what follows from its site."""
    from sowtide.climate.choose import climate_of

    climate = climate_of(grown.site, grown.year)
    return replace(made, garden=grown, conditions=Conditions(climate, grown.site, grown.year))


def replaced_end(of: Wave, ended_by: EndedBy) -> Wave:
    """Return a wave that something else ends."""
    return replace(of, judged=replace(of.judged, ended_by=ended_by))


def drawn(bars: Sequence[Bar], columns: int) -> list[str]:
    """Return bars as the rows they are drawn in."""
    return ["".join(row) for row in packed(bars, columns, empty=".")]


CROPS = (bean(), lettuce(), SQUASH, bean(name="an extraordinarily long name of a crop", kind="x"))
PLANTINGS = st.lists(
    st.tuples(
        st.sampled_from(CROPS),
        st.dates(date(2026, 4, 1), date(2026, 8, 20)),
        st.sampled_from(((LONG,), (WIDE,), (LONG, WIDE), ())),
    ),
    min_size=1,
    max_size=12,
)


def planted(plantings: list[tuple[object, date, tuple[object, ...]]]) -> Season:
    """Return a season of random plantings, numbered as they come."""
    waves = [
        wave(crop, plant=day, number=n, stands=tuple(Stand(each, 30) for each in beds))  # type: ignore[arg-type]
        for n, (crop, day, beds) in enumerate(plantings, start=1)
    ]
    return season(*waves)


@given(PLANTINGS, st.integers(min_value=60, max_value=140))
@settings(max_examples=60, deadline=None)
def test_no_line_is_too_wide_and_every_wave_is_named(
    plantings: list[tuple[object, date, tuple[object, ...]]], width: int
) -> None:
    made = planted(plantings)
    text = screen(made, width)
    assert all(cells(each) <= width for each in text.splitlines())
    for each in made.waves:
        for stand in each.stands:
            # A name that has room neither in its bar nor beside it is cut, but keeps its number.
            stem, _, number = each.id.rpartition("-")
            row = "\n".join(rows_of(text, stand.bed.name))
            assert re.search(rf"{stem[:8]}[^ .|#]*-{number}(?!\d)", row)
        if not each.stands:
            assert f"{each.id} (" in " ".join(text.split())


@given(PLANTINGS, st.integers(min_value=60, max_value=140))
@settings(max_examples=60, deadline=None)
def test_every_picking_stands_in_the_rows_of_its_beds_and_nowhere_else(
    plantings: list[tuple[object, date, tuple[object, ...]]], width: int
) -> None:
    made = planted(plantings)
    text = screen(made, width)
    scale = scale_for(days_shown(made), columns=width - 13)
    for plot in (LONG, WIDE):
        here = [w for w in made.waves if any(stand.bed == plot for stand in w.stands)]
        if not here:
            continue
        wanted = sum(picked_columns(each, scale) for each in here)
        assert sum(row.count("#") for row in rows_of(text, plot.name)) == wanted


@given(PLANTINGS, st.integers(min_value=60, max_value=140))
@settings(max_examples=60, deadline=None)
def test_a_bar_covers_every_column_whose_middle_day_finds_the_wave_in_its_bed(
    plantings: list[tuple[object, date, tuple[object, ...]]], width: int
) -> None:
    made = planted(plantings)
    scale = scale_for(days_shown(made), columns=width - 13)
    said = {each.id: each for each in view(made).waves}
    for each in (each for each in made.waves if each.stands):
        bar = bed_bar(bar_of(said[each.id]), scale)
        assert bar is not None
        stands = [n for n in range(scale.columns) if each.stands_on(scale.middle(n))]
        assert stands == list(range(bar.first, bar.first + len(bar.body.rstrip("*~"))))
        stages = each.stages
        tray = tray_bar(ChartBar(str(each.number), stages.sow.day, stages.plant.day), scale)
        assert (tray is not None) == each.from_trays
        if tray is not None:
            assert tray.first + len(tray.body) == bar.first


def picked_columns(of: Wave, scale: Scale) -> int:
    """Count the columns whose middle day is a picking day; a picking has at least one."""
    stages = of.stages
    if stages.first_pick is None or stages.last_pick is None:
        return 0
    first, last = stages.first_pick[0].day, stages.last_pick.day
    return max(sum(first <= scale.middle(n) <= last for n in range(scale.columns)), 1)


@pytest.mark.parametrize("width", [40, 50])
def test_a_narrow_screen_holds_too(width: int) -> None:
    assert all(cells(each) <= width for each in screen(small_garden(), width).splitlines())


def test_odds_stand_only_where_odds_are_what_is_wrong() -> None:
    def said(verdict: Verdict, odds: float) -> str:
        text = " ".join(screen(season(wave(verdict=verdict, odds=odds))).split())
        return text.partition("LESS THAN SURE: bush-bean-1 ")[2].partition(")")[0] + ")"

    assert said(Verdict.TOO_EARLY, 0.999) == "(too early)"
    assert said(Verdict.TOO_HOT, 0.999) == "(too hot)"
    assert said(Verdict.CHANCY, 0.64) == "(chancy, 64 in 100)"
    assert said(Verdict.TOO_LATE, 0.2) == "(too late, 20 in 100)"


def test_waves_that_may_bolt_are_listed_near_those_less_than_sure() -> None:
    made = season(
        wave(verdict=Verdict.CHANCY),
        wave(number=2, may_bolt=True),
        wave(number=3, may_bolt=True),
        wave(number=4, may_bolt=True, stands=()),
        wave(number=5, may_bolt=True, plant=date(2026, 3, 1)),
    )
    lines = screen(made).splitlines()
    at = next(n for n, each in enumerate(lines) if each.startswith("LESS THAN SURE"))
    assert lines[at + 1] == "MAY BOLT: bush-bean-2, bush-bean-3"
    assert "MAY BOLT" not in screen(season(wave()))


def test_plants_from_trays_have_a_day_to_be_sown_by() -> None:
    lines = screen(small_garden()).splitlines()
    at = next(n for n, each in enumerate(lines) if each.startswith("LAST DAYS"))
    assert lines[at : at + 3] == [
        "LAST DAYS TO PLANT  sure 80  even 50  late 20   sow by",
        "squash               21 Jul   28 Jul    3 Aug",
        # 28 nursery days before 30 July
        "lettuce plants       30 Jul    8 Aug   17 Aug    2 Jul",
    ]
    assert "sow by" not in screen(season(wave()))


def test_a_crop_has_the_growers_own_name_everywhere() -> None:
    kind = "leaf lettuce"
    plain_one = lettuce(name="lettuce", kind=kind)
    frilly = lettuce(name="frilly lettuce", kind=kind, variety="frilly red")
    day = date(2026, 8, 1)
    text = screen(season(wave(frilly, plant=day), wave(plain_one, plant=day)))
    table, _, last = text.partition("LAST DAYS")
    assert "\nlettuce      " in table.partition("ON THE TABLE")[2]
    assert kind not in text
    assert "frilly red" not in text
    assert "\nfrilly lettuce plants " in last
    both = (lettuce(name="oak salad", kind=kind), lettuce(name="red salad", kind=kind))
    assert f"\n{kind} " in screen(season(*(wave(each, plant=day) for each in both)))


def test_last_days_are_those_of_the_ground_the_crop_stands_on() -> None:
    hoops, pit = bed("Hoops", cover=3.0), bed("Pit", colder_by=2.0)
    day = date(2026, 6, 20)

    def said(*beds: Bed) -> tuple[str, str]:
        places = [(Stand(each, 60),) for each in beds]
        waves = [wave(plant=day, number=n, stands=at) for n, at in enumerate(places, start=1)]
        made = season(*waves)
        grown = replace(made.garden, beds=(LONG, WIDE, hoops, pit))
        text = screen(replace(made, garden=grown)).partition("LAST DAYS")[2]
        row = next(each for each in text.splitlines() if each.startswith("bush bean "))
        note = next((each for each in text.splitlines() if each.startswith("* ")), "")
        return " ".join(row.split()[2:]), note

    open_ground, nothing = said(LONG)
    assert nothing == ""
    assert said(LONG, hoops) == (open_ground, "")
    warm, note = said(hoops, hoops)
    assert warm.startswith("* ")
    assert date_of(warm.split()[1:3]) > date_of(open_ground.split()[0:2])
    assert note == "* bush bean: under cover, as in Hoops, 5.4 °F warmer than the site."
    cold, note = said(pit)
    assert date_of(cold.split()[1:3]) < date_of(open_ground.split()[0:2])
    assert note == "* bush bean: as in Pit, 3.6 °F colder than the site."


def test_crops_on_the_same_ground_are_named_together() -> None:
    hoops = bed("Hoops", cover=3.0)
    here = (Stand(hoops, 20),)
    made = season(wave(stands=here, plant=date(2026, 6, 20)), wave(SQUASH, stands=here))
    grown = replace(made.garden, beds=(hoops,))
    text = screen(replace(made, garden=grown))
    assert "* bush bean, squash: under cover, as in Hoops, 5.4 °F warmer than the site." in text


def date_of(text: list[str]) -> date:
    """Return the day of a growing year that is written ``18 Jul``."""
    months = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
    return date(2026, months.index(text[1]) + 1, int(text[0]))


def test_a_name_in_a_bar_leaves_the_first_of_it_to_see() -> None:
    assert drawn([Bar(0, "--------##", 8, "radish-6")], 20) == ["--------## radish-6 "[:20]]
    assert drawn([Bar(0, "---------##", 9, "radish-6")], 20) == ["-radish-6##........."]
    assert drawn([Bar(0, "<--------##", 9, "radish-6")], 20) == ["<radish-6##........."]


def test_a_name_behind_a_bar_stays_apart_from_the_next_bar() -> None:
    first, second = Bar(0, "-----##", 5, "lettuce-1"), Bar(18, "-----##", 5, "b-1")
    assert drawn([first, second], 26) == ["-----## lettuce-1 -b-1-##."]
    assert drawn([first, replace(second, first=17)], 26) == [
        "-----## lettuce-1 ........",
        ".................-b-1-##..",
    ]


@pytest.mark.parametrize("day", [date(2025, 6, 1), date(2027, 2, 1)])
def test_a_day_of_another_year_says_that_the_file_plans_another(day: date) -> None:
    text = " ".join(screen(replace(small_garden(), today=day)).split())
    assert f"Seen on {day.day} {day:%b} {day.year}, but the file plans 2026" in text
    assert f"`season: {day.year}`" in text
    assert "what comes later is forecast" not in text
    assert "the file plans" not in screen(small_garden())


def test_odds_of_frost_never_touch_and_the_average_stays() -> None:
    """The curve's 50 and 10 % days lie 14 days apart, at 4 days a column 3 or 4 columns."""
    fifty = date(2026, 5, 8)
    marks = [
        ChartMark(sign, DateSpan(day, day))
        for sign, day in (
            ("50", fifty),
            ("10", fifty + timedelta(days=14)),
            ("90", fifty - timedelta(days=14)),
        )
    ]
    first = date(2026, 4, 1)
    assert marks_over(Scale(first, 4, 20), marks) == "     90  50 10"
    assert marks_over(Scale(first, 7, 12), marks) == "     50"


def test_gaps_on_the_table_lie_between_two_pickings_of_a_kind_and_are_not_over() -> None:
    def picked(kind: str, first: tuple[int, int], last: tuple[int, int]) -> SimpleNamespace:
        days = (date(2026, *first), date(2026, *last))
        return SimpleNamespace(kind=kind, picked=(FromTo(*days),))

    waves = [
        picked("bean", (7, 1), (7, 20)),
        picked("bean", (6, 25), (7, 5)),
        picked("bean", (7, 28), (8, 10)),  # 21 to 27 July: seven days
        picked("bean", (8, 17), (8, 30)),  # 11 to 16 August: six
        picked("kale", (5, 1), (5, 5)),
        picked("kale", (6, 1), (6, 30)),  # over on the day it is looked at
        SimpleNamespace(kind="bean", picked=()),
    ]
    found = list(gaps_of(waves, date(2026, 7, 15)))
    assert [(gap.kind, gap.from_, gap.to) for gap in found] == [
        ("bean", date(2026, 7, 21), date(2026, 7, 27))
    ]
    assert len(list(gaps_of(waves, date(2026, 5, 20)))) == 2


def test_the_table_has_each_stand_each_tray_and_each_space() -> None:
    from sowtide.report import REPORTS

    of = season()
    report, shown = REPORTS["calendar"], view(of)
    assert report.rows is not None
    found = [(row["part"], row.get("bed"), row.get("wave")) for row in report.rows.of(shown)]
    wanted = [("bed", stand.bed.name, each.id) for each in of.waves for stand in each.stands]
    wanted += [("trays", None, each.id) for each in of.waves if each.from_trays]
    wanted += [("free", each.bed, None) for each in shown.free]
    assert found == wanted
    assert {part for part, _, _ in wanted} >= {"bed", "trays"}


def test_what_is_still_free_is_named_with_what_would_be_safe_there() -> None:
    """Long is free all summer, Kept from 20 September on: no fruit of 64 days is safe then."""
    beds = ["{bed: Long, size: 1 x 10}", "{bed: Kept, size: 1 x 10, taken: 05-01..09-19}"]
    of = gardens.season(gardens.text(beds=beds), date(2026, 6, 10))
    text = " ".join(" ".join(calendar_text(of)).split())
    expected = (
        "STILL FREE, and what would be safe there: Long (10 m²) now: fruit, "
        "Kept (10 m²) from 20 Sep"
    )
    assert expected in text.replace("\N{NO-BREAK SPACE}", " ")
    assert [each.would_fit for each in view(of).free] == [("fruit",), ()]
    without = " ".join(calendar_text(gardens.season(gardens.text(beds=beds[1:]), of.today)))
    assert "STILL FREE: Kept" in without.replace("\N{NO-BREAK SPACE}", " ")


def test_of_many_spaces_only_those_that_are_named_are_looked_at() -> None:
    beds = [f"{{bed: B{number}, size: 1 x 10}}" for number in range(13)]
    of = gardens.season(gardens.text(beds=beds), date(2026, 6, 10))
    assert [each.would_fit for each in view(of).free] == [("fruit",)] * 12 + [None]
    text = " ".join(" ".join(calendar_text(of)).split()).replace("\N{NO-BREAK SPACE}", " ")
    assert "safe there: B0 to B11 (10 m² each) now: fruit, and 1 more" in text
    assert "NOTHING IN: B0 to B12" in text


def test_what_frost_may_take_in_flower_is_not_said_to_be_ended_by_none() -> None:
    # A mild south sows broad beans to the end of its growing year, 30 June; those of April are
    # worth growing in 87 years of 100, since frosts take some of their flowers
    south = (
        "{last: 09-20, first: 05-20, normals: {max: [25, 25, 23, 20, 17, 14, 13, 14, 16, 18, 20,"
        " 23], min: [13, 13, 12, 9, 7, 5, 4, 5, 6, 8, 9, 11]}}"
    )
    file = gardens.text(
        gardens.wave("broad bean", start="2027-04-15"),
        gardens.wave("corn salad", start="2027-03-15"),
        crops=["broad bean: {}", "corn salad: {}"],
        frost=south,
        latitude=-37.0,
    )
    found = last_days_of(gardens.season(file), (0.8,))
    assert "broad bean" not in found.endless
    assert next((each.crop, each.days[0]) for each in found.crops) == (
        "broad bean",
        date(2027, 6, 30),
    )


def test_free_space_of_a_bed_is_added_up_from_each_day_to_the_next_on_which_it_changes() -> None:
    # Free on 16 July 4 m2, from 1 August 6 m2 more; the first is taken on 20 August, the second
    # from 10 September on, and from 20 September 5 m2 are free to the end.
    made = gardens.season(gardens.text(gardens.wave(start="06-01")), date(2026, 7, 16))
    whole = view(made)

    def free(first: date, until: date | None, area: int) -> StillFree:
        return replace(whole.free[0], bed="Long", from_=first, until=until, area=area * 10**12)

    spaces = (
        free(date(2026, 7, 1), date(2026, 8, 20), 4),
        free(date(2026, 8, 1), date(2026, 9, 10), 6),
        free(date(2026, 9, 20), None, 5),
        replace(free(date(2026, 8, 1), None, 9), bed="Other"),
    )
    (chart,) = (each for each in page(replace(whole, free=spaces)) if isinstance(each, SeasonChart))
    (long,) = (each for each in chart.beds if each.name == "Long")
    assert [(space.said, space.first, space.beyond) for space in long.free] == [
        ("4\u00a0m²", date(2026, 7, 16), date(2026, 8, 1)),
        ("10\u00a0m²", date(2026, 8, 1), date(2026, 8, 20)),
        ("6\u00a0m²", date(2026, 8, 20), date(2026, 9, 10)),
        ("5\u00a0m²", date(2026, 9, 20), chart.days.last + timedelta(days=1)),
    ]
