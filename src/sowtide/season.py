"""From a file on disk to a season: everything read, dated and placed."""

from __future__ import annotations

from datetime import date
from itertools import groupby, zip_longest
from pathlib import Path

from sowtide.climate.dates import climate_of
from sowtide.climate.outlook import Climate
from sowtide.diagnostics import Problem, in_file_order
from sowtide.garden.model import Garden
from sowtide.garden.read import Reading, read_file
from sowtide.schedule.place import Placed, place_all
from sowtide.schedule.problems import (
    bolting,
    gap_note,
    no_wave,
    poor_germination,
    problems_of,
    too_many,
    year_over,
)
from sowtide.schedule.room import Room
from sowtide.schedule.series import MOST_WAVES, Planting, series_of
from sowtide.schedule.wave import Gap, Status, Wave
from sowtide.schedule.windows import Conditions
from sowtide.values import value

DEMO_TODAY = date(2026, 7, 16)
"""The day the packaged demo garden is looked at from."""

_DEMO = Path(__file__).parent / "demo" / "garden.yaml"
DEMO_LABEL = "demo garden"


@value
class Season:
    """A growing year of a garden, dated and placed.

    Parameters
    ----------
    garden
        What the grower wrote.
    conditions
        The place in that year: prospects of every crop on every kind of ground.
    room
        The beds as they fill up.
    today
        The day it is looked at from.
    waves
        All waves, in the order of the file's entries and of their numbers.
    gaps
        Named gaps in series.
    problems
        Problems of the plan, in file order.
    """

    garden: Garden
    conditions: Conditions
    room: Room
    today: date
    waves: tuple[Wave, ...]
    gaps: tuple[Gap, ...]
    problems: tuple[Problem, ...]

    @property
    def climate(self) -> Climate:
        """What the place does."""
        return self.conditions.climate


def load(path: Path) -> Reading:
    """Read a garden file.

    Raises
    ------
    Unreadable
        If the file cannot be opened.
    """
    return read_file(path)


def load_demo() -> Reading:
    """Read the packaged demo garden."""
    return read_file(_DEMO, DEMO_LABEL)


def demo_text() -> str:
    """Return the packaged demo garden's file as it stands."""
    return _DEMO.read_text(encoding="utf-8")


def season_of(garden: Garden, today: date) -> Season:
    """Date and place everything a garden asks for; `today` moves no date."""
    climate = climate_of(garden.site, garden.year)
    conditions = Conditions(climate, garden.site, garden.year)
    plantings: list[Planting] = []
    gaps: list[Gap] = []
    problems: list[Problem] = []
    for entry in garden.entries:
        series = series_of(entry, conditions)
        if not series.plantings:
            problems.append(no_wave(entry))
        elif len(series.plantings) == MOST_WAVES and entry.count != MOST_WAVES:
            problems.append(too_many(entry))
        plantings += series.plantings
        gaps += series.gaps
    room, placed = place_all(plantings, garden.beds, conditions)
    for each in placed:
        problems += problems_of(each)
    for _, of_entry in groupby(placed, key=lambda each: id(each.planting.entry)):
        of_series = tuple(of_entry)
        problems += bolting(of_series)
        problems += poor_germination(of_series, conditions)
    problems += year_over(garden.year, today)
    firsts = {each.planting.entry.name: each for each in reversed(placed)}
    problems += [gap_note(gap, firsts[gap.series]) for gap in gaps]
    return Season(
        garden,
        conditions,
        room,
        today,
        tuple(_wave(each, following, today) for each, following in zip_longest(placed, placed[1:])),
        tuple(gaps),
        in_file_order(problems),
    )


def _wave(placed: Placed, following: Placed | None, today: date) -> Wave:
    planting = placed.planting
    next_planting = None
    if following is not None and following.planting.entry is planting.entry:
        next_planting = following.planting.planted.day
    if not placed.places:
        status = Status.NO_ROOM
    elif planting.planted.day < today:
        status = Status.PAST
    else:
        status = Status.PLANNED
    return Wave(
        planting.id,
        planting.entry,
        planting.number,
        placed.judged,
        placed.places,
        placed.bed_free,
        status,
        next_planting,
    )
