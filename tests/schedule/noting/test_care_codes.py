"""Codes of care on the sheet, ticked off: what is noted of a bed, of a wave, and with what."""

from __future__ import annotations

from datetime import date

import pytest

from gardens import wave
from sowtide.schedule.noting import Details, Unclear, happenings_of
from sowtide.schedule.season import Season
from sowtide.schedule.work import week_sheets
from tended import garden_with, season_with

MONDAY = date(2026, 6, 15)
CARE = (
    "name: dry feed, do: feed, on: fruit, from: 06-16",
    "name: soak, do: water, on: everything, every: 7, amount: 25 mm",
    "name: look, do: scout, on: fruit, every: 7",
    "name: tie in, do: tie, on: fruit, from: 06-16",
    "name: soap, do: dust, on: leaf, from: 06-16, label: {days_before_harvest: 1}",
)


@pytest.fixture(scope="module")
def season() -> Season:
    waves = (wave(start="06-01", plants="4"), wave("leaf", start="06-01", plants="3"))
    return season_with(garden_with(*CARE, waves=waves), today=MONDAY)


def code_of(routine: str, season: Season) -> str:
    (sheet,) = week_sheets(season.garden, season.waves, MONDAY, weeks=1, care=season.care)
    (task,) = [each for each in sheet.tasks if each.care and each.care.routine == routine]
    return task.code


@pytest.mark.parametrize(
    ("routine", "said", "lines"),
    [
        ("soak", "", ["- {on: 2026-06-15, bed: Long, did: watered, with: soak}"]),
        ("dry feed", "", ["- {on: 2026-06-15, bed: Long, did: fed, with: dry feed}"]),
        ("look", "=some", ["- {on: 2026-06-15, bed: Long, did: scouted, found: some}"]),
        ("tie in", "", ["- {on: 2026-06-15, bed: Long, did: tended, with: tie in}"]),
        ("soap", "", ["- {on: 2026-06-15, bed: Long, did: sprayed, with: soap}"]),
        (
            "dry feed",
            "=skip",
            ["- {on: 2026-06-15, wave: fruit-1, bed: Long, did: skipped, skips: fed}"],
        ),
    ],
)
def test_a_code_notes_the_routine_where_it_was_done(
    routine: str, said: str, lines: list[str], season: Season
) -> None:
    word = code_of(routine, season) + said
    found = happenings_of([word], Details(on=MONDAY), season)
    assert [each.line for each in found] == lines


def test_a_look_wants_what_was_found(season: Season) -> None:
    with pytest.raises(Unclear, match="none, some or many"):
        happenings_of([code_of("look", season)], Details(on=MONDAY), season)


def test_of_two_waves_with_days_of_their_own_the_one_that_was_done_is_noted() -> None:
    waves = (wave(start="06-01", plants="4"), wave(start="06-03", plants="3", name="later"))
    feed = "name: dry feed, do: feed, on: fruit, from: planting out + 14"
    season = season_with(garden_with(feed, waves=waves), today=MONDAY)
    (sheet,) = week_sheets(season.garden, season.waves, MONDAY, weeks=1, care=season.care)
    first, _ = [task for task in sheet.tasks if task.care]
    (entry,) = happenings_of([first.code], Details(on=MONDAY), season)
    assert entry.line == ("- {on: 2026-06-15, wave: fruit-1, bed: Long, did: fed, with: dry feed}")
