"""JSON and CSV: every field is there, spelt as promised, and the same bytes each time."""

from __future__ import annotations

import csv
import io
import json
from dataclasses import replace
from datetime import date
from enum import Enum
from typing import Any

import pytest

import factory
from printed import fits_json, form, plan_form, week_form, why_json
from sowtide.report.check import REPORT, view
from sowtide.report.formats.csv import table
from sowtide.report.formats.json import encoded
from sowtide.report.kinds import Celsius, Mean, Quantity, Share, SquareMetres, Tenth
from sowtide.report.plan.view import COLUMNS as PLAN_COLUMNS
from sowtide.report.week.view import COLUMNS as WEEK_COLUMNS
from sowtide.report.why.view import stages_of
from sowtide.schedule.fits.answer import Answer
from sowtide.schedule.waves.wave import Stand, Status, Verdict
from sowtide.schedule.work.task import Kind
from sowtide.values import value

SEASON = factory.season()
PROBLEM = {"severity", "code", "message", "hint", "file", "line", "column", "wave"}
BASIS = {"frost", "warmth", "assumed", "years_used", "record"}
TASK = {
    "id",
    "code",
    "due",
    "kind",
    "wave",
    "bed",
    "text",
    "amount",
    "overdue",
    "cautions",
}
WAVE = """
id series crop family plants beds sow up harden_off plant flower first_pick last_pick pull_out
bed_free ended_by margin_days odds expected_picking_days odds_of_nothing verdict sow_again_by status
done blocked overlap
"""
DONE = "sow up harden_off plant first_pick last_pick pull_out"
FITS = """
version crop variety plants basis earliest_planting last_safe_planting windows frost_limit verdict
odds expected_picking_days odds_of_nothing spring_loss places instead by_date cover on
raised problems varieties
"""


def _read(text: str) -> Any:
    assert text.endswith("}\n")
    read = json.loads(text)
    assert read["version"] == 1
    return read


def test_the_plan_has_every_field() -> None:
    plan = _read(plan_form(SEASON, "json"))
    assert list(plan) == [
        *("version", "season", "basis", "waves", "beds", "full", "problems", "gaps", "only")
    ]
    assert plan["season"] == 2026
    assert set(plan["basis"]) == BASIS
    assert all(list(wave) == WAVE.split() for wave in plan["waves"])
    assert all(set(problem) == PROBLEM for problem in plan["problems"])
    assert plan["problems"][0]["line"] == 20


def test_a_wave_of_the_plan() -> None:
    trays = _read(plan_form(SEASON, "json"))["waves"][3]
    assert trays == {
        "id": "lettuce-1",
        "series": "lettuce",
        "crop": "lettuce",
        "family": "daisy family",
        "plants": 60,
        "beds": [{"bed": "Long 1", "plants": 40}, {"bed": "Long 2", "plants": 20}],
        "sow": "2026-07-13",
        "up": None,
        "harden_off": "2026-08-03",
        "plant": "2026-08-10",
        "flower": None,
        "first_pick": ["2026-09-24", "2026-09-29"],
        "last_pick": "2026-10-01",
        "pull_out": "2026-10-02",
        "bed_free": "2026-10-02",
        "ended_by": "picked out",
        "margin_days": 20,
        "odds": 0.997,
        "expected_picking_days": 18.4,
        "odds_of_nothing": 0.031,
        "verdict": "safe",
        "sow_again_by": None,
        "status": "planned",
        "done": dict.fromkeys(DONE.split()),
        "blocked": None,
        "overlap": None,
    }


def test_what_is_not_there_is_null() -> None:
    nothing = factory.wave(
        plant=date(2026, 9, 1),
        stands=(),
        status=Status.NO_ROOM,
        verdict=None,
        odds=None,
        expected_picking_days=None,
        odds_of_nothing=None,
        margin=None,
        last_safe=None,
    )
    wave = _read(plan_form(factory.season(nothing), "json"))["waves"][0]
    empty = {name for name, value in wave.items() if value is None}
    assert empty == {
        "harden_off",
        "flower",
        "first_pick",
        "last_pick",
        "bed_free",
        "margin_days",
        "odds",
        "expected_picking_days",
        "odds_of_nothing",
        "verdict",
        "sow_again_by",
        "blocked",
        "overlap",
    }
    assert (wave["beds"], wave["status"]) == ([], "no room")


def test_odds_have_three_decimals_and_days_one() -> None:
    exact = factory.wave(odds=0.123456, expected_picking_days=17.26, odds_of_nothing=1.0)
    text = plan_form(factory.season(exact), "json")
    assert '"odds": 0.123, "expected_picking_days": 17.3, "odds_of_nothing": 1.0' in text


def test_the_last_day_to_sow_again_is_the_last_safe_one() -> None:
    wave = _read(plan_form(SEASON, "json"))["waves"][1]
    assert wave["sow_again_by"] == "2026-07-18"


def test_fits_has_every_field() -> None:
    answer = factory.answer(instead=(factory.instead(),))
    fits = _read(fits_json((answer,), SEASON))
    assert list(fits) == FITS.split()
    assert fits["windows"] == [{"from": "2026-05-06", "to": "2026-07-18"}]
    assert fits["places"][0] == {
        "bed": "Long 1",
        "free_from": "2026-07-15",
        "after": None,
        "before": None,
        "sow": "2026-07-15",
        "plant": "2026-07-15",
        "first_pick": ["2026-09-03", "2026-09-13"],
        "last_pick": "2026-10-01",
        "odds": 0.83,
        "verdict": "safe",
        "plants": 60,
    }
    assert list(fits["instead"][0]) == ["what", "text", "plant", "odds"]


def test_fits_of_several_varieties_lists_them_all_beside_the_best() -> None:
    two = tuple(factory.answer(factory.bean(variety=name)) for name in ("A", "B"))
    fits = _read(fits_json(two, SEASON))
    assert list(fits) == FITS.split()
    assert fits["variety"] == "A"
    assert [each["variety"] for each in fits["varieties"]] == ["A", "B"]
    assert fits["varieties"][0] == {
        name: value
        for name, value in fits.items()
        if name not in ("version", "varieties", "problems")
    }


def test_why_has_every_step_of_every_date() -> None:
    wave = SEASON.waves[3]
    why = _read(why_json(wave, SEASON))
    assert (why["wave"], len(why["dates"])) == ("lettuce-1", len(tuple(stages_of(wave))))
    for stage in why["dates"]:
        assert list(stage) == ["stage", "date", "steps"]
        day = date.fromisoformat(stage["steps"][0]["date"]).toordinal()
        for step in stage["steps"]:
            assert list(step) == ["rule", "days", "date", "text", "file", "line", "source"]
            day += step["days"]
            assert date.fromisoformat(step["date"]).toordinal() == day
        assert stage["date"] == stage["steps"][-1]["date"]


def test_week_has_every_task_once_in_order_of_the_days() -> None:
    sheet = factory.week_sheet()
    week = _read(week_form((sheet,), SEASON, "json"))
    assert list(week)[:7] == ["version", "week", "from", "to", "tasks", "look_for", "problems"]
    assert week["weeks"] is None
    assert (week["week"], week["from"], week["to"]) == ("2026-W29", "2026-07-13", "2026-07-19")
    assert all(set(task) >= TASK for task in week["tasks"])
    # The sowing is on two lists of the sheet; the work of next week is not of this one.
    assert [task["kind"] for task in week["tasks"]] == ["sow in trays", "pick", "sow"]
    assert week["tasks"][2]["amount"] == {"value": 80, "unit": "seeds"}
    assert week["tasks"][1]["amount"] is None
    assert week["tasks"][2]["kind"] == Kind.SOW.value


def test_several_weeks_stand_beside_the_first() -> None:
    first = factory.week_sheet()
    second = replace(first, week="2026-W30", tasks=(), pickings=(), cannot_slip=())
    week = _read(week_form((first, second), SEASON, "json"))
    assert [each["week"] for each in week["weeks"]] == ["2026-W29", "2026-W30"]
    assert week["weeks"][0]["tasks"] == week["tasks"]
    assert week["weeks"][1]["tasks"] == []


def test_check_lists_problems_with_and_without_a_place() -> None:
    nowhere = factory.problem(span=None, wave=None, hint=None)
    check = _read(form(REPORT, view((factory.problem(), nowhere)), "json"))
    assert list(check) == ["version", "problems"]
    assert [problem["column"] for problem in check["problems"]] == [3, None]
    assert _read(form(REPORT, view(()), "json"))["problems"] == []


def test_the_plan_as_a_table() -> None:
    rows = list(csv.DictReader(io.StringIO(plan_form(SEASON, "csv"))))
    assert tuple(rows[0]) == PLAN_COLUMNS
    assert [row["id"] for row in rows] == [wave.id for wave in SEASON.waves]
    assert rows[3]["beds"] == "Long 1: 40; Long 2: 20"
    assert (rows[3]["first_pick_early"], rows[3]["first_pick_late"]) == ("2026-09-24", "2026-09-29")
    assert (rows[2]["bed_free"], rows[2]["beds"], rows[2]["status"]) == ("", "", "no room")


def test_a_table_keeps_commas_and_quotes_in_names() -> None:
    named = factory.bed('Long, "old"')
    wave = factory.wave(stands=(factory.Stand(named, 60),))
    rows = list(csv.DictReader(io.StringIO(plan_form(factory.season(wave), "csv"))))
    assert rows[0]["beds"] == 'Long, "old": 60'


def test_the_week_as_a_table() -> None:
    text = week_form((factory.week_sheet(),), SEASON, "csv")
    rows = list(csv.DictReader(io.StringIO(text)))
    assert tuple(rows[0]) == WEEK_COLUMNS
    assert [row["week"] for row in rows] == ["2026-W29"] * 3
    assert (rows[2]["amount"], rows[2]["unit"], rows[2]["overdue"]) == ("80", "seeds", "no")
    assert "\r" not in text


def test_the_same_values_give_the_same_bytes_in_plain_ascii() -> None:
    again = plan_form(factory.season(), "json")
    assert plan_form(SEASON, "json") == again
    assert again.isascii()
    assert Verdict.SAFE.value in again


def test_a_week_carries_its_problems() -> None:
    sheet = factory.week_sheet()
    homeless = factory.wave(number=3, plant=date(2026, 7, 20), stands=())
    season = factory.season(homeless, problems=(factory.problem(),))
    week = _read(week_form((sheet, sheet), season, "json"))
    assert [each["week"] for each in week["weeks"]] == [week["week"]] * 2
    assert [set(problem) for problem in week["problems"]] == [PROBLEM]
    assert week["problems"][0]["wave"] == "bush-bean-3"
    assert week["weeks"][1]["problems"] == week["problems"]
    assert _read(week_form((sheet,), factory.season(homeless), "json"))["problems"] == []


def test_fits_carries_the_problems_of_its_crops_waves_and_of_no_wave() -> None:
    of_none = factory.problem("no-wave", None)
    other = factory.problem("too-late", "lettuce-1")
    season = factory.season(
        factory.wave(number=3),
        factory.wave(factory.lettuce()),
        problems=(factory.problem(), other, of_none),
    )

    def codes(*answers: Answer) -> list[str]:
        fits = _read(fits_json(answers, season))
        assert all(set(problem) == PROBLEM for problem in fits["problems"])
        return [problem["code"] for problem in fits["problems"]]

    assert codes(factory.answer()) == ["no-room", "no-wave"]
    salad = factory.answer(factory.lettuce())
    assert codes(salad) == ["too-late", "no-wave"]
    assert codes(salad, factory.answer()) == ["no-room", "too-late", "no-wave"]


@pytest.mark.parametrize(
    ("text", "cell"),
    [
        ("=1+1", "'=1+1"),
        ("+44 bean", "'+44 bean"),
        ("-2.2.", "'-2.2."),
        ("- long", "'- long"),
        ("@bean", "'@bean"),
        ("'Early'", "''Early'"),
        ("-2.2", "-2.2"),
        ("-40", "-40"),
        ("bean =1", "bean =1"),
        ("", ""),
    ],
)
def test_a_cell_of_csv_is_nothing_to_work_out_and_its_text_can_be_had_again(
    text: str, cell: str
) -> None:
    written = table(("name", "number"), [{"name": text, "number": -2.2}])
    (row,) = csv.DictReader(io.StringIO(written))
    assert row == {"name": cell, "number": "-2.2"}
    assert row["name"].removeprefix("'") == text


def test_names_of_the_file_are_harmless_in_every_csv() -> None:
    bed = factory.bed("=HYPERLINK(1)")
    wave = factory.wave(of=factory.entry(name="@sum"), stands=(Stand(bed, 3),))
    rows = plan_form(factory.season(wave), "csv")
    assert list(csv.reader(io.StringIO(rows)))[1][0] == "'@sum-1"
    assert "'=HYPERLINK(1): 3" in rows


def test_each_day_of_a_week_has_its_work_in_order() -> None:
    sheet = factory.week_sheet()
    week = _read(week_form((sheet,), SEASON, "json"))
    assert [day["date"][-2:] for day in week["days"]] == ["13", "14", "15", "16", "17", "18", "19"]
    assert [day["date"][-2:] for day in week["days"] if day["is_today"]] == [str(SEASON.today.day)]
    tasks = {task["id"]: task for task in week["tasks"]}
    assert all(task["part"] == "any time" for task in tasks.values())
    on_days = [(day["date"], task) for day in week["days"] for task in day["tasks"]]
    picked = [
        (day.isoformat(), picking.task.id) for picking in sheet.pickings for day in picking.days
    ]
    others = [(each["due"], name) for name, each in tasks.items() if each["kind"] != "pick"]
    assert sorted(on_days) == sorted(picked + others)


def test_a_cell_is_written_by_what_it_is() -> None:
    class Ripe(Enum):
        SOON = "soon"

    row = {"yes": True, "no": False, "word": Ripe.SOON, "names": ("a", "b"), "none": None, "n": 1}
    text = table(("yes", "no", "word", "names", "none", "n"), [row])
    assert text.splitlines()[1] == "yes,no,soon,a b,,1"


@value
class OneOfEach:
    """A number of each kind that a view may hold."""

    share: Share
    celsius: Celsius
    tenth: Tenth
    mean: Mean
    square_metres: SquareMetres
    quantity: Quantity


@pytest.mark.parametrize(
    ("number", "written"),
    [
        (2.34567, [2.346, 2.3, 2.3, 2.3, 2.35, 2.346]),
        (3.0, [3.0, 3.0, 3.0, 3, 3.0, 3]),
        (2.9999, [3.0, 3.0, 3.0, 3, 3.0, 3]),
    ],
)
def test_a_number_is_rounded_as_its_kind_says(number: float, written: list[float]) -> None:
    found = list(encoded(OneOfEach(*[number] * 6)).values())
    assert found == written
    assert [type(each) for each in found] == [type(each) for each in written]
