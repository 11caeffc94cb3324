"""A few seedlings beside those of a wave, kept for a gap until they are too old."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

import gardens
from printed import week_text
from sowtide.schedule.season import Season
from sowtide.schedule.work.task import Kind, Seedlings
from sowtide.schedule.work.week import week_sheets

TRAY = gardens.crop(
    "tray", raised="trays", counted_from="planting out", nursery_days="28-42", seeds_per_plant="2"
)


def season(standby: int, *, start: str = "06-15") -> Season:
    wave = gardens.wave("tray", plants="6", start=start, standby=str(standby))
    return gardens.season(gardens.text(wave, crops=[TRAY]))


def bench(of: Season, day: date) -> list[Seedlings]:
    (sheet,) = week_sheets(of.garden, of.waves, day, weeks=1)
    return list(sheet.bench)


SOWN = date(2026, 6, 15) - timedelta(days=28)
TOO_OLD = SOWN + timedelta(days=42)


def test_they_are_sown_with_the_others() -> None:
    (task,) = [
        task
        for sheet in week_sheets(season(2).garden, season(2).waves, SOWN, weeks=1)
        for task in sheet.tasks
        if task.kind is Kind.SOW_IN_TRAYS
    ]
    assert task.amount is not None
    assert task.amount.value == (6 + 2) * 2
    assert task.text == "for 6 plants and 2 to stand by, out on 15 Jun"
    assert season(0).waves[0].plants == season(2).waves[0].plants == 6  # they take no room


@pytest.mark.parametrize(
    ("day", "shown"),
    [
        (SOWN - timedelta(days=7), []),
        (SOWN, [6, 2]),
        (date(2026, 6, 15), [6, 2]),
        (date(2026, 6, 16), [2]),  # the others are out
        (TOO_OLD, [2]),
        (TOO_OLD + timedelta(days=1), []),
    ],
)
def test_they_stand_on_the_bench_until_they_are_too_old(day: date, shown: list[int]) -> None:
    found = bench(season(2), day)
    assert [each.plants for each in found] == shown
    for each in found[-1:]:
        assert (each.plant, each.beds, each.too_old) == (None, (), TOO_OLD)


def test_without_them_the_bench_is_as_it_was() -> None:
    assert [each.plants for each in bench(season(0), SOWN)] == [6]
    assert bench(season(0), date(2026, 6, 16)) == []


def test_the_sheet_says_that_they_stand_by() -> None:
    of = season(2)
    (sheet,) = week_sheets(of.garden, of.waves, date(2026, 6, 22), weeks=1)
    lines = list(week_text(sheet, of, width=80, by="bed"))
    (row,) = [line for line in lines if "stand by for a gap" in line]
    assert row.split()[:2] == ["tray-1", "2"]
