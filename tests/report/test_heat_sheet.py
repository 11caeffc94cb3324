"""The sheet of a week of heat, in every form: what to do first, and what is only proposed."""

from __future__ import annotations

import csv
import io
import json
from datetime import date

import pytest

import gardens
import printed
from gardens import crop, leaf, wave
from sowtide.report.formats.csv import table
from sowtide.report.week import REPORT, WeekView, view
from sowtide.report.week.view import COLUMNS, rows
from sowtide.schedule.planning import with_high
from sowtide.schedule.season import Season
from sowtide.schedule.work import week_sheets
from tended import garden_with, season_with

MONDAY = date(2026, 7, 13)
FEED = "name: dry feed, do: feed, on: fruit, from: 07-15, every: 20, amount: 30 g per plant"
CROPS = (
    crop(flower_to_pick="10", fruit_set_high="33", soil_max="32", pick_gap="2"),
    crop("late", raised="trays", nursery_days="28-30", hardening_days="7"),
    leaf(days_to_harvest="30", picking_days="10"),
)
WAVES = (
    wave(start="06-01"),
    wave(start="07-18", name="next"),
    wave("leaf", start="06-08"),
    wave("late", start="07-17"),
)


def sheet_of(high: float | None, weeks: int = 1) -> WeekView:
    """Return the week of 13 July with a forecast."""
    season: Season = season_with(garden_with(FEED, waves=WAVES, crops=CROPS, fall_allowance="0"))
    if high is not None:
        season = with_high(season, MONDAY, high)
    sheets = week_sheets(
        season.garden, season.waves, MONDAY, weeks=weeks, care=season.care, today=MONDAY
    )
    return view(sheets, season, high=high)


@pytest.fixture(scope="module")
def hot() -> WeekView:
    return sheet_of(36.0)


@pytest.mark.parametrize("width", range(40, 100, 4))
def test_no_line_of_the_heat_begins_with_a_unit(hot: WeekView, width: int) -> None:
    lines = printed.page(REPORT, hot, width=width)
    assert not [each for each in lines if each.strip().startswith("°")]


def test_the_sheet_of_the_heat_stands_before_that_of_the_week(hot: WeekView) -> None:
    lines = printed.page(REPORT, hot)
    heads = ("PICK NOW", "THEN WATER", "SOW IN THE COOL", "PICK")
    found = [line.split("  ")[0] for line in lines]
    assert [head for head in found if head in heads] == list(heads)
    text = " ".join(" ".join(lines).split())
    assert "TEST PLOT HEAT, UP TO 36 °C 13–19 Jul" in text
    assert "leaf-1 before it bolts or turns bitter" in text
    assert "in the evening, into a wetted row; shade it till it is up; it cannot wait" in text
    assert (
        "NOT IN THIS HEAT: dry feed in Long, next Mon 20 Jul; plant out late-1 (Fri 17 Jul): "
        "cannot wait, so in the evening" in text
    )
    assert "little to pick of fruit-1 23–29 Jul (in flower 13–19 Jul)" in text
    assert text.count("In this heat work early and late") == 2  # on each of the two sheets


def test_what_waits_for_the_heat_is_said_once(hot: WeekView) -> None:
    assert [each.why for each in hot.first.not_this_week] == ["the heat"]
    assert "NOT THIS WEEK" not in "\n".join(printed.page(REPORT, hot))


def test_a_program_is_told_all_of_it(hot: WeekView) -> None:
    heat = json.loads(printed.form(REPORT, hot, "json"))["heat"]
    assert (heat["high_c"], heat["from"], heat["to"]) == (36.0, "2026-07-13", "2026-07-19")
    (bed,) = heat["beds"]
    assert (bed["bed"], bed["uncover"]) == ("Long", False)
    assert [(each["wave"], each["action"]) for each in bed["waves"]] == [
        ("fruit-1", "water early"),
        ("leaf-1", "pick now"),
    ]
    (sown,) = heat["sow_in_the_cool"]
    assert (sown["wave"], sown["poor"], sown["until"]) == ("next-1", True, None)
    assert [(each["kind"], each["until"], each["cannot_wait"]) for each in heat["put_off"]] == [
        ("feed", "2026-07-20", False),
        ("plant out", "2026-07-20", True),
    ]
    assert heat["gaps"] == [
        {
            "wave": "fruit-1",
            "flowers_from": "2026-07-13",
            "flowers_to": "2026-07-19",
            "from": "2026-07-23",
            "to": "2026-07-29",
            "ripens_days": 10,
        }
    ]
    assert {task.wait_until for task in hot.first.tasks} == {None}  # what cannot wait does not
    assert json.loads(printed.form(REPORT, sheet_of(None), "json"))["heat"] is None


def test_what_may_wait_says_so_on_its_line_its_row_and_its_event() -> None:
    file = garden_with(waves=(wave("late", start="07-11"),), crops=CROPS).replace("care:\n", "")
    season = season_with(file)
    sheets = week_sheets(season.garden, season.waves, date(2026, 7, 6), weeks=1, today=MONDAY)
    shown = view(sheets, season, high=36.0)
    (task,) = [each for each in shown.first.tasks if each.kind.value == "plant out"]
    assert task.wait_until == MONDAY
    (row,) = [
        each
        for each in csv.DictReader(io.StringIO(table(COLUMNS, rows(shown))))
        if each["kind"] == "plant out"
    ]
    assert (row["due"], row["wait_until"]) == ("2026-07-11", "2026-07-13")  # the plan stays
    page = " ".join(" ".join(printed.page(REPORT, shown)).split())
    assert "water in well; in this heat not before Mon 13 Jul" in page
    assert ": look again Mon 13 Jul" in page
    ics = printed.form(REPORT, shown, "ics").replace("\r\n ", "")
    assert "in this heat not before 2026-07-13" in ics


def test_a_sowing_that_may_wait_says_till_when() -> None:
    early = garden_with(waves=(wave(start="07-15"),), crops=CROPS, fall_allowance="0", sure="50%")
    season = season_with(early.replace("care:\n", ""))
    sheets = week_sheets(season.garden, season.waves, MONDAY, weeks=1, today=MONDAY)
    text = " ".join(" ".join(printed.page(REPORT, view(sheets, season, high=36.0))).split())
    assert "shade it till it is up; or wait till Mon 20 Jul" in text
    assert "in this heat not before Mon 20 Jul" in text


def test_what_is_alike_is_said_together() -> None:
    waves = [wave("late", start="07-14", name=f"w{number}") for number in range(9)]
    pair = (wave(start="06-01"), wave(start="06-01", name="more"))
    beds = ("{bed: Long, size: 1 x 20}",)
    file = garden_with(waves=(*waves, *pair), crops=CROPS, beds=beds).replace("care:\n", "")
    season = season_with(file)
    sheets = week_sheets(season.garden, season.waves, MONDAY, weeks=1, today=MONDAY)
    text = " ".join(" ".join(printed.page(REPORT, view(sheets, season, high=36.0))).split())
    assert "w7-1 (Tue 14 Jul) and 1 more: cannot wait" in text
    assert "little to pick of fruit-1, more-1 23–29 Jul (in flower 13–19 Jul)" in text


def test_the_week_after_is_not_that_hot() -> None:
    both = sheet_of(36.0, weeks=2)
    assert [each.heat is None for each in both.sheets] == [False, True]


def test_a_mild_week_asks_for_nothing() -> None:
    lines = printed.page(REPORT, sheet_of(20.0))
    assert lines[0] == "Up to 20 °C on 13–19 Jul: nothing here needs anything for it."
    assert "HEAT, UP TO" not in "\n".join(lines)


def test_usual_heat_is_cautioned_without_a_forecast() -> None:
    highs = [5, 6, 10, 15, 20, 26, 34, 30, 24, 18, 11, 6]
    lows = [-5, -4, 0, 5, 10, 14, 18, 17, 12, 7, 2, -3]
    frost = f"{{last: 05-10, first: 10-01, normals: {{max: {highs}, min: {lows}}}}}"
    season = season_with(garden_with(FEED, crops=CROPS, frost=frost))
    found = {}
    for first in (date(2026, 7, 20), date(2026, 6, 1)):
        sheets = week_sheets(season.garden, season.waves, first, weeks=1, today=first)
        found[first] = "heat" in view(sheets, season).first.cautions
    assert found == {date(2026, 7, 20): True, date(2026, 6, 1): False}


def test_water_that_is_due_later_is_said_with_both_days_and_each_bed() -> None:
    soak = "name: soak, do: water, on: everything, every: 7, amount: 10 mm"
    file = garden_with(soak, waves=WAVES, crops=CROPS, fall_allowance="0")
    thursday = date(2026, 7, 16)
    season = season_with(file, today=thursday)
    sheets = gardens.sheets(season, MONDAY)
    shown = view(sheets, season, high=36.0)
    text = " ".join(" ".join(printed.page(REPORT, shown)).split())
    assert "WATER SOONER: soak on Thu 16 Jul, not Mon 20 Jul: Long 10 l" in text
    (water,) = json.loads(printed.form(REPORT, shown, "json"))["heat"]["water_now"]
    assert water == {
        "routine": "soak",
        "bed": "Long",
        "waves": ["fruit-1"],
        "due": "2026-07-20",
        "on": "2026-07-16",
        "amount": {"value": 10, "unit": "l"},
    }
