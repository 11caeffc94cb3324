"""A season of weekly sheets: all that is sown, planted and pulled stands on one of them.

The market garden's 1,478 tasks take half a minute; they are looked at, and each garden with a
journal, by

    PYTHONPATH=tests python tests/schedule/test_thirty_four_mondays.py
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest

from gardens import sheets
from mutations.mutate import DEMO, FROST, station
from sowtide.diagnostics import Span
from sowtide.garden.journal import Happening, Journal
from sowtide.garden.model import Garden
from sowtide.schedule.season import Season
from sowtide.schedule.work import STAGE_OF, Kind, Task, week_sheets
from sowtide.season import load, season_of

ROOT = Path(__file__).parents[2]
MONDAYS = 34
_WEEK = timedelta(weeks=1)
GARDENS = (
    ("src/sowtide/demo/garden.yaml", date(2026, 3, 2)),
    ("examples/allotment/garden.yaml", date(2026, 8, 3)),
)
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


@pytest.mark.parametrize(("name", "first"), GARDENS)
def test_all_of_it_stands_on_exactly_one_sheet(name: str, first: date) -> None:
    loaded = load(ROOT / name)
    assert loaded.garden is not None
    garden = loaded.garden
    plan = season_of(garden, first)
    planned = _within(plan, first)
    assert len(planned) > 60
    assert _on_sheets(lambda monday: season_of(garden, monday, like=plan), first) == planned


def _noted(garden: Garden, first: date) -> Iterator[tuple[str, Kind, str | None]]:
    """Do all that a sheet says, in its week, and write it down before the next one is made."""
    done: tuple[Happening, ...] = ()
    plan = season_of(garden, first)
    for number in range(MONDAYS):
        monday = first + number * _WEEK
        season = season_of(garden, monday, None, Journal("journal.yaml", done), like=plan)
        (sheet,) = sheets(season, monday)
        tasks = {(t.id, t.bed): t for t in (*sheet.cannot_slip, *sheet.tasks)}.values()
        mine = sorted((t for t in tasks if t.kind in (*_STARTED, Kind.PULL)), key=lambda t: t.due)
        for task in mine:
            yield task.wave.id, task.kind, task.bed
            assert not task.overdue
        done += tuple(_happened(task) for task in mine)


def _happened(task: Task) -> Happening:
    grown = {stand.bed.name: stand.plants for stand in task.wave.stands}
    plants = grown.get(task.bed or "") if task.kind in (Kind.SOW, Kind.PLANT_OUT) else None
    return Happening(
        on=task.due,
        did=STAGE_OF[task.kind],
        span=Span("journal.yaml", 1),
        wave=task.wave.id,
        bed=task.bed,
        plants=plants,
    )


@pytest.mark.parametrize(("name", "first"), GARDENS[1:])
def test_all_of_it_stands_on_one_sheet_where_it_is_written_down_as_it_is_done(
    name: str, first: date
) -> None:
    loaded = load(ROOT / name)
    assert loaded.garden is not None
    planned = _within(season_of(loaded.garden, first), first)
    assert Counter(_noted(loaded.garden, first)) == planned


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


if __name__ == "__main__":
    market = ("examples/market-garden/garden.yaml", date(2026, 3, 2))
    test_all_of_it_stands_on_exactly_one_sheet(*market)
    for each in (*GARDENS, market):
        test_all_of_it_stands_on_one_sheet_where_it_is_written_down_as_it_is_done(*each)
