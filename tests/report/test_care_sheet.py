"""Care on the sheet of the week: order, amounts, what is closed to picking, and totals."""

from __future__ import annotations

import csv
import io
import json
from datetime import date, timedelta

import pytest

import gardens
import printed
from gardens import wave
from sowtide.report.formats.csv import table
from sowtide.report.formats.json import document, encoded
from sowtide.report.week import REPORT, WeekView, view
from sowtide.report.week.view import COLUMNS, rows
from sowtide.schedule.planning import with_high
from sowtide.schedule.season import Season
from sowtide.schedule.work import Kind
from tended import garden_with, season_with

MONDAY = date(2026, 7, 20)
"""The fruit of 1 June is picked from 21 July to 3 August, every other day."""

SPRAY = (
    "name: mildew, do: spray, on: fruit, from: 07-22, keep_dry: 24h, "
    "amount: 5 l per 8 m2, mix: 15 ml per 5 l, "
    "label: {days_before_harvest: 3, hours_before_entry: 4}"
)
SOAK = "name: soak, do: water, on: everything, every: 7, amount: 25 mm, minutes: 10"
FEED = (
    "name: dry feed, do: feed, on: fruit, from: 07-20, amount: 30 g per plant, analysis: 3-2-3, "
    "minutes: 1 per plant"
)
LOOK = "name: look, do: scout, on: everything, every: 7"


def week(season: Season, first: date = MONDAY, weeks: int = 1) -> WeekView:
    sheets = gardens.sheets(season, first, weeks)
    return view(sheets, season)


@pytest.fixture(scope="module")
def sheet() -> WeekView:
    waves = (wave(start="06-01", plants="4"), wave("leaf", start="07-06", plants="3"))
    file = garden_with(SPRAY, SOAK, FEED, LOOK, waves=waves)
    return week(season_with(file))


def test_a_day_has_its_work_in_the_order_of_a_walk(sheet: WeekView) -> None:
    (monday,) = [day for day in sheet.first.days if day.date_ == MONDAY]
    assert [task.kind for task in monday.work] == [Kind.SCOUT, Kind.FEED, Kind.WATER]
    (wednesday,) = [day for day in sheet.first.days if day.date_ == date(2026, 7, 22)]
    assert [task.kind for task in wednesday.work] == [Kind.PICK, Kind.SPRAY]
    assert wednesday.work[1].part.value == "evening"


def test_a_wave_is_picked_clean_and_then_not_for_the_days_of_the_label(sheet: WeekView) -> None:
    # planned are 21, 23, 25 July; sprayed on the 22nd: closed 23 - 25, open again on the 26th
    (fruit,) = [each for each in sheet.first.pickings if each.wave == "fruit-1"]
    assert [day.day for day in fruit.days] == [21, 22, 26]
    assert [day.day for day in fruit.closed] == [23, 25]
    assert fruit.blocked_until == date(2026, 7, 26)
    assert [(each.routine, each.on.day) for each in fruit.closed_by] == [("mildew", 22)]


def test_a_program_is_told_amounts_mixes_and_until_when(sheet: WeekView) -> None:
    said = json.loads(document(sheet))
    (spray,) = [task for task in said["tasks"] if task["kind"] == "spray"]
    # 5 l over 8 m2 are 2.5 l over the 4 m2 of 4 plants, with half of 15 ml
    assert spray["amount"] == {"value": 2.5, "unit": "l"}
    assert spray["mix"] == {"value": 7.5, "unit": "ml"}
    assert spray["blocked_until"] == "2026-07-26"
    assert "nobody in for 4 h" in spray["text"]
    assert "read it on the label" not in spray["text"]
    assert spray["cautions"] == ["spray"]
    (pick,) = [task for task in said["tasks"] if task["id"].startswith("fruit-1:pick")]
    assert pick["blocked_until"] == "2026-07-26"
    assert set(said["cautions"]) == {"picking", "feed", "spray"}


def test_of_the_week_after_what_comes_every_week_is_not_told() -> None:
    feed = "name: tea, do: feed, on: fruit, from: 07-13, every: 7"
    told = week(season_with(garden_with(SOAK, LOOK, feed)))
    after = {task.kind for task in told.first.next_week}
    assert "feed" in after
    assert after.isdisjoint({"water", "scout"})
    assert {Kind.WATER, Kind.SCOUT} <= {task.kind for task in told.first.tasks}


@pytest.mark.parametrize(
    ("made_of", "cautions"),
    [
        ("raw manure", ["feed", "manure"]),
        ("composted manure", ["feed", "manure"]),
        ("heat-treated manure", ["feed"]),
        (None, ["feed"]),
    ],
)
def test_manure_that_may_carry_disease_has_its_own_caution(
    made_of: str | None, cautions: list[str]
) -> None:
    made = "" if made_of is None else f", made_of: {made_of}"
    feed = f"name: dung, do: feed, on: fruit, from: 07-20{made}"
    (task,) = [
        task
        for task in json.loads(document(week(season_with(garden_with(feed)))))["tasks"]
        if task["kind"] == "feed"
    ]
    assert task["cautions"] == cautions


@pytest.mark.parametrize(
    ("label", "cautions"),
    [
        ("", ["spray", "no-label"]),
        (", label: {days_before_harvest: 3}", ["spray"]),
        (", label: {hours_before_entry: 4}", ["spray"]),
    ],
)
def test_a_spray_of_which_no_label_is_written_asks_to_read_it(
    label: str, cautions: list[str]
) -> None:
    spray = f"name: oil, do: spray, on: fruit, from: 07-22{label}"
    (task,) = [
        task
        for task in json.loads(document(week(season_with(garden_with(spray)))))["tasks"]
        if task["kind"] == "spray"
    ]
    assert task["cautions"] == cautions
    unread = "days before harvest: read it on the label"
    assert (unread in task["text"]) is ("days_before_harvest" not in label)
    assert ("nobody in for 4 h" in task["text"]) is ("hours_before_entry" in label)


def test_the_totals_are_those_of_all_waves(sheet: WeekView) -> None:
    totals = {each.routine: each for each in sheet.first.totals}
    # 25 mm over 4 + 3 m2; 30 g for each of 4 plants, 3 % of it nitrogen, on 4 m2
    soak, feed = totals["soak"], totals["dry feed"]
    assert (soak.amount and (soak.amount.value, soak.amount.unit)) == (175, "l")
    assert (feed.amount and (feed.amount.value, feed.amount.unit)) == (120, "g")
    assert feed.nitrogen is not None
    assert feed.nitrogen.value == pytest.approx(3.6)
    assert feed.nitrogen_per_area is not None
    assert feed.nitrogen_per_area.value == pytest.approx(0.9)
    assert (soak.minutes, feed.minutes) == (pytest.approx(10), pytest.approx(4))


def test_nitrogen_on_square_feet_is_told_for_a_thousand_of_them() -> None:
    # 20 lb of 5-5-5 on the bed are a pound of nitrogen; 200 plants, each on a square foot, stand on
    # 200 square feet: five times that on a thousand.
    file = (
        "site: {name: P, latitude: 43, units: us, frost: {last: 05-08, first: 10-02}}\n"
        "season: 2026\nbeds: [{bed: North, size: 10 x 20}]\n"
        "crops:\n  bean: {like: bush bean, in_row: 12, between_rows: 12}\n"
        "waves:\n  - {crop: bean, plants: 200, from: 06-01}\n"
        "care:\n  - {name: a, do: feed, on: bean, from: 07-20, amount: 20 lb per bed, "
        "analysis: 5-5-5}\n"
    )
    (total,) = week(season_with(file)).first.totals
    assert total.nitrogen is not None
    assert (total.nitrogen.value, total.nitrogen.unit) == (pytest.approx(1), "lb")
    found = total.nitrogen_per_area
    assert found is not None
    assert (found.value, found.unit) == (pytest.approx(5), "lb per 1000 ft2")


def test_an_amount_of_care_is_told_as_it_is_measured_out() -> None:
    file = (
        "site: {name: P, latitude: 43, units: us, frost: {last: 05-08, first: 10-02}}\n"
        "season: 2026\nbeds: [{bed: North, size: 10 x 20}]\n"
        "waves:\n  - {crop: bush bean, plants: 100, from: 06-01}\n"
        "care:\n  - {name: meal, do: feed, on: bush bean, from: 07-20, amount: 2.25 lb per bed}\n"
    )
    of = season_with(file)
    (sheet,) = gardens.sheets(of, MONDAY)
    text = " ".join(" ".join(printed.week_text(sheet, of)).split())
    assert text.count("2 lb 4 oz") == 2  # beside its day, and in the sum
    assert "2.2 lb" not in text


def test_the_table_has_a_row_for_each_piece_of_care(sheet: WeekView) -> None:
    found = list(csv.DictReader(io.StringIO(table(COLUMNS, rows(sheet)))))
    (spray,) = [row for row in found if row["kind"] == "spray"]
    assert (spray["amount"], spray["unit"], spray["mix"], spray["mix_unit"]) == (
        "2.5",
        "l",
        "7.5",
        "ml",
    )
    assert (spray["waves"], spray["routine"]) == ("fruit-1", "mildew")
    (soak,) = [row for row in found if row["kind"] == "water"]
    assert (soak["wave"], soak["waves"]) == ("", "fruit-1 leaf-1")


def test_the_page_says_it_as_a_grower_would(sheet: WeekView) -> None:
    page = "\n".join(printed.page(REPORT, sheet))
    assert " [ ] [ ]  x       x  [ ]" in page
    assert "x: not picked after mildew on Wed 22 Jul until Sun 26 Jul" in page
    assert "evening: 2.5 l, mildew, 7.5 ml in it" in page
    assert "THIS WEEK: mildew 2.5 l with 7.5 ml; soak 175 l; dry feed 120 g" in page
    assert "About 14 min of care." in page
    assert page.count("Before you spray or dust") == 1


def test_what_a_label_does_not_say_is_to_be_read_there() -> None:
    bare = "name: soap, do: spray, on: fruit, from: 07-22"
    sheet = week(season_with(garden_with(bare)))
    page = "\n".join(printed.page(REPORT, sheet))
    assert "as its label says" in page
    assert "read it on the" in page
    assert "nobody has tested the strength" in page
    assert sheet.first.pickings[0].closed == ()


def test_what_waits_says_why_and_until_when() -> None:
    oil = "name: oil, do: spray, on: fruit, from: 07-20, label: {not_within: {sulfur: 14}}"
    sulfur = "name: sulfur, do: spray, on: fruit, from: 07-21"
    (waits,) = week(season_with(garden_with(oil, sulfur))).first.not_this_week
    assert (waits.routine, waits.asked, waits.until) == (
        "sulfur",
        date(2026, 7, 21),
        date(2026, 8, 3),
    )
    assert waits.why == "14 days from oil"
    nearer = oil.replace("14", "3")  # on the 23rd: put off, and still in this week
    assert week(season_with(garden_with(nearer, sulfur))).first.not_this_week == ()


def test_what_is_overdue_and_has_to_wait_beyond_the_week_is_told_in_it() -> None:
    # Oil on 8 July and every week: the next, of 15 July, is not noted. Sulfur went on on 20 July,
    # and oil is to be 14 days from it: not before 3 August, the last day of the picking.
    oil = (
        "name: oil, do: spray, on: fruit, from: 07-08, every: 7, label: {not_within: {sulfur: 14}}"
    )
    sulfur = "name: sulfur, do: spray, on: fruit, on_demand: some"
    noted = (
        "on: 2026-07-08, wave: fruit-1, did: sprayed, with: oil",
        "on: 2026-07-20, wave: fruit-1, did: sprayed, with: sulfur",
    )
    season = season_with(garden_with(oil, sulfur), *noted, today=date(2026, 7, 22))
    shown = week(season)
    (waits,) = shown.first.not_this_week
    assert (waits.routine, waits.asked, waits.until) == (
        "oil",
        date(2026, 7, 15),
        date(2026, 8, 3),
    )
    assert shown.first.late == ()
    assert Kind.SPRAY not in {task.kind for task in shown.first.tasks}
    text = " ".join(" ".join(printed.page(REPORT, shown)).split())
    assert "NOT THIS WEEK: oil in Long (asked for Wed 15 Jul): 14 days from sulfur, next" in text
    assert week(season, date(2026, 7, 27)).first.not_this_week == ()  # told in the week of today


def test_a_hot_week_holds_off_what_its_label_keeps_from_heat() -> None:
    oil = "name: oil, do: spray, on: fruit, from: 07-22, label: {hottest: 85F}"
    season = season_with(garden_with(oil))
    assert Kind.SPRAY in {task.kind for task in week(season).first.tasks}
    hot = with_high(season, MONDAY, 30.0)  # 86 °F
    (waits,) = week(hot).first.not_this_week
    assert (waits.why, waits.until) == ("days above 29.4 °C", date(2026, 7, 27))
    warm = with_high(season, MONDAY, 29.0)
    assert Kind.SPRAY in {task.kind for task in week(warm).first.tasks}


def test_beds_in_which_something_was_found_come_last_and_ask_for_a_decision() -> None:
    beds = ("{bed: One, size: 1 x 4}", "{bed: Two, size: 1 x 4}")
    waves = (wave(start="06-01", plants="4"), wave("leaf", start="07-06", plants="4"))
    file = garden_with(SOAK, LOOK, waves=waves, beds=beds)
    entries = (
        "on: 2026-06-01, wave: fruit-1, did: sown, bed: One",
        "on: 2026-07-06, wave: leaf-1, did: sown, bed: Two",
        "on: 2026-07-18, wave: fruit-1, did: scouted, found: many",
    )
    found = week(season_with(file, *entries, today=MONDAY))
    assert (found.beds, found.first.unwell) == (("Two", "One"), ("One",))
    (wanted,) = found.first.decide
    assert (wanted.wave, wanted.found) == ("fruit-1", "many")
    page = "\n".join(printed.page(REPORT, found))
    assert page.index("\nTWO") < page.index("\nONE")
    assert "sowtide fits fruit" in " ".join(page.split())


def test_rain_that_brought_all_the_water_leaves_nothing_to_water() -> None:
    rain = "on: 2026-07-19, did: rain, amount: 30mm"
    sown = "on: 2026-06-01, wave: fruit-1, did: sown, bed: Long"
    with_rain = week(season_with(garden_with(SOAK), rain, sown, today=MONDAY))
    assert [task for task in with_rain.first.tasks if task.kind is Kind.WATER] == []
    some = rain.replace("30mm", "10mm")
    (water,) = [
        task
        for task in week(season_with(garden_with(SOAK), some, sown, today=MONDAY)).first.tasks
        if task.kind is Kind.WATER
    ]
    assert water.amount is not None
    assert water.amount.value == pytest.approx(15)  # 25 - 10 mm on 1 m2
    assert "25 mm less 10 mm of rain" in water.text


def test_nothing_is_picked_on_a_closed_day_all_season_long() -> None:
    sprays = [
        f"name: s{number}, do: spray, on: everything, from: first pick - {3 * number}, "
        f"every: {7 + number}, label: {{days_before_harvest: {number + 1}}}"
        for number in range(4)
    ]
    waves = (wave(start="06-01", every="10", count="4"), wave("leaf", start="06-20"))
    season = season_with(garden_with(*sprays, waves=waves))
    assert season.care is not None
    closed = {
        (block.wave, block.first + timedelta(days=n))
        for block in season.care.blocks
        for n in range((block.until - block.first).days)
    }
    picked = {
        (each.wave, day)
        for sheet in week(season, date(2026, 6, 1), weeks=20).sheets
        for each in sheet.pickings
        for day in each.days
    }
    assert picked
    assert picked & closed == set()


def test_a_garden_without_care_has_none_of_it() -> None:
    file = garden_with(SOAK).partition("care:")[0]
    said = encoded(week(season_with(file)))
    assert said["totals"] == said["not_this_week"] == said["decide"] == said["unwell"] == []
