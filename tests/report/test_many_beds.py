"""The sheet of a garden of 120 beds: short, and yet every box, bed and amount stands on it."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest

from printed import page
from sowtide.report.formats.terminal.cells import cells
from sowtide.report.week import REPORT, WeekBy, view
from sowtide.report.week.tasks_view import TaskView
from sowtide.report.week.view import WeekView
from sowtide.report.week.work import block_of, said_once
from sowtide.schedule.season import Season
from sowtide.schedule.work import Kind, week_sheets
from sowtide.season import load, season_of

MARKET = Path(__file__).parents[2] / "examples/market-garden/garden.yaml"
TODAY = date(2026, 7, 16)
TITLE = re.compile(r"[A-Z][A-Z ,0-9:]+")
ITEM = re.compile(r" (?P<code>[a-z]{4}) \[ \] (?:(?:\w{3} ..|late  )  )?(?P<words>.*)")


@pytest.fixture(scope="module")
def market() -> Season:
    loaded = load(MARKET)
    assert loaded.garden is not None
    return season_of(loaded.garden, TODAY)


def sheet(season: Season, by: str = "bed") -> WeekView:
    sheets = week_sheets(season.garden, season.waves, date(2026, 7, 13), weeks=1)
    return view(sheets, season, by=WeekBy(by))


def items(lines: tuple[str, ...]) -> dict[str, tuple[str, str]]:
    """Return the title over each item and its words put together again, by its code."""
    found: dict[str, tuple[str, str]] = {}
    title = code = ""
    for each in lines:
        item = ITEM.fullmatch(each)
        if item is not None:
            code = item["code"]
            found[code] = (title, item["words"])
        elif TITLE.fullmatch(each):
            title, code = each, ""
        elif each.startswith("      ") and code:
            found[code] = (title, f"{found[code][1]} {each.strip()}")
        else:
            code = ""
    return found


def plain(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("width", [60, 80, 120])
def test_every_box_stands_once_under_its_block_with_its_bed_and_its_amount(
    market: Season, width: int
) -> None:
    of = sheet(market)
    lines = page(REPORT, of, width)
    found = items(lines)
    (week,) = of.sheets
    assert len(week.others) > 150
    blocks = set()
    for task in week.others:
        title, words = found[task.code]
        if task.bed is None:
            assert title == "BENCH"
        else:
            block, _, number = task.bed.rpartition(" ")
            blocks.add(block)
            assert title == block.upper()
            assert words.split()[0] == number
        assert f"{task.wave}" in words
        if task.amount is not None:
            assert f"{task.amount.value:,.0f} {task.amount.unit}" in plain(words)
    assert blocks == {"Hill", "Road", "Barn", "Creek", "Tunnel"}
    assert [each for each in lines if cells(each) > width] == []


def test_what_is_said_of_many_is_said_once_and_what_differs_at_each(market: Season) -> None:
    of = sheet(market)
    lines = page(REPORT, of)
    text = plain(" ".join(lines))
    assert text.count("out by day, in by night, 7 days") == 1
    assert "look: is it up? Fewer than half" in text
    (week,) = of.sheets
    found = items(lines)
    for task in week.others:
        again = re.search(r"sow again by (.*)", task.text)
        if again is not None:
            assert plain(found[task.code][1]).endswith(f"few up: sow again by {again[1]}")
        elif task.kind is Kind.LOOK:
            assert plain(found[task.code][1]).endswith("too late to sow it again and be safe")


def test_the_same_words_must_come_five_times(market: Season) -> None:
    (week,) = sheet(market).sheets
    hardened = [task for task in week.others if task.kind is Kind.HARDEN_OFF]
    assert said_once(hardened[:4]) == {}
    assert said_once(hardened[:5]) == {Kind.HARDEN_OFF: "out by day, in by night, 7 days"}


def test_by_day_and_by_work_every_box_is_there(market: Season) -> None:
    for by in ("day", "work"):
        of = sheet(market, by)
        found = items(page(REPORT, of))
        (week,) = of.sheets
        tasks: tuple[TaskView, ...] = week.others
        for task in tasks:
            assert f"{task.wave}" in found[task.code][1]
            if task.bed is not None:
                assert task.bed in found[task.code][1]


def test_a_block_is_of_beds_that_are_numbered_alike() -> None:
    beds = ("Hill 1", "Hill 12", "South 3", "Long", "Bed by the oak", "4 5", "6")
    assert [block_of(bed, beds) for bed in beds] == ["Hill", "Hill", "", "", "", "", ""]
