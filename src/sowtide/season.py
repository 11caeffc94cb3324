"""From a file on disk to a season: everything read, dated and placed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from itertools import repeat
from os.path import realpath
from pathlib import Path
from typing import TYPE_CHECKING

from sowtide.climate.answers import YearTold
from sowtide.climate.choose import climate_of
from sowtide.climate.questions import Climate
from sowtide.diagnostics import Problem, Severity, Unreadable, in_file_order
from sowtide.garden.model import Bed, Garden
from sowtide.garden.read import Reading, read_file
from sowtide.schedule.beds import Placed, Room, place_all
from sowtide.schedule.checks import (
    bolting,
    frost_dates_differ,
    gap_note,
    long_days,
    may_run_to_seed,
    no_wave,
    poor_germination,
    problems_of,
    sets_little_fruit,
    too_many,
    year_over,
)
from sowtide.schedule.waves import Conditions, Gap, Prospects, Series, Status, Wave
from sowtide.schedule.work import Lookout, lookout_of, never_due
from sowtide.values import value

if TYPE_CHECKING:  # most gardens have no record
    from sowtide.climate.frost_record import RecordYears

DEMO_TODAY = date(2026, 7, 16)
"""The day the packaged demo garden is looked at from."""

_DEMO = Path(__file__).parent / "demo" / "garden.yaml"
DEMO_LABEL = "demo garden"


@value
class Place:
    """A garden and the climate it lies in, with nothing planted.

    Parameters
    ----------
    garden
        What the grower wrote.
    climate
        What the place does.
    """

    garden: Garden
    climate: Climate


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
    lookouts
        What to look for when, in the file's order.
    """

    garden: Garden
    conditions: Conditions
    room: Room
    today: date
    waves: tuple[Wave, ...]
    gaps: tuple[Gap, ...]
    problems: tuple[Problem, ...]
    lookouts: tuple[Lookout, ...] = ()

    @property
    def climate(self) -> Climate:
        """What the place does."""
        return self.conditions.climate

    def years_of(self, wave: Wave) -> tuple[YearTold, ...]:
        """Return what each recorded year does to a wave.

        Nothing without a record, or for a wave that stands over the winter.
        """
        if wave.judged.odds is None:
            return ()
        return self.climate.years_of(wave.stages.plant.day, self.prospects(wave).need)

    def by_bed(self) -> Iterator[tuple[Bed, list[Wave]]]:
        """Yield the beds in the order of the file, each with the waves that stand in it."""
        waves: dict[str, list[Wave]] = {bed.name: [] for bed in self.garden.beds}
        for wave in self.waves:
            for place in wave.places:
                waves[place.bed.name].append(wave)
        for bed in self.garden.beds:
            yield bed, waves[bed.name]

    def prospects(self, wave: Wave) -> Prospects:
        """Return the prospects of a wave's crop on the coldest ground of its beds."""
        beds = [place.bed for place in wave.places] or wave.entry.beds
        colder_by = max((bed.colder_than_site for bed in beds), default=0.0)
        return self.conditions.prospects(wave.crop, wave.entry.raised, colder_by=colder_by)


@value
class Loaded:
    """A garden with what its file names.

    Parameters
    ----------
    garden
        The garden, or None where any of the problems is an error.
    record
        The place's daily temperatures with the years to use, where the site names a record.
    problems
        Everything found, those of the garden's file first.
    """

    garden: Garden | None
    record: RecordYears | None
    problems: tuple[Problem, ...]


def load(path: Path) -> Loaded:
    """Read a garden's file and the record that it names.

    Raises
    ------
    Unreadable
        If the garden's file cannot be opened.
    """
    return _with_record(read_file(path), path.parent)


def load_demo() -> Loaded:
    """Read the packaged demo garden."""
    return _with_record(read_file(_DEMO, DEMO_LABEL), _DEMO.parent)


def _with_record(reading: Reading, folder: Path) -> Loaded:
    """Read the record of a garden; its name is looked up from the folder of the garden's file."""
    garden = reading.garden
    if garden is None or garden.site.record is None:
        return Loaded(garden, None, reading.problems)
    from sowtide.climate.frost_record import RecordYears
    from sowtide.climate.record import read_record

    named = garden.site.record
    if not Path(realpath(folder / named.path)).is_relative_to(realpath(folder)):
        message = f"{named.path} is a link that leads out of the folder of this file"
        hint = "put the file itself beside this one"
        problem = Problem(Severity.ERROR, "record", message, hint, named.span)
        return Loaded(None, None, (*reading.problems, problem))
    try:
        found = read_record(
            folder / named.path,
            unit=named.unit,
            otherwise=garden.site.units.degree,
            label=named.path,
        )
    except Unreadable as error:
        hint = "write its name as seen from the folder of this file"
        if (folder / named.path).is_dir():
            hint = "write the name of the file in it too, as in folder/station.csv"
        problem = Problem(Severity.ERROR, "record", str(error), hint, named.span)
        return Loaded(None, None, (*reading.problems, problem))
    problems = (*reading.problems, *found.problems)
    if found.record is None:
        return Loaded(None, None, problems)
    year = garden.year
    years = RecordYears(found.record, south=year.south, wanted=named.years, before=year)
    untold = years.untold(named.span)
    if untold is not None:
        return Loaded(None, None, (*problems, untold))
    return Loaded(garden, years, problems)


def demo_text() -> str:
    """Return the packaged demo garden's file as it stands."""
    return _DEMO.read_text(encoding="utf-8")


def place_of(garden: Garden, today: date, record: RecordYears | None = None) -> Place:
    """Return a garden with its climate alone."""
    return Place(garden, climate_of(garden.site, garden.year, record, today))


def season_of(garden: Garden, today: date, record: RecordYears | None = None) -> Season:
    """Date and place everything a garden asks for; `today` moves no date."""
    climate = climate_of(garden.site, garden.year, record, today)
    return _planned(garden, Conditions(climate, garden.site, garden.year), today)


def repacked(season: Season) -> Season:
    """Return a season with everything not yet planted placed afresh, to fill the beds best.

    Its entries carry the beds that make it so; the waves planted before its day are as they were.
    """
    from sowtide.schedule.packing import repack  # rarely wanted

    garden, conditions = season.garden, season.conditions
    entries = repack(garden, conditions, season.waves, season.today)
    return _planned(replace(garden, entries=entries), conditions, season.today)


def _planned(garden: Garden, conditions: Conditions, today: date) -> Season:
    climate = conditions.climate
    series = tuple(Series(entry, conditions) for entry in garden.entries)
    room, placed = place_all(series, garden.beds, conditions)
    gaps: list[Gap] = []
    problems: list[Problem] = []
    waves: list[Wave] = []
    for each, of_series in zip(series, placed, strict=True):
        if not of_series:
            problems.append(no_wave(each.entry))
            continue
        if each.cut_short:
            problems.append(too_many(each.entry))
        for one in of_series:
            problems += problems_of(one, conditions)
        problems += bolting(of_series)
        problems += poor_germination(of_series, conditions)
        problems += may_run_to_seed(of_series, conditions)
        problems += long_days(of_series, conditions)
        problems += sets_little_fruit(of_series, conditions)
        problems += (gap_note(gap, of_series[0]) for gap in each.gaps)
        gaps += each.gaps
        following = (*of_series[1:], None)
        waves += map(_wave, of_series, following, repeat(today))
    problems += frost_dates_differ(garden.site, climate)
    problems += year_over(garden.year, today)
    lookouts = tuple(lookout_of(watch, climate) for watch in garden.watches)
    for lookout in lookouts:
        problems += never_due(lookout, garden.site.units)
    return Season(
        garden,
        conditions,
        room,
        today,
        tuple(waves),
        tuple(gaps),
        in_file_order(problems),
        lookouts,
    )


def _wave(placed: Placed, following: Placed | None, today: date) -> Wave:
    planting = placed.planting
    next_planting = None if following is None else following.planting.planted.day
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
        placed.blocked,
        placed.overlap,
    )
