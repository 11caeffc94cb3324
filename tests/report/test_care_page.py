"""The care of a week, below its list: what it gives up, what is to be decided, what it takes."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

import factory
from sowtide.report.blocks import plain
from sowtide.report.formats.terminal.render import rendered
from sowtide.report.kinds import AmountView
from sowtide.report.week import WeekBy, view
from sowtide.report.week.care_page import care_of_week
from sowtide.report.week.tasks_view import HeldView, TotalView, VerdictWanted

WEEK = view((factory.week_sheet(),), factory.season(), by=WeekBy.BED)
DAY = date(2026, 7, 15)


def said(**changes: Any) -> str:
    empty: dict[str, Any] = {"not_this_week": (), "decide": (), "totals": (), "unwell": ()}
    sheet = replace(WEEK.first, **(empty | {"heat": None} | changes))
    text = " ".join(" ".join(plain(rendered(care_of_week(sheet, WEEK), 100))).split())
    return text.replace("\N{NO-BREAK SPACE}", " ")


TOTAL = TotalView(
    routine="dry feed",
    does="feed",
    rounds=1,
    amount=AmountView(9, "l"),
    mix=None,
    weight=None,
    nitrogen=None,
    nitrogen_per_area=None,
    minutes=None,
)
GRAMS = AmountView(20, "g")


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({}, "THIS WEEK: dry feed 9 l."),
        ({"mix": AmountView(90, "ml")}, "THIS WEEK: dry feed 9 l with 90 ml."),
        ({"weight": GRAMS}, "THIS WEEK: dry feed 9 l (20 g)."),
        ({"nitrogen": GRAMS}, "THIS WEEK: dry feed 9 l (nitrogen 20 g)."),
        (
            {"weight": GRAMS, "nitrogen": GRAMS, "nitrogen_per_area": AmountView(2, "g per m2")},
            "THIS WEEK: dry feed 9 l (20 g; nitrogen 20 g, 2 g per m2).",
        ),
        ({"nitrogen_per_area": AmountView(2, "g per m2")}, "THIS WEEK: dry feed 9 l."),
        ({"amount": None}, ""),
        ({"amount": None, "minutes": 5.0}, "THIS WEEK: About 5 min of care."),
        ({"minutes": 0.4}, "THIS WEEK: dry feed 9 l."),
        ({"minutes": 60.0}, "THIS WEEK: dry feed 9 l. About 1 h of care."),
        ({"minutes": 61.0}, "THIS WEEK: dry feed 9 l. About 1 h 1 min of care."),
    ],
)
def test_what_a_week_of_care_takes(changes: dict[str, Any], told: str) -> None:
    assert said(totals=(replace(TOTAL, **changes),)) == told


def test_the_time_of_all_routines_is_added_up() -> None:
    totals = (replace(TOTAL, minutes=40.0), TOTAL, replace(TOTAL, minutes=35.0, routine="soak"))
    assert said(totals=totals) == (
        "THIS WEEK: dry feed 9 l; dry feed 9 l; soak 9 l. About 1 h 15 min of care."
    )


@pytest.mark.parametrize(
    ("until", "following"), [(None, ""), (date(2026, 7, 20), ", next Mon 20 Jul")]
)
def test_what_is_not_done_says_why_and_when_next(until: date | None, following: str) -> None:
    held = HeldView(
        routine="spray A",
        does="spray",
        bed="Long",
        waves=("pea-1",),
        asked=DAY,
        why="rain",
        until=until,
    )
    assert said(not_this_week=(held,)) == (
        f"NOT THIS WEEK: spray A in Long (asked for Wed 15 Jul): rain{following}"
    )


@pytest.mark.parametrize(("crop", "asked"), [("pea", "pea"), ("bush bean", '"bush bean"')])
def test_where_something_was_found_it_is_asked_to_decide(crop: str, asked: str) -> None:
    wanted = VerdictWanted(wave="k-1", crop=crop, on=DAY, found="many")
    assert said(decide=(wanted,)) == (
        "DECIDE: k-1, many found on Wed 15 Jul: keep it or pull it? "
        f"`sowtide fits {asked} --instead-of k-1` says what could stand there"
    )


def test_beds_in_which_something_was_found_come_last() -> None:
    assert said(unwell=("Long", "Gate")) == (
        "LAST: Long and Gate, where something was found; then wash"
    )
    assert said() == ""
