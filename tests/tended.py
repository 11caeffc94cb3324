"""Small gardens with care, and the care of their season."""

from __future__ import annotations

from datetime import date

from gardens import EARLY, crop, text, wave
from sowtide.garden.journal import journal_of
from sowtide.garden.read import read_garden
from sowtide.schedule.care import CarePlan
from sowtide.schedule.season import Season
from sowtide.season import season_of

FRUIT = crop(flower_to_pick="10", needs_bees="yes", pick_gap="2")
"""Planted on 1 June: in flower from 11 July (50 - 10 days on), picked 21 July - 3 August."""

LEAF = crop("leaf", days_to_harvest="30", picking_days="1", holding_days="3-8")


def garden_with(*care: str, waves: tuple[str, ...] = (), **more: object) -> str:
    """Return the file of a garden with some care: a wave of fruit on 1 June unless others."""
    planted = waves or (wave(start="06-01"),)
    file = text(*planted, **{"crops": (FRUIT, LEAF), **more})  # type: ignore[arg-type]
    return file + "care:\n" + "".join(f"  - {{{each}}}\n" for each in care)


def season_with(file: str, *entries: str, today: date = EARLY, learn: bool = False) -> Season:
    """Return the season of a file, with a journal of some entries if there are any."""
    reading = read_garden(file.encode(), "garden.yaml")
    assert reading.garden is not None, [problem.message for problem in reading.problems]
    if not entries:
        return season_of(reading.garden, today)
    lines = "".join(f"- {{{each}}}\n" for each in entries)
    read = journal_of(lines.encode(), "journal.yaml")
    assert read.journal is not None, [problem.message for problem in read.problems]
    return season_of(reading.garden, today, None, read.journal)


def care_with(file: str, *entries: str, today: date = EARLY) -> CarePlan:
    """Return the care of a season."""
    care = season_with(file, *entries, today=today).care
    assert care is not None
    return care


def days_of(care: CarePlan, routine: str, wave: str | None = None) -> list[date]:
    """Return the days of a routine that are to come, in order."""
    return [
        dose.day
        for dose in care.doses
        if dose.routine.name == routine and not dose.noted and wave in (None, dose.plot.wave.id)
    ]


def june(*days: int) -> list[date]:
    """Return days counted from the last of May: 31 is 1 July."""
    return [date.fromordinal(date(2026, 5, 31).toordinal() + day) for day in days]
