"""No screen of any garden is wider than the page, in cells, whatever its beds are called.

    DRAWN=200 pytest tests/report/test_widths.py

draws more gardens than the usual twenty-five.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path
from random import Random
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

import gardens
from drawn import covered_garden
from printed import page
from sowtide.report import REPORTS, calendar, frost, needs, openings, plan, supply, week
from sowtide.report.formats.terminal.cells import cells
from sowtide.schedule.narrowed import narrowed
from sowtide.schedule.only import Only
from sowtide.schedule.openings import OpeningsQuestion, coming_free
from sowtide.schedule.season import Season
from sowtide.schedule.work import week_sheets
from sowtide.season import load, place_of, season_of

DRAWN = int(os.environ.get("DRAWN", "25"))
TODAY = date(2026, 7, 16)
MONDAYS = (date(2026, 4, 20), date(2026, 7, 13), date(2026, 9, 14))
MARKET = Path(__file__).parents[2] / "examples/market-garden/garden.yaml"
NAMES = (
    "B",
    "Long bed by the north fence",
    "Long bed by the south fence",
    "東の畑のうね",
    "Orchard strip under the old apple tree, on the left as one comes in by the gate",
    "Frühbeet",
)


def views(season: Season, monday: date) -> Iterator[tuple[str, Any]]:
    """Yield what every report of a whole garden says, the week in each of its orders."""
    sheets = week_sheets(season.garden, season.waves, monday, weeks=1)
    for by in ("bed", "day", "work"):
        yield "week", week.view(sheets, season, by=by)
    yield "calendar", calendar.view(season)
    part = narrowed(season, Only(tuple(bed.name for bed in season.garden.beds[:1]), None))
    yield "calendar", calendar.view(part)
    for by in ("series", "bed"):
        yield "plan", plan.view(season, by=by)
    found = coming_free(season, OpeningsQuestion(season.garden.beds))
    yield "fits without a crop", openings.view(found, season)
    yield "needs", needs.view(season)
    yield "supply", supply.view(season)
    yield "frost", frost.view(place_of(season.garden, TODAY, None))


@settings(max_examples=DRAWN, deadline=timedelta(minutes=1))
@given(st.integers(0, 1_000_000))
def test_no_line_is_wider_than_the_page(seed: int) -> None:
    chance = Random(seed)
    text = covered_garden(chance)
    for number in range(4):
        text = text.replace(f"B{number}", f'"{chance.choice(NAMES)} {number}"')
    for name, said in views(gardens.season(text, TODAY), chance.choice(MONDAYS)):
        for width in (60, 80, 120):
            wide = [each for each in page(REPORTS[name], said, width) if cells(each) > width]
            assert wide == [], (name, width)


def test_no_line_of_a_garden_of_120_beds_is_wider_than_the_page() -> None:
    loaded = load(MARKET)
    assert loaded.garden is not None
    of = season_of(loaded.garden, TODAY)
    for name, said in views(of, MONDAYS[1]):
        for width in (60, 80, 120):
            wide = [each for each in page(REPORTS[name], said, width) if cells(each) > width]
            assert wide == [], (name, width)
