"""A season of weekly sheets: all that is sown, planted and pulled stands on one of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path

import pytest

from mutations.mutate import DEMO, FROST, station
from sowtide.schedule.season import Season
from sowtide.schedule.work import Kind, week_sheets
from sowtide.season import load, season_of

ROOT = Path(__file__).parents[2]
MONDAYS = 34
_WEEK = timedelta(weeks=1)
_STARTED = (Kind.SOW_IN_TRAYS, Kind.SOW, Kind.PLANT_OUT)


def _planned(season: Season) -> set[tuple[str, Kind, str | None, date]]:
    """Every sowing, planting out and pulling that the plan has, bed by bed, with its day."""
    found = set()
    for wave in season.waves:
        stages = wave.stages
        for stand in wave.stands:
            bed = stand.bed.name
            if wave.from_trays:
                found.add((wave.id, Kind.SOW_IN_TRAYS, None, stages.sow.day))
                found.add((wave.id, Kind.PLANT_OUT, bed, stages.plant.day))
            else:
                found.add((wave.id, Kind.SOW, bed, stages.plant.day))
            found.add((wave.id, Kind.PULL, bed, stages.pull_out.day))
    return found


def _on_sheets(at: Callable[[date], Season], first: date) -> Counter[tuple[str, Kind, str | None]]:
    """Count on how many sheets each stands, as every Monday shows its own week."""
    found: Counter[tuple[str, Kind, str | None]] = Counter()
    for number in range(MONDAYS):
        monday = first + number * _WEEK
        season = at(monday)
        (sheet,) = week_sheets(season.garden, season.waves, monday, weeks=1)
        for task in sheet.tasks:
            if task.kind in (*_STARTED, Kind.PULL):
                found[task.wave.id, task.kind, task.bed] += 1
    return found


def _within(season: Season, first: date) -> Counter[tuple[str, Kind, str | None]]:
    last = first + MONDAYS * _WEEK
    planned = (each for each in _planned(season) if first <= each[3] < last)
    return Counter((wave, kind, bed) for wave, kind, bed, _ in planned)


@pytest.mark.parametrize(
    ("name", "first"),
    [
        ("src/sowtide/demo/garden.yaml", date(2026, 3, 2)),
        ("examples/allotment/garden.yaml", date(2026, 8, 3)),
    ],
)
def test_all_of_it_stands_on_exactly_one_sheet(name: str, first: date) -> None:
    loaded = load(ROOT / name)
    assert loaded.garden is not None
    garden = loaded.garden
    planned = _within(season_of(garden, first), first)
    assert len(planned) > 60
    assert _on_sheets(lambda monday: season_of(garden, monday), first) == planned


def test_all_of_it_stands_on_one_sheet_while_the_record_grows(tmp_path: Path) -> None:
    """What the season's own days move within reach of its week is seen once as well."""
    first = date(2023, 3, 6)
    text = DEMO.read_text(encoding="utf-8").replace(FROST, "{record: station.csv}")
    text = text.replace("season: 2026", "season: 2023").replace("2026-", "2023-")
    (tmp_path / "garden.yaml").write_text(text, encoding="utf-8")
    head, *rows = station().splitlines()

    def at(monday: date) -> Season:
        until = [row for row in rows if row[:10] < monday.isoformat()]
        (tmp_path / "station.csv").write_text("\n".join([head, *until, ""]), encoding="utf-8")
        loaded = load(tmp_path / "garden.yaml")
        assert loaded.garden is not None, loaded.problems
        return season_of(loaded.garden, monday, loaded.record)

    planned = _within(at(first), first)
    assert len(planned) > 60
    found = _on_sheets(at, first)
    assert found == planned
    moved = _planned(at(first + MONDAYS * _WEEK)) - _planned(at(first))
    assert {kind for _, kind, _, _ in moved} == {Kind.PULL}
